/** A day, as `2026-11-24`; and a day with its time, as a moment of the shop's clock. */
import { dayFrom } from '../../shared/format'
import { format } from '../format'
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

/** What a `datetime-local` input holds as a moment of the shop's clock, and back. */
export function instantOf(value: string): number | undefined {
  const [day = '', time = ''] = value.split('T')
  return dayFrom(day) && time ? format.calendar.at(day, time) : undefined
}

export const localTimeOf = (at: number | undefined): string =>
  at === undefined ? '' : `${format.calendar.dayOf(at)}T${format.calendar.timeOf(at)}`
