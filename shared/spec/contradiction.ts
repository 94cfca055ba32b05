/**
 * Do two printed units mean the same torque?
 *
 * A printed figure stands for everything that rounds to it: 35 for 34.5 to 35.5, 4.10 for 4.095 to 4.105. Two
 * figures contradict each other when these intervals, in N·m, do not meet. A limit reckoned from a value and a
 * tolerance carries the rounding of both. Zeros at a number's end count as digits: 120 N·m (90 lbf·ft) is
 * shown, for a person to judge; 120 N·m are 88.5 lbf·ft.
 */
import { type Figure, type TorqueUnit, toNm } from '../units'

export interface Printed {
  unit: TorqueUnit
  nominal?: Figure
  min?: Figure
  max?: Figure
}

export function contradicts(one: Printed, other: Printed): boolean {
  const pairs = [
    [one.nominal, other.nominal],
    [one.min, other.min],
    [one.max, other.max],
  ] as const
  const alike = pairs.flatMap(([a, b]) => (a && b ? [[a, b] as const] : []))
  if (alike.length > 0)
    return alike.some(([a, b]) => apart(interval(a, one.unit), interval(b, other.unit)) !== 0)
  // A value beside a range: it must lie in it.
  return outside(one, other) || outside(other, one)
}

function outside(value: Printed, range: Printed): boolean {
  if (!value.nominal) return false
  const at = interval(value.nominal, value.unit)
  return (
    (range.min !== undefined && apart(at, interval(range.min, range.unit)) < 0) ||
    (range.max !== undefined && apart(at, interval(range.max, range.unit)) > 0)
  )
}

type Interval = [low: number, high: number]

function interval({ value, step }: Figure, unit: TorqueUnit): Interval {
  return [toNm(value - step / 2, unit), toNm(value + step / 2, unit)]
}

/** Below zero: the first lies wholly under the second; zero: they meet. */
function apart([low, high]: Interval, [otherLow, otherHigh]: Interval): -1 | 0 | 1 {
  const noise = 1e-9 * Math.max(Math.abs(high), Math.abs(otherHigh))
  if (high < otherLow - noise) return -1
  return low > otherHigh + noise ? 1 : 0
}
