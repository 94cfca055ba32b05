/**
 * Has the browser keep the pages themselves, so that they open where the server does not answer. It does so only where it
 * trusts the shop's certificate, or on the server's own machine: until it has, nobody is to be told that they would.
 */
import { type Accessor, createSignal } from 'solid-js'

export function keepPages(): Accessor<boolean> {
  const [kept, setKept] = createSignal(false)
  const { serviceWorker } = globalThis.navigator ?? {}
  if (import.meta.env.PROD && serviceWorker) {
    serviceWorker.register('/worker.js').catch(() => undefined)
    void serviceWorker.ready.then(() => setKept(true))
  }
  return kept
}
