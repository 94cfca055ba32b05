/**
 * Everything that is shown as a date, a time, a duration, an age or a number, written as the shop writes it.
 *
 * `makeFormat(shopFormat)` gives the functions; each program makes one and uses no other way. What is only compared
 * or reckoned by the day asks the `calendar` in it.
 */
import type { Instant } from '../log'
import { formatNumber, showTorque } from '../units/show'
import { counted, type Figures } from '../words'
import { type Calendar, daysBetween, makeCalendar } from './calendar'
import type { Day, ShopFormat } from './types'

export interface Format extends Figures {
  shop: ShopFormat
  calendar: Calendar
  /** `13:40`. */
  time(at: Instant): string
  /** As short as it can be said on the day of `now`: `13:40`, `24 Nov 13:40`, `24 Nov 2025 13:40`. */
  moment(at: Instant, now: Instant): string
  /** For paper, which does not know what `today` was: `24 Oct 2026, 13:40`. */
  dateAndTime(at: Instant): string
  /** `Saturday 24 October 2026, 13:40`. */
  longDateAndTime(at: Instant): string
  /** `24 Oct 2026`, of a day or of a moment's day. */
  date(at: Instant | Day): string
  /** `Sat 24 Oct`, of a day or of a moment's day. */
  weekdayAndDate(at: Instant | Day): string
  /** How long it has stood: `for less than an hour`, `for 5 hours`, from a day on by the calendar `for 3 days`. */
  age(since: Instant, now: Instant): string
  /** As people sort names with numbers in them: E-9 before E-10. */
  compare(a: string, b: string): number
}

export function makeFormat(shop: ShopFormat): Format {
  const { locale, timeZone, clock, dateOrder, decimalMark } = shop
  const calendar = makeCalendar(timeZone)
  const names = (options: Intl.DateTimeFormatOptions, zone: string) =>
    new Intl.DateTimeFormat(locale, { ...options, timeZone: zone })
  const clockTime = names(
    {
      hour: clock === 12 ? 'numeric' : '2-digit',
      minute: '2-digit',
      hourCycle: clock === 12 ? 'h12' : 'h23',
    },
    timeZone,
  )
  // Of days, which are told by their noon in UTC.
  const shortMonth = names({ month: 'short', day: 'numeric' }, 'UTC')
  const longMonth = names({ month: 'long', day: 'numeric' }, 'UTC')
  const shortWeekday = names({ weekday: 'short' }, 'UTC')
  const longWeekday = names({ weekday: 'long' }, 'UTC')
  const collator = new Intl.Collator(locale, { numeric: true })

  const dayOf = (at: Instant | Day): Day => (typeof at === 'number' ? calendar.dayOf(at) : at)
  const noon = (day: Day): number => Date.parse(`${day}T12:00Z`)

  /** Day and month, in the shop's order; the year with them where it is asked. */
  function inOrder(day: Day, months: Intl.DateTimeFormat, withYear: boolean): string {
    const parts = months.formatToParts(noon(day))
    const of = (type: 'day' | 'month') => parts.find((part) => part.type === type)?.value ?? ''
    const year = withYear ? `${Number(day.slice(0, 4))}` : ''
    if (dateOrder === 'day_month_year') return `${of('day')} ${of('month')} ${year}`.trim()
    const monthAndDay = `${of('month')} ${of('day')}`
    if (!withYear) return monthAndDay
    return dateOrder === 'month_day_year' ? `${monthAndDay}, ${year}` : `${year} ${monthAndDay}`
  }

  const time = (at: Instant): string => clockTime.format(at)
  const digits = (text: string): string =>
    decimalMark === '.' ? text : text.replace(/(?<=\d)\.(?=\d)/g, decimalMark)

  return {
    shop,
    calendar,
    time,
    moment(at, now) {
      const [day, today] = [calendar.dayOf(at), calendar.dayOf(now)]
      if (day === today) return time(at)
      return `${inOrder(day, shortMonth, day.slice(0, 4) !== today.slice(0, 4))} ${time(at)}`
    },
    dateAndTime: (at) => `${inOrder(dayOf(at), shortMonth, true)}, ${time(at)}`,
    longDateAndTime: (at) =>
      `${longWeekday.format(noon(dayOf(at)))} ${inOrder(dayOf(at), longMonth, true)}, ${time(at)}`,
    date: (at) => inOrder(dayOf(at), shortMonth, true),
    weekdayAndDate: (at) =>
      `${shortWeekday.format(noon(dayOf(at)))} ${inOrder(dayOf(at), shortMonth, false)}`,
    duration(minutes) {
      const whole = Math.round(minutes)
      const [hours, rest] = [Math.floor(whole / 60), whole % 60]
      if (hours === 0) return `${rest} min`
      return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`
    },
    age(since, now) {
      const hours = Math.floor((now - since) / HOUR_MS)
      if (hours < 1) return 'for less than an hour'
      if (hours < 24) return `for ${counted(hours, 'hour')}`
      return `for ${counted(daysBetween(calendar.dayOf(since), calendar.dayOf(now)), 'day')}`
    },
    number: (value, decimals) => digits(formatNumber(value, decimals)),
    torque: (nm, unit, beside) => digits(showTorque(nm, unit, beside)),
    digits,
    compare: collator.compare,
  }
}

const HOUR_MS = 3_600_000
