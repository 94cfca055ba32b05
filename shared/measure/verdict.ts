/**
 * A measured or reckoned dimension against its limits, and what to do next.
 *
 * Limits are the maker's; both ends are inside. Sizes are compared in whole nanometres (a millionth of the unit), so
 * that a number exactly on a limit is in, whatever a float made of 55.047 − 55.002.
 */
import { isRefusal } from '../log'
import { type MeasureRefusal, refuseMeasure } from './refusals'

/** Without an end, that side is open; without any, nothing is judged. */
export interface Limits {
  min?: number
  max?: number
}

export type MeasureVerdict = 'inside' | 'under' | 'over' | 'no_limits'

export interface Judged {
  /** In `unit`. */
  value: number
  unit: string
  verdict: MeasureVerdict
  limits: Limits
  /** What to do next, in words; the maker's manual stands above them. */
  next: string
}

/** What a size outside its limits means for one kind of measurement. */
export interface NextWords {
  inside?: string
  under: string
  over: string
}

/** A difference of measured sizes without the float's noise: 0.045, not 0.04500000000000171. */
export const clean = (value: number): number => Number(value.toFixed(9)) + 0

const whole = (value: number): number => Math.round(value * 1e6)

/** What is no number is never inside. */
export function verdictOn(value: number, limits: Limits): MeasureVerdict {
  const { min, max } = fieldsOf(limits)
  if (min === undefined && max === undefined) return 'no_limits'
  if (min !== undefined && !(whole(value) >= whole(min))) return 'under'
  return max !== undefined && !(whole(value) <= whole(max)) ? 'over' : 'inside'
}

const NO_LIMITS = 'No limits are given. Take them from the maker’s manual first.'

/** Limits that no value can meet, or that are no numbers: nothing is judged by them. */
export function crossedLimits(limits: Limits): MeasureRefusal | undefined {
  const { min, max } = fieldsOf(limits)
  for (const limit of [min, max])
    if (limit !== undefined && !isNumber(limit))
      return refuseMeasure('limits_crossed', { min: Number.NaN, max: Number.NaN })
  const largest = impossibleSize({ 'a lower limit': min ?? 0, 'an upper limit': max ?? 0 }, '', 'any')
  if (largest) return largest
  return min === undefined || max === undefined || min <= max
    ? undefined
    : refuseMeasure('limits_crossed', { min, max })
}

export function judge(
  value: number,
  unit: string,
  limits: Limits,
  words: NextWords,
): Judged | MeasureRefusal {
  const wrong =
    crossedLimits(limits) ?? impossibleSize({ 'what was measured': value }, unit, 'any', LARGEST * 2)
  if (wrong) return wrong
  const verdict = verdictOn(value, limits)
  const next =
    verdict === 'no_limits'
      ? NO_LIMITS
      : verdict === 'inside'
        ? (words.inside ?? 'Within limits: go on.')
        : words[verdict]
  return { value: clean(value), unit, verdict, limits: fieldsOf(limits), next }
}

/** No engine has anything of a kilometre; beyond it a number is a slip of the hand, and reckoning with it would overflow. */
const LARGEST = 1e6

/** What a person left empty, or what is no record at all, has no fields: each is then refused by its name. */
export const fieldsOf = <T extends object>(input: T): T =>
  (typeof input === 'object' && input !== null ? input : {}) as T

/** Readings that were entered; what is no list is an empty one. */
export const listOf = <T>(list: readonly T[]): readonly T[] => (Array.isArray(list) ? list : [])

export const isNumber = (value: unknown): value is number => typeof value === 'number' && !Number.isNaN(value)

const BOUND = { above_zero: 'above 0', zero_too: '0 or more', any: '' } as const

/** The first size that is no size: beyond all measure, or not above zero (zero allowed where `zero` says so). */
export function impossibleSize(
  sizes: Record<string, number>,
  unit = 'mm',
  zero: keyof typeof BOUND = 'above_zero',
  most = LARGEST,
): MeasureRefusal | undefined {
  for (const [what, value] of Object.entries(sizes)) {
    const sound =
      isNumber(value) &&
      Math.abs(value) <= most &&
      (zero === 'any' || (zero === 'zero_too' ? value >= 0 : value > 0))
    const least = zero === 'any' ? `between −${most} and ${most}` : `${BOUND[zero]} and at most ${most}`
    if (!sound) return refuseMeasure('size_impossible', { what, value, unit, must: least })
  }
  return undefined
}

export const isMeasureRefusal = (value: unknown): value is MeasureRefusal => isRefusal(value)
