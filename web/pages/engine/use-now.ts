/** The time as something that moves: only as often as the page needs it, and never while it is not looked at. */
import { type Accessor, createSignal, onCleanup } from 'solid-js'
import { useJob } from '../../job/scope'

export function useNow(everyMs = 20_000): Accessor<number> {
  const scope = useJob()
  const [now, setNow] = createSignal(scope.now())
  const tick = () => document.visibilityState === 'visible' && setNow(scope.now())
  const timer = setInterval(tick, everyMs)
  document.addEventListener('visibilitychange', tick)
  onCleanup(() => {
    clearInterval(timer)
    document.removeEventListener('visibilitychange', tick)
  })
  return now
}
