/** What to set, whether a wrench can do a joint at all, and how the crib ranks for it. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import type { Band, Pass } from '../../../shared/plan/types'
import type { Wrench } from '../../../shared/shop/types'
import {
  againstWrench,
  applied,
  coarsestResolutionNm,
  deviationLimitPct,
  deviationPct,
  pickWrench,
  roomFor,
  settingOn,
  type TorqueWrench,
  type WrenchRefusal,
  wrenchSentence,
  wrenchSetting,
} from '../../../shared/wrench'
import { figures } from '../../shop/words'
import { wrench } from '../../shop/wrenches'

const NOW = 1_000_000_000
const click = (id: string, min: number, max: number, but: Partial<Wrench> = {}): TorqueWrench =>
  wrench(id, {
    title: `click wrench ${id}`,
    min,
    max,
    increment: 0.5,
    dueAt: NOW + 1,
    ...but,
  }) as TorqueWrench
const band = (minNm: number, maxNm: number): Band & { kind: 'torque' } => ({
  kind: 'torque',
  minNm,
  maxNm,
  from: 'plan',
})

describe('the lever, every angle', () => {
  const levers = fc.record({
    wrenchMm: fc.double({ min: 100, max: 1500, noNaN: true }),
    adapterMm: fc.double({ min: 0, max: 90, noNaN: true }),
    angleDeg: fc.double({ min: -360, max: 360, noNaN: true }),
  })
  test('setting and applied are each other’s inverse', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 3000, noNaN: true }), levers, (targetNm, lever) => {
        const setting = wrenchSetting({ targetNm, ...lever }) as number
        expect((applied(setting, lever) as number) / targetNm).toBeCloseTo(1, 12)
      }),
    )
  })
  test('out to the side asks less, square asks the same, back asks more', () => {
    const at = (angleDeg: number) =>
      wrenchSetting({ targetNm: 80, wrenchMm: 400, adapterMm: 50, angleDeg }) as number
    expect(at(0)).toBeLessThan(80)
    expect(at(90)).toBe(80)
    expect(at(270)).toBe(80)
    expect(at(180)).toBeGreaterThan(80)
    expect(at(45)).toBeCloseTo(at(-45), 12)
  })
  test.each([
    ['torque_impossible', wrenchSetting({ targetNm: 0, wrenchMm: 400, adapterMm: 50, angleDeg: 0 })],
    ['lever_impossible', wrenchSetting({ targetNm: 10, wrenchMm: 0, adapterMm: 50, angleDeg: 0 })],
    ['lever_impossible', applied(10, { wrenchMm: 400, adapterMm: -1, angleDeg: 0 })],
    ['lever_impossible', applied(10, { wrenchMm: 400 } as never)],
    ['torque_impossible', wrenchSetting({ targetNm: Number.NaN, wrenchMm: 400, adapterMm: 50, angleDeg: 0 })],
    ['torque_impossible', applied(1e308, { wrenchMm: 400, adapterMm: 399, angleDeg: 180 })],
    ['check_impossible', deviationPct(Number.NaN, 100)],
    ['lever_reversed', applied(10, { wrenchMm: 400, adapterMm: 399.7, angleDeg: 180 })],
    ['lever_reversed', applied(10, { wrenchMm: 100, adapterMm: 100, angleDeg: 180 })],
    ['check_impossible', deviationPct(10, 0)],
  ])('refused: %s', (code, answer) => {
    expect(isRefusal(answer)).toBe(true)
    expect((answer as WrenchRefusal).refused).toBe(code)
    expect(wrenchSentence(answer as WrenchRefusal, figures)).toMatch(/\.$/)
    expect(wrenchSentence(answer as WrenchRefusal, figures)).not.toMatch(/undefined|NaN/)
  })
})

describe('what to set', () => {
  test('the nearest mark of the scale', () => {
    expect(settingOn(click('a', 10, 60), 22.3, band(21, 24))).toMatchObject({
      value: 22.5,
      appliesNm: 22.5,
      inBand: true,
      betweenMarks: false,
    })
  })
  test('between two marks where neither stays in the band', () => {
    const coarse = click('a', 10, 100, { increment: 5 })
    expect(settingOn(coarse, 22, band(21, 24))).toMatchObject({ value: 22, betweenMarks: true, inBand: true })
  })
  test('through a crowfoot and in the unit of the scale', () => {
    const wrench = { ...click('a', 5, 75), unit: 'lbf·ft' as const, increment: 0.1 }
    const set = settingOn(wrench, 80, band(76, 84), { wrenchMm: 400, adapterMm: 50, angleDeg: 0 })
    // 80 · 400/450 = 71.11 N·m = 52.449 lbf·ft; the mark 52.4 applies 52.4 · 1.3558 · 1.125 = 79.925 N·m
    expect(set.value).toBeCloseTo(52.4, 12)
    expect(set.appliesNm).toBeCloseTo(79.9255, 4)
  })
})

describe('can this wrench do this joint at all', () => {
  test('its deviation and half a step come off on both sides', () => {
    // 95·1.04 + 0.25 = 99.05 and 105·0.96 − 0.25 = 100.55
    const room = roomFor(click('a', 20, 120), band(95, 105))
    expect(room.low).toBeCloseTo(99.05, 9)
    expect(room.high).toBeCloseTo(100.55, 9)
    expect(room).toMatchObject({ can: true, deviationPct: 4 })
  })
  test('a small wrench is held to six per cent, and a band of five leaves it nothing', () => {
    expect(roomFor(click('a', 1, 10, { increment: 0.1 }), band(7.6, 8.4))).toMatchObject({
      can: false,
      deviationPct: 6,
    })
  })
  test('room but no mark in it is none', () => {
    expect(roomFor(click('a', 20, 120, { increment: 4 }), band(90, 102)).can).toBe(false)
    expect(roomFor(click('a', 20, 120, { increment: 0.5 }), band(90, 102)).can).toBe(true)
  })
  test('whatever may be set there applies inside the band, with the wrench at the end of its deviation', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 200, noNaN: true }),
        fc.double({ min: 0.05, max: 0.3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (target, give, where) => {
          const [min, max] = [target * (1 - give), target * (1 + give)]
          const room = roomFor(click('a', 1, 300), band(min, max))
          if (!room.can) return
          const set = room.low + (room.high - room.low) * where
          expect(set / (1 + room.deviationPct / 100)).toBeGreaterThanOrEqual(min - 1e-9)
          expect(set / (1 - room.deviationPct / 100)).toBeLessThanOrEqual(max + 1e-9)
        },
      ),
    )
  })
  test('limits by type and class, and a display no coarser than a quarter of them', () => {
    expect(deviationLimitPct({ maxNm: 50, type: 'I', class: 'D' })).toBe(6)
    expect(deviationLimitPct({ maxNm: 50, type: 'I', class: 'B' })).toBe(4)
    expect(deviationLimitPct({ maxNm: 50, class: 'E' })).toBe(6)
    expect(coarsestResolutionNm({ maxNm: 100 }, 20)).toBeCloseTo(0.2, 12)
  })
})

describe('the crib ranked', () => {
  const passes: Pass[] = [
    { kind: 'torque', torqueNm: 30, wrench: 'plan' },
    { kind: 'wait', minutes: 5 },
  ]
  const bands = [band(27, 33), null]
  const rank = (...wrenches: Wrench[]) => pickWrench({ passes, bands }, 1, { wrenches, now: NOW })
  const ids = (...wrenches: Wrench[]) => rank(...wrenches).map(({ wrench }) => wrench.id)

  test('the plan’s wrench first, as long as it fits', () => {
    expect(ids(click('b', 10, 60), click('plan', 10, 60))).toEqual(['plan', 'b'])
    expect(ids(click('b', 10, 60), click('plan', 10, 60, { state: 'failed' }))).toEqual(['b', 'plan'])
  })
  test('in range, in date, in reach, margin, unit on the scale', () => {
    const crib = [
      click('dropped', 10, 60, { state: 'dropped' }),
      click('late', 10, 60, { dueAt: NOW - 1 }),
      click('small', 5, 25),
      { ...click('feet', 10, 60), unit: 'lbf·ft' as const },
      click('coarse', 10, 60, { increment: 1 }),
      click('fine', 10, 60, { increment: 0.25 }),
      click('large', 20, 200),
    ]
    expect(ids(...crib)).toEqual(['fine', 'coarse', 'feet', 'large', 'small', 'late', 'dropped'])
    const away = pickWrench({ passes, bands }, 1, { wrenches: crib, now: NOW, away: { fine: 'at the slip' } })
    expect(away.map(({ wrench }) => wrench.id).slice(0, 3)).toEqual(['coarse', 'feet', 'large'])
  })
  test('every reason against a wrench is said, in words', () => {
    const [picked] = rank(click('old', 40, 200, { state: 'failed', dueAt: NOW - 1 }))
    expect(picked?.fits).toBe(false)
    expect(picked && againstWrench(picked, figures)).toEqual([
      'failed its check: do not use',
      'its check is out of date',
      '30 N·m is outside its scale, 40–200 N·m',
      'in the lowest fifth of its scale, where it is less accurate',
    ])
  })
  test('an adapter moves the number, and with it the range', () => {
    const crib = { wrenches: [click('a', 28, 60)], now: NOW }
    expect(pickWrench({ passes, bands }, 1, crib)[0]?.fits).toBe(true)
    const adapter = { wrenchMm: 400, adapterMm: 100, angleDeg: 0 }
    expect(pickWrench({ passes, bands }, 1, { ...crib, adapter })[0]?.against).toContain('out_of_range')
  })
  test('one adapter makes another lever on every wrench', () => {
    const wrenches = [click('short', 10, 60, { lengthMm: 250 }), click('long', 10, 60, { lengthMm: 500 })]
    const adapterOn = ({ lengthMm }: Wrench) => lengthMm && { wrenchMm: lengthMm, adapterMm: 50, angleDeg: 0 }
    const set = (crib: Partial<Parameters<typeof pickWrench>[2]>) =>
      Object.fromEntries(
        pickWrench({ passes, bands }, 1, { wrenches, now: NOW, ...crib }).map(({ wrench, setting }) => [
          wrench.id,
          setting?.value,
        ]),
      )
    expect(set({ adapterOn: (wrench) => adapterOn(wrench) || undefined })).toEqual({ short: 25, long: 27.5 })
    expect(set({})).toEqual({ short: 30, long: 30 })
  })
  test('no wrench for a pass that takes none, or that does not exist', () => {
    expect(pickWrench({ passes, bands }, 2, { wrenches: [click('a', 10, 60)], now: NOW })).toEqual([])
    expect(pickWrench({ passes, bands }, 9, { wrenches: [click('a', 10, 60)], now: NOW })).toEqual([])
  })
  test('an angle pass asks for a gauge, whose scale has no range to miss', () => {
    const gauge: Wrench = { ...click('gauge', 0, 360), kind: 'angle_gauge', unit: 'deg' }
    const angle: Pass[] = [{ kind: 'angle', angleDeg: 90 }]
    expect(
      pickWrench({ passes: angle }, 1, { wrenches: [click('a', 10, 60), gauge], now: NOW }),
    ).toMatchObject([{ wrench: { id: 'gauge' }, fits: true, against: [] }])
  })
})
