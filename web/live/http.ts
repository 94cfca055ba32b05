/** Asks the server over HTTP. An answer that is no answer (no signal, not ours) becomes a sentence too. */

import { takeEarly } from './asked-early'

export interface Failure {
  ok: false
  code: string
  sentence: string
}

const NO_SIGNAL: Failure = {
  ok: false,
  code: 'no_signal',
  sentence: 'No signal: the shop’s server does not answer. Move closer, or try again in a moment.',
}

export async function ask<T extends object>(path: string, body?: object): Promise<T | Failure> {
  try {
    const early = body ? undefined : takeEarly(path)
    const answer = await (early?.answer ??
      fetch(path, {
        method: body ? 'POST' : 'GET',
        credentials: 'same-origin',
        headers: body ? { 'content-type': 'application/json' } : {},
        ...(body ? { body: JSON.stringify(body) } : {}),
      }))
    const content = answer.status === 204 ? {} : await answer.json()
    if (answer.ok) return content as T
    const sentence =
      typeof content.sentence === 'string'
        ? content.sentence
        : `The server answered ${answer.status}. Try again.`
    return { ok: false, code: String(content.code ?? answer.status), sentence }
  } catch {
    return NO_SIGNAL
  }
}

export const isFailure = (answer: object): answer is Failure => 'ok' in answer && answer.ok === false
