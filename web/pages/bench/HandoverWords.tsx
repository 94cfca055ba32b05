/** The handover note, drawn from the record: what is done, where it stands, what must not be done, what was said. */
import { createMemo, For, Show } from 'solid-js'
import { handoverNote } from '../../../shared/job/stops'
import { Stripe } from '../../ui/Stripe'
import { useBench } from './bench'
import './beside.css'

export function HandoverWords() {
  const bench = useBench()
  const note = createMemo(() => handoverNote(bench.job(), bench.step(), bench.words))
  return (
    <div class="handover">
      <Lines title="Done" lines={note().done} empty="Nothing of this step is final yet." />
      <Lines title="Where it stands" lines={note().stands} />
      <Lines title="Must not be done" lines={note().mustNot} against />
      <Show when={note().said}>{(said) => <p class="said">“{said()}”</p>}</Show>
    </div>
  )
}

/** What was said by hand, alone: first to be read by whoever goes on. `narrow`: only where the note is out of sight. */
export function LeftNote(props: { narrow?: boolean }) {
  const bench = useBench()
  return (
    <Show when={bench.stopped()?.note}>
      {(note) => (
        <p class="said" classList={{ 'narrow-note': props.narrow === true }}>
          “{note()}” <Stripe person={bench.stopped()?.by ?? ''} />
        </p>
      )}
    </Show>
  )
}

/** For whoever opens a step that was left: who left it, and the note. */
export function LeftWords() {
  const bench = useBench()
  return (
    <Show when={bench.stopped()}>
      {(left) => (
        <section class="left-here" aria-label="Where it was left">
          <h2>
            Left here by <Stripe person={left().by} name="after" />, {bench.words.moment(left().doneAt)}
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
        <ul>
          <For each={props.lines} fallback={<li class="pencil">{props.empty}</li>}>
            {(line) => <li classList={{ 'against-words': props.against === true }}>{line}</li>}
          </For>
        </ul>
      </div>
    </Show>
  )
}
