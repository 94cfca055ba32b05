/**
 * What `early/early.ts` asked of the server while the code still came: each answer is taken once, by whoever would have
 * asked, and not long after.
 */
interface Asked {
  answer: Promise<Response>
  /** By this device's clock. */
  sentAt: number
}

declare global {
  /** By address. */
  var paintmarkEarly: Map<string, Asked> | undefined
}

/** Longer ago it is asked again. */
const FRESH_MS = 10_000
/** A server that has not answered by then may be silent: what this device has seen is shown meanwhile. */
const SILENT_MS = 1000

export function takeEarly(path: string): Asked | undefined {
  const asked = askedAt(path) === undefined ? undefined : globalThis.paintmarkEarly?.get(path)
  globalThis.paintmarkEarly?.delete(path)
  return asked
}

/** When it was asked, where it was and has not been taken. */
export function askedAt(path: string): number | undefined {
  const sentAt = globalThis.paintmarkEarly?.get(path)?.sentAt
  return sentAt !== undefined && Date.now() - sentAt < FRESH_MS ? sentAt : undefined
}

/** What came of it; nothing where it was not asked, did not come in time, or was no answer. */
export async function earlyState(path: string): Promise<unknown> {
  const asked = takeEarly(path)
  if (!asked) return undefined
  const silence = new Promise<undefined>((resolve) => setTimeout(resolve, SILENT_MS, undefined))
  const came = asked.answer.then((reply) => (reply.ok ? reply.json() : undefined)).catch(() => undefined)
  return Promise.race([came, silence])
}
