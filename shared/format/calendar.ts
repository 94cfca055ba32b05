/**
 * The calendar on a shop's wall: which day a moment falls on, when a day begins and ends, how many lie between.
 *
 * A day is not 24 hours: where clocks are put forward or back it has 23 or 25. So days are counted as days, and a
 * moment is reckoned from what the wall clock shows, never by adding milliseconds.
 */
import type { Instant } from '../log'
import type { Day, Weekday } from './types'

export interface Calendar {
  dayOf(at: Instant): Day
  /** What the wall clock shows, `HH:MM`. */
  timeOf(at: Instant): string
  /** When the wall clock shows this time: of one it shows twice the first, one it skips as much later as it skips. */
  at(day: Day, time: string): Instant
  startOf(day: Day): Instant
  /** Its last millisecond: what is due on the 9th is good through the 9th. */
  endOf(day: Day): Instant
}

const DAY_MS = 86_400_000

export function makeCalendar(timeZone: string): Calendar {
  const clock = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
  })

  /** What the wall clock shows, as the moment at which a clock of UTC shows the same; to the second. */
  function wall(at: Instant): number {
    const parts = Object.fromEntries(clock.formatToParts(at).map(({ type, value }) => [type, value]))
    const { year, month, day, hour, minute, second } = parts
    return Date.parse(`${year?.padStart(4, '0')}-${month}-${day}T${hour}:${minute}:${second}Z`)
  }
  const offset = (at: Instant): number => wall(at) - Math.floor(at / 1000) * 1000

  function moment(shown: number): Instant {
    const before = shown - offset(shown - DAY_MS)
    const after = shown - offset(shown + DAY_MS)
    return wall(before) === shown || wall(after) !== shown ? before : after
  }

  const startOf = (day: Day): Instant => moment(Date.parse(`${day}T00:00Z`))
  return {
    dayOf: (at) => new Date(wall(at)).toISOString().slice(0, 10),
    timeOf: (at) => new Date(wall(at)).toISOString().slice(11, 16),
    at: (day, time) => moment(Date.parse(`${day}T${time}Z`)),
    startOf,
    endOf: (day) => startOf(addDays(day, 1)) - 1,
  }
}

const noonUtc = (day: Day): number => Date.parse(`${day}T12:00Z`)

/** `undefined` for what the calendar does not have, such as 31 April. */
export function dayFrom(text: string): Day | undefined {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(text) ? noonUtc(text) : Number.NaN
  return Number.isFinite(at) && new Date(at).toISOString().startsWith(text) ? text : undefined
}

/** What was entered as a day and a time; a day alone means its noon, for no hour was said. */
export const instantOf = (calendar: Calendar, day: string, time: string): Instant | undefined =>
  dayFrom(day) === undefined ? undefined : calendar.at(day, time || '12:00')

export const addDays = (day: Day, days: number): Day =>
  new Date(noonUtc(day) + days * DAY_MS).toISOString().slice(0, 10)

/** From one day to another; negative when `to` lies before. */
export const daysBetween = (from: Day, to: Day): number => Math.round((noonUtc(to) - noonUtc(from)) / DAY_MS)

export const weekdayOf = (day: Day): Weekday => new Date(noonUtc(day)).getUTCDay() as Weekday

/** Monday to Friday; a shop's own holidays are not known here. */
export const isWorkingDay = (day: Day): boolean => weekdayOf(day) % 6 !== 0

/** Working days after `from`, up to and with `to`; negative when `to` lies before. */
export function workingDays(from: Day, to: Day): number {
  if (to < from) return -workingDays(to, from) || 0
  let count = 0
  for (let day = from; day < to; ) {
    day = addDays(day, 1)
    if (isWorkingDay(day)) count += 1
  }
  return count
}
