/**
 * One torque as somebody types or prints it, in any spelling of any unit of the trade.
 *
 * The typed unit is kept; N·m stands beside it. What can be read in two ways is not decided but asked.
 */
import type { Refusal } from '../log'
import { type Figure, isAmbiguous, numberAt, plainDigits, readBy } from './numbers'
import { type Reading, refuseUnit, type UnitRefusalCode } from './refusals'
import { isCustomary, unitAt, unitNamed } from './spellings'
import { type TorqueUnit, toNm } from './torque'

export interface ParsedTorque {
  value: number
  unit: TorqueUnit
  nm: number
}

const SIGN = /^(?:([-‐‑‒–—−])|\+)\s*/
/** What a number without a unit is asked about; the units wrenches are marked in. */
export const USUAL_UNITS: TorqueUnit[] = ['N·m', 'lbf·ft', 'lbf·in', 'kgf·m']

/**
 * `35 ft. lbs.`, `12,5 daN·m`, `N·m 47`: value and unit as typed (milli-newton-metres as N·mm, newton-centimetres
 * as cN·m: the same number), and N·m.
 *
 * Refused: `nothing_entered`; `not_a_torque`; `unclear` with its readings: no unit, or `1,250 N·m`, which is
 * 1.25 or 1250. With pounds, feet and inches the point is decimal and the comma parts thousands, as English
 * prints them.
 */
export function parseTorque(text: string): ParsedTorque | Refusal<UnitRefusalCode> {
  const plain = plainDigits(text).trim()
  if (plain === '') return refuseUnit('nothing_entered', {})
  const none = () => refuseUnit('not_a_torque', { text: text.trim() })
  const leading = unitAt(plain, 0)
  const afterUnit = leading && numberAt(plain, 0) === undefined ? leading : undefined
  const body = afterUnit ? plain.slice(afterUnit.end).replace(/^\s*[:=]?\s*/, '') : plain
  const sign = SIGN.exec(body)
  const number = numberAt(body, sign?.[0].length ?? 0)
  const figures =
    number && [number.point, number.comma].filter((figure): figure is Figure => figure !== undefined)
  if (!number || !figures?.length) return none()
  const rest = body.slice(number.end).trim()
  const unit = afterUnit && rest === '' ? afterUnit.unit : afterUnit ? undefined : unitNamed(rest)
  const signed = (value: number) => (sign?.[1] ? -value : value)
  if (!unit) {
    if (rest !== '' || afterUnit) return none()
    const value = signed(figures[0]?.value ?? 0)
    return refuseUnit('unclear', {
      text: plain,
      why: 'no_unit',
      readings: USUAL_UNITS.map((u) => reading(value, u)),
    })
  }
  if (isAmbiguous(number) && !isCustomary(unit))
    return refuseUnit('unclear', {
      text: plain,
      why: 'decimal_sign',
      readings: figures.map((figure) => reading(signed(figure.value), unit)),
    })
  const value = signed(readBy(number, 'point')?.value ?? 0)
  return { value, unit, nm: toNm(value, unit) }
}

function reading(value: number, unit: TorqueUnit): Reading & ParsedTorque {
  return { text: `${unambiguous(value)} ${unit}`, value, unit, nm: toNm(value, unit) }
}

/**
 * A number in digits that can be read in one way only, and back to the same double: no exponent, no grouping,
 * a point for the decimal sign, and never exactly three decimals, which could be thousands.
 */
export function unambiguous(value: number): string {
  const [, mantissa = '', power = '0'] = /^(.*?)(?:e(.*))?$/.exec(String(Math.abs(value))) ?? []
  const [whole = '', decimals = ''] = mantissa.split('.')
  const digits = whole + decimals
  const point = whole.length + Number(power)
  const before = point > 0 ? digits.slice(0, point).padEnd(point, '0') : '0'
  const after = point > 0 ? digits.slice(point) : '0'.repeat(-point) + digits
  const fraction = after.length === 3 ? `${after}0` : after
  return `${value < 0 ? '−' : ''}${before}${fraction && `.${fraction}`}`
}
