/**
 * Deviations of a checked wrench against ISO 6789's arithmetic and limits.
 *
 * Limits and test points: ISO 6789:2003, found quoted. The deviations are computed from the
 * definition (100 · (shown − reference) / reference) with independent arithmetic; to the four decimals they are given in.
 */
import { describe, expect, test } from 'vitest'
import {
  checkPointsNm,
  coarsestResolutionNm,
  deviationLimitPct,
  deviationPasses,
  deviationPct,
} from '../../shared/wrench'

const rows = [
  { id: 'WC-01', maxNm: 100, shown: 20, reference: 19.3, pct: 3.6269, limit: 4, passes: true },
  { id: 'WC-02', maxNm: 100, shown: 60, reference: 62.4, pct: -3.8462, limit: 4, passes: true },
  { id: 'WC-03', maxNm: 100, shown: 100, reference: 96, pct: 4.1667, limit: 4, passes: false },
  { id: 'WC-05', maxNm: 100, shown: 100, reference: 96.15384615384616, pct: 4, limit: 4, passes: true },
  { id: 'WC-06', maxNm: 8, shown: 8, reference: 7.6, pct: 5.2632, limit: 6, passes: true },
  { id: 'WC-07', maxNm: 10, shown: 10, reference: 9.5, pct: 5.2632, limit: 6, passes: true },
  { id: 'WC-10', maxNm: 200, shown: 120, reference: 115.2, pct: 4.1667, limit: 4, passes: false },
]

describe('a wrench checked as ISO 6789 asks', () => {
  test.each(rows)('$id: $shown shown, $reference on the reference', (row) => {
    const pct = deviationPct(row.shown, row.reference) as number
    expect(pct).toBeCloseTo(row.pct, 4)
    expect(deviationLimitPct({ maxNm: row.maxNm })).toBe(row.limit)
    expect(deviationPasses(pct, row.limit)).toBe(row.passes)
  })
  test('against the reference: 4 high and 4 low are not the same per cent', () => {
    expect(deviationPct(100, 96)).toBeCloseTo(4.1667, 4)
    expect(deviationPct(100, 104)).toBeCloseTo(-3.8462, 4)
  })
  test('where a check reads: the 2003 edition from a fifth, the 2017 edition from the lowest mark', () => {
    expect(checkPointsNm({ minNm: 10, maxNm: 100 }, 2003)).toEqual([20, 60, 100])
    expect(checkPointsNm({ minNm: 10, maxNm: 100 })).toEqual([10, 60, 100])
  })
  test('the coarsest display step: a quarter of what is permitted (ISO 6789-2:2017, found quoted)', () => {
    expect(coarsestResolutionNm({ maxNm: 100 }, 100)).toBeCloseTo(1, 12)
    expect(coarsestResolutionNm({ maxNm: 8 }, 8)).toBeCloseTo(0.12, 12)
  })
})
