/**
 * The demo shop's calendar: D0 is a Tuesday, and days are told as the scenario tells them (D0 08:20, D−6 14:05).
 * They count working days, Monday to Friday. The same D0 gives the same log.
 */
import { addDays, isWorkingDay, makeCalendar, weekdayOf } from '../shared/format'
import type { Instant } from '../shared/log'

const calendar = makeCalendar(Intl.DateTimeFormat().resolvedOptions().timeZone)

/** The Tuesday of tests and pictures, so that they come out alike. */
export const D0 = '2026-09-15'

const TUESDAY = 2

/**
 * The Tuesday a demonstration opens on: the last one before now. Not one for ever, because a device's clock may
 * be corrected by a year at most.
 */
export function lastTuesday(now: Instant): string {
  const today = calendar.dayOf(now)
  return addDays(today, -((weekdayOf(today) - TUESDAY + 7) % 7))
}

/** The hour the tables show; the day since 07:30 has been played by then. */
export const OPENS_AT = '09:45'

export interface ShopClock {
  /** `at(-6, '14:05')`: six working days before D0. */
  at(day: number, time: string): Instant
  /** `YYYY-MM-DD`, as a promise names a day. */
  date(day: number): string
  /** `Wed 16 Sep`, for sentences that people write. */
  say(day: number): string
}

export function shopClock(d0 = D0): ShopClock {
  const date = (count: number): string => {
    let day = d0
    for (let left = Math.abs(count); left > 0; ) {
      day = addDays(day, Math.sign(count))
      if (isWorkingDay(day)) left--
    }
    return day
  }
  return {
    at: (day, time) => calendar.at(date(day), time),
    date,
    say(day) {
      const [, month, inMonth] = date(day).split('-').map(Number)
      return `${DAYS[weekdayOf(date(day))]} ${inMonth} ${MONTHS[(month ?? 1) - 1]}`
    },
  }
}

// Written out: a sentence in the log must not change with the machine's language.
const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']
