import { describe, expect, test } from 'vitest'
import { bandOf, inBand } from '../../../shared/plan/adopt'
import type { Tolerances } from '../../../shared/plan/types'

const tolerances: Tolerances = { percent: { A: 5, B: 10, C: 15 }, angleDeg: 5 }

describe('the band a pass is judged by', () => {
  test('the shop’s percentage follows the joint class', () => {
    const pass = { kind: 'torque', torqueNm: 22 } as const
    expect(bandOf(pass, { class: 'A' }, tolerances)).toEqual({
      kind: 'torque',
      minNm: 20.9,
      maxNm: 23.1,
      from: 'shop',
    })
    expect(bandOf(pass, { class: 'B' }, tolerances)).toMatchObject({ minNm: 19.8, maxNm: 24.2 })
    expect(bandOf(pass, { class: 'C' }, tolerances)).toMatchObject({ minNm: 18.7, maxNm: 25.3 })
  })

  test('limits stand before the shop’s percentage and say whose they are', () => {
    const limits = { minNm: 100, maxNm: 118, from: 'maker' } as const
    expect(bandOf({ kind: 'torque', torqueNm: 105, limits }, { class: 'A' }, tolerances)).toEqual({
      kind: 'torque',
      ...limits,
    })
    const turned = { minDeg: 58, maxDeg: 64, from: 'plan' } as const
    expect(bandOf({ kind: 'angle', angleDeg: 60, limits: turned }, { class: 'A' }, tolerances)).toEqual({
      kind: 'angle',
      ...turned,
    })
  })

  test('an angle gets the shop’s degrees either side, never below nothing', () => {
    const band = (angleDeg: number) => bandOf({ kind: 'angle', angleDeg }, { class: 'C' }, tolerances)
    expect(band(60)).toEqual({ kind: 'angle', minDeg: 55, maxDeg: 65, from: 'shop' })
    expect(band(3)).toEqual({ kind: 'angle', minDeg: 0, maxDeg: 8, from: 'shop' })
  })

  test('nothing is judged by a slackening, a wait or a torque nobody published', () => {
    expect(bandOf({ kind: 'slacken' }, { class: 'A' }, tolerances)).toBeNull()
    expect(bandOf({ kind: 'wait', minutes: 10 }, { class: 'A' }, tolerances)).toBeNull()
    expect(bandOf({ kind: 'torque', torqueNm: null }, { class: 'B' }, tolerances)).toBeNull()
  })
})

describe('in band', () => {
  test('both limits are in, the next micro-newton-metre is out', () => {
    const band = { kind: 'torque', minNm: 19.8, maxNm: 24.2, from: 'shop' } as const
    expect(inBand(22 * 0.9, band)).toBe(true)
    expect(inBand(22 * 1.1, band)).toBe(true)
    expect(inBand(24.200001, band)).toBe(false)
    expect(inBand(19.799999, band)).toBe(false)
  })

  test('an angle is judged to the micro-degree', () => {
    const band = { kind: 'angle', minDeg: 55, maxDeg: 65, from: 'shop' } as const
    expect(inBand(55, band)).toBe(true)
    expect(inBand(65 + 1e-9, band)).toBe(true)
    expect(inBand(65.000001, band)).toBe(false)
    expect(() => inBand(Number.NaN, band)).toThrow(RangeError)
  })
})
