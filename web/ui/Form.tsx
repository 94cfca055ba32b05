/**
 * A form: its fields, the sentence that says why not, one button. While `onSubmit` is awaited it is busy and cannot be sent
 * again; an old refusal goes with the next thing entered; the first field in error has the focus.
 */
import { type JSX, Show, splitProps } from 'solid-js'
import { Button } from './Button'
import { Dialog } from './Dialog'
import { Sentence } from './Sentence'
import { createSubmission, type Refused } from './submission'
import './fields.css'

export interface FormProps
  extends Omit<JSX.FormHTMLAttributes<HTMLFormElement>, 'onSubmit' | 'onInput' | 'novalidate'> {
  /** Without it the form has its button, `type="submit"`, among its children. */
  submitLabel?: string
  /** What the button says while busy. */
  busyLabel?: string
  variant?: 'main' | 'rust'
  disabled?: boolean
  /** Why it would be refused, known before it is sent. */
  error?: string | undefined
  /** What is said while busy. */
  busyMessage?: string | undefined
  /** What is said after it was taken, where the form stays. */
  doneMessage?: string
  /** Sends it. A sentence is why not, `false` that the fields say why not, nothing that it was taken. */
  onSubmit(): Refused | Promise<Refused>
  onDone?(): void
}

const IN_ERROR = ':is(input, select, textarea)[aria-invalid="true"], fieldset[aria-invalid="true"] input'

export function Form(props: FormProps) {
  const [own, rest] = splitProps(props, [
    'submitLabel',
    'busyLabel',
    'variant',
    'disabled',
    'error',
    'busyMessage',
    'doneMessage',
    'onSubmit',
    'onDone',
    'children',
  ])
  const submission = createSubmission(() => own.onSubmit())
  const error = () => submission.error() ?? own.error
  const message = () =>
    error() ?? (submission.busy() ? own.busyMessage : submission.done() ? own.doneMessage : undefined)
  async function submit(event: SubmitEvent & { currentTarget: HTMLFormElement }): Promise<void> {
    event.preventDefault()
    const form = event.currentTarget
    if (await submission.submit()) own.onDone?.()
    // Drawn first.
    else requestAnimationFrame(() => form.querySelector<HTMLElement>(IN_ERROR)?.focus())
  }
  return (
    <form class="sheet-form" {...rest} onSubmit={submit} onInput={submission.reset} novalidate>
      {own.children}
      <Show when={message()}>
        {(sentence) => (
          <Sentence against={!submission.done() || error() !== undefined}>{sentence()}</Sentence>
        )}
      </Show>
      <Show when={own.submitLabel}>
        {(label) => (
          <Button type="submit" variant={own.variant ?? 'main'} disabled={own.disabled || submission.busy()}>
            {submission.busy() ? (own.busyLabel ?? label()) : label()}
          </Button>
        )}
      </Show>
    </form>
  )
}

interface FormDialogProps extends Omit<FormProps, 'title'> {
  title: string
  broad?: boolean
  /** Dismiss without sending; and after sending, unless there is an `onDone`. */
  onClose(): void
}

/** A dialog that is one form, and goes when it was taken. */
export function FormDialog(props: FormDialogProps) {
  const [own, form] = splitProps(props, ['title', 'broad', 'onClose'])
  return (
    <Dialog open title={own.title} broad={own.broad} onClose={own.onClose}>
      <Form {...form} onDone={() => (form.onDone ?? own.onClose)()} />
    </Dialog>
  )
}
