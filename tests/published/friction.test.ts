/**
 * Figures that are tables and nothing else, pinned where their source stands: friction classes, shear strengths of holes, the
 * reserve held back of them, and what a torque amounts to as a nut factor.
 */
import { describe, expect, test } from 'vitest'
import { engagement, FRICTION_CLASSES, HOLE_MATERIALS, RESERVE, tightening } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'

test('[FT7] friction classes of VDI 2230 Part 1, table A5', () => {
  expect(FRICTION_CLASSES).toEqual({
    A: { low: 0.04, high: 0.1 },
    B: { low: 0.08, high: 0.16 },
    C: { low: 0.14, high: 0.24 },
    D: { low: 0.2, high: 0.35 },
  })
})

/** VDI 2230 Part 1, table of shear strengths, and tensile strengths of the named standards with τ/Rm (memory). MPa. */
const SHEAR: [id: string, rm: number, shear: number][] = [
  ['cast_iron', 250, 225],
  ['ductile_iron', 400, 360],
  ['cast_aluminium', 240, 140],
  ['cast_aluminium_gravity', 180, 110],
  ['cast_aluminium_heat_treated', 210, 130],
  ['wrought_aluminium', 290, 200],
  ['wrought_aluminium_strong', 540, 370],
  ['steel', 400, 240],
  ['steel_500', 500, 300],
  ['steel_700', 700, 460],
  ['bronze', 240, 144],
]

describe('shear strength of holes (memory)', () => {
  test.each(SHEAR)('[FT11] %s: Rm %d, τ %d MPa', (id, rmMPa, shearMPa) => {
    expect(HOLE_MATERIALS.find((material) => material.id === id)).toMatchObject({ rmMPa, shearMPa })
  })
  test('[FT11] every material of the table stands here', () => {
    expect(HOLE_MATERIALS.map(({ id }) => id).toSorted()).toEqual(SHEAR.map(([id]) => id).toSorted())
  })
  test('[FT11] castings may fall to 70 % of their test bars (EN 1706, memory); others are held at 85 %', () => {
    expect(RESERVE).toEqual({ cast: 0.7, other: 0.85, entered: 1 })
    const at = (holeMaterial: string) =>
      engagement({ thread: 'M8', boltGrade: '8.8', holeMaterial, engagementMm: 10 })
    for (const [id, , shear] of SHEAR) {
      const found = at(id)
      if (isRefusal(found)) throw new Error(found.refused)
      expect(found.holeShearMPa / shear).toBeCloseTo(/cast|iron|bronze/.test(id) ? 0.7 : 0.85, 12)
    }
  })
  test('[FT11] for a bolt a fifth stronger than its least, 1.2 times the length (common practice, no source)', () => {
    const found = engagement({ thread: 'M8', boltGrade: '8.8', holeMaterial: 'steel', engagementMm: 10 })
    if (isRefusal(found)) throw new Error(found.refused)
    expect(found.lengthForStrongBoltMm / found.lengthForBoltFirstMm).toBeCloseTo(1.2, 12)
  })
})

describe('tightening beside the table', () => {
  test('[FT9] M16 8.8 at μ 0.12, VDI 2230 table A1 (memory): 206 N·m over 80.9 kN is a nut factor of 0.159', () => {
    const found = tightening({ thread: 'M16', grade: '8.8', muThread: 0.12 })
    if (isRefusal(found)) throw new Error(found.refused)
    const printed = 206 / (16 * 80.9)
    expect(Math.abs(found.low.k / printed - 1)).toBeLessThan(0.5 / 206 + 0.05 / 80.9)
  })
  test('[FT8] a waist of 6.1 mm carries on 29.2 mm² (Guide to Ultrasonic Inspection of Fasteners, page 31)', () => {
    const found = tightening({
      thread: 'M8x1',
      grade: '10.9',
      muThread: 0.12,
      shank: 'waisted',
      waistMm: 6.1,
    })
    if (isRefusal(found)) throw new Error(found.refused)
    expect(Math.abs(found.areaMm2 - 29.2)).toBeLessThanOrEqual(0.05)
  })
})
