/** Numbers and days as they are typed into a card, and back. */
import { dayFrom } from '../../../shared/format'
import type { Instant } from '../../../shared/log'
import { format } from '../../format'

/** `undefined` for what is no plain number; a comma is as good as a point. */
export function numberFrom(text: string): number | undefined {
  const plain = text.trim().replace(',', '.')
  return /^\d+(?:\.\d+)?$/.test(plain) ? Number(plain) : undefined
}

export const textOf = (value: number | undefined): string =>
  value === undefined ? '' : format.digits(`${value}`)

/** As a date field has it: `2026-03-09`, on the shop's calendar. */
export const dayText = (at: Instant | undefined): string =>
  at === undefined ? '' : format.calendar.dayOf(at)

/**
 * The first or the last moment of a day: a wrench due on the 9th is good through the 9th. A day that was not
 * changed keeps the moment it had, so that the same card again changes nothing.
 */
export function momentOf(text: string, end: 'first' | 'last', before?: Instant): Instant | undefined {
  if (before !== undefined && dayText(before) === text) return before
  const day = dayFrom(text)
  if (day === undefined) return undefined
  const at = end === 'first' ? format.calendar.startOf(day) : format.calendar.endOf(day)
  return at >= 0 ? at : undefined
}
