/**
 * Limits of size of bolts and holes against ISO 965-1 and ASME B1.1 (from memory).
 *
 * Metric figures are printed rounded to a series of steps of 6 %, so that formula and table meet exactly or not at all; inch
 * figures to a ten-thousandth. The Unified formulas themselves are held to a millionth of an inch.
 */
import { describe, expect, test } from 'vitest'
import { limits, type Thread, thread, usualHead } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { ASME_B1_1, INCH_HEADS, ISO_965, NUMBERED, UNIFIED_FORMULA_MICROINCHES } from './data/limits'

function read(designation: string): Thread {
  const found = thread(designation)
  if (isRefusal(found)) throw new Error(designation)
  return found
}
const IN = 25.4
const um = (mm: number) => Math.round(mm * 1000)

describe('ISO 965-1, grade 6 (memory)', () => {
  /** A size that comes with every pitch; these tolerances hang on the pitch alone. */
  const SIZE: Record<number, string> = { 0.5: 'M3', 0.7: 'M4', 0.75: 'M4.5', 0.8: 'M5', 1.75: 'M12' }
  test.each(ISO_965)('[FT10] pitch %d mm: Td %d, TD1 %d, g %d µm', (pitch, td, td1, es) => {
    const size = read(`${SIZE[pitch] ?? (pitch <= 2 ? 'M20' : 'M42')}x${pitch}`)
    const { dMinMm, dMaxMm, D1MaxMm, D1MinMm } = limits(size)
    expect([um(dMaxMm - dMinMm), um(D1MaxMm - D1MinMm), um(size.dMm - dMaxMm)]).toEqual([td, td1, es])
  })
})

describe('ASME B1.1, 2A and 2B (memory)', () => {
  // An allowance is one rounded figure; a size is the sum of two, and a printed unit is allowed.
  const allowed = [0.000051, 0.0001, 0.0001, 0.0001]
  test.each(ASME_B1_1)('[FT10] %s', (name, allowance, majorMin, pitchMin, minorMax, holePitchMax) => {
    const size = read(name)
    const found = limits(size)
    const printed = [allowance, majorMin, pitchMin, holePitchMax]
    const ours = [size.dMm - found.dMaxMm, found.dMinMm, found.d2MinMm, found.D2MaxMm]
    ours.forEach((mm, i) => {
      expect(Math.abs(mm / IN - (printed[i] ?? 0)), `${mm / IN} for ${printed[i]}`).toBeLessThanOrEqual(
        allowed[i] ?? 0,
      )
    })
    // Minor diameters are printed to a thousandth.
    expect(Math.abs(found.D1MaxMm / IN - minorMax)).toBeLessThanOrEqual(0.0005 + 1e-9)
  })
  test(`[FT10] ${UNIFIED_FORMULA_MICROINCHES.source}`, () => {
    const { thread: name, ...reckoned } = UNIFIED_FORMULA_MICROINCHES
    const size = read(name)
    const found = limits(size)
    const micro = (mm: number) => Math.round((mm / IN) * 1e6)
    expect({
      source: reckoned.source,
      pitchTolerance: micro(found.d2MaxMm - found.d2MinMm),
      allowance: micro(size.dMm - found.dMaxMm),
      majorTolerance: micro(found.dMaxMm - found.dMinMm),
      holePitchTolerance: micro(found.D2MaxMm - found.D2MinMm),
      holeMinorTolerance: micro(found.D1MaxMm - found.D1MinMm),
    }).toEqual(reckoned)
  })
  test.each(NUMBERED)('[FT1] %s is %d in', (name, inches) => {
    expect(read(name).dMm).toBeCloseTo(inches * IN, 9)
  })
})

describe('inch heads and holes (memory: ASME B18.2.1, B18.2.8)', () => {
  test.each(INCH_HEADS)('[FT6] %s', (name, acrossIn, holeIn) => {
    const found = usualHead(read(name))
    expect(found.headBearingMm).toBeCloseTo(0.95 * acrossIn * IN, 9)
    expect(found.holeMm).toBeCloseTo(holeIn * IN, 9)
    expect(found.exact).toBe(true)
  })
})
