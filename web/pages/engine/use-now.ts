/** The time as something that moves: only as often as the page needs it, and never while it is not looked at. */
import { type Accessor, createSignal, onCleanup } from 'solid-js'
import { useDesk } from './desk'

export function useNow(everyMs = 20_000): Accessor<number> {
  const desk = useDesk()
  const [now, setNow] = createSignal(desk.now())
  const tick = () => document.visibilityState === 'visible' && setNow(desk.now())
  const timer = setInterval(tick, everyMs)
  document.addEventListener('visibilitychange', tick)
  onCleanup(() => {
    clearInterval(timer)
    document.removeEventListener('visibilitychange', tick)
  })
  return now
}
