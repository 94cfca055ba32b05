/** The running sealant clock, always in sight while a bead is open; its presses are facts, by when they happened. */
import { createMemo, Show } from 'solid-js'
import { useJob } from '../../job/scope'
import { clockView } from '../../job/step/sealant-words'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { useBench } from './bench'
import './sealant.css'

export function SealantClock() {
  const bench = useBench()
  const scope = useJob()
  const tick = useNow(1000)
  const view = createMemo(() => {
    tick()
    return clockView(scope.planned(), bench.step(), scope.now(), scope.words)
  })
  const press = (does: 'start' | 'close') => {
    const stepId = bench.step().id
    void scope.send(does === 'start' ? { type: 'StartSealant', stepId } : { type: 'CloseSealant', stepId })
  }
  return (
    <Show when={view().state !== 'none'}>
      <section
        class="sealant-clock cluster"
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
          {(next) => (
            <Button variant={view().state === 'open' ? 'main' : undefined} onClick={() => press(next().does)}>
              {next().label}
            </Button>
          )}
        </Show>
      </section>
    </Show>
  )
}
