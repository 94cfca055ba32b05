/** The forms of the engine page: which is open. */
import { createContext, useContext } from 'solid-js'
import { dayFrom } from '../../../shared/format'
import { format } from '../../format'

export type Form =
  | { form: 'raise'; stepIds: string[] }
  | { form: 'change'; holdId: string }
  | { form: 'clear'; holdId: string }
  | { form: 'leave_out'; stepId?: string }
  | { form: 'withdraw'; deferralId: string }
  | { form: 'promise' }
  | { form: 'photo'; photoId: string }

export const OfficeContext = createContext<(form: Form) => void>(() => {})
/** Opens a form. */
export const useForms = () => useContext(OfficeContext)

/** A `datetime-local` value as a moment of the shop's clock, and back. */
export function momentOf(value: string): number | undefined {
  const [day = '', time = ''] = value.split('T')
  return dayFrom(day) && time ? format.calendar.at(day, time) : undefined
}

export const localOf = (at: number | undefined): string =>
  at === undefined ? '' : `${format.calendar.dayOf(at)}T${format.calendar.timeOf(at)}`
