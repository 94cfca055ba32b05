/** A dialog that gives a command, or several at once: what is entered, one button, and at once the sentence that says why not. */
import { type ParentProps, Show } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import { Dialog } from '../ui/Dialog'
import { Form } from '../ui/Form'
import { Sentence } from '../ui/Sentence'
import { useJob } from './scope'

interface CommandDialogProps extends ParentProps {
  title: string
  submitLabel: string
  disabled?: boolean
  /** As entered; a sentence where something is missing. */
  command(): JobCommand | readonly JobCommand[] | string
  /** Why it would be refused whatever is entered: said in place of the fields. */
  refused?: string | undefined
  onSent?(): void
  onClose(): void
}

export function CommandDialog(props: CommandDialogProps) {
  const scope = useJob()
  const submit = () => {
    const entered = props.command()
    if (typeof entered === 'string') return entered
    for (const command of [entered].flat()) {
      const sentence = scope.sendOrExplain(command)
      if (sentence) return sentence
    }
  }
  const done = () => {
    props.onSent?.()
    props.onClose()
  }
  return (
    <Dialog open title={props.title} onClose={props.onClose}>
      <Show
        when={props.refused}
        fallback={
          <Form submitLabel={props.submitLabel} disabled={props.disabled} onSubmit={submit} onDone={done}>
            {props.children}
          </Form>
        }
      >
        {(sentence) => <Sentence against>{sentence()}</Sentence>}
      </Show>
    </Dialog>
  )
}
