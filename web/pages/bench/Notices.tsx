/** What must be seen before the hand goes on: odd readings, entries still waiting. None vanishes by itself. */
import { For, Show } from 'solid-js'
import { flagWords } from '../../../shared/job/kinds'
import { numberWords } from '../../../shared/plan/order'
import { counted, fastenersInWords, upperFirst } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { useLive } from '../../live/live'
import { unheldWords } from '../../live/unheld'
import { Button } from '../../ui/Button'
import { Sentence } from '../../ui/Sentence'
import { useBench } from './bench'
import { adviceFor, interruptionWords } from './cautions'
import { oddReadings } from './work'
import './head.css'

/** Readings of the round whose flags stand: what is odd, and what to do next. */
export function OddReadings() {
  const bench = useBench()
  const scope = useJob()
  const odd = bench.ofRound(oddReadings)
  const also = () =>
    new Set(
      odd()
        ?.slice(1)
        .map(({ position }) => position),
    )
  const name = (n: number) => {
    const joint = bench.joint()
    return joint ? numberWords(joint, n) : `${n}`
  }
  return (
    <Show when={odd()?.[0]}>
      {(first) => (
        <section class="stop flags stack" role="alert" aria-label="Flags">
          <h2>
            {bench.joint()?.title} {name(first().position)}, pass {first().pass}
          </h2>
          <For each={first().flags}>
            {(flag) => (
              <p>
                <strong>{upperFirst(flagWords(flag))}.</strong>{' '}
                {bench.narrow() ? '' : adviceFor(flag, first())}
              </p>
            )}
          </For>
          <Show when={!bench.narrow() && first().how === 'turned' && bench.joint()}>
            {(joint) => <p>{interruptionWords(scope.planned(), joint(), first().pass)}</p>}
          </Show>
          <div class="panel-buttons cluster">
            <Button onClick={() => bench.showHead(first().position)}>
              {bench.narrow() ? 'What to do' : `Look at ${name(first().position)}`}
            </Button>
          </div>
          <Show when={also().size > 0}>
            {/* Each has its mark on the map and can be touched there. */}
            <p>Also flagged: {fastenersInWords(bench.joint()?.fastener ?? '', [...also()])}.</p>
          </Show>
        </section>
      )}
    </Show>
  )
}

/** Without signal the work goes on: what waits here, and only of what this device keeps that it is kept. */
export function Waiting() {
  const bench = useBench()
  const scope = useJob()
  const { unkept } = useLive()
  const kept = () => scope.pending().filter(({ command }) => scope.isKept(command.commandId)).length
  return (
    <>
      <Show when={scope.link() === 'lost'}>
        <p class="sentence" role="status">
          No signal. Go on
          {kept() === 0 ? '' : `: ${counted(kept(), 'entry is', 'entries are')} kept on this device`}
          {bench.narrow()
            ? '.'
            : `${kept() === 0 ? ': what you enter is' : ' and'} sent when the signal is back.`}
          <Show when={!bench.narrow() && bench.waiting().size > 0}>
            {' '}
            Dotted heads are waiting to be sent.
          </Show>
          <Show when={scope.asOf()}>
            {(at) => <> What others did is shown as of {scope.words.moment(at())}.</>}
          </Show>
        </p>
      </Show>
      <Show when={unheldWords(unkept(), 'entry', 'entries')}>
        {(words) => <Sentence against>{words()}</Sentence>}
      </Show>
    </>
  )
}
