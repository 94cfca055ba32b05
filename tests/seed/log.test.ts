/** The demo shop's log: nothing refused, and the same to the last byte each time. */
import { expect, test } from 'vitest'
import { lastTuesday, OPENS_AT, shopClock } from '../../seed/clock'
import { demoShop } from './shop'

test('the past plays without a refusal, and twice to the same chain heads', async () => {
  const [first, second] = [await demoShop(), await demoShop()]
  const heads = await first.store.streams()
  expect(heads.map(({ stream }) => stream).sort()).toEqual([
    'job:e-101',
    'job:e-102',
    'job:e-103',
    'job:e-104',
    'job:e-105',
    'job:e-106',
    'job:e-107',
    'job:e-108',
    'shop',
  ])
  expect(await second.store.streams()).toEqual(heads)
})

test.each(['2027-01-05', '2027-03-30', '2027-11-02', '2028-03-07'])(
  'it plays in any week, over a new year, a changed hour and a leap day too: %s',
  async (day) => {
    const { desk } = await demoShop(day)
    expect(desk.summaries().map(({ signed }) => signed)).toEqual([31, 4, 4, 7, 2, 1, 11, 50])
  },
)

test.each([
  ['2026-11-24T09:00', '2026-11-24'],
  ['2026-11-25T13:00', '2026-11-24'],
  ['2026-11-30T23:59', '2026-11-24'],
  ['2027-01-03T12:00', '2026-12-29'],
])('a demonstration started at %s opens on %s, a Tuesday', (now, day) => {
  expect(lastTuesday(new Date(now).getTime())).toBe(day)
  expect(new Date(shopClock(day).at(0, OPENS_AT)).getDay()).toBe(2)
})
