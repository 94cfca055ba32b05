/**
 * The demo shop's calendar: D0 is a Tuesday, and days are told as the scenario tells them (D0 08:20, D−6 14:05).
 * They count working days, Monday to Friday. The same D0 gives the same log.
 */
import type { Instant } from '../shared/log'

/** The Tuesday of tests and pictures, so that they come out alike. */
export const D0 = '2026-09-15'

const TUESDAY = 2

/**
 * The Tuesday a demonstration opens on: the last one before now. Not one for ever, because a device's clock may
 * be corrected by a year at most.
 */
export function lastTuesday(now: Instant): string {
  const date = new Date(now)
  date.setDate(date.getDate() - ((date.getDay() - TUESDAY + 7) % 7))
  return dateOf(date)
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
  const [year = 0, month = 1, first = 1] = d0.split('-').map(Number)
  const dayOf = (day: number): Date => {
    const date = new Date(year, month - 1, first)
    for (let left = Math.abs(day); left > 0; ) {
      date.setDate(date.getDate() + Math.sign(day))
      if (!isWeekend(date)) left--
    }
    return date
  }
  return {
    at(day, time) {
      const date = dayOf(day)
      const [hour = 0, minute = 0, second = 0] = time.split(':').map(Number)
      date.setHours(hour, minute, second, 0)
      return date.getTime()
    },
    date: (day) => dateOf(dayOf(day)),
    say(day) {
      const date = dayOf(day)
      return `${DAYS[date.getDay()]} ${date.getDate()} ${MONTHS[date.getMonth()]}`
    },
  }
}

// Written out: a sentence in the log must not change with the machine's language.
const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

function dateOf(date: Date): string {
  const two = (n: number) => String(n).padStart(2, '0')
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
}

const isWeekend = (date: Date) => date.getDay() === 0 || date.getDay() === 6
