/**
 * Mean and deviation against NIST's Statistical Reference Datasets (univariate).
 *
 * Mavro: found, data and certified values. NumAcc1, 2 and 4: from memory, verified with rational arithmetic; they break
 * one-pass formulas. Tolerances are the digits a double can hold of each: NumAcc4 keeps eight of the deviation.
 */
import { expect, test } from 'vitest'
import { type Spread, spread } from '../../shared/measure'
import { MAVRO } from './data/nist-mavro'

const of = (values: readonly number[]) => spread(values) as Spread
const alternating = (first: number, low: number, high: number) => [
  first,
  ...Array.from({ length: 500 }, () => [low, high]).flat(),
]

test('Mavro, 50 readings', () => {
  expect(MAVRO).toHaveLength(50)
  expect(of(MAVRO).mean).toBeCloseTo(2.001856, 13)
  expect(of(MAVRO).deviation).toBeCloseTo(0.000429123454003053, 13)
})
test('NumAcc1', () => {
  expect(of([10000001, 10000003, 10000002])).toMatchObject({ mean: 10000002, deviation: 1, range: 2 })
})
test('NumAcc2', () => {
  const found = of(alternating(1.2, 1.1, 1.3))
  expect(found.mean).toBeCloseTo(1.2, 13)
  expect(found.deviation).toBeCloseTo(0.1, 13)
})
test('NumAcc4', () => {
  const found = of(alternating(10000000.2, 10000000.1, 10000000.3))
  expect(found.mean).toBeCloseTo(10000000.2, 7)
  expect(found.deviation).toBeCloseTo(0.1, 8)
})
