/**
 * Lengths: millimetres inside; inches with fractions, thousandths and metres at the edges.
 *
 * 1 in = 25.4 mm exactly (NIST SP 811 (2008), appendix B), 1 thou = 0.001 in.
 */
import type { Refusal } from '../log'
import { isAmbiguous, numberAt, plainDigits, readBy } from './numbers'
import { unambiguous } from './parse'
import { refuseUnit, type UnitRefusalCode } from './refusals'
import { finite } from './torque'

export const LENGTH_UNITS = ['mm', 'cm', 'm', 'in', 'thou'] as const
export type LengthUnit = (typeof LENGTH_UNITS)[number]

const MM: Record<LengthUnit, { times: number; over: number }> = {
  mm: { times: 1, over: 1 },
  cm: { times: 10, over: 1 },
  m: { times: 1000, over: 1 },
  in: { times: 127, over: 5 },
  thou: { times: 127, over: 5000 },
}

const SPELT: [LengthUnit, RegExp][] = [
  ['mm', /^(?:mm|millimet(?:re|er)s?)\.?$/i],
  ['cm', /^(?:cm|centimet(?:re|er)s?)\.?$/i],
  ['m', /^(?:m|met(?:re|er)s?)\.?$/i],
  ['in', /^(?:["″”“]|''|in\.?|inch(?:es)?)$/i],
  ['thou', /^(?:thou|mils?|thousandths)\.?$/i],
]

/** mm from a length in any unit; relative error of a few 1e-16. */
export function toMm(value: number, unit: LengthUnit): number {
  const { times, over } = MM[unit]
  return finite((finite(value) * times) / over)
}

/** A length in any unit from mm. */
export function fromMm(mm: number, unit: LengthUnit): number {
  const { times, over } = MM[unit]
  return finite((finite(mm) * over) / times)
}

export interface ParsedLength {
  value: number
  unit: LengthUnit
  mm: number
}

const MINUS = /^[-‐‑‒–—−]\s*/

/**
 * `9.5 mm`, `3/8`, `1-1/2"`, `1 1/2 in`, `12 thou`. A fraction without a unit is inches: nothing else of this
 * trade is parted so. A point is decimal: lengths are printed to the thousandth, and no engine has a part ten
 * metres long. A comma before three digits is asked, with millimetres and below 10 of them (`1,250 mm`).
 */
export function parseLength(text: string): ParsedLength | Refusal<UnitRefusalCode> {
  const plain = plainDigits(text).trim()
  if (plain === '') return refuseUnit('nothing_entered', {})
  const minus = MINUS.exec(plain)?.[0].length ?? 0
  const number = numberAt(plain, minus)
  const rest = number ? plain.slice(number.end).trim() : ''
  const unit = rest === '' && number?.fraction ? 'in' : SPELT.find(([, spelt]) => spelt.test(rest))?.[0]
  const point = number && readBy(number, 'point')
  if (!number || !point || (!unit && rest !== '')) return refuseUnit('not_a_length', { text: text.trim() })
  const sign = minus > 0 ? -1 : 1
  const readings = (pairs: [number, LengthUnit][]) =>
    pairs.map(([value, of]) => ({ text: `${unambiguous(sign * value)} ${of}`, mm: toMm(sign * value, of) }))
  if (!unit)
    return refuseUnit('unclear', {
      text: plain,
      why: 'no_unit',
      readings: readings([
        [point.value, 'mm'],
        [point.value, 'in'],
      ]),
    })
  const comma = readBy(number, 'comma') ?? point
  const value = sign * (isAmbiguous(number) && number.raw.includes(',') ? comma : point).value
  if (isAmbiguous(number) && number.raw.includes(',') && (unit !== 'mm' || point.value < TEN_METRES_MM))
    return refuseUnit('unclear', {
      text: plain,
      why: 'decimal_sign',
      readings: readings([
        [comma.value, unit],
        [point.value, unit],
      ]),
    })
  return { value, unit, mm: toMm(value, unit) }
}

const TEN_METRES_MM = 10_000

/**
 * Inches as the nearest fraction, down to 64ths: 9.525 mm is `3/8″`, 38.1 mm `1 1/2″`. With `≈` where the
 * fraction is more than 0.0005 in off. `largest` is the finest division (a power of two).
 */
export function showInch(mm: number, largest = 64): string {
  const inches = Math.abs(fromMm(mm, 'in'))
  const parts = Math.round(inches * largest)
  let over = parts % largest
  let under = largest
  while (over > 0 && over % 2 === 0) {
    over /= 2
    under /= 2
  }
  const whole = Math.floor(parts / largest)
  const fraction = over > 0 ? `${over}/${under}` : ''
  const shown = [whole > 0 || !fraction ? String(whole) : '', fraction].filter(Boolean).join(' ')
  const near = Math.abs(inches - parts / largest) > 0.0005 ? '≈ ' : ''
  return `${near}${mm < 0 && parts > 0 ? '−' : ''}${shown}″`
}
