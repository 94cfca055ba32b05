/** Rounding to what a scale can be set to, and to what a person would write. */
import { roundTo } from './show'
import { finite } from './torque'

/**
 * The number to set on a scale with this increment, in the scale's own unit: the nearest, halves away from
 * zero, or the next one `down` or `up` where a limit lies on the other side.
 */
export function roundToIncrement(
  value: number,
  increment: number,
  direction: 'nearest' | 'down' | 'up' = 'nearest',
): number {
  const nearest = roundTo(value, increment)
  // A value that only a float's noise keeps off the mark is on it.
  const off = roundTo(value - nearest, increment * 1e-9)
  if (direction === 'down' && off < 0) return roundTo(nearest - increment, increment)
  if (direction === 'up' && off > 0) return roundTo(nearest + increment, increment)
  return nearest
}

/** To so many significant digits, halves away from zero: 36.878107 to 3 digits is 36.9; 1843.9 is 1840. */
export function roundToDigits(value: number, digits = 3): number {
  if (value === 0) return 0
  const step = 10 ** (Math.floor(Math.log10(Math.abs(finite(value)))) + 1 - digits)
  return roundTo(value, step)
}
