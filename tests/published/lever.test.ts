/**
 * The lever rule against settings printed in manuals: setting = wanted × L / (L + E·cos α).
 *
 * Each row says where its figure stands, or that only memory of the page is left; the tolerance is half of the last digit printed there. Rows without a
 * printed answer are reckoned from the formula alone and say so.
 */
import { describe, expect, test } from 'vitest'
import { leverFactor, settingFor } from '../../shared/wrench'

interface Row {
  source: string
  /** Wanted at the fastener; setting and wanted are in one unit, so any will do. */
  wanted: number
  wrench: number
  adapter: number
  angleDeg: number
  setting: number
  within: number
}

const printed: Row[] = [
  {
    source: 'memory: a light helicopter’s maintenance manual, chapter 20.4 (135 at 10 + 1.5)',
    wanted: 135,
    wrench: 10,
    adapter: 1.5,
    angleDeg: 0,
    setting: 117.39,
    within: 0.005,
  },
  {
    source: 'US Army TM 1-1500-204-23-9, page 8-143',
    wanted: 300,
    wrench: 10,
    adapter: 4,
    angleDeg: 0,
    setting: 214,
    within: 0.5,
  },
  {
    source: 'US Army TM 9-254, figure 4-5, straight example',
    wanted: 70,
    wrench: 12,
    adapter: 2,
    angleDeg: 0,
    setting: 60,
    within: 0.005,
  },
  {
    source: 'memory: two vehicle service manuals with the same example (20 at 14 + 3)',
    wanted: 20,
    wrench: 14,
    adapter: 3,
    angleDeg: 0,
    setting: 16.5,
    within: 0.05,
  },
  {
    source: 'memory: a torque wrench’s owner’s manual, page 7 (50 at 16 + 2)',
    wanted: 50,
    wrench: 16,
    adapter: 2,
    angleDeg: 0,
    setting: 44.44,
    within: 0.005,
  },
]

const reckoned: Row[] = [
  {
    source: 'NAVEDTRA 14315, figure 3-45 inputs; answer reckoned',
    wanted: 100,
    wrench: 12,
    adapter: 6,
    angleDeg: 0,
    setting: 66.666667,
    within: 1e-6,
  },
  {
    source: 'formula, 45°',
    wanted: 80,
    wrench: 400,
    adapter: 50,
    angleDeg: 45,
    setting: 73.503176,
    within: 1e-6,
  },
  {
    source: 'formula, 30°',
    wanted: 120,
    wrench: 500,
    adapter: 75,
    angleDeg: 30,
    setting: 106.203731,
    within: 1e-6,
  },
]

describe('settings with an adapter', () => {
  test.each([...printed, ...reckoned])(
    '[SC6] $source',
    ({ wanted, wrench, adapter, angleDeg, setting, within }) => {
      const got = settingFor(wanted, 'N·m', { wrenchMm: wrench, adapterMm: adapter, angleDeg })
      expect(Math.abs(got - setting)).toBeLessThanOrEqual(within)
    },
  )
  test('[SC6] at a right angle the setting does not change (memory: so in two vehicle manuals and a wrench’s)', () => {
    for (const angleDeg of [90, 270]) {
      const adapter = { wrenchMm: 400, adapterMm: 50, angleDeg }
      expect(leverFactor(adapter)).toBe(1)
      expect(settingFor(80, 'N·m', adapter)).toBe(80)
    }
  })
  test('[SC6] turned back over the handle it shortens the lever', () => {
    const adapter = { wrenchMm: 400, adapterMm: 100, angleDeg: 180 }
    expect(leverFactor(adapter)).toBe(0.75)
    expect(settingFor(30, 'N·m', adapter)).toBe(40)
  })
  test('[SC6] a manual that prints L·E·cos α for the lever has a misprint: its own straight example needs the sum', () => {
    const product = (70 * 12) / (12 * 2)
    expect(product).not.toBeCloseTo(60, 0)
    expect(settingFor(70, 'N·m', { wrenchMm: 12, adapterMm: 2, angleDeg: 0 })).toBeCloseTo(60, 9)
  })
})
