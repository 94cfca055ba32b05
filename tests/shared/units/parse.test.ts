import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import {
  fromMm,
  LENGTH_UNITS,
  numberAt,
  parseLength,
  parseTorque,
  roundToDigits,
  roundToIncrement,
  showInch,
  TORQUE_UNITS,
  type TorqueUnit,
  toMm,
  toNm,
  unambiguous,
  unitNamed,
  unitSentenceFor,
} from '../../../shared/units'
import { figures } from '../../shop/words'

const SPELLINGS: Record<TorqueUnit, string[]> = {
  N·m: [
    'N·m',
    'Nm',
    'N.m',
    'N•m',
    'N⋅m',
    'N-m',
    'N m',
    'NM',
    'N»m',
    'N*m',
    'newton metres',
    'Newton-meter',
    'm.N',
  ],
  N·mm: ['N·mm', 'Nmm', 'N-mm', 'mN·m', 'mNm', 'newton millimetres'],
  cN·m: ['cN·m', 'cNm', 'N·cm', 'Ncm'],
  dN·m: ['dN·m', 'dNm'],
  daN·m: ['daN·m', 'daNm', 'm.daN', 'mdaN', 'DaN.m'],
  kN·m: ['kN·m', 'kNm', 'KNm'],
  lbf·ft:
    'lb-ft|lb ft|lbft|ft-lb|ft lb|ftlb|ft.lb|ft. lbs.|ft.-lbs.|ft-lbs|lbf·ft|lbf.ft|ft·lbf|ftlbf|foot-pounds|foot pounds|pound-feet|pound foot|pounds-force feet|LB-FT|Ib-ft|Ibf·ft|1b-ft|ft/lbs|lb/ft'.split(
      '|',
    ),
  lbf·in:
    'in-lb|in lb|in. lbs.|lb·in|lb-in|lbf·in|lbf in|inch pounds|inch-pounds|pound-inches|in/lb|Ib-in'.split(
      '|',
    ),
  ozf·in: ['oz-in', 'ozf·in', 'in-oz', 'ounce-inches', 'inch ounces'],
  kgf·m: ['kgf·m', 'kgf-m', 'kg-m', 'kgm', 'kg·m', 'mkg', 'm-kg', 'mkp', 'kpm', 'kp·m', 'kgf m', 'mkgf'],
  kgf·cm: ['kgf·cm', 'kgf-cm', 'kg-cm', 'kgcm', 'kpcm', 'cmkg', 'cm·kgf', 'cmkp'],
}

describe('units as they are spelt', () => {
  test.each(TORQUE_UNITS.flatMap((unit) => SPELLINGS[unit].map((spelt) => [spelt, unit] as const)))(
    '%s is %s',
    (spelt, unit) => {
      expect(parseTorque(`35 ${spelt}`)).toEqual({ value: 35, unit, nm: toNm(35, unit) })
      expect(unitNamed(`(${spelt})`)).toBe(unit)
    },
  )

  test.each(['N/m', 'Nm²', 'Nm2', 'kg', 'lbs', 'ft', 'mm', 'psi', 'N', 'MN·m', 'kg·m²', 'Nms', 'in'])(
    '%s is no torque',
    (spelt) => {
      expect(parseTorque(`35 ${spelt}`)).toMatchObject({ refused: 'not_a_torque' })
    },
  )

  test('every unit is spelt by its own name', () => {
    for (const unit of TORQUE_UNITS) expect(unitNamed(unit)).toBe(unit)
  })
})

describe('torques as they are typed', () => {
  test.each([
    ['12,5 daN·m', 12.5, 'daN·m'],
    ['12.5daN·m', 12.5, 'daN·m'],
    ['1250 N·m', 1250, 'N·m'],
    ['1,250 lb-ft', 1250, 'lbf·ft'],
    ['1.250 in-lb', 1.25, 'lbf·in'],
    ['1,250.5 N·m', 1250.5, 'N·m'],
    ['1.250,5 N·m', 1250.5, 'N·m'],
    ['1,250,000 N·mm', 1_250_000, 'N·mm'],
    ['1 250 N·m', 1250, 'N·m'],
    ['1\u202F250 N·m', 1250, 'N·m'],
    ["1'250 N·m", 1250, 'N·m'],
    ['0,250 N·m', 0.25, 'N·m'],
    ['.5 kgf·m', 0.5, 'kgf·m'],
    ['−5 N·m', -5, 'N·m'],
    ['12\u00A0Nm', 12, 'N·m'],
    ['１２．５ Ｎｍ', 12.5, 'N·m'],
    ['7-1/2 ft-lb', 7.5, 'lbf·ft'],
    ['7½ ft-lb', 7.5, 'lbf·ft'],
    ['N·m 47', 47, 'N·m'],
    ['lb-ft: 35', 35, 'lbf·ft'],
  ] as const)('%s', (text, value, unit) => {
    expect(parseTorque(text)).toEqual({ value, unit, nm: toNm(value, unit) })
  })

  test('what can be read in two ways is asked with both, and each is read back in one way', () => {
    for (const [text, values] of [
      ['1,250 N·m', [1250, 1.25]],
      ['1.250 N·m', [1.25, 1250]],
    ] as const) {
      const asked = parseTorque(text)
      expect(asked).toMatchObject({ refused: 'unclear', data: { why: 'decimal_sign' } })
      const readings = isRefusal(asked) ? (asked.data.readings as { text: string }[]) : []
      expect(readings.map((one) => parseTorque(one.text))).toMatchObject(values.map((value) => ({ value })))
    }
  })

  test('a number alone is asked for its unit', () => {
    const asked = parseTorque('35')
    expect(asked).toMatchObject({ refused: 'unclear', data: { why: 'no_unit' } })
    expect(isRefusal(asked) && unitSentenceFor(asked, figures)).toBe(
      '“35” has no unit: 35 N·m, 35 lbf·ft, 35 lbf·in and 35 kgf·m are possible. Choose the one that is printed.',
    )
  })

  test.each([
    ['', 'nothing_entered'],
    ['\u00A0', 'nothing_entered'],
    ['Nm', 'not_a_torque'],
    ['20 to 30 Nm', 'not_a_torque'],
    ['1.2.3 Nm', 'not_a_torque'],
    ['M10x1.25', 'not_a_torque'],
  ])('“%s” is refused', (text, refused) => {
    const refusal = parseTorque(text)
    expect(refusal).toMatchObject({ refused })
    expect(isRefusal(refusal) && unitSentenceFor(refusal, figures)).toMatch(/\. Enter /)
  })

  test('no text throws', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        parseTorque(text)
        parseLength(text)
        numberAt(text, 0)
      }),
    )
  })

  test('every number is read back from its plain digits', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(parseTorque(`${unambiguous(value)} N·m`)).toMatchObject({ value: value + 0 })
      }),
    )
  })
})

