import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { looseningOrder, type Place, proposeOrder, tighteningOrder } from '../../../shared/fastener'
import { answered, refusedAs } from './answered'

const flange = (count: number, way: 1 | -1 = 1, turn = 0): Place[] =>
  Array.from({ length: count }, (_, i) => {
    const angle = turn + (way * 2 * Math.PI * i) / count
    return { n: i + 1, x: 100 + 80 * Math.cos(angle), y: 50 + 80 * Math.sin(angle) }
  })
const grid = (columns: number, lines: number): Place[] =>
  Array.from({ length: columns * lines }, (_, i) => ({
    n: i + 1,
    x: 90 * (i % columns),
    y: 70 * Math.floor(i / columns),
  }))

describe('circles', () => {
  test.each([6, 10, 14, 18, 26])('[FT16] %d bolts: opposite pairs', (count) => {
    const order = answered(tighteningOrder(count, 'circle'))
    for (let i = 0; i < count; i += 2) expect(Math.abs((order[i] ?? 0) - (order[i + 1] ?? 0))).toBe(count / 2)
  })
  test('[FT16] odd counts are a star', () => {
    expect(tighteningOrder(5, 'circle')).toEqual([1, 3, 5, 2, 4])
    expect(tighteningOrder(7, 'circle')).toEqual([1, 4, 7, 3, 6, 2, 5])
    expect(tighteningOrder(3, 'circle')).toEqual([1, 2, 3])
    expect(tighteningOrder(1, 'circle')).toEqual([1])
  })
  test('[FT16] the map’s way of counting is kept, whichever way round and from wherever', () => {
    const printed = [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]
    expect(tighteningOrder(flange(12), 'circle')).toEqual(printed)
    expect(tighteningOrder(flange(12, -1, 2), 'circle')).toEqual(printed)
    expect(tighteningOrder([...flange(12)].reverse(), 'circle')).toEqual(printed)
  })
  test('[FT16] every circle is a permutation, next neighbours never in a row', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 90 }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (count, turn) => {
          const order = answered(tighteningOrder(flange(count, 1, turn), 'circle'))
          expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i + 1))
          if (count < 5) return
          order.slice(1).forEach((n, i) => {
            const apart = Math.abs(n - (order[i] ?? 0))
            expect(Math.min(apart, count - apart)).toBeGreaterThan(1)
          })
        },
      ),
    )
  })
})

describe('rows', () => {
  test('[FT17] one row, from the middle outward', () => {
    expect(tighteningOrder(grid(5, 1), 'rows')).toEqual([3, 2, 4, 1, 5])
    expect(tighteningOrder(grid(4, 1), 'rows')).toEqual([2, 3, 1, 4])
  })
  test('[FT17] a head of two rows goes round in a spiral', () => {
    //  1  2  3  4  5
    //  6  7  8  9 10
    expect(tighteningOrder(grid(5, 2), 'rows')).toEqual([3, 8, 7, 2, 4, 9, 6, 1, 5, 10])
    expect(tighteningOrder(grid(2, 5), 'rows')).toHaveLength(10)
  })
  test('[FT17] any rows: a permutation, never nearer to the middle again', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 4 }), (columns, lines) => {
        const places = grid(columns, lines)
        const order = answered(tighteningOrder(places, 'rows'))
        expect([...order].sort((a, b) => a - b)).toEqual(places.map(({ n }) => n))
        const away = order.map((n) => {
          const { x = 0, y = 0 } = places[n - 1] ?? {}
          return Math.hypot(x - 45 * (columns - 1), y - 35 * (lines - 1))
        })
        const slack = 0.01 * Math.max(...away) + 1e-9
        away.slice(1).forEach((d, i) => {
          expect(d).toBeGreaterThanOrEqual((away[i] ?? 0) - slack)
        })
      }),
    )
  })
})

describe('from the map', () => {
  test('[FT17] circle or rows is seen in the places', () => {
    expect(answered(proposeOrder(flange(8))).pattern).toBe('circle')
    expect(answered(proposeOrder(flange(5, -1, 1))).pattern).toBe('circle')
    expect(answered(proposeOrder(grid(5, 2))).pattern).toBe('rows')
    expect(answered(proposeOrder(grid(3, 2))).pattern).toBe('rows')
    expect(answered(proposeOrder(grid(6, 1))).pattern).toBe('rows')
    // Half a circle of bolts is no flange.
    expect(answered(proposeOrder(flange(16).slice(0, 8))).pattern).toBe('rows')
  })
  test('[FT17] without places nothing is seen', () => {
    expect(refusedAs(tighteningOrder(8))).toBe('positions_without_places')
    expect(refusedAs(tighteningOrder(8, 'zigzag' as never))).toBe('pattern_unknown')
    expect(refusedAs(tighteningOrder(8, 'constructor' as never))).toBe('pattern_unknown')
    expect(
      tighteningOrder([
        { x: 0, y: 0 },
        { x: 1, y: 0 },
        { x: 2, y: 0 },
      ]),
    ).toHaveLength(3)
  })
})

describe('an order of one’s own', () => {
  test('[FT18] wins when it names every position once', () => {
    expect(tighteningOrder(grid(2, 2), [4, 1, 3, 2])).toEqual([4, 1, 3, 2])
    expect(looseningOrder(grid(2, 2), [4, 1, 3, 2])).toEqual([2, 3, 1, 4])
    expect(refusedAs(tighteningOrder(grid(2, 2), [4, 1, 1, 9]))).toBe('order_not_a_permutation')
    expect(tighteningOrder(grid(2, 2), [4, 1, 1, 9])).toMatchObject({
      data: { missing: [2, 3], unknown: [9], twice: [1] },
    })
    expect(tighteningOrder(grid(2, 2), { order: [4, 1, 3, 2], pattern: 'rows' })).toEqual([4, 1, 3, 2])
    expect(tighteningOrder(flange(4), { loosening: true })).toEqual([4, 2, 3, 1])
    expect(refusedAs(tighteningOrder(grid(2, 2), []))).toBe('order_not_a_permutation')
  })
  test('[FT18] loosening is the reverse', () => {
    for (const places of [flange(12), grid(5, 2)])
      expect(looseningOrder(places)).toEqual([...answered(tighteningOrder(places))].reverse())
  })
  test.each([
    [[]],
    [0],
    [-3],
    [2.5],
    [
      [
        { n: 1, x: 0, y: 0 },
        { n: 1, x: 1, y: 0 },
      ],
    ],
    [
      [
        { n: 1, x: 0, y: 0 },
        { n: 2, x: 0, y: 0 },
      ],
    ],
    [[{ n: 1, x: 0, y: 0 }, { n: 2 }]],
    [[{ n: 0, x: 0, y: 0 }]],
    [[{ n: 1, x: Number.NaN, y: 0 }]],
  ])('[FT18] positions that are not clear are refused: %o', (positions) => {
    expect(refusedAs(tighteningOrder(positions as Place[], 'circle'))).toBe('positions_unclear')
  })
})
