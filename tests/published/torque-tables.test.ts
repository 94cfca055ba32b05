/** The short form, nut factors, scatter of preload and the airframe table, against what is printed. */
import { describe, expect, test } from 'vitest'
import {
  airframeTorque,
  NUT_FACTORS,
  preloadRange,
  preloadScatter,
  proofLoadN,
  shortForm,
} from '../../shared/fastener'
import { isRefusal } from '../../shared/log'
import { fromNm, toNm } from '../../shared/units'
import {
  AIRFRAME,
  NUT_FACTOR_ROWS,
  PRELOAD_RANGES,
  SCATTER,
  SHORT_FORM,
  THREE_QUARTERS_OF_PROOF,
} from './data/torque-tables'

const LBF = 0.45359237 * 9.80665

function answered<T>(value: T): Exclude<T, { refused: string }> {
  if (isRefusal(value)) throw new Error(JSON.stringify(value))
  return value as Exclude<T, { refused: string }>
}

describe('short form', () => {
  test.each(SHORT_FORM)('[FT9] K $k, $d $dUnit, $preload $preloadUnit ($status: $source)', (row) => {
    const found = answered(
      shortForm({
        k: row.k,
        d: row.d * (row.dUnit === 'in' ? 25.4 : 1),
        preload: row.preload * (row.preloadUnit === 'lbf' ? LBF : 1),
      }),
    )
    expect(Math.abs(fromNm(found.torqueNm, row.torqueUnit) - row.torque)).toBeLessThanOrEqual(row.within)
  })
  test('[FT5] three quarters of a proof load, as a trade article reckons it, to its printed 10 lbf', () => {
    const { thread, grade, preloadLbf } = THREE_QUARTERS_OF_PROOF
    const lbf = (0.75 * answered(proofLoadN(thread, grade) as number)) / LBF
    expect(Math.abs(lbf - preloadLbf)).toBeLessThanOrEqual(5)
  })
  test.each(NUT_FACTOR_ROWS)('[FT9] nut factor, %s: %d (%s)', (_, k, status) => {
    expect(NUT_FACTORS.some((row) => row.k === k && row.status === status)).toBe(true)
  })
  test('[FT9] no nut factor stands here that no row carries', () => {
    expect(NUT_FACTORS.map(({ k }) => k)).toEqual(NUT_FACTOR_ROWS.map(([, k]) => k))
  })
})

describe('scatter of preload', () => {
  test.each(SCATTER)('[FT9] %s: ±%d %% (found, “%s”)', (method, plusMinusPct) => {
    const found = answered(preloadScatter(method))
    expect(found.plusMinusPct).toBe(plusMinusPct)
    expect(found.tighteningFactor).toBeCloseTo((100 + plusMinusPct) / (100 - plusMinusPct), 12)
  })
  // Reckoned there to a hundredth of the unit.
  test.each(PRELOAD_RANGES)(
    '[FT9] $torque $units, K $k, ±$plusMinusPct % (computed; form from memory)',
    (row) => {
      const inch = row.units === 'lbf·in'
      const found = answered(
        preloadRange({
          torqueNm: toNm(row.torque, row.units),
          k: row.k,
          dMm: row.d * (inch ? 25.4 : 1),
          plusMinusPct: row.plusMinusPct,
        }),
      )
      const force = inch ? LBF : 1
      expect(Math.abs(found.nominalN / force - row.nominal)).toBeLessThanOrEqual(0.01)
      expect(Math.abs(found.highN / force - row.high)).toBeLessThanOrEqual(0.01)
      expect(Math.abs(found.lowN / force - row.low)).toBeLessThanOrEqual(0.01)
      expect(Math.abs(found.settledLowN / force - row.settledLow)).toBeLessThanOrEqual(0.01)
    },
  )
})

describe('airframe table', () => {
  test.each(AIRFRAME)('[FT20] %s (found: FAA AC 43.13-1B)', (name, ...row) => {
    const [tensionLow, tensionHigh, shearLow, shearHigh, maxTension, maxShear, estimated] = row
    const found = answered(airframeTorque(name))
    // The figures are whole; the way there and back costs a double's last digit.
    const printed = [
      found.tension.minNm,
      found.tension.maxNm,
      found.shear.minNm,
      found.shear.maxNm,
      found.tension.limitNm,
      found.shear.limitNm,
    ].map((nm) => Math.round(fromNm(nm, 'lbf·in') * 1e9) / 1e9)
    expect(printed).toEqual([tensionLow, tensionHigh, shearLow, shearHigh, maxTension, maxShear])
    expect(found.estimated).toBe(estimated)
  })
  test('[FT20] a size it does not list is refused, not reckoned between its neighbours', () => {
    expect(airframeTorque('#6-32')).toMatchObject({ refused: 'no_published_torque' })
    expect(airframeTorque('M10')).toMatchObject({ refused: 'no_published_torque' })
  })
})
