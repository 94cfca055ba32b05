/** Whether the page is on its way to paper: what a screen holds back or draws later must then be there. */
import { type Accessor, createSignal, onCleanup } from 'solid-js'

export function createPrinting(): Accessor<boolean> {
  const [printing, setPrinting] = createSignal(false)
  const begins = () => setPrinting(true)
  const ends = () => setPrinting(false)
  addEventListener('beforeprint', begins)
  addEventListener('afterprint', ends)
  onCleanup(() => {
    removeEventListener('beforeprint', begins)
    removeEventListener('afterprint', ends)
  })
  return printing
}
