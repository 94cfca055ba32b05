/** The running sealant clock, always in sight while a bead is open; its presses are facts, by when they happened. */
import { createMemo, createSignal, onCleanup, Show } from 'solid-js'
import { useJob } from '../../job/scope'
import { useLive } from '../../live/live'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { clockView } from './sealant-words'
import './sealant.css'

const SECOND = 1000

export function SealantClock() {
  const bench = useBench()
  const scope = useJob()
  const { clock } = useLive()
  const [now, setNow] = createSignal(clock.now())
  const ticking = setInterval(() => setNow(clock.now()), SECOND)
  onCleanup(() => clearInterval(ticking))
  const view = createMemo(() => {
    // Just pressed: the fact may be a moment younger than the last tick.
    scope.planned()
    return clockView(scope.planned(), bench.step(), Math.max(now(), clock.now() - SECOND), scope.words)
  })
  const press = (does: 'start' | 'close') => {
    const stepId = bench.step().id
    void scope.send(does === 'start' ? { type: 'StartSealant', stepId } : { type: 'CloseSealant', stepId })
    setNow(clock.now())
  }
  return (
    <Show when={view().state !== 'none'}>
      <section
        class="sealant-clock"
        classList={{ running: view().state === 'open', late: view().state === 'late' }}
        aria-label="Sealant clock"
      >
        <Show when={view().figure}>
          {(figure) => (
            <p class="sealant-figure" role="timer">
              {figure()}
            </p>
          )}
        </Show>
        <p class="sealant-line">{view().line}</p>
        <Show when={bench.mine() && view().press}>
          {(one) => (
            <Button variant={view().state === 'open' ? 'main' : undefined} onClick={() => press(one().does)}>
              {one().label}
            </Button>
          )}
        </Show>
      </section>
    </Show>
  )
}
