/** The friction band's geometry: shares of the width, in the order of the values. */
import { describe, expect, test } from 'vitest'
import { frictionBandAt } from '../../../web/drawings/friction-band'

const given = {
  lowNm: 39,
  highNm: 65,
  torqueNm: 39,
  preloadLowN: 17_000,
  preloadHighN: 29_000,
  fullN: 29_000,
  yieldN: 37_000,
}

describe('the friction band', () => {
  test('both scales begin at nothing and leave room at their end', () => {
    const at = frictionBandAt(given)
    expect(at.torque.high).toBeCloseTo(100 / 1.12, 9)
    expect(at.torque.low / at.torque.high).toBeCloseTo(39 / 65, 9)
    expect(at.torque.at).toBe(at.torque.low)
    expect(at.preload.yields).toBeCloseTo(100 / 1.12, 9)
    expect(at.preload.low / at.preload.high).toBeCloseTo(17 / 29, 9)
  })
  test('a torque above the band is still on the scale, and so is a preload past yield', () => {
    const at = frictionBandAt({ ...given, torqueNm: 130, preloadHighN: 58_000 })
    expect(at.torque.at).toBeCloseTo(100 / 1.12, 9)
    expect(at.torque.high).toBeCloseTo(100 / 1.12 / 2, 9)
    expect(at.preload.high).toBeGreaterThan(at.preload.yields)
    expect(at.preload.high).toBeLessThan(100)
  })
})
