/**
 * Do two printed units mean the same torque?
 *
 * A printed figure stands for everything that rounds to it: 35 for 34.5 to 35.5, 4.10 for 4.095 to 4.105. Two
 * figures are the same torque when these intervals, in N·m, meet; near each other when the values are within
 * 2.5 % (120 N·m and 90 lbf·ft, which is 122.0 N·m: somebody rounded twice); else they contradict each other. A limit
 * reckoned from a value and a tolerance carries the rounding of both.
 */
import { type Figure, type TorqueUnit, toNm } from '../units'

export interface Printed {
  unit: TorqueUnit
  nominal?: Figure
  min?: Figure
  max?: Figure
}

export type Agreement = 'same' | 'near' | 'apart'

/** How far apart two figures may be, of the larger, and still be one torque. */
const NEAR = 0.025

export function agreement(one: Printed, other: Printed): Agreement {
  const pairs = [
    [one.nominal, other.nominal],
    [one.min, other.min],
    [one.max, other.max],
  ] as const
  const alike = pairs.flatMap(([a, b]) => (a && b ? [[a, b] as const] : []))
  if (alike.length > 0)
    return farthest(alike.map(([a, b]) => between(interval(a, one.unit), interval(b, other.unit))))
  // A value beside a range: it must lie in it.
  return farthest([within(one, other), within(other, one)])
}

const ORDER: Agreement[] = ['same', 'near', 'apart']
const farthest = (some: Agreement[]): Agreement =>
  ORDER[Math.max(...some.map((one) => ORDER.indexOf(one)))] ?? 'same'

function within(value: Printed, range: Printed): Agreement {
  if (!value.nominal) return 'same'
  const at = interval(value.nominal, value.unit)
  const low = range.min && interval(range.min, range.unit)
  const high = range.max && interval(range.max, range.unit)
  if (low && at.value < low.value) return between(at, low)
  return high && at.value > high.value ? between(at, high) : 'same'
}

interface Interval {
  value: number
  low: number
  high: number
}

function interval({ value, step }: Figure, unit: TorqueUnit): Interval {
  return { value: toNm(value, unit), low: toNm(value - step / 2, unit), high: toNm(value + step / 2, unit) }
}

function between(one: Interval, other: Interval): Agreement {
  const noise = 1e-9 * Math.max(Math.abs(one.high), Math.abs(other.high))
  if (one.high >= other.low - noise && one.low <= other.high + noise) return 'same'
  const largest = Math.max(Math.abs(one.value), Math.abs(other.value))
  return Math.abs(one.value - other.value) <= NEAR * largest + noise ? 'near' : 'apart'
}
