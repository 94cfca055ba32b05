import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  LUBRICATION_EXAMPLES,
  LUBRICATIONS,
  preloadScatter,
  readLubrication,
  shortForm,
  tightening,
} from '../../../shared/fastener'
import { answered, refusedAs } from './answered'

const bolt = { thread: 'M10', grade: '10.9' }

describe('with measured friction', () => {
  test('[FT6] preload and torque of an M10 10.9 at 0.12, head and hole as usual', () => {
    const found = answered(tightening({ ...bolt, muThread: 0.12, muHead: 0.12 }))
    expect(Math.abs((found.preloadN ?? 0) - 43_400)).toBeLessThan(100)
    expect(found.torqueNm).toBeCloseTo(71, 0)
    expect(found).toMatchObject({ headBearingMm: 14.6, holeMm: 11, utilisation: 0.9 })
    expect(found.low).toEqual(found.high)
    expect(found.cautions).toEqual(expect.arrayContaining(['maker_governs', 'default_head', 'default_hole']))
  })
  test('[FT6] head and hole as given change the torque and not the preload', () => {
    const usual = answered(tightening({ ...bolt, muThread: 0.12, muHead: 0.12 }))
    const flange = answered(
      tightening({ ...bolt, muThread: 0.12, muHead: 0.12, headBearingMm: 19.6, holeMm: 11 }),
    )
    expect(flange.preloadN).toBe(usual.preloadN)
    expect(flange.torqueNm ?? 0).toBeCloseTo(
      (usual.torqueNm ?? 0) + ((usual.preloadN ?? 0) * 0.12 * 1.25) / 1000,
      9,
    )
    expect(flange.cautions).not.toContain('default_head')
  })
  test('[FT7] a band of friction gives a band of torque and no single number', () => {
    const found = answered(
      tightening({ ...bolt, muThread: { low: 0.1, high: 0.14 }, muHead: { low: 0.1, high: 0.14 } }),
    )
    expect(found.torqueNm).toBeUndefined()
    expect(found.low.torqueNm).toBeLessThan(found.high.torqueNm)
    expect(found.recommended.torqueNm).toBe(found.low.torqueNm)
  })
})

describe('with a lubrication state', () => {
  test('[FT7] the torque is that of the lowest friction, and what is left at the highest is said', () => {
    const found = answered(tightening({ ...bolt, lubrication: 'oil' }))
    expect(found.lubrication).toMatchObject({ class: 'B', low: 0.08, high: 0.16 })
    expect(found).not.toHaveProperty('torqueNm')
    expect(found.recommended.preloadHighN).toBe(found.low.preloadN)
    expect(found.recommended.preloadLowN).toBeLessThan(0.65 * found.recommended.preloadHighN)
    // The same torque on the slippery bolt reaches the utilisation, and no more.
    const slippery = answered(tightening({ ...bolt, muThread: 0.08, muHead: 0.08 }))
    expect(found.recommended.torqueNm).toBe(slippery.torqueNm)
  })
  test('[FT9] the method’s scatter stands about the middle of the band, not on top of it', () => {
    const { scatter, recommended } = answered(
      tightening({ ...bolt, lubrication: 'oil', method: 'torque_lubricated' }),
    )
    expect(scatter?.nominalN).toBeGreaterThan(recommended.preloadLowN)
    expect(scatter?.nominalN).toBeLessThan(recommended.preloadHighN)
    expect(scatter?.preloadLowN).toBeCloseTo(0.75 * (scatter?.nominalN ?? 0), 6)
    expect(scatter?.preloadHighN).toBeCloseTo(1.25 * (scatter?.nominalN ?? 0), 6)
    expect(
      answered(tightening({ ...bolt, muThread: 0.1, muHead: 0.1, method: 'elongation' })).scatter?.nominalN,
    ).toBe(answered(tightening({ ...bolt, muThread: 0.1, muHead: 0.1 })).recommended.preloadLowN)
  })
  test.each([
    ['oil', 'oil'],
    ['oiled', 'oil'],
    ['engine oil', 'oil'],
    ['dry', 'dry'],
    ['anti-seize, thin', 'anti_seize'],
    ['ceramic grease, thin', 'anti_seize'],
    ['threadlocker, medium', 'threadlocker'],
    ['molybdenum paste', 'paste'],
    ['grease', 'grease'],
  ])('[FT7] a plan’s “%s” is %s', (text, state) => {
    expect(readLubrication(text)).toBe(state)
  })
  test('[FT7] what a person is told to write is understood', () => {
    for (const text of LUBRICATION_EXAMPLES) expect(LUBRICATIONS).toContain(readLubrication(text))
  })
  test('[FT7] every state has a band on steel', () => {
    for (const lubrication of LUBRICATIONS) {
      const { low, high } = answered(tightening({ ...bolt, lubrication }))
      expect(low.torqueNm).toBeLessThan(high.torqueNm)
    }
  })
  test('[FT7] what has no band is refused', () => {
    expect(refusedAs(tightening({ ...bolt, lubrication: 'thread sealant' }))).toBe('lubrication_unknown')
    expect(refusedAs(tightening({ ...bolt, lubrication: 'butter' }))).toBe('lubrication_unknown')
    expect(refusedAs(tightening(bolt))).toBe('friction_missing')
    expect(refusedAs(tightening({ thread: 'M10', grade: 'A4-70', lubrication: 'dry' }))).toBe(
      'stainless_needs_lubricant',
    )
    expect(
      answered(tightening({ thread: 'M10', grade: 'A4-70', lubrication: 'paste' })).lubrication?.class,
    ).toBe('B')
  })
})

