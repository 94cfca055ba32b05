import { describe, expect, test } from 'vitest'
import { anglePreload, checkStretch, checkUse } from '../../../shared/fastener'
import { answered, refusedAs } from './answered'

const head = {
  thread: 'M11x1.5',
  grade: '10.9',
  shankMm: 80,
  threadMm: 25,
  jointToBoltStiffness: 4,
  angleDeg: 90,
}

describe('torque, then angle', () => {
  test('[FT14] the snug torque may stand for the snug preload', () => {
    const found = answered(anglePreload({ ...head, snugTorqueNm: 33, k: 0.2 }))
    expect(found.snugN).toBeCloseTo(15_000, 6)
    expect(found.elasticN).toBe(found.snugN + found.addedN)
    expect(found.stretchMm).toBeCloseTo(found.addedN / found.boltStiffnessNPerMm, 12)
  })
  test('[FT14] past yield no sum is promised', () => {
    const found = answered(anglePreload({ ...head, angleDeg: 180, snugN: 15_000 }))
    expect(found).toMatchObject({ elastic: false, preloadN: found.yieldN })
    expect(found.elasticN).toBeGreaterThan(found.preloadN)
    expect(found.cautions).toContain('past_yield')
  })
  test('[FT14] twice the angle adds twice; a start or a stiffness left out is asked for', () => {
    const at = (angleDeg: number) => answered(anglePreload({ ...head, angleDeg, snugN: 0 })).addedN
    expect(at(60)).toBeCloseTo(2 * at(30), 9)
    expect(refusedAs(anglePreload(head))).toBe('input_missing')
    expect(refusedAs(anglePreload({ ...head, jointToBoltStiffness: undefined, snugN: 1 }))).toBe(
      'input_missing',
    )
    expect(refusedAs(anglePreload({ ...head, snugN: 1, angleDeg: -5 }))).toBe('number_impossible')
  })
})

describe('fitting again', () => {
  test('[FT15] one-use, a cycle limit, or free', () => {
    expect(checkUse({ kind: 'one_use' }, 0)).toEqual({ mayFit: true, why: 'first_use', left: 1 })
    expect(checkUse({ kind: 'one_use' }, 1)).toEqual({ mayFit: false, why: 'one_use_spent', left: 0 })
    expect(checkUse({ kind: 'cycles', limit: 3 }, 2)).toEqual({ mayFit: true, why: 'cycles_left', left: 1 })
    expect(checkUse({ kind: 'cycles', limit: 3 }, 5)).toEqual({ mayFit: false, why: 'cycles_spent', left: 0 })
    expect(checkUse({ kind: 'reusable' }, 40)).toEqual({ mayFit: true, why: 'free', left: null })
    expect(refusedAs(checkUse({ kind: 'reusable' }, 0.5))).toBe('number_impossible')
  })
  test('[FT15] by length and by diameter, on the limit within it', () => {
    expect(answered(checkStretch({ by: 'length', measuredMm: 120.3, maxMm: 120.3, newMm: 119.8 }))).toEqual({
      by: 'length',
      reusable: true,
      value: 120.3,
      limit: 120.3,
      margin: 0,
      stretchedMm: 0.5,
    })
    expect(answered(checkStretch({ by: 'length', measuredMm: 120.4, maxMm: 120.3 })).reusable).toBe(false)
    expect(answered(checkStretch({ by: 'diameter', measuredMm: 9.79, minMm: 9.8 })).reusable).toBe(false)
    expect(refusedAs(checkStretch({ by: 'neck', upperMm: 10, lowerMm: -1, maxDifferenceMm: 0.2 }))).toBe(
      'number_impossible',
    )
  })
})
