/** Notes on the engine or on a step, newest first; whoever writes one stands beside it. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'
import { notesOf } from './office-view'

const FIRST = 5

export function Notes() {
  const scope = useJob()
  const [writing, setWriting] = createSignal(false)
  const [text, setText] = createSignal('')
  const [stepId, setStepId] = createSignal('')
  const [why, setWhy] = createSignal<string>()
  const [all, setAll] = createSignal(false)
  const notes = createMemo(() => notesOf(scope.job()))
  const add = (event: SubmitEvent) => {
    event.preventDefault()
    if (!text().trim()) return setWhy('Write the note first.')
    const on = stepId() ? { stepId: stepId() } : {}
    const said = scope.sendOrExplain({ type: 'AddNote', text: text().trim(), ...on })
    setWhy(said)
    if (said) return
    setText('')
    setWriting(false)
  }
  return (
    <section aria-labelledby="notes-head">
      <header>
        <h2 id="notes-head">Notes</h2>
        <Button aria-expanded={writing()} onClick={() => setWriting(!writing())}>
          {writing() ? 'Not now' : 'Add a note'}
        </Button>
      </header>
      <Show when={writing()}>
        <form class="note-form" onSubmit={add} novalidate>
          <Field label="A note" long value={text()} onValue={setText} maxLength={2000} />
          <div class="field">
            <label for="note-step">On</label>
            <select id="note-step" onChange={(event) => setStepId(event.currentTarget.value)}>
              <option value="" selected={stepId() === ''}>
                the engine
              </option>
              <For each={scope.planned().plan.steps}>
                {(step) => (
                  <option value={step.id}>
                    {step.id} {step.title}
                  </option>
                )}
              </For>
            </select>
          </div>
          <Button type="submit" variant="main">
            Add the note
          </Button>
          <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        </form>
      </Show>
      <ul class="office-list">
        <For
          each={all() ? notes() : notes().slice(0, FIRST)}
          fallback={<li class="pencil">No note yet. What the next person must know stands here.</li>}
        >
          {(note) => (
            <li>
              <p class="note-text">{note.text}</p>
              <p class="pencil small">
                <Stripe person={note.by} /> {scope.words.moment(note.doneAt)}
                {note.stepId ? `, on ${note.stepId}` : ''}
              </p>
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
