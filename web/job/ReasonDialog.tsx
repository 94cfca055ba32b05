/** A word that asks a reason: what it is about, whether it is own work, the reason, and the rule's no if there is one. */
import { createSignal, For, Show } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import { TEXT_LENGTHS } from '../../shared/job/text-lengths'
import { Dialog } from '../ui/Dialog'
import { Field } from '../ui/Field'
import { Form } from '../ui/Form'
import { Sentence } from '../ui/Sentence'
import { ownWork, useJob } from './scope'

interface ReasonProps {
  title: string
  /** What it is about, a line each. */
  about: readonly string[]
  label: string
  hint?: string
  maxLength?: number
  /** What the button says. */
  submitLabel: string
  variant?: 'main' | 'rust'
  /** The commands that this reason makes. */
  commands(reason: string): JobCommand[]
  onClose(): void
}

export function ReasonDialog(props: ReasonProps) {
  const scope = useJob()
  const [reason, setReason] = createSignal('')
  const previews = () => props.commands(reason().trim() || '–').map((command) => scope.preview(command))
  const refusal = () => previews().find((preview) => preview.refusal)?.refusal
  const own = () => previews().some(ownWork)
  const send = () => {
    for (const command of props.commands(reason().trim())) void scope.send(command)
  }
  return (
    <Dialog open title={props.title} onClose={props.onClose}>
      <Show
        when={refusal()}
        fallback={
          <Form
            submitLabel={props.submitLabel}
            variant={props.variant}
            disabled={reason().trim() === ''}
            onSubmit={send}
            onDone={props.onClose}
          >
            <For each={props.about}>
              {(line) => (
                <p>
                  <b>{line}</b>
                </p>
              )}
            </For>
            <Show when={own()}>
              <p class="own-work">You worked on this yourself, and the record will say so.</p>
            </Show>
            <div class="whole">
              <Field
                label={props.label}
                hint={props.hint}
                long
                required
                maxLength={props.maxLength ?? TEXT_LENGTHS.reason}
                value={reason()}
                onValue={setReason}
              />
            </div>
          </Form>
        }
      >
        {(refusal) => <Sentence against>{refusal().sentence}</Sentence>}
      </Show>
    </Dialog>
  )
}
