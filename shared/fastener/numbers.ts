/**
 * What a number entered by a person must be before a formula sees it.
 *
 * Bounds are far outside any workshop: they exist so that no product of entered numbers can overflow or divide
 * by nothing, and so that no answer is ever NaN.
 */
import { type FastenerRefusal, no } from './refusals'

const KINDS = {
  length: { min: 1e-6, max: 1e6, must: 'above 0 mm and at most 1000000 mm' },
  length_or_none: { min: 0, max: 1e6, must: '0 mm or more and at most 1000000 mm' },
  friction: { min: 1e-4, max: 2, must: 'above 0 and at most 2' },
  nut_factor: { min: 1e-4, max: 5, must: 'above 0 and at most 5' },
  utilisation: { min: 1e-4, max: 1, must: 'above 0 and at most 1' },
  force: { min: 1e-6, max: 1e12, must: 'above 0 N and at most 1000 GN' },
  force_or_none: { min: 0, max: 1e12, must: '0 N or more and at most 1000 GN' },
  torque: { min: 1e-9, max: 1e9, must: 'above 0 N·m and at most 1 GN·m' },
  stress: { min: 1e-3, max: 1e6, must: 'above 0 MPa and at most 1000000 MPa' },
  ratio: { min: 1e-6, max: 1e6, must: 'above 0 and at most 1000000' },
  angle: { min: 0, max: 36000, must: 'from 0° to 36000°' },
  percent: { min: 0, max: 99.9, must: 'from 0 to below 100 %' },
  count: { min: 0, max: 1e6, must: 'a whole number from 0 to 1000000', whole: true },
} as const
export type NumberKind = keyof typeof KINDS

/** The refusal of a number that cannot be, or nothing. */
export function impossible(name: string, value: unknown, kind: NumberKind): FastenerRefusal | undefined {
  const rule = KINDS[kind]
  if (value === undefined || value === null) return no('input_missing', { name })
  const fits =
    typeof value === 'number' &&
    Number.isFinite(value) &&
    value >= rule.min &&
    value <= rule.max &&
    (!('whole' in rule) || Number.isInteger(value))
  return fits ? undefined : no('number_impossible', { name, given: shown(value), must: rule.must })
}

/** As `impossible`, where leaving it out is right too. */
export const impossibleIfGiven = (name: string, value: unknown, kind: NumberKind) =>
  value === undefined ? undefined : impossible(name, value, kind)

/** Any value as a short text that is safe to show. */
export function shown(value: unknown): string {
  if (typeof value === 'number' && !Number.isFinite(value)) return 'not a number'
  if (typeof value === 'number' || typeof value === 'boolean') return String(value)
  if (typeof value === 'string') return value.slice(0, 60)
  if (value === undefined || value === null) return 'nothing'
  return Array.isArray(value) ? 'a list' : `a ${typeof value}`
}

/** An input that is none becomes an empty one, whose parts are then missed by name. */
export const partsOf = <T extends object>(input: T | null | undefined): Partial<T> =>
  typeof input === 'object' && input !== null ? input : {}

export const hasText = (value: unknown): value is string => typeof value === 'string'
