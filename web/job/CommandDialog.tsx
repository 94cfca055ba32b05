/** A dialog that gives one command: what is entered, one button, and at once the sentence that says why not. */
import { createSignal, type ParentProps, Show } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import { Button } from '../ui/Button'
import { Dialog } from '../ui/Dialog'
import { Sentence } from '../ui/Sentence'
import { useJob } from './scope'

interface CommandDialogProps extends ParentProps {
  title: string
  submitLabel: string
  /** The command as entered; a sentence where something is missing. */
  command(): JobCommand | string
  onClose(): void
}

export function CommandDialog(props: CommandDialogProps) {
  const scope = useJob()
  const [fault, setFault] = createSignal<string>()
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    const command = props.command()
    setFault(typeof command === 'string' ? command : scope.sendOrExplain(command))
    if (!fault()) props.onClose()
  }
  return (
    <Dialog open title={props.title} onClose={props.onClose}>
      <form class="sheet-form" onSubmit={submit} novalidate>
        {props.children}
        <Show when={fault()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        <Button type="submit" variant="main">
          {props.submitLabel}
        </Button>
      </form>
    </Dialog>
  )
}
