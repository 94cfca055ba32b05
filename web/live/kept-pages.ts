/**
 * Has the browser keep the pages themselves, so that they open where the server does not answer. It does so only where it
 * trusts the shop's certificate, or on the server's own machine: until it has, nobody is to be told that they would.
 */
import { type Accessor, createSignal } from 'solid-js'

/** The first page comes before what is kept for later. */
const LATER_MS = 3000

export function keepPages(): Accessor<boolean> {
  const [kept, setKept] = createSignal(false)
  const { serviceWorker } = globalThis.navigator ?? {}
  if (import.meta.env.PROD && serviceWorker) {
    setTimeout(() => void serviceWorker.register('/worker.js').catch(() => undefined), LATER_MS)
    void serviceWorker.ready.then(() => setKept(true))
  }
  return kept
}
