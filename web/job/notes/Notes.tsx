/** Notes, newest first, whoever wrote one beside it. Full: of the engine and all its steps; compact: of one step. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import type { Note } from '../../../shared/job/types'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Select } from '../../ui/Select'
import { CommandDialog } from '../CommandDialog'
import { useJobDialogs } from '../dialogs'
import { useJob } from '../scope'
import { addNote, notesOf } from './notes'

const FIRST = 5

export function Notes() {
  const { job } = useJob()
  const open = useJobDialogs()
  const [all, setAll] = createSignal(false)
  const notes = createMemo(() => notesOf(job()))
  return (
    <section aria-labelledby="notes-head">
      <header>
        <h2 id="notes-head">Notes</h2>
        <Button onClick={() => open({ dialog: 'add_note' })}>Add note</Button>
      </header>
      <ul class="office-list">
        <For
          each={all() ? notes() : notes().slice(0, FIRST)}
          fallback={<li class="pencil">No note yet. What the next person must know stands here.</li>}
        >
          {(note) => (
            <li>
              <NoteWords note={note} />
            </li>
          )}
        </For>
      </ul>
      <Show when={!all() && notes().length > FIRST}>
        <Button variant="quiet" onClick={() => setAll(true)}>
          Show all {notes().length} notes
        </Button>
      </Show>
    </section>
  )
}

export function StepNotes(props: { stepId: string }) {
  const { job } = useJob()
  const notes = createMemo(() => notesOf(job(), props.stepId))
  return (
    <For each={notes()}>
      {(note) => (
        <div class="note">
          <NoteWords note={note} compact />
        </div>
      )}
    </For>
  )
}

function NoteWords(props: { note: Note; compact?: boolean }) {
  const { words } = useJob()
  return (
    <>
      <p class="note-text">{props.note.text}</p>
      <p class="pencil small">
        <Stripe person={props.note.by} /> {words.moment(props.note.doneAt)}
        {props.note.stepId && !props.compact ? `, on ${props.note.stepId}` : ''}
      </p>
    </>
  )
}

/** Compact: on the step in work. */
export function AddNote(props: { stepId?: string; onClose(): void }) {
  const { planned } = useJob()
  const [text, setText] = createSignal('')
  const [stepId, setStepId] = createSignal(props.stepId ?? '')
  return (
    <CommandDialog
      title={props.stepId ? `Add note on ${props.stepId}` : 'Add note'}
      submitLabel="Add note"
      command={() => addNote(text(), stepId())}
      onClose={props.onClose}
    >
      <div class="whole">
        <Field
          label="What the next person must know"
          long
          value={text()}
          onValue={setText}
          maxLength={TEXT_LENGTHS.note}
        />
      </div>
      <Show when={!props.stepId}>
        <Select
          label="On"
          empty="the engine"
          options={planned().plan.steps.map(({ id, title }) => ({ value: id, title: `${id} ${title}` }))}
          value={stepId()}
          onValue={setStepId}
        />
      </Show>
    </CommandDialog>
  )
}
