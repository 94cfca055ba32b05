/** The board's order, its search, and the number it offers to a new job. */
import { describe, expect, test } from 'vitest'
import type { JobSummary } from '../../../shared/job/summary'
import { nextNumber } from '../../../web/job/next-number'
import { inOrder } from '../../../web/live/board'
import { makeClock } from '../../../web/live/clock'
import { matches } from '../../../web/pages/board/search'

const summary = (number: string, code: JobSummary['reason']['code'] = 'all_signed'): JobSummary => ({
  id: number,
  version: 1,
  number,
  engine: 'Orrath Q31',
  drives: 'work boat Pale Heron',
  serial: 'OQ31-20417',
  owner: 'Señora Rook, Uphill Farm',
  stages: [],
  cells: [],
  on: [],
  reason: { code } as JobSummary['reason'],
  signed: 0,
  minutes: { all: 0, signed: 0 },
})

describe('order', () => {
  test('what needs attention first, then by number as people count', () => {
    const rows = [
      summary('E-10', 'in_work'),
      summary('E-9', 'in_work'),
      summary('E-11', 'flagged'),
      summary('E-12', 'second_late'),
    ]
    expect(inOrder(rows).map(({ number }) => number)).toEqual(['E-12', 'E-11', 'E-9', 'E-10'])
  })
})

describe('search', () => {
  test.each(['E-101', 'e101', '20417', 'orrath', 'ROOK', 'senora', 'heron', 'pale 101', 'uphill orrath'])(
    '%s finds it',
    (query) => {
      expect(matches(summary('E-101'), query)).toBe(true)
    },
  )
  test.each(['E-102', 'ottersby', 'heron otter'])('%s does not', (query) => {
    expect(matches(summary('E-101'), query)).toBe(false)
  })
})

describe('the number offered to a new job', () => {
  test.each([
    [['E-101', 'E-99'], 'E-102'],
    [['2026-009', '2026-010'], '2026-011'],
    [['E-099'], 'E-100'],
    [['Rosie'], ''],
    [[], ''],
  ])('after %j comes %j', (numbers, next) => {
    expect(nextNumber(numbers)).toBe(next)
  })
})

describe('the clock', () => {
  test('is the server’s, half the round trip reckoned in', () => {
    let device = 1000
    const clock = makeClock(() => device)
    device = 1200
    clock.learn(1000, 50_100)
    expect(clock.now()).toBe(50_200)
    expect(clock.offsetMs()).toBe(49_000)
  })

  test('does not take a slow answer over a quick one', () => {
    let device = 0
    const clock = makeClock(() => device)
    device = 10
    clock.learn(0, 5_005)
    device = 4_010
    clock.learn(10, 5_100)
    expect(clock.offsetMs()).toBe(5_000)
  })

  test('takes even a slow answer that shows the quick one to be wrong by now', () => {
    let device = 0
    const clock = makeClock(() => device)
    device = 10
    clock.learn(0, 5_005)
    device = 4_010
    clock.learn(10, 100_000)
    expect(clock.now()).toBe(102_000)
  })

  test('goes at the pace the server says, from the moment it says so', () => {
    let device = 0
    const clock = makeClock(() => device)
    device = 20
    clock.setPace(0, 600_000, 60)
    expect(clock.now()).toBe(600_600)
    device = 1_020
    expect(clock.now()).toBe(660_600)
    expect(clock.offsetMs()).toBe(659_580)
    clock.setPace(1_020, 700_000, 0)
    device = 9_000
    expect(clock.now()).toBe(700_000)
  })
})
