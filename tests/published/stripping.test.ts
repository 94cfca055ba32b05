/**
 * Limits, shear areas, worked stripping cases, inserts and holes against published figures.
 *
 * Areas are printed with five figures: 0.02 %. Limits are whole micrometres: half of one. Worked cases were reckoned from
 * limits rounded to a micrometre: 0.02 %. Insert lengths and holes are sums of the inputs: a tenth of a micrometre, as printed.
 */
import { describe, expect, test } from 'vitest'
import { engagement, holeFit, insertPlan, limits, thread } from '../../shared/fastener'
import { holeShearPerMm } from '../../shared/fastener/engagement'
import { isRefusal } from '../../shared/log'
import { HANDBOOK_LENGTH, HOLES, SHEAR_AREAS, WIRE_INSERTS, WORKED } from './data/stripping'

function answered<T>(value: T): Exclude<T, { refused: string }> {
  if (isRefusal(value)) throw new Error(JSON.stringify(value))
  return value as Exclude<T, { refused: string }>
}
const share = (value: number, expected: number) => Math.abs(value - expected) / expected

describe('limits of size', () => {
  test.each(SHEAR_AREAS)('[FT10] %s has the 6g and 6H limits behind its published area', (name, ...row) => {
    const [dMin, d2Min, D1Max, D2Max] = row
    const size = limits(answered(thread(name)))
    expect(size.dMinMm).toBeCloseTo(dMin, 3)
    expect(size.d2MinMm).toBeCloseTo(d2Min, 3)
    expect(size.D1MaxMm).toBeCloseTo(D1Max, 3)
    expect(size.D2MaxMm).toBeCloseTo(D2Max, 3)
  })
})

describe('stripping', () => {
  test.each(SHEAR_AREAS)('[FT11] shear areas of %s (found: Bickford, 4th edition)', (name, ...row) => {
    const [, , , , engagementMm, boltMm2, holeMm2] = row
    const found = answered(
      engagement({ thread: name, boltGrade: '8.8', holeMaterial: 'steel', engagementMm }),
    )
    expect(share(found.boltShearMm2, boltMm2)).toBeLessThanOrEqual(0.0002)
    expect(share(found.holeShearMm2, holeMm2)).toBeLessThanOrEqual(0.0002)
  })
  test.each(WORKED)('[FT11] $title (computed)', (row) => {
    const found = answered(
      engagement({
        thread: row.thread,
        boltGrade: { rmMPa: row.boltRmMPa, yieldMPa: 0.8 * row.boltRmMPa },
        holeMaterial: { rmMPa: row.holeRmMPa, shearRatio: 0.6 },
        engagementMm: row.engagementMm,
      }),
    )
    const pairs = [
      [found.boltBreakN, row.boltN],
      [found.boltStripN, row.boltStripN],
      [found.holeStripN, row.holeStripN],
      [found.strengthRatioJ, row.ratioJ],
      [found.equalStrengthMm, row.equalMm],
      [found.lengthQMm, row.lengthQMm],
      [found.lengthForBoltFirstMm, row.boltFirstMm],
    ] as const
    for (const [value, expected] of pairs) expect(share(value, expected)).toBeLessThanOrEqual(0.0002)
    expect(found.weakest).toBe(row.weakest)
  })
})

describe('a handbook’s length', () => {
  test('[FT11] is met to its printed tenth with the diameter it takes, and is longer with the right one', () => {
    const { pitchMm, dTakenMm, D2MaxMm, loadN, shearMPa, lengthMm } = HANDBOOK_LENGTH
    expect(
      Math.abs(loadN / (holeShearPerMm(pitchMm, dTakenMm, D2MaxMm) * shearMPa) - lengthMm),
    ).toBeLessThanOrEqual(0.05)
    const size = limits(answered(thread('M10')))
    expect(size.D2MaxMm).toBeCloseTo(D2MaxMm, 9)
    expect(size.dMaxMm).toBeCloseTo(dTakenMm, 9)
    expect(loadN / (holeShearPerMm(pitchMm, size.dMinMm, size.D2MaxMm) * shearMPa)).toBeGreaterThan(
      lengthMm + 2,
    )
  })
})

describe('wire inserts', () => {
  test.each(WIRE_INSERTS)('[FT12] %s, %d d', (name, lengthD, ...row) => {
    const plan = answered(insertPlan(name, { kind: 'wire', lengthD }))
    const found = [
      plan.installedMaxMm,
      plan.installedMinMm,
      plan.drillDepthPlugMm,
      plan.drillDepthBottomingMm,
      plan.threadDepthMm,
      plan.tapped.majorMinMm,
      plan.tapped.pitchDiaMm,
      plan.tapped.minorMinMm,
    ]
    for (const [i, value] of found.entries())
      expect(Math.abs(value - (row[i] ?? Number.NaN))).toBeLessThanOrEqual(0.0001)
  })
  test('[FT12] set down 0.75 to 1.5 pitches (ASME B18.29.8M-2005, found quoted): M10 by 1.125 to 2.25 mm', () => {
    const plan = answered(insertPlan('M10', 'wire'))
    expect(plan.setDownMinMm).toBeCloseTo(1.125, 12)
    expect(plan.setDownMaxMm).toBeCloseTo(2.25, 12)
  })
})

describe('bolts in their holes', () => {
  test.each(HOLES)('[FT13] $boltLengthMm through $stackMm: $verdict (common practice)', (row) => {
    const d = row.pitchMm === 1.5 ? 10 : 8
    const fit = answered(
      holeFit({ ...row, holeDepthMm: row.threadDepthMm + 5, thread: `M${d}x${row.pitchMm}` }),
    )
    expect(fit.engagementMm).toBeCloseTo(row.engagementMm, 9)
    expect(fit.clearanceMm).toBeCloseTo(row.clearanceMm, 9)
    expect(fit.minEngagementMm).toBe(row.minEngagementMm)
    expect(fit.verdict).toBe(row.verdict)
    expect(
      answered(holeFit({ ...row, minEngagementMm: undefined, holeDepthMm: 40, thread: `M${d}` }))
        .minEngagementMm,
    ).toBe(row.minEngagementMm)
  })
})
