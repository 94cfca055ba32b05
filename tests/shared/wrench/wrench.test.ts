/** What a scale applies, when a wrench is doubted, when a number may be in another unit. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Band } from '../../../shared/plan/types'
import type { Wrench } from '../../../shared/shop/types'
import { TORQUE_UNITS } from '../../../shared/units'
import {
  appliedNm,
  leverFactor,
  settingFor,
  unitSlip,
  unitsInUse,
  wrenchDoubts,
  wrenchThen,
} from '../../../shared/wrench'
import { testShop } from '../../shop/shop'
import { START } from '../../shop/time'
import { crib } from '../../shop/wrenches'

const band: Band = { kind: 'torque', minNm: 28, maxNm: 32, from: 'maker' }
const dial = crib.dial as Wrench

describe('the lever', () => {
  test('[SC6] without an adapter nothing changes', () => {
    expect(leverFactor(undefined)).toBe(1)
    expect(appliedNm(30, 'N·m')).toBe(30)
  })
  test('[SC6] nothing on the scale applies nothing, also where the lever reaches back beyond the hand', () => {
    expect(appliedNm(0, 'N·m', { wrenchMm: 114, adapterMm: 299, angleDeg: 113 })).toBe(0)
  })
  test('[SC6] a setting made for a torque applies that torque, in any unit and with any adapter that lengthens', () => {
    const adapters = fc.record({
      wrenchMm: fc.double({ min: 50, max: 2000, noNaN: true }),
      adapterMm: fc.double({ min: 0, max: 500, noNaN: true }),
      angleDeg: fc.double({ min: 0, max: 90, noNaN: true }),
    })
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 2000, noNaN: true }),
        fc.constantFrom(...TORQUE_UNITS),
        fc.option(adapters, { nil: undefined }),
        (target, unit, adapter) => {
          expect(appliedNm(settingFor(target, unit, adapter), unit, adapter) / target).toBeCloseTo(1, 12)
          expect(leverFactor(adapter)).toBeGreaterThanOrEqual(1)
        },
      ),
    )
  })
})

describe('a slip of unit', () => {
  const units = unitsInUse(testShop)
  test('[SC7] the units a shop uses are the sheet’s and those on its scales', () => {
    expect(units).toEqual(['N·m', 'lbf·ft'])
    expect(unitsInUse({ ...testShop, wrenches: { gauge: crib.gauge as Wrench } })).toEqual(['N·m'])
  })
  test('[SC7] [RD14] a number that misses and fits in another unit', () => {
    expect(unitSlip(30, 'lbf·ft', band, units)).toMatchObject({
      value: 30,
      readAs: 'lbf·ft',
      fitsAs: 'N·m',
      fitsNm: 30,
    })
    expect(unitSlip(22, 'N·m', band, units)).toMatchObject({ readNm: 22, fitsAs: 'lbf·ft' })
  })
  test('[SC7] no false alarm: it fits as it stands, fits nowhere, or there is nothing to fit', () => {
    expect(unitSlip(30, 'N·m', band, units)).toBeUndefined()
    expect(unitSlip(28, 'N·m', band, units)).toBeUndefined()
    expect(unitSlip(6, 'N·m', band, units)).toBeUndefined()
    expect(unitSlip(22, 'N·m', band, ['N·m'])).toBeUndefined()
    expect(unitSlip(30, 'lbf·ft', null, units)).toBeUndefined()
    expect(
      unitSlip(30, 'lbf·ft', { kind: 'angle', minDeg: 20, maxDeg: 40, from: 'plan' }, units),
    ).toBeUndefined()
  })
  test('[SC7] the adapter is reckoned in on both sides', () => {
    const adapter = { wrenchMm: 400, adapterMm: 100, angleDeg: 0 }
    expect(unitSlip(24, 'lbf·ft', band, units, adapter)).toMatchObject({ fitsAs: 'N·m', fitsNm: 30 })
    expect(unitSlip(24, 'N·m', band, units, adapter)).toBeUndefined()
  })
  test('[RD13] a slip and a fit exclude each other, whatever the number', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 500, noNaN: true }), fc.constantFrom(...units), (value, unit) => {
        const slip = unitSlip(value, unit, band, units)
        const nm = appliedNm(value, unit)
        if (nm >= 28 && nm <= 32) expect(slip).toBeUndefined()
        if (slip) expect(slip.fitsNm).toBeGreaterThanOrEqual(28 - 1e-6)
        if (slip) expect(slip.fitsNm).toBeLessThanOrEqual(32 + 1e-6)
      }),
    )
  })
})

describe('doubts', () => {
  const doubts = (but: Partial<Wrench>, value?: number, at = START) =>
    wrenchDoubts(wrenchThen({ ...dial, ...but }), value, at)
  test('[RD16] a wrench nobody knows', () => {
    expect(wrenchDoubts(undefined, 30, START)).toEqual(['wrench_unknown'])
  })
  test('[RD17] [RD18] [RD19] none, one, or all of them', () => {
    expect(doubts({}, 30)).toEqual([])
    expect(doubts({}, 5)).toEqual([])
    expect(doubts({}, 100)).toEqual([])
    expect(doubts({ min: 40 })).toEqual([])
    expect(doubts({ min: 40, dueAt: START - 1, state: 'dropped' }, 30)).toEqual([
      'wrench_out_of_range',
      'wrench_out_of_date',
      'wrench_failed',
    ])
  })
  test('[FW10] an event keeps the wrench as it was, without what it does not know', () => {
    const { lastCheckedAt: _, dueAt: __, ...bare } = dial
    expect(wrenchThen(dial)).toMatchObject({ lastCheckedAt: dial.lastCheckedAt, dueAt: dial.dueAt })
    expect(Object.keys(wrenchThen(bare))).toEqual(['id', 'kind', 'unit', 'min', 'max', 'state'])
  })
})
