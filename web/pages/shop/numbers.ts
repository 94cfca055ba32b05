/** Numbers and days as they are typed into a card, and back. */
import type { Instant } from '../../../shared/log'

/** `undefined` for what is no plain number; a comma is as good as a point. */
export function numberFrom(text: string): number | undefined {
  const plain = text.trim().replace(',', '.')
  return /^\d+(?:\.\d+)?$/.test(plain) ? Number(plain) : undefined
}

export const textOf = (value: number | undefined): string => (value === undefined ? '' : `${value}`)

const two = (value: number): string => `${value}`.padStart(2, '0')

/** As a date field has it: `2026-03-09`, on the calendar of this place. */
export function dayText(at: Instant | undefined): string {
  if (at === undefined) return ''
  const day = new Date(at)
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`
}

/**
 * The first or the last moment of a day: a wrench due on the 9th is good through the 9th. A day that was not
 * changed keeps the moment it had, so that the same card again changes nothing.
 */
export function dayFrom(text: string, end: 'first' | 'last', kept?: Instant): Instant | undefined {
  if (kept !== undefined && dayText(kept) === text) return kept
  const [year, month, day] = text.split('-').map(Number)
  if (!year || !month || !day) return undefined
  const at =
    end === 'first' ? new Date(year, month - 1, day) : new Date(year, month - 1, day, 23, 59, 59, 999)
  // A day the calendar does not have rolls over into the next month.
  return at.getMonth() === month - 1 && at.getTime() >= 0 ? at.getTime() : undefined
}

const written = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
export const dayWords = (at: Instant): string => written.format(new Date(at))
