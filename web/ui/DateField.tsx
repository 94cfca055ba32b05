/** A day, as `2026-11-24`; and a day with its time, as a moment of this place. */
import { Field } from './Field'

interface DateFieldProps {
  label: string
  hint?: string
  error?: string
  /** Empty: no day. */
  value: string
  /** The first day that may be chosen. */
  min?: string
  required?: boolean
  onValue(value: string): void
}

export const DateField = (props: DateFieldProps) => <Field {...props} type="date" />

interface DateTimeFieldProps extends Omit<DateFieldProps, 'value' | 'min' | 'onValue'> {
  value: number | undefined
  onValue(at: number | undefined): void
}

export const DateTimeField = (props: DateTimeFieldProps) => (
  <Field
    {...props}
    type="datetime-local"
    value={localTimeOf(props.value)}
    onValue={(value) => props.onValue(instantOf(value))}
  />
)

/** What a `datetime-local` input holds as a moment of this place, and back. */
export function instantOf(value: string): number | undefined {
  const at = value ? new Date(value).getTime() : Number.NaN
  return Number.isFinite(at) ? at : undefined
}

export function localTimeOf(at: number | undefined): string {
  if (at === undefined) return ''
  const date = new Date(at)
  const two = (n: number) => String(n).padStart(2, '0')
  const year = String(date.getFullYear()).padStart(4, '0')
  return `${year}-${two(date.getMonth() + 1)}-${two(date.getDate())}T${two(date.getHours())}:${two(date.getMinutes())}`
}
