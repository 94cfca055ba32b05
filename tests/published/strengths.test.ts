/** Strengths and loads of bolts against ISO 898-1 and SAE J429. Tolerances stand with the data and say why. */
import { describe, expect, test } from 'vitest'
import { proofLoadN, strength, ultimateLoadN } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { CLASSES, MISPRINTED_ULTIMATE, PROOF_LOADS, ULTIMATE_LOADS } from './data/strengths'

/** 1 ksi from the pound, the inch and standard gravity. */
const KSI = (0.45359237 * 9.80665 * 1000) / 25.4 ** 2
const LBF = 0.45359237 * 9.80665

function load(value: ReturnType<typeof proofLoadN>): number {
  if (isRefusal(value)) throw new Error(JSON.stringify(value))
  return value
}

describe('classes and grades', () => {
  test.each(CLASSES)('[FT4] $grade at $diametersMm ($status: $source)', (row) => {
    const scale = row.unit === 'ksi' ? KSI : 1
    for (const d of row.diametersMm) {
      const found = strength(row.grade, d)
      if (isRefusal(found)) throw new Error(JSON.stringify(found))
      // Tables of whole numbers: exact, but for what a double makes of the pound.
      expect(found.rmMPa / (row.rm * scale)).toBeCloseTo(1, 12)
      expect(found.yieldMPa / (row.yields * scale)).toBeCloseTo(1, 12)
      expect(found.proofMPa / (row.proof * scale)).toBeCloseTo(1, 12)
    }
  })
})

describe('loads', () => {
  test.each(PROOF_LOADS)('[FT5] proof load of %s %s is printed %d', (thread, grade, printed, from) => {
    const expected = printed * (from.unit === 'lbf' ? LBF : 1)
    expect(Math.abs(load(proofLoadN(thread, grade)) - expected) / expected, from.source).toBeLessThanOrEqual(
      from.within,
    )
  })
  // Printed with three or four figures from a rounded area: the smallest sizes are half a per cent coarse, so 1.1 %.
  test.each(ULTIMATE_LOADS.filter(([, , printed]) => printed !== MISPRINTED_ULTIMATE.loadN))(
    '[FT5] ultimate load of %s %s is printed %d N',
    (thread, grade, printed) => {
      expect(Math.abs(load(ultimateLoadN(thread, grade)) - printed) / printed).toBeLessThanOrEqual(0.011)
    },
  )
  test('[FT5] a misprint is found out: ten times what the formula gives', () => {
    const { thread, grade, loadN } = MISPRINTED_ULTIMATE
    expect(loadN / load(ultimateLoadN(thread, grade))).toBeGreaterThan(9)
    expect(ULTIMATE_LOADS).toContainEqual([thread, grade, loadN])
  })
})
