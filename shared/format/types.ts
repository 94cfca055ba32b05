/**
 * How this shop writes dates, times and numbers. Plain data: it travels as JSON and can be stored as a setting.
 *
 * It governs what is shown. What people type, a torque sheet and a plan file are read by rules of their own.
 */
export interface ShopFormat {
  /** For the names of days and months, and the order of words: a language tag (BCP 47). */
  locale: string
  clock: 12 | 24
  dateOrder: 'day_month_year' | 'month_day_year' | 'year_month_day'
  /** 0 is Sunday, as `Calendar.weekdayOf` counts. */
  firstWeekday: Weekday
  decimalMark: '.' | ','
  /** By whose wall clock days begin and end: an IANA name such as `Europe/London`. */
  timeZone: string
}

/** 0 is Sunday. */
export type Weekday = 0 | 1 | 2 | 3 | 4 | 5 | 6

/** A day of the shop's calendar, `YYYY-MM-DD`. Days compare as text. */
export type Day = string

/** What holds until a shop sets its own; the time zone is that of the machine, which whoever asks must name. */
export const DEFAULT_FORMAT: Omit<ShopFormat, 'timeZone'> = {
  locale: 'en-GB',
  clock: 24,
  dateOrder: 'day_month_year',
  firstWeekday: 1,
  decimalMark: '.',
}
