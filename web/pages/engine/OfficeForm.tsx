/** One of the office's forms: what is entered, one button, and at once the sentence that says why not. */
import { createSignal, type JSX, Show } from 'solid-js'
import type { JobCommand } from '../../../shared/job/types'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Sentence } from '../../ui/Sentence'
import { useDesk } from './desk'
import { sayOrHear } from './office'

interface OfficeFormProps {
  title: string
  /** What its button says. */
  submitLabel: string
  /** The command as entered; a sentence where something is missing. */
  command(): JobCommand | string
  onClose(): void
  children: JSX.Element
}

export function OfficeForm(props: OfficeFormProps) {
  const desk = useDesk()
  const [why, setWhy] = createSignal<string>()
  const send = (event: SubmitEvent) => {
    event.preventDefault()
    const command = props.command()
    const fault = typeof command === 'string' ? command : sayOrHear(desk, command)
    setWhy(fault)
    if (!fault) props.onClose()
  }
  return (
    <Dialog open title={props.title} onClose={props.onClose}>
      <form class="sheet-form" onSubmit={send} novalidate>
        {props.children}
        <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        <Button type="submit" variant="main">
          {props.submitLabel}
        </Button>
      </form>
    </Dialog>
  )
}