describe('lengths', () => {
  test.each([
    ['3/8', 9.525, 'in'],
    ['1-1/2"', 38.1, 'in'],
    ['1 1/2 in', 38.1, 'in'],
    ['½ in', 12.7, 'in'],
    ['9.5 mm', 9.5, 'mm'],
    ['9,5 mm', 9.5, 'mm'],
    ['89.925 mm', 89.925, 'mm'],
    ['89,925 mm', 89.925, 'mm'],
    ['1.250″', 31.75, 'in'],
    ['12 thou', 0.3048, 'thou'],
    ['2.5 cm', 25, 'cm'],
  ] as const)('%s is %f mm', (text, mm, unit) => {
    const length = parseLength(text)
    expect(length).toMatchObject({ unit })
    expect(isRefusal(length) ? 0 : length.mm).toBeCloseTo(mm, 12)
  })

  test.each([
    ['9.5', 'no_unit'],
    ['1,250 mm', 'decimal_sign'],
    ['1,250 in', 'decimal_sign'],
  ])('%s is asked', (text, why) => {
    const asked = parseLength(text)
    expect(asked).toMatchObject({ refused: 'unclear', data: { why } })
    expect(isRefusal(asked) ? asked.data.readings : []).toHaveLength(2)
  })

  test('what is no length is refused', () => {
    for (const text of ['', 'M10', '3/8 Nm', '9.5 mm x 3'])
      expect(parseLength(text)).toMatchObject({ refused: text ? 'not_a_length' : 'nothing_entered' })
  })

  test('units go there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.constantFrom(...LENGTH_UNITS),
        (mm, unit) => {
          expect(Math.abs(toMm(fromMm(mm, unit), unit) - mm)).toBeLessThanOrEqual(
            Math.abs(mm) * 1e-15 + 1e-300,
          )
        },
      ),
    )
    expect(toMm(1, 'in')).toBe(25.4)
  })

  test('inches are shown as fractions down to 64ths', () => {
    expect([9.525, 38.1, 25.4, 0, 12.7 + 25.4 / 64].map((mm) => showInch(mm))).toEqual([
      '3/8″',
      '1 1/2″',
      '1″',
      '0″',
      '33/64″',
    ])
    expect([showInch(10), showInch(-9.525), showInch(10, 8)]).toEqual(['≈ 25/64″', '−3/8″', '≈ 3/8″'])
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6400 }), (parts) => {
        const read = parseLength(showInch((parts * 25.4) / 64).replace('″', ' in'))
        expect(isRefusal(read) ? 0 : read.value * 64).toBeCloseTo(parts, 9)
      }),
    )
  })
})

describe('rounding', () => {
  test.each([
    [21.8182, 0.5, 'nearest', 22],
    [21.8182, 0.5, 'down', 21.5],
    [21.6, 0.5, 'up', 22],
    [0.1 * 3, 0.1, 'up', 0.3],
    [0.1 * 3, 0.1, 'down', 0.3],
    [-21.6, 0.5, 'down', -22],
  ] as const)('%f at increments of %f, %s, is %f', (value, increment, direction, set) => {
    expect(roundToIncrement(value, increment, direction)).toBe(set)
  })

  test('to the digits a person writes', () => {
    expect([36.878107, 1843.9, 0.0208333, -2.345, 0].map((value) => roundToDigits(value))).toEqual([
      36.9, 1840, 0.0208, -2.35, 0,
    ])
    expect(roundToDigits(1843.9, 2)).toBe(1800)
  })
})
