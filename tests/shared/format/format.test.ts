/** What is shown as a date, a time, a duration, an age or a number, in the shop's own form. */
import { describe, expect, test } from 'vitest'
import { DEFAULT_FORMAT, makeFormat, type ShopFormat } from '../../../shared/format'

const formatOf = (some: Partial<ShopFormat> = {}) =>
  makeFormat({ ...DEFAULT_FORMAT, timeZone: 'Europe/London', ...some })
const usual = formatOf()
const AT = Date.parse('2026-11-24T13:40:00Z')
const HOUR = 3_600_000

describe('as it is where nobody set anything', () => {
  test('a moment is as short as it can be said today', () => {
    expect(usual.moment(AT, AT + HOUR)).toBe('13:40')
    expect(usual.moment(AT, AT + 24 * HOUR)).toBe('24 Nov 13:40')
    expect(usual.moment(AT, Date.parse('2027-01-01T00:10:00Z'))).toBe('24 Nov 2026 13:40')
  })
  test('dates and times', () => {
    expect(usual.time(Date.parse('2026-11-24T00:05:00Z'))).toBe('00:05')
    expect(usual.date(AT)).toBe('24 Nov 2026')
    expect(usual.date('2026-11-04')).toBe('4 Nov 2026')
    expect(usual.weekdayAndDate('2026-11-27')).toBe('Fri 27 Nov')
    expect(usual.weekdayAndDate(AT)).toBe('Tue 24 Nov')
    expect(usual.dateAndTime(AT)).toBe('24 Nov 2026, 13:40')
    expect(usual.longDateAndTime(AT)).toBe('Tuesday 24 November 2026, 13:40')
  })
  test('durations and ages', () => {
    expect([0, 50, 60, 85, 119.7].map(usual.duration)).toEqual([
      '0 min',
      '50 min',
      '1 h',
      '1 h 25 min',
      '2 h',
    ])
    expect([0, 1, 5, 23, 24, 120].map((hours) => usual.age(AT, AT + hours * HOUR))).toEqual([
      'for less than an hour',
      'for 1 hour',
      'for 5 hours',
      'for 23 hours',
      'for 1 day',
      'for 5 days',
    ])
  })
  test('days of an age are those of the calendar', () => {
    const lateInTheEvening = Date.parse('2026-11-24T23:30:00Z')
    expect(usual.age(lateInTheEvening, lateInTheEvening + 25 * HOUR)).toBe('for 2 days')
  })
  test('numbers keep the point, and names with numbers are sorted as people count', () => {
    expect(usual.number(1234.5)).toBe('1234.5')
    expect(usual.number(0.12345, 2)).toBe('0.12')
    expect(usual.torque(67.79089741657, 'lbf·ft')).toBe('50')
    expect(['E-10', 'E-9'].sort(usual.compare)).toEqual(['E-9', 'E-10'])
  })
})

describe('as another shop sets it', () => {
  test('twelve hours', () => {
    const twelve = formatOf({ clock: 12 })
    expect(twelve.time(AT)).toBe('1:40 pm')
    expect(twelve.time(Date.parse('2026-11-24T00:05:00Z'))).toBe('12:05 am')
    expect(twelve.time(Date.parse('2026-11-24T12:05:00Z'))).toBe('12:05 pm')
  })
  test('the month first, and the year first', () => {
    const monthFirst = formatOf({ dateOrder: 'month_day_year' })
    expect(monthFirst.date(AT)).toBe('Nov 24, 2026')
    expect(monthFirst.moment(AT, AT + 24 * HOUR)).toBe('Nov 24 13:40')
    expect(monthFirst.weekdayAndDate(AT)).toBe('Tue Nov 24')
    expect(formatOf({ dateOrder: 'year_month_day' }).dateAndTime(AT)).toBe('2026 Nov 24, 13:40')
  })
  test('a decimal comma', () => {
    const comma = formatOf({ decimalMark: ',' })
    expect(comma.number(-4.25)).toBe('−4,25')
    expect(comma.torque(36.878107, 'N·m')).toBe('36,9')
    expect(comma.digits('0.10 to 0.28')).toBe('0,10 to 0,28')
  })
  test('names of days and months in another language', () => {
    expect(formatOf({ locale: 'fr-FR' }).longDateAndTime(AT)).toBe('mardi 24 novembre 2026, 13:40')
  })
  test('the shop’s own time zone, wherever the machine stands', () => {
    const auckland = formatOf({ timeZone: 'Pacific/Auckland' })
    expect(auckland.moment(AT, AT)).toBe('02:40')
    expect(auckland.date(AT)).toBe('25 Nov 2026')
    expect(auckland.moment(AT - 4 * HOUR, AT)).toBe('24 Nov 22:40')
  })
})