describe('refused', () => {
  test('[FT8] a waisted shank without its waist; with it, it is reckoned on the waist', () => {
    const full = answered(tightening({ ...bolt, muThread: 0.12, muHead: 0.12 }))
    expect(refusedAs(tightening({ ...bolt, muThread: 0.12, muHead: 0.12, shank: 'waisted' }))).toBe(
      'waist_needed',
    )
    const waisted = answered(
      tightening({ ...bolt, muThread: 0.12, muHead: 0.12, shank: 'waisted', waistMm: 7.34 }),
    )
    expect(waisted.areaMm2).toBeCloseTo(42.3, 1)
    expect(waisted.preloadN ?? 0).toBeLessThan(0.75 * (full.preloadN ?? 0))
    expect(refusedAs(tightening({ ...bolt, muThread: 0.12, muHead: 0.12, waistMm: 9 }))).toBe(
      'waist_too_thick',
    )
  })
  test('[FT8] a head that falls through its hole, a hole the thread does not pass', () => {
    const at = { ...bolt, muThread: 0.12, muHead: 0.12 }
    expect(refusedAs(tightening({ ...at, headBearingMm: 11, holeMm: 11 }))).toBe('bearing_below_hole')
    expect(refusedAs(tightening({ ...at, holeMm: 9 }))).toBe('hole_below_thread')
  })
  test.each([
    { muThread: 0, muHead: 0.1 },
    { muThread: -0.1, muHead: 0.1 },
    { muThread: 0.1, muHead: Number.NaN },
    { muThread: Number.POSITIVE_INFINITY, muHead: 0.1 },
    { muThread: 0.1, muHead: 0.1, utilisation: 1.01 },
    { muThread: 0.1, muHead: 0.1, utilisation: 0 },
    { muThread: 0.1, muHead: 0.1, headBearingMm: -1 },
    { muThread: { low: 0.2, high: 0.1 }, muHead: 0.1 },
  ])('[FT19] %o', (wrong) => {
    expect(refusedAs(tightening({ ...bolt, ...wrong }))).toBe('number_impossible')
  })
  test('[FT4] a metric class on an inch thread is reckoned, and the odd pairing said', () => {
    const at = (thread: string, grade: string) =>
      answered(tightening({ thread, grade, muThread: 0.12, muHead: 0.12 })).cautions
    expect(at('3/8-16', '8.8')).toContain('grade_other_system')
    expect(at('M10', 'SAE 5')).toContain('grade_other_system')
    expect(at('3/8-16', 'SAE 5')).not.toContain('grade_other_system')
    expect(at('M10', '8.8')).not.toContain('grade_other_system')
  })
  test('[FT3] a taper thread and a bronze plug get no torque', () => {
    expect(refusedAs(tightening({ thread: 'R1/8', grade: '8.8', lubrication: 'oil' }))).toBe(
      'thread_other_form',
    )
    expect(refusedAs(tightening({ thread: 'M10', grade: 'bronze', lubrication: 'oil' }))).toBe(
      'grade_without_formula',
    )
  })
})

