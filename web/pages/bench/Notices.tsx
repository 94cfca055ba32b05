/** What must be seen before the hand goes on: odd readings, entries still waiting. None vanishes by itself. */
import { createMemo, For, Show } from 'solid-js'
import { flagWords } from '../../../shared/job/kinds'
import { numberWords } from '../../../shared/plan/order'
import { upperFirst } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { adviceFor, interruptionWords } from './cautions'
import { oddReadings } from './work'
import './head.css'

/** Readings of the round whose flags stand: what is odd, and what to do next. */
export function OddReadings(props: { brief: boolean }) {
  const bench = useBench()
  const scope = useJob()
  const odd = createMemo(() => {
    const round = bench.round()
    return round ? oddReadings(scope.planned(), round) : []
  })
  const round = () => bench.round()
  const called = (n: number) => {
    const one = round()?.joint
    return one ? numberWords(one, n) : `${n}`
  }
  return (
    <Show when={odd()[0]}>
      {(first) => (
        <section class="stop stack" role="alert" aria-label="Flags">
          <h2>
            {round()?.joint.title} {called(first().position)}, pass {first().pass}
          </h2>
          <For each={first().flags}>
            {(flag) => (
              <p>
                <strong>{upperFirst(flagWords(flag))}.</strong> {props.brief ? '' : adviceFor(flag, first())}
              </p>
            )}
          </For>
          <Show when={!props.brief && first().how === 'turned' && round()}>
            {(one) => <p>{interruptionWords(scope.planned(), one().joint, first().pass)}</p>}
          </Show>
          <div class="panel-buttons cluster">
            <Button onClick={() => bench.showHead(first().position)}>
              {props.brief ? 'What to do' : `Look at ${called(first().position)}`}
            </Button>
          </div>
          <Show when={odd().length > 1}>
            <p>
              Also odd:{' '}
              <For
                each={[
                  ...new Set(
                    odd()
                      .slice(1)
                      .map(({ position }) => position),
                  ),
                ]}
              >
                {(position) => (
                  <button type="button" class="also" onClick={() => bench.showHead(position)}>
                    {called(position)}
                  </button>
                )}
              </For>
            </p>
          </Show>
        </section>
      )}
    </Show>
  )
}

/** Without signal the work goes on: how much is kept here, and that nothing is lost. */
export function Waiting(props: { brief: boolean }) {
  const scope = useJob()
  const count = () => scope.pending().length
  return (
    <Show when={scope.link() === 'lost'}>
      <p class="sentence" role="status">
        No signal. Go on:{' '}
        {count() === 0 ? 'entries are' : count() === 1 ? '1 entry is' : `${count()} entries are`} kept on this
        tablet{props.brief ? '.' : ' and sent when the signal is back. Dotted heads are waiting to be sent.'}
      </p>
    </Show>
  )
}
