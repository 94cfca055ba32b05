/** Asks the browser to clear what it keeps of the shop only when somebody says so, not when the device runs out of room. */
import { type Accessor, createSignal } from 'solid-js'
import type { Outbox } from './outbox'

/** With the first entry: some browsers put the question to the person, who then knows what for. */
export function askToStay(outbox: Pick<Outbox, 'onChange'>): Accessor<boolean> {
  const [stays, setStays] = createSignal(false)
  const stop = outbox.onChange(() => {
    stop()
    void navigator.storage?.persist?.().then(setStays, () => undefined)
  })
  return stays
}
