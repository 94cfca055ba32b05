/**
 * Numbers as a person writes them: no exponent, no trailing zeros, no more digits than the trade reads.
 *
 * Rounding is for the eye only. Nothing shown is ever reckoned with, and what is shown never hides on
 * which side of a limit a reading lies: give the limits as `beside` and digits are added until they differ.
 */
import { compareNm, finite, fromNm, type TorqueUnit } from './torque'

const MINUS = '−'
const MAX_DECIMALS = 6

/** The nearest multiple of `step`, halves away from zero: `roundTo(21.8182, 0.1)` is 21.8. */
export function roundTo(value: number, step: number): number {
  if (!(finite(step) > 0)) throw new RangeError(`A rounding step must be above zero, not ${step}`)
  // Fifteen digits take the float's own noise away before the halves are judged: 1.005 / 0.01 is 100.5.
  const steps = Math.round(clean(Math.abs(finite(value)) / step))
  return Math.sign(value) * clean(steps * step) + 0
}

/** At most `decimals` decimals, trailing zeros left off, a point for the decimal sign, no grouping. */
export function formatNumber(value: number, decimals = 3): string {
  const rounded = roundTo(value, 10 ** -decimals)
  const digits = Math.abs(rounded).toFixed(decimals)
  const shown = digits.includes('.') ? digits.replace(/\.?0+$/, '') : digits
  return rounded < 0 ? MINUS + shown : shown
}

/**
 * What stands after a number: a degree of angle close to it, every other unit after a space, nothing for a bare count
 * (SI Brochure, 9th edition, 5.4.3; from memory).
 */
export const unitAfter = (unit: string): string => (unit === '°' || unit === '' ? unit : ` ${unit}`)

/**
 * A torque in the unit asked, without the unit's name.
 *
 * A figure somebody chose is shown whole: one that takes at most two decimals in this unit (99.75, 22, 4.5).
 * Any other comes out of a conversion and is shown to three digits (36.878107 lbf·ft as 36.9), never
 * rounding away whole units (1843.9 as 1844).
 *
 * `beside` are the torques in N·m it will stand next to, limits above all: decimals are added until
 * each that differs by a micro-newton-metre or more reads differently too.
 */
export function showTorque(nm: number, unit: TorqueUnit, beside: readonly number[] = []): string {
  let decimals = decimalsFor(fromNm(nm, unit))
  let shown = formatNumber(fromNm(nm, unit), decimals)
  const others = beside.filter((other) => compareNm(other, nm) !== 0)
  while (decimals < MAX_DECIMALS && others.some((other) => wrongSide(nm, other, unit, shown))) {
    decimals += 1
    shown = formatNumber(fromNm(nm, unit), decimals)
  }
  return shown
}

/** Would a reader take `shown` for equal to, or on the other side of, what `other` is shown as? */
function wrongSide(nm: number, other: number, unit: TorqueUnit, shown: string): boolean {
  const beside = readBack(showTorque(other, unit))
  return Math.sign(readBack(shown) - beside) !== Math.sign(compareNm(nm, other))
}

function readBack(shown: string): number {
  return Number(shown.replace(MINUS, '-'))
}

function decimalsFor(value: number): number {
  const chosen = Math.abs(value * 100 - Math.round(value * 100)) <= Math.abs(value) * 1e-12
  if (chosen) return 2
  const wholeDigits = Math.max(0, Math.floor(Math.log10(Math.abs(value))) + 1)
  const leadingZeros = Math.max(0, -Math.floor(Math.log10(Math.abs(value))) - 1)
  return Math.min(MAX_DECIMALS, Math.max(0, 3 - wholeDigits) + leadingZeros)
}

function clean(value: number): number {
  return Number(value.toPrecision(15))
}
