/** The signatures of a step, set by set: who gave them, what is still open, and the press that gives the next. */
import { createMemo, Index, Show } from 'solid-js'
import { setViews } from '../../../shared/job/verdicts'
import { stepClass } from '../../../shared/plan/read'
import { useJob } from '../../job/scope'
import {
  GIVE_SECOND,
  GIVE_SECOND_NOW,
  isSealedHere,
  lookedWords,
  SECOND_STATES,
} from '../../job/step/second-words'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { Covered } from './Covered'
import './sign.css'

const THROUGH = {
  sign_in: '',
  grant: ', by PIN on this tablet',
  sealed: ', by PIN on this tablet without signal',
  own_recheck: ', second-signed by the same person',
} as const

export function SignPanel() {
  const bench = useBench()
  const scope = useJob()
  const views = createMemo(() => setViews(scope.planned(), bench.step()))
  return (
    <ul class="sets stack">
      <Index each={views()}>
        {(view) => {
          const set = () => view().set
          const sign = () => ({ type: 'SignStep' as const, stepId: bench.step().id, setId: set().id })
          const second = () => ({ type: 'SecondSignStep' as const, stepId: bench.step().id, setId: set().id })
          const stopped = createMemo(() => (view().state.first ? undefined : scope.may(sign())?.sentence))
          const mineToSecond = createMemo(
            () => view().state.first && !view().state.second && scope.may(second()) === undefined,
          )
          return (
            <li class="set stack" classList={{ met: view().proven }}>
              <h2>{set().remainder && views().length > 1 ? 'The step as a whole' : set().title}</h2>
              <Show when={view().state.first}>
                {(first) => (
                  <p>
                    <Stripe person={first().by} name="after" /> signed, {scope.words.moment(first().doneAt)}
                  </p>
                )}
              </Show>
              <Show when={view().state.second}>
                {(second) => (
                  <p>
                    <Stripe person={second().by} name="after" /> second, {scope.words.moment(second().doneAt)}
                    {THROUGH[second().through]}
                    <Show when={second().late}>
                      <span class="against-words"> Late: it was covered already.</span>
                    </Show>
                  </p>
                )}
              </Show>
              <Show when={!view().state.first}>
                <Button
                  variant="main"
                  wide
                  class="tall"
                  disabled={stopped() !== undefined}
                  aria-describedby={stopped() ? `stop-${set().id}` : undefined}
                  onClick={() => void scope.send(sign())}
                >
                  Sign{views().length > 1 && !set().remainder ? ` ${set().title}` : ' step'}: it is done, and
                  I did it
                </Button>
                <Show when={stopped()}>
                  <p class="sentence against" id={`stop-${set().id}`}>
                    {stopped()}
                  </p>
                </Show>
              </Show>
              <Show when={!view().state.second && view().state.look}>
                {(look) => (
                  <p>
                    <Stripe person={look().personId} name="after" /> has looked,{' '}
                    {scope.words.moment(look().doneAt)}: look noted,{' '}
                    {lookedWords(look(), isSealedHere(scope.pending(), bench.step().id, set().id))}.
                  </p>
                )}
              </Show>
              <Show
                when={
                  view().state.first &&
                  !view().state.second &&
                  bench.step().signatures === 2 &&
                  !isSealedHere(scope.pending(), bench.step().id, set().id)
                }
              >
                <Show
                  when={mineToSecond()}
                  fallback={
                    <Button
                      variant="main"
                      wide
                      class="tall"
                      onClick={() => bench.open({ dialog: 'second', setId: set().id })}
                    >
                      {GIVE_SECOND}
                    </Button>
                  }
                >
                  <p>{SECOND_STATES}</p>
                  <Button variant="main" wide class="tall" onClick={() => void scope.send(second())}>
                    {GIVE_SECOND_NOW}
                  </Button>
                </Show>
              </Show>
              <Show when={view().state.first?.by === scope.me() && !view().state.second}>
                <OwnRecheck setId={set().id} />
              </Show>
              <Show when={bench.step().signatures === 1 && view().state.first}>
                <p class="pencil">This step needs one signature.</p>
              </Show>
              <Covered view={view()} />
            </li>
          )
        }}
      </Index>
    </ul>
  )
}

/** The doer looking again: only where the shop allows it, and never class A. */
function OwnRecheck(props: { setId: string }) {
  const bench = useBench()
  const scope = useJob()
  const command = () => ({
    type: 'RecheckOwnWork' as const,
    stepId: bench.step().id,
    setId: props.setId,
  })
  const offered = () =>
    bench.step().signatures === 2 && scope.shop().selfRecheck.allowed && stepClass(bench.step()) !== 'A'
  const stopped = createMemo(() => (offered() ? scope.may(command())?.sentence : undefined))
  return (
    <Show when={offered()}>
      <Show when={!stopped()} fallback={<p class="pencil">{stopped()}</p>}>
        <Button wide onClick={() => void scope.send(command())}>
          {GIVE_SECOND} on my own work: I have looked again
        </Button>
        <p class="small pencil">The record says that it was the same person.</p>
      </Show>
    </Show>
  )
}
