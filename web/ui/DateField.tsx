/** A day, as `2026-11-24`; and a day with its time where somebody knows it, as a moment of the shop's clock. */
import { createSignal, Show, splitProps } from 'solid-js'
import { instantOf } from '../../shared/format'
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

export const DateField = (props: DateFieldProps) => (
  <Field {...props} type="date" shown={props.value === '' ? 'no date' : format.date(props.value)} />
)

interface DateTimeFieldProps extends Omit<DateFieldProps, 'value' | 'min' | 'onValue'> {
  value: number | undefined
  /** A day is enough: no time is asked. */
  dayOnly?: boolean
  onValue(at: number | undefined): void
}

export function DateTimeField(props: DateTimeFieldProps) {
  const { calendar } = format
  const [field] = splitProps(props, ['label', 'hint', 'error', 'required'])
  const [day, setDay] = createSignal(props.value === undefined ? '' : calendar.dayOf(props.value))
  const [time, setTime] = createSignal(props.value === undefined ? '' : calendar.timeOf(props.value))
  const shownTime = () => {
    const at = instantOf(calendar, day(), time())
    return at === undefined || time() === '' ? time() || 'no time' : format.time(at)
  }
  const tell = () => props.onValue(instantOf(calendar, day(), time()))
  return (
    <>
      <DateField
        {...field}
        value={day()}
        onValue={(value) => {
          setDay(value)
          tell()
        }}
      />
      <Show when={!props.dayOnly}>
        <Field
          label="At what time, if known"
          type="time"
          value={time()}
          shown={shownTime()}
          onValue={(value) => {
            setTime(value)
            tell()
          }}
        />
      </Show>
    </>
  )
}
