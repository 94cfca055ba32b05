/**
 * What a step's row tells beside its standing: why it is held, what is due here, how its sealant stands, where it was
 * left with what must not be done, and why I in particular cannot take it.
 */
import { createMemo, For, Show } from 'solid-js'
import { handoverNote } from '../../../shared/job/stops'
import { stepState } from '../../../shared/job/verdicts'
import { dueHere, dueTitle, leftOutOf } from '../../job/deferrals/deferrals'
import { useJobDialogs } from '../../job/dialogs'
import { holdWords, isLate, openHolds } from '../../job/holds/holds'
import { notesOf } from '../../job/notes/notes'
import { useJob } from '../../job/scope'
import { clockView } from '../../job/step/sealant-words'
import type { StepView } from '../../job/step/step-view'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { createSame } from '../../ui/same'
import { CoverOff } from './CoverOff'

export function StepStatus(props: { view: StepView }) {
  const scope = useJob()
  const step = () => props.view.step
  const now = useNow(20_000)
  const held = createSame(() => (props.view.standing === 'on_hold' ? openHolds(scope.job(), step().id) : []))
  const due = createSame(() => dueHere(scope.planned(), step().id))
  const away = createSame(() => leftOutOf(scope.planned(), step().id).filter(({ state }) => state === 'open'))
  const sealant = createMemo(() => clockView(scope.planned(), step(), now(), scope.words).brief)
  const note = createSame(() => notesOf(scope.job(), step().id))
  return (
    <>
      <For each={held()}>
        {(hold) => (
          <p class="strong" classList={{ against: isLate(hold, now()) }}>
            On hold for {holdWords(hold, now(), scope.words)}
          </p>
        )}
      </For>
      <For each={away()}>
        {(view) => (
          <p>
            Left out: {view.what}, due at {dueTitle(view)}. <span class="pencil">{view.deferral.reason}</span>
          </p>
        )}
      </For>
      <For each={due()}>
        {(view) => (
          <p class="strong">
            Due here: <b>{view.what}</b> <span class="pencil">({view.deferral.reason})</span>
          </p>
        )}
      </For>
      <Show when={sealant()}>{(words) => <p class="strong">{words()}</p>}</Show>
      <Show when={note().length > 0}>
        <p class="small note-text">
          <span class="pencil">{scope.words.person(note()[0]?.by ?? '')}: </span>
          {note()[0]?.text}
          <Show when={note().length > 1}>
            <span class="pencil">
              {' '}
              and {note().length - 1} more {note().length === 2 ? 'note' : 'notes'}
            </span>
          </Show>
        </p>
      </Show>
      <Show when={stepState(scope.planned(), step().id).stopped}>
        <Handover view={props.view} />
      </Show>
    </>
  )
}

/** Drawn from the record, with what the last person added by hand. */
function Handover(props: { view: StepView }) {
  const scope = useJob()
  const stopped = () => stepState(scope.planned(), props.view.step.id).stopped
  const note = createSame(() => handoverNote(scope.planned(), props.view.step, scope.words))
  return (
    <section class="handover" aria-label={`Handover note of ${props.view.step.id}`}>
      <p class="small pencil">
        Left by {scope.words.person(stopped()?.by ?? '')}, {scope.words.moment(stopped()?.doneAt ?? 0)}
      </p>
      <dl>
        <Told term="Stands" lines={note().stands} />
        <Told term="Must not be done" lines={note().mustNot} against />
        <Told term="Done" lines={note().done} />
        <Show when={note().said}>{(words) => <Told term="Added by hand" lines={[words()]} />}</Show>
      </dl>
    </section>
  )
}

function Told(props: { term: string; lines: readonly string[]; against?: boolean }) {
  return (
    <Show when={props.lines.length > 0}>
      <div>
        <dt>{props.term}</dt>
        <For each={props.lines}>
          {(line) => <dd classList={{ against: props.against === true }}>{line}</dd>}
        </For>
      </div>
    </Show>
  )
}

/** Why I cannot take it though anybody entitled could, or what I am asked before I do. */
export function WhyNot(props: { stepId: string }) {
  const scope = useJob()
  const refusal = createMemo(() => scope.may({ type: 'ClaimStep', stepId: props.stepId }))
  return (
    <Show when={refusal()}>
      {(no) => (
        <>
          <p class="why-not small">{no().sentence}</p>
          <Show when={no().code === 'asks_before_hiding'}>
            <Button
              onClick={() => scope.send({ type: 'ClaimStep', stepId: props.stepId, hidesKnowingly: true })}
            >
              I know: claim step<span class="unseen"> {props.stepId}</span>
            </Button>
          </Show>
        </>
      )}
    </Show>
  )
}

/** Among a step's details: what the office can do about it, and the rule that keeps me from it. */
export function StepOffice(props: { view: StepView }) {
  const scope = useJob()
  const open = useJobDialogs()
  const id = () => props.view.step.id
  const signed = () => props.view.standing === 'done' || props.view.standing === 'awaiting_second'
  return (
    <div class="step-office stack">
      <CoverOff step={props.view.step} />
      <Show when={!signed()}>
        <Show when={props.view.standing === 'not_ready' || props.view.standing === 'on_hold'}>
          <WhyNot stepId={id()} />
        </Show>
        <div class="office-do cluster">
          <Button onClick={() => open({ dialog: 'raise_hold', stepIds: [id()] })}>
            Put on hold<span class="unseen"> {id()}</span>
          </Button>
          <Show when={scope.job().plan && props.view.standing !== 'deferred' && !props.view.begun}>
            <Button variant="quiet" onClick={() => open({ dialog: 'leave_out', stepId: id() })}>
              Leave out<span class="unseen"> {id()}</span>
            </Button>
          </Show>
        </div>
      </Show>
    </div>
  )
}
