/**
 * The demo shop's calendar: D0 is the last working morning, told as the scenario tells it (D0 08:20, D−6
 * 14:05). Days count working days, Monday to Friday.
 */
import type { Instant } from '../shared/log'

const DAY_OPENS = { hour: 9, minute: 45 }

export interface ShopClock {
  /** `at(-6, '14:05')`: six working days before D0. */
  at(day: number, time: string): Instant
  /** Midnight so many plain days from D0: dates on a calibration card. */
  daysFrom(days: number): Instant
}

/** D0 is today once it is past 09:45 on a working day, else the working day before: nothing lies ahead of now. */
export function shopClock(now: Instant): ShopClock {
  const d0 = new Date(now)
  const early = d0.getHours() * 60 + d0.getMinutes() < DAY_OPENS.hour * 60 + DAY_OPENS.minute
  d0.setHours(0, 0, 0, 0)
  if (early) d0.setDate(d0.getDate() - 1)
  while (isWeekend(d0)) d0.setDate(d0.getDate() - 1)

  return {
    at(day, time) {
      const date = new Date(d0)
      for (let left = Math.abs(day); left > 0; ) {
        date.setDate(date.getDate() + Math.sign(day))
        if (!isWeekend(date)) left--
      }
      const [hour = 0, minute = 0] = time.split(':').map(Number)
      date.setHours(hour, minute, 0, 0)
      return date.getTime()
    },
    daysFrom(days) {
      const date = new Date(d0)
      date.setDate(date.getDate() + days)
      return date.getTime()
    },
  }
}

const isWeekend = (date: Date) => date.getDay() === 0 || date.getDay() === 6
