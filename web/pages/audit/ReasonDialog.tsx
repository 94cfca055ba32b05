/** A word that asks a reason: what it is about, whether it is own work, the reason, and the rule's no if there is one. */
import { createSignal, For, Show } from 'solid-js'
import type { JobCommand } from '../../../shared/job/commands'
import { ownWork, useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'

interface ReasonProps {
  title: string
  /** What it is about, a line each. */
  about: readonly string[]
  label: string
  hint?: string
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
  const say = (event: SubmitEvent) => {
    event.preventDefault()
    if (reason().trim() === '' || refusal()) return
    for (const command of props.commands(reason().trim())) void scope.send(command)
    props.onClose()
  }
  return (
    <Dialog open title={props.title} onClose={props.onClose}>
      <form class="reason" onSubmit={say}>
        <ul class="reason-about">
          <For each={props.about}>{(line) => <li>{line}</li>}</For>
        </ul>
        <Show
          when={refusal()}
          fallback={
            <>
              <Show when={own()}>
                <p class="own-work">
                  You worked on this yourself: it is recorded that the word is the doer’s own.
                </p>
              </Show>
              <Field
                label={props.label}
                hint={props.hint}
                long
                required
                maxLength={1000}
                value={reason()}
                onValue={setReason}
              />
              <Button type="submit" variant={props.variant ?? 'main'} wide disabled={reason().trim() === ''}>
                {props.submitLabel}
              </Button>
            </>
          }
        >
          {(no) => <Sentence against>{no().sentence}</Sentence>}
        </Show>
      </form>
    </Dialog>
  )
}
