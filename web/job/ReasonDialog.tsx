/** A word that asks a reason: what it is about, whether it is own work, the reason, and the rule's no if there is one. */
import { createSignal, For, Show } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import { TEXT_LENGTHS } from '../../shared/job/text-lengths'
import { Field } from '../ui/Field'
import { CommandDialog } from './CommandDialog'
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
  /** The commands that this reason makes. */
  commands(reason: string): JobCommand[]
  onClose(): void
}

export function ReasonDialog(props: ReasonProps) {
  const scope = useJob()
  const [reason, setReason] = createSignal('')
  const previews = () => props.commands(reason().trim() || '–').map((command) => scope.preview(command))
  return (
    <CommandDialog
      title={props.title}
      submitLabel={props.submitLabel}
      disabled={reason().trim() === ''}
      refused={previews().find(({ refusal }) => refusal)?.refusal?.sentence}
      command={() => props.commands(reason().trim())}
      onClose={props.onClose}
    >
      <For each={props.about}>
        {(line) => (
          <p>
            <b>{line}</b>
          </p>
        )}
      </For>
      <Show when={previews().some(ownWork)}>
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
    </CommandDialog>
  )
}
