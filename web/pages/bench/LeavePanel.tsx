/** Leaving a step: with a note, or into somebody's hands. What it leaves behind is shown before it is pressed. */
import { createSignal, For, Show } from 'solid-js'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import { stepClass } from '../../../shared/plan/read'
import { mayDo } from '../../../shared/shop/entitlement'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { Presets } from '../../ui/Presets'
import { useBench } from './bench'
import { HandoverWords } from './HandoverWords'
import './beside.css'
import './sign.css'

const PRESETS = ['Called away', 'End of the day', 'Waits for a part', 'Needs a second pair of hands'] as const

export function LeavePanel(props: { onClose(): void }) {
  const bench = useBench()
  const scope = useJob()
  const [note, setNote] = createSignal('')
  const [giving, setGiving] = createSignal(false)
  /** The command, with the note where there is one; and that was all. */
  const send = (command: { type: 'PutDownStep' } | { type: 'HandOverStep'; to: string }) => {
    const text = note().trim()
    void scope.send({ ...command, stepId: bench.step().id, ...(text ? { note: text } : {}) })
    props.onClose()
  }
  const add = (text: string) => setNote((now) => (now.trim() === '' ? text : `${now.trim()}. ${text}`))
  const people = () =>
    Object.values(scope.shop().people)
      .filter(
        (person) =>
          person.id !== scope.me() && mayDo(person, stepClass(bench.step()), scope.planned().plan.family),
      )
      .sort((a, b) => a.name.localeCompare(b.name))
  return (
    <Dialog open title="Leave this step" broad onClose={props.onClose}>
      <div class="leave">
        <HandoverWords />
        <Presets options={PRESETS} onValue={add} />
        <Field
          label="Note for whoever goes on"
          long
          value={note()}
          maxLength={TEXT_LENGTHS.story}
          onValue={setNote}
        />
        <Show
          when={giving()}
          fallback={
            <div class="panel-buttons cluster">
              <Button variant="main" class="tall" onClick={() => send({ type: 'PutDownStep' })}>
                {note().trim() === '' ? 'Leave step' : 'Leave step, with the note'}
              </Button>
              <Button class="tall" onClick={() => setGiving(true)}>
                Hand over to…
              </Button>
            </div>
          }
        >
          <h3>Who takes it?</h3>
          <ul class="people stack">
            <For each={people()}>
              {(person) => (
                <li>
                  <button
                    type="button"
                    class="person"
                    onClick={() => send({ type: 'HandOverStep', to: person.id })}
                  >
                    <Stripe person={person.id} name="after" />
                  </button>
                </li>
              )}
            </For>
          </ul>
          <Show when={people().length === 0}>
            <p>Nobody else may do this step. Leave it; the supervisor enters who may.</p>
          </Show>
          <Button variant="quiet" onClick={() => setGiving(false)}>
            Cancel
          </Button>
        </Show>
      </div>
    </Dialog>
  )
}
