/** The handover note, drawn from the record: what is done, where it stands, what must not be done, what was said. */
import { createMemo, For, Show } from 'solid-js'
import { handoverNote } from '../../../shared/job/stops'
import { stepState } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { useBench } from './bench'
import './beside.css'

/** Where the step was left, until somebody goes on with it; who was handed it sees it too. */
export function useStopped() {
  const bench = useBench()
  const scope = useJob()
  return () => stepState(scope.planned(), bench.step().id).stopped
}

export function HandoverWords() {
  const bench = useBench()
  const scope = useJob()
  const note = createMemo(() => handoverNote(scope.planned(), bench.step(), scope.words))
  return (
    <div class="handover">
      <Lines title="Done" lines={note().done} empty="Not final yet." />
      <Lines title="Where it stands" lines={note().stands} />
      <Lines title="Must not be done" lines={note().mustNot} against />
      <Show when={note().said}>{(said) => <p class="mark">“{said()}”</p>}</Show>
    </div>
  )
}

/** What was said by hand, alone: first to be read by whoever goes on. `narrow`: only where the note is out of sight. */
export function LeftNote(props: { narrow?: boolean }) {
  const stopped = useStopped()
  return (
    <Show when={stopped()?.note}>
      {(note) => (
        <p class="mark" classList={{ 'narrow-note': props.narrow === true }}>
          “{note()}” <Stripe person={stopped()?.by ?? ''} />
        </p>
      )}
    </Show>
  )
}

/** For whoever opens a step that was left: who left it, and the note. */
export function LeftWords() {
  const stopped = useStopped()
  const scope = useJob()
  return (
    <Show when={stopped()}>
      {(left) => (
        <section class="left-here" aria-label="Where it was left">
          <h2>
            Left here by <Stripe person={left().by} name="after" />, {scope.words.moment(left().doneAt)}
          </h2>
          <HandoverWords />
        </section>
      )}
    </Show>
  )
}

function Lines(props: { title: string; lines: readonly string[]; empty?: string; against?: boolean }) {
  return (
    <Show when={props.lines.length > 0 || props.empty}>
      <div>
        <h3>{props.title}</h3>
        <ul class="bulleted">
          <For each={props.lines} fallback={<li class="pencil">{props.empty}</li>}>
            {(line) => <li classList={{ 'against-words': props.against === true }}>{line}</li>}
          </For>
        </ul>
      </div>
    </Show>
  )
}
