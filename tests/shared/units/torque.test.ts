import { describe, expect, test } from 'vitest'
import {
  compareNm,
  formatNumber,
  fromNm,
  roundTo,
  showTorque,
  toMicroNm,
  toNm,
  unitAfter,
} from '../../../shared/units'

describe('torques as numbers', () => {
  test('units that are powers of ten make no float noise', () => {
    expect(toNm(3, 'dN·m')).toBe(0.3)
    expect(toNm(180, 'dN·m')).toBe(18)
    expect(fromNm(0.3, 'N·mm')).toBe(300)
  })

  test('a value that float arithmetic put beside a limit is on it', () => {
    expect(22 * 1.1).not.toBe(24.2)
    expect(compareNm(22 * 1.1, 24.2)).toBe(0)
    expect(compareNm(24.200001, 24.2)).toBe(1)
    expect(compareNm(24.199999, 24.2)).toBe(-1)
    expect(Object.is(toMicroNm(-1e-9), 0)).toBe(true)
  })

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('%s is a bug, not a torque', (value) => {
    expect(() => toNm(value, 'N·m')).toThrow(RangeError)
    expect(() => fromNm(value, 'lbf·ft')).toThrow(RangeError)
    expect(() => toMicroNm(value)).toThrow(RangeError)
    expect(() => roundTo(value, 1)).toThrow(RangeError)
    expect(() => roundTo(1, value)).toThrow(RangeError)
    expect(() => showTorque(value, 'N·m')).toThrow(RangeError)
  })
})

describe('torques as a person writes them', () => {
  test.each([
    [1.005, 0.01, 1.01],
    [-2.5, 1, -3],
    [0.3, 0.1, 0.3],
    [21.8182, 0.1, 21.8],
    [47.4536, 5, 45],
    [0.02, 0.1, 0],
  ])('%f to the nearest %f is %f', (value, step, rounded) => {
    expect(roundTo(value, step)).toBe(rounded)
  })

  test('a number has no exponent, no trailing zeros and no grouping', () => {
    expect(formatNumber(1843.9053, 0)).toBe('1844')
    expect(formatNumber(100)).toBe('100')
    expect(formatNumber(100, 0)).toBe('100')
    expect(formatNumber(1e-7)).toBe('0')
    expect(formatNumber(-1e-7)).toBe('0')
    expect(formatNumber(-1.5)).toBe('−1.5')
    expect(formatNumber(1234567.891)).toBe('1234567.891')
  })

  test('a degree of angle stands close to its number, and no other unit does', () => {
    expect(['°', '', '°C', 'mm', 'N·m'].map((unit) => `17${unitAfter(unit)}`)).toEqual([
      '17°',
      '17',
      '17 °C',
      '17 mm',
      '17 N·m',
    ])
  })

  test.each([
    [22, 'N·m', '22'],
    [99.75, 'N·m', '99.75'],
    [110.25, 'N·m', '110.25'],
    [22 * 1.1, 'N·m', '24.2'],
    [0, 'N·m', '0'],
    [50, 'lbf·ft', '36.9'],
    [180, 'lbf·ft', '133'],
    [2500, 'lbf·ft', '1844'],
    [0.0282462, 'lbf·ft', '0.0208'],
    [22, 'kgf·m', '2.24'],
    [22, 'N·mm', '22000'],
  ] as const)('%f N·m is shown in %s as %s', (nm, unit, shown) => {
    expect(showTorque(nm, unit)).toBe(shown)
  })

  test('a reading just beyond a limit never reads as the limit', () => {
    const limit = 110.25
    const justOver = toNm(81.32, 'lbf·ft')
    expect(showTorque(limit, 'lbf·ft')).toBe('81.3')
    expect(showTorque(limit + 0.001, 'lbf·ft')).toBe('81.3')
    expect(Number(showTorque(limit + 0.001, 'lbf·ft', [limit]))).toBeGreaterThan(81.3)
    expect(showTorque(justOver, 'lbf·ft', [limit])).toBe('81.32')
    expect(showTorque(limit, 'lbf·ft', [limit])).toBe('81.3')
  })
})