describe('short form', () => {
  test('[FT9] K·d·F, by either name, with its scatter', () => {
    const found = answered(shortForm({ k: 0.2, d: 10, preload: 30_000, method: 'torque_lubricated' }))
    expect(found.torqueNm).toBeCloseTo(60, 12)
    expect(found.scatter).toMatchObject({ plusMinusPct: 25, preloadLowN: 22_500, preloadHighN: 37_500 })
    expect(shortForm({ k: 0.2, dMm: 10, preloadN: 30_000 })).toMatchObject({ torqueNm: found.torqueNm })
    expect(refusedAs(shortForm({ k: 0, d: 10, preload: 1 }))).toBe('number_impossible')
    expect(refusedAs(shortForm({ k: 0.2, d: 10 }))).toBe('input_missing')
    expect(refusedAs(preloadScatter('luck'))).toBe('method_unknown')
    expect(preloadScatter('Torque lubricated')).toEqual(preloadScatter('torque_lubricated'))
  })
  test('[FT9] the nut factor VDI 2230 amounts to gives its torque back', () => {
    const {
      preloadN = 0,
      torqueNm = 0,
      low,
    } = answered(tightening({ ...bolt, muThread: 0.12, muHead: 0.14 }))
    expect(answered(shortForm({ k: low.k, d: 10, preload: preloadN })).torqueNm).toBeCloseTo(torqueNm, 9)
  })
})

describe('properties', () => {
  const size = fc.constantFrom(
    'M3',
    'M6',
    'M8x1',
    'M10',
    'M13x1.5',
    'M24x2',
    'M64',
    '#10-32',
    '3/8-16',
    '1-1/8-12',
  )
  const grade = fc.constantFrom('4.6', '8.8', '10.9', '12.9', 'A2-70')
  const mu = fc.double({ min: 0.02, max: 0.5, noNaN: true })
  const share = fc.double({ min: 0.05, max: 1, noNaN: true })
  const torque = (input: Parameters<typeof tightening>[0]) => answered(tightening(input))

  test('[FT6] more friction, less preload; more head friction, more torque; more use, more of both', () => {
    fc.assert(
      fc.property(size, grade, mu, mu, share, share, (thread, mark, a, b, u, v) => {
        const at = (muThread: number, muHead: number, utilisation: number) =>
          torque({ thread, grade: mark, muThread, muHead, utilisation })
        const [low, high] = a < b ? [a, b] : [b, a]
        const [less, more] = u < v ? [u, v] : [v, u]
        if (high - low > 1e-6) {
          expect(at(high, low, 0.9).preloadN ?? 0).toBeLessThan(at(low, low, 0.9).preloadN ?? 0)
          expect(at(low, high, 0.9).torqueNm ?? 0).toBeGreaterThan(at(low, low, 0.9).torqueNm ?? 0)
          expect(at(high, high, 0.9).low.k).toBeGreaterThan(at(low, low, 0.9).low.k)
        }
        if (more - less > 1e-6) {
          expect(at(low, low, more).torqueNm ?? 0).toBeGreaterThan(at(low, low, less).torqueNm ?? 0)
          expect(at(low, low, more).preloadN ?? 0).toBeGreaterThan(at(low, low, less).preloadN ?? 0)
        }
      }),
    )
  })
  test('[FT7] the recommended torque overstresses at no friction of the band', () => {
    fc.assert(
      fc.property(
        size,
        grade,
        mu,
        mu,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (thread, mark, a, b, where) => {
          const band = { low: Math.min(a, b), high: Math.max(a, b) }
          const { recommended } = torque({ thread, grade: mark, muThread: band, muHead: band })
          const between = band.low + where * (band.high - band.low)
          const full = torque({ thread, grade: mark, muThread: between, muHead: between })
          expect(recommended.torqueNm / (full.torqueNm ?? 0)).toBeLessThanOrEqual(1 + 1e-12)
          expect(recommended.preloadLowN).toBeLessThanOrEqual(recommended.preloadHighN * (1 + 1e-12))
        },
      ),
    )
  })
})
