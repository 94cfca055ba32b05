/**
 * Threads against published geometry and stress areas.
 *
 * Areas are printed with three figures, so half of the last digit is the tolerance; a handbook's five figures are met to
 * half of their last. Diameters are reckoned elsewhere to a micrometre, so half of one.
 */
import { describe, expect, test } from 'vitest'
import { type Thread, thread } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { METRIC, UNIFIED_ROWS } from './data/threads'
import { WAISTS } from './data/waists'

function known(designation: string): Thread {
  const found = thread(designation)
  if (isRefusal(found)) throw new Error(JSON.stringify(found))
  return found
}
const within = (value: number, expected: number, tolerance: number) =>
  expect(Math.abs(value - expected), `${value} for ${expected}`).toBeLessThanOrEqual(tolerance + 1e-9)

describe('metric threads', () => {
  test.each(METRIC)('[FT1] $thread ($status: $source)', (row) => {
    const found = known(row.thread)
    expect(found.series).toBe(row.series)
    within(found.d2Mm, row.d2, 0.0005)
    within(found.d3Mm, row.d3, 0.0005)
    within(found.D1Mm, row.D1, 0.0005)
    within(found.stressAreaMm2, row.area, row.within)
    if (row.fiveDigits) within(found.stressAreaMm2, row.fiveDigits, row.fiveDigits >= 100 ? 0.005 : 0.0005)
  })
  test.each(METRIC.filter(({ series }) => series === 'coarse'))(
    '[FT1] $thread is what its diameter alone means, and says that the pitch was taken',
    (row) => {
      expect(known(row.thread.replace(/x.*/, ''))).toEqual({ ...known(row.thread), pitchTaken: true })
    },
  )
  test.each(WAISTS)('[FT1] %s: the waist of 0.9·d3 is printed %s', (designation, d3, waist, area) => {
    const found = known(designation)
    within(found.d3Mm, d3, 0.00005)
    // Printed with three figures, of a diameter rounded before: 0.6 %.
    within(0.9 * found.d3Mm, waist, 0.006 * waist)
    within((Math.PI / 4) * (0.9 * found.d3Mm) ** 2, area, 0.006 * area)
  })
})

describe('Unified threads', () => {
  test.each(UNIFIED_ROWS)('[FT1] $thread ($status: $source)', (row) => {
    const found = known(row.thread)
    within(found.d2Mm / 25.4, row.pitchDiaIn, 0.00005)
    // Half a printed unit; 1/2-20 is printed 0.1599, cut from the formula's 0.159953.
    within(found.stressAreaMm2 / 645.16, row.areaIn2, row.within + 3e-6)
    expect(known(row.thread.replace(/ .*/, '')).designation).toBe(row.thread)
  })
})
