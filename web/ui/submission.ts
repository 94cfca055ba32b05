/**
 * Sending what was entered, once at a time: busy while an answer is awaited, then done or refused.
 *
 * A refusal is the sentence that says why not; `false` when the fields say it themselves. It stands until the next try or
 * until `reset`. What answers at once is never busy, so that a button keeps its focus.
 */
import { type Accessor, createSignal } from 'solid-js'

// biome-ignore lint/suspicious/noConfusingVoidType: a plain handler, which refuses nothing, may be given as it is
export type Refused = string | false | undefined | void

export interface Submission<Args extends unknown[]> {
  busy: Accessor<boolean>
  error: Accessor<string | undefined>
  done: Accessor<boolean>
  /** True once it is done. */
  submit(...args: Args): Promise<boolean>
  reset(): void
}

export function createSubmission<Args extends unknown[] = []>(
  send: (...args: Args) => Refused | Promise<Refused>,
): Submission<Args> {
  const [busy, setBusy] = createSignal(false)
  const [error, setError] = createSignal<string>()
  const [done, setDone] = createSignal(false)
  const reset = () => {
    setError()
    setDone(false)
  }
  const settle = (refused: Refused): boolean => {
    setError(refused || undefined)
    return setDone(refused === undefined)
  }
  async function submit(...args: Args): Promise<boolean> {
    if (busy()) return false
    reset()
    const answer = send(...args)
    if (!(answer instanceof Promise)) return settle(answer)
    setBusy(true)
    try {
      return settle(await answer)
    } finally {
      setBusy(false)
    }
  }
  return { busy, error, done, submit, reset }
}
