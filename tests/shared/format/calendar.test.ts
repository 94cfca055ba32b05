/** The calendar on the shop's wall, also where clocks are put forward and back. */
import { describe, expect, test } from 'vitest'
import {
  addDays,
  dayFrom,
  daysBetween,
  instantOf,
  isWorkingDay,
  makeCalendar,
  weekdayOf,
  workingDays,
} from '../../../shared/format'

const HOUR = 3_600_000
const iso = (at: number) => new Date(at).toISOString()

describe('a day of the shop', () => {
  const berlin = makeCalendar('Europe/Berlin')

  test('begins and ends by the wall clock, not by that of UTC', () => {
    expect(berlin.dayOf(Date.parse('2026-11-23T23:30:00Z'))).toBe('2026-11-24')
    expect(iso(berlin.startOf('2026-11-24'))).toBe('2026-11-23T23:00:00.000Z')
    expect(iso(berlin.endOf('2026-11-24'))).toBe('2026-11-24T22:59:59.999Z')
  })
  test('has 23 hours where clocks are put forward, 25 where they are put back', () => {
    const lasts = (day: string) => (berlin.endOf(day) + 1 - berlin.startOf(day)) / HOUR
    expect(['2026-03-28', '2026-03-29', '2026-10-25'].map(lasts)).toEqual([24, 23, 25])
  })
  test('a time it shows twice is the first, one it skips comes an hour later', () => {
    expect(iso(berlin.at('2026-10-25', '02:30'))).toBe('2026-10-25T00:30:00.000Z')
    expect(iso(berlin.at('2026-03-29', '02:30'))).toBe('2026-03-29T01:30:00.000Z')
    expect(berlin.timeOf(berlin.at('2026-03-29', '02:30'))).toBe('03:30')
  })
  test('begins at one in the morning where midnight is skipped', () => {
    const saoPaulo = makeCalendar('America/Sao_Paulo')
    expect(iso(saoPaulo.startOf('2018-11-04'))).toBe('2018-11-04T03:00:00.000Z')
    expect(saoPaulo.dayOf(saoPaulo.startOf('2018-11-04') - 1)).toBe('2018-11-03')
  })
  test('every day of a year begins when the one before has ended, and its noon is on it', () => {
    for (const zone of ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'UTC']) {
      const calendar = makeCalendar(zone)
      for (let day = '2026-01-01'; day < '2027-01-01'; day = addDays(day, 1)) {
        expect(calendar.dayOf(calendar.startOf(day)), `${zone} ${day}`).toBe(day)
        expect(calendar.dayOf(calendar.startOf(day) - 1), `${zone} ${day}`).toBe(addDays(day, -1))
        expect(calendar.timeOf(calendar.at(day, '12:00')), `${zone} ${day}`).toBe('12:00')
      }
    }
  })
})

describe('counting days', () => {
  test('over the end of a month and a year, and over a change of clocks', () => {
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01')
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2)
    expect(daysBetween('2026-03-30', '2026-03-28')).toBe(-2)
  })
  test('working days are Monday to Friday', () => {
    expect(weekdayOf('2026-11-24')).toBe(2)
    expect(['2026-11-27', '2026-11-28', '2026-11-29', '2026-11-30'].map(isWorkingDay)).toEqual([
      true,
      false,
      false,
      true,
    ])
    expect(workingDays('2026-11-24', '2026-11-30')).toBe(4)
    expect(workingDays('2026-11-30', '2026-11-24')).toBe(-4)
    expect(workingDays('2026-11-28', '2026-11-29')).toBe(0)
  })
  test('a day the calendar does not have is none', () => {
    expect(dayFrom('2026-04-30')).toBe('2026-04-30')
    expect(['2026-04-31', '2026-13-01', '30.04.2026', ''].map(dayFrom)).toEqual(Array(4).fill(undefined))
  })
})

test('a day alone is its noon, a time is kept, no day is no moment', () => {
  const london = makeCalendar('Europe/London')
  expect(instantOf(london, '', '')).toBeUndefined()
  expect(instantOf(london, '', '14:00')).toBeUndefined()
  expect(instantOf(london, '2026-02-30', '')).toBeUndefined()
  expect(iso(instantOf(london, '2030-07-03', '') ?? 0)).toBe('2030-07-03T11:00:00.000Z')
  expect(iso(instantOf(london, '2026-11-24', '09:05') ?? 0)).toBe('2026-11-24T09:05:00.000Z')
})
