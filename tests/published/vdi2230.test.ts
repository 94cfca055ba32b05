/**
 * Preload and torque against VDI 2230 as published, and against a table of the older formula that must not match.
 *
 * Tolerance: half a printed unit, for rounding, and nothing else. The cells that depart further are listed by name beside
 * their table, each within 1 %; a cell that is listed and does not depart fails too.
 */
import { describe, expect, test } from 'vitest'
import { type Tightening, thread, tightening, usualHead } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { BEFORE_2001, HEADS, VDI_TABLES } from './data/vdi2230'

function tight(thread: string, grade: string, mu: number): Tightening {
  const found = tightening({ thread, grade: grade.replace(/^A-/, 'A2-'), muThread: mu, muHead: mu })
  if (isRefusal(found)) throw new Error(JSON.stringify(found))
  return found
}

/** One unit of the last digit printed; whole numbers above 1000 are printed to the unit too. */
const unitOf = (printed: string) => 10 ** -(printed.split('.')[1]?.length ?? 0)

/** How far a computed value stands beyond the rounding of the printed one, as a share of it. */
function beyondRounding(value: number, printed: string): number {
  return Math.max(0, Math.abs(value - Number(printed)) - unitOf(printed) / 2) / Number(printed)
}

describe.each(VDI_TABLES)('VDI 2230, $title ($status: $source)', ({ rows, departs, cut = [] }) => {
  const cells = rows.flatMap(([thread, grade, mu, preloadKn, torqueNm]) => {
    const { preloadN = 0, torqueNm: torque = 0 } = tight(thread, grade, mu)
    return [
      { cell: `${thread} ${grade} ${mu} preload`, value: preloadN / 1000, printed: preloadKn },
      { cell: `${thread} ${grade} ${mu} torque`, value: torque, printed: torqueNm },
    ].filter(({ printed }) => printed !== '')
  })
  test.each(cells)('[FT6] $cell: $printed', ({ cell, value, printed }) => {
    if (cut.includes(cell)) {
      expect(value - Number(printed)).toBeGreaterThan(0)
      expect(value - Number(printed)).toBeLessThan(unitOf(printed))
    } else expect(beyondRounding(value, printed)).toBeLessThanOrEqual(departs.includes(cell) ? 0.01 : 1e-9)
  })
  test('[FT6] every cell that is listed departs', () => {
    const beyond = cells.filter(({ value, printed }) => beyondRounding(value, printed) > 1e-9)
    expect(beyond.map(({ cell }) => cell).filter((cell) => !cut.includes(cell))).toEqual(departs)
  })
})

describe('heads and holes', () => {
  // The tables work from bearing diameters rounded to a tenth: half of one, to the hundredth printed.
  test.each(HEADS)('[FT6] M%d over %d flats', (d, acrossFlats, bearing, fine, medium, coarse) => {
    const at = { dMm: d, system: 'metric' } as const
    expect(Math.abs(usualHead(at).headBearingMm - bearing)).toBeLessThanOrEqual(0.05)
    expect(usualHead(at).headBearingMm).toBeLessThan(acrossFlats)
    expect([
      usualHead(at, 'fine').holeMm,
      usualHead(at).holeMm,
      usualHead(at, 'coarse').holeMm,
      usualHead(at).exact,
    ]).toEqual([fine, medium, coarse, true])
  })
})

describe('the formula from before 2001 is not ours', () => {
  test.each(BEFORE_2001)(
    '[FT6] %s %s: %d N·m is too low by more than its rounding',
    (name, grade, printed) => {
      const found = tight(name, grade, 0.125)
      const now = found.torqueNm ?? 0
      // 8 to 11 % apart; the smallest sizes are printed so coarsely that 4 % of it is rounding.
      expect(now / printed).toBeGreaterThan(1.05)
      expect(now / printed).toBeLessThan(1.14)
      // And it is that formula: elastic torsion (2 for 3/2 in the bracket) gives it to 1.6 % up to M14, at a friction that
      // is inferred; larger sizes are printed to ten newton-metres: 3.6 %. Small ones to a tenth: half of one.
      const { d2Mm, d3Mm, dMm, pitchMm } = answeredThread(name)
      const root = (torsion: number) => {
        const slope = Math.tan(
          Math.atan(pitchMm / (Math.PI * d2Mm)) + Math.atan(0.125 / Math.cos(Math.PI / 6)),
        )
        const twist = ((torsion * d2Mm) / ((d2Mm + d3Mm) / 2)) * slope
        return Math.sqrt(1 + 3 * twist * twist)
      }
      const elastic = (now * root(1.5)) / root(2)
      expect(Math.abs(elastic - printed)).toBeLessThanOrEqual((dMm > 14 ? 0.036 : 0.016) * printed + 0.05)
    },
  )
})

function answeredThread(name: string) {
  const found = thread(name)
  if (isRefusal(found)) throw new Error(JSON.stringify(found))
  return found
}
