/** Asks the server over HTTP. An answer that is no answer (no signal, not ours) becomes a sentence too. */

export interface Said {
  ok: false
  code: string
  sentence: string
}

const NO_SIGNAL: Said = {
  ok: false,
  code: 'no_signal',
  sentence: 'No signal: the shop’s server does not answer. Move closer, or try again in a moment.',
}

export async function ask<T extends object>(path: string, body?: object): Promise<T | Said> {
  try {
    const answer = await fetch(path, {
      method: body ? 'POST' : 'GET',
      credentials: 'same-origin',
      headers: body ? { 'content-type': 'application/json' } : {},
      ...(body ? { body: JSON.stringify(body) } : {}),
    })
    const said = answer.status === 204 ? {} : await answer.json()
    if (answer.ok) return said as T
    const sentence =
      typeof said.sentence === 'string' ? said.sentence : `The server answered ${answer.status}. Try again.`
    return { ok: false, code: String(said.code ?? answer.status), sentence }
  } catch {
    return NO_SIGNAL
  }
}

export const isSaid = (answer: object): answer is Said => 'ok' in answer && answer.ok === false
