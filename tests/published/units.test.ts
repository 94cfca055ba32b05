/** Torque units against the outside: NIST SP 811 (2008), exact fractions, service-manual pairs, mathjs. */
import fc from 'fast-check'
import { unit } from 'mathjs'
import { describe, expect, test } from 'vitest'
import {
  fromMm,
  fromNm,
  roundTo,
  showTorque,
  TORQUE_UNITS,
  type TorqueUnit,
  toMm,
  toNm,
} from '../../shared/units'
import { CONVERSIONS, FACTORS, PUBLISHED_PAIRS } from './data/torque-units'

describe('lengths', () => {
  test('an inch is 25.4 mm and a thousandth of it 0.0254, exactly (NIST SP 811, appendix B)', () => {
    expect([toMm(1, 'in'), toMm(1, 'thou'), fromMm(25.4, 'in')]).toEqual([25.4, 0.0254, 1])
  })
})

describe('torque factors', () => {
  test('every unit has its exact factor among the data', () => {
    expect(FACTORS.map((factor) => factor.unit).sort()).toEqual([...TORQUE_UNITS].sort())
  })

  test('the exact fractions follow from the pound, the foot and standard gravity', () => {
    const lbfFt = [45359237n * 980665n * 3048n, 10n ** (8n + 5n + 4n)] as const
    const [times, over] = FACTORS.find((factor) => factor.unit === 'lbf·ft')?.exact ?? [0n, 1n]
    expect(lbfFt[0] * over).toBe(times * lbfFt[1])
  })

  test.each(FACTORS)('one $unit in N·m is exact to 1e-12', ({ unit, exact }) => {
    expectClose(toNm(1, unit), fraction(exact))
  })

  test.each(FACTORS.filter((factor) => factor.printed))(
    'one $unit rounds to the $printed that SP 811 prints',
    ({ unit, printed = '' }) => {
      const digits = printed.replace(/^0\.0*|\./g, '').length
      expect(Number(toNm(1, unit).toPrecision(digits))).toBe(Number(printed))
    },
  )
})

describe('conversions', () => {
  test.each(CONVERSIONS)('$id: $value $from in $to', ({ value, from, to, exact }) => {
    expectClose(fromNm(toNm(value, from), to), fraction(exact))
  })

  test.each(PUBLISHED_PAIRS)('$id: $value $from is printed as $printed $to', (pair) => {
    const nm = toNm(pair.value, pair.from)
    expect(roundTo(fromNm(nm, pair.to), pair.step)).toBe(pair.printed)
    // What we show carries more digits than the manual and lies within its rounding.
    expect(Math.abs(Number(showTorque(nm, pair.to)) - pair.printed)).toBeLessThanOrEqual(pair.step / 2)
    expect(showTorque(nm, pair.from)).toBe(String(pair.value))
  })

  test('every unit agrees with mathjs to 1e-12, there and back', () => {
    const anyUnit = fc.constantFrom(...TORQUE_UNITS)
    const anyTorque = fc
      .double({ min: -1e6, max: 1e6, noNaN: true })
      .filter((value) => Math.abs(value) > 1e-9)
    fc.assert(
      fc.property(anyTorque, anyUnit, (value, from) => {
        expectClose(toNm(value, from), oracle(value, from))
        expectClose(fromNm(toNm(value, from), from), value)
      }),
    )
  })
})

/** How mathjs spells them. */
const ORACLE: Record<TorqueUnit, string> = {
  N·m: 'N m',
  N·mm: 'N mm',
  cN·m: 'cN m',
  dN·m: 'dN m',
  daN·m: 'daN m',
  kN·m: 'kN m',
  lbf·ft: 'lbf ft',
  lbf·in: 'lbf in',
  // mathjs has no ounce-force: see `oracle`.
  ozf·in: 'lbf in',
  kgf·m: 'kgf m',
  kgf·cm: 'kgf cm',
}

function oracle(value: number, from: TorqueUnit): number {
  const nm = unit(value, ORACLE[from]).toNumber('N m')
  return from === 'ozf·in' ? nm / 16 : nm
}

function expectClose(value: number, expected: number) {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(Math.abs(expected) * 1e-12)
}

/** To 30 digits before it becomes a double, so that the only rounding is the last one. */
function fraction([times, over]: [bigint, bigint]): number {
  const digits = 30
  const scaled = ((times * 10n ** BigInt(digits)) / over).toString().padStart(digits + 1, '0')
  return Number(`${scaled.slice(0, -digits)}.${scaled.slice(-digits)}`)
}
