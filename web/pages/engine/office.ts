/** The forms of the engine page: which is open, and saying a command or hearing at once why not. */
import { createContext, useContext } from 'solid-js'
import { dayFrom } from '../../../shared/format'
import { type RefusalCode, sentenceFor } from '../../../shared/job/refusals'
import type { JobCommand } from '../../../shared/job/types'
import type { Refusal } from '../../../shared/log'
import { format } from '../../format'
import type { Desk } from './desk'

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

/** Sends it when the rules allow it; else the sentence that says why not. */
export function sayOrHear(desk: Desk, command: JobCommand): string | undefined {
  const refusal = desk.may(command)
  if (refusal) return sentenceFor(refusal as Refusal<RefusalCode>, desk.words)
  desk.send(command)
  return undefined
}

/** A `datetime-local` value as a moment of the shop's clock, and back. */
export function momentOf(value: string): number | undefined {
  const [day = '', time = ''] = value.split('T')
  return dayFrom(day) && time ? format.calendar.at(day, time) : undefined
}

export const localOf = (at: number | undefined): string =>
  at === undefined ? '' : `${format.calendar.dayOf(at)}T${format.calendar.timeOf(at)}`
