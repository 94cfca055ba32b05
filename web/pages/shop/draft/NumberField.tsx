/** A number as it is typed: what is no number stays to be put right and is not taken over. */
import { createEffect, createSignal, on } from 'solid-js'
import { Field } from '../../../ui/Field'
import { numberFrom, textOf } from '../numbers'

type NumberFieldProps = {
  label: string
  value: number | undefined
  hint?: string
  whole?: boolean
} & (
  | { emptyIs?: never; onValue(value: number): void }
  /** What an empty field means; without it a number must stand there. */
  | { emptyIs: string; onValue(value: number | undefined): void }
)

export function NumberField(props: NumberFieldProps) {
  const [text, setText] = createSignal(textOf(props.value))
  const read = () => numberFrom(text())
  createEffect(
    on(
      () => props.value,
      (value) => {
        if (read() !== value) setText(textOf(value))
      },
    ),
  )
  const error = () => {
    const empty = text().trim() === ''
    if (empty) return props.emptyIs === undefined ? 'A number is missing.' : undefined
    const value = read()
    if (value === undefined) return 'This is not a number.'
    return props.whole && !Number.isInteger(value) ? 'Write a whole number.' : undefined
  }
  const hint = () => (text().trim() === '' ? props.emptyIs : props.hint)
  return (
    <Field
      label={props.label}
      inputMode="decimal"
      autocomplete="off"
      value={text()}
      hint={hint()}
      error={error()}
      onValue={(typed) => {
        setText(typed)
        if (error()) return
        const value = read()
        if (props.emptyIs !== undefined) props.onValue(value)
        else if (value !== undefined) props.onValue(value)
      }}
    />
  )
}
