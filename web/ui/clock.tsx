/** The time as something that moves: only as often as a page needs it, and never while it is not looked at. */
import { type Accessor, createContext, createSignal, onCleanup, type ParentProps, useContext } from 'solid-js'

type ReadClock = () => number

const ClockContext = createContext<ReadClock>()

export const ClockProvider = (props: ParentProps<{ now: ReadClock }>) => (
  <ClockContext.Provider value={() => props.now()}>{props.children}</ClockContext.Provider>
)

export function useNow(everyMs: number): Accessor<number> {
  const clock = useContext(ClockContext)
  if (!clock) throw new Error('useNow is called outside ClockProvider')
  return createNow(clock, everyMs)
}

/** The same for a clock that is handed in. */
export function createNow(clock: ReadClock, everyMs: number): Accessor<number> {
  const [now, setNow] = createSignal(clock())
  const tick = () => document.visibilityState === 'visible' && setNow(clock())
  const timer = setInterval(tick, everyMs)
  document.addEventListener('visibilitychange', tick)
  onCleanup(() => {
    clearInterval(timer)
    document.removeEventListener('visibilitychange', tick)
  })
  return now
}
