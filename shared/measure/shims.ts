/**
 * Which shim or washer to fit: valve clearance, thrust play, injection timing. Sizes in mm.
 *
 * Makers aim differently, so the target is named: a fixed clearance, the middle of the range, or its upper limit
 * rounded down. After fitting, the clearance is measured again: what is proposed here proves nothing.
 */
import type { Figures } from '../words'
import { type MeasureRefusal, refuseMeasure } from './refusals'
import {
  clean,
  crossedLimits,
  fieldsOf,
  impossibleSize,
  isNumber,
  type Limits,
  listOf,
  type MeasureVerdict,
  verdictOn,
} from './verdict'

/** Three conventions of makers: aim at one figure, at the middle, or at the upper limit and take the next shim that stays under it. */
export type ShimTarget =
  | { kind: 'fixed'; value: number }
  | { kind: 'middle'; min: number; max: number }
  | { kind: 'upper_limit'; max: number }

/** What there is to choose from: named sizes, or a step between a smallest and a largest. */
export type ShimSizes = { sizesMm: readonly number[] } | { stepMm: number; minMm?: number; maxMm?: number }

export interface ShimChoice {
  /** What would be exactly right. */
  idealMm: number
  /** What to fit; absent where no size in reach brings it inside. */
  shimMm: number
  /** What is to be expected with it, in the unit of what was measured. */
  expected: number
  verdict: MeasureVerdict
  /** It is no answer: what would be right is more than a step beyond the sizes there are, or below nothing. */
  farOff: boolean
}

const aim = (target: ShimTarget): number =>
  target.kind === 'fixed'
    ? target.value
    : target.kind === 'middle'
      ? (target.min + target.max) / 2
      : target.max

/** A target that is none: of no known kind, or without its figures. */
function impossibleTarget(target: ShimTarget): MeasureRefusal | undefined {
  const fields = fieldsOf(target)
  const figures: Record<string, number> =
    fields.kind === 'middle'
      ? { 'the lower limit': fields.min, 'the upper limit': fields.max }
      : { 'the clearance wanted': fields.kind === 'fixed' ? fields.value : fields.max }
  return impossibleSize(figures, 'mm', 'any')
}

/** What a target says of the limits too; a single figure says nothing of them. */
function limitsOf(target: ShimTarget): Limits {
  if (target.kind === 'fixed') return {}
  return target.kind === 'middle' ? { min: target.min, max: target.max } : { max: target.max }
}

/**
 * Shim over the follower: N = old + (measured − target), then the nearest size there is.
 *
 * With `upper_limit` the thinnest gap at or under the limit is chosen: the shim is rounded up. Source: three makers'
 * conventions, worked in `tests/published/measurements.test.ts`.
 */
export function valveShim(
  input: { oldMm: number; measuredMm: number; target: ShimTarget; limits?: Limits } & ShimSizes,
): ShimChoice | MeasureRefusal {
  const { oldMm, measuredMm, target } = fieldsOf(input)
  const impossible =
    impossibleSize({ 'the shim fitted now': oldMm }) ??
    impossibleSize({ 'the clearance measured': measuredMm }, 'mm', 'zero_too') ??
    impossibleTarget(target)
  if (impossible) return impossible
  const ideal = oldMm + (measuredMm - aim(target))
  const limits = input.limits ?? limitsOf(target)
  return choose(input, ideal, limits, (shim) => oldMm + measuredMm - shim, target.kind === 'upper_limit')
}

/**
 * Thrust washer or end-play shim: measured total play − wanted play, then the nearest size there is.
 */
export function thrustShim(
  input: { measuredTotalMm: number; target: ShimTarget; limits?: Limits } & ShimSizes,
): ShimChoice | MeasureRefusal {
  const { measuredTotalMm, target } = fieldsOf(input)
  const impossible = impossibleSize({ 'the total play': measuredTotalMm }) ?? impossibleTarget(target)
  if (impossible) return impossible
  const limits = input.limits ?? limitsOf(target)
  const ideal = measuredTotalMm - aim(target)
  return choose(input, ideal, limits, (shim) => measuredTotalMm - shim, target.kind === 'upper_limit')
}

/**
 * Shim under an injection pump: every millimetre moves the timing by `perMm` degrees (negative where a thicker shim
 * retards it). Sizes are of the whole pack.
 */
export function timingShim(
  input: { fittedMm: number; readDeg: number; targetDeg: number; perMm: number; limits?: Limits } & ShimSizes,
): ShimChoice | MeasureRefusal {
  const { fittedMm, readDeg, targetDeg, perMm } = fieldsOf(input)
  const impossible =
    impossibleSize({ 'the shim pack fitted': fittedMm }, 'mm', 'zero_too') ??
    impossibleSize({ 'the timing read': readDeg, 'the timing asked': targetDeg }, '°', 'any') ??
    impossibleSize({ 'what a millimetre moves': perMm }, '°', 'any')
  if (impossible) return impossible
  if (Math.abs(perMm) < 1e-6) return refuseMeasure('shim_moves_nothing', { perMm })
  const ideal = fittedMm + (targetDeg - readDeg) / perMm
  return choose(input, ideal, input.limits ?? {}, (shim) => readDeg + (shim - fittedMm) * perMm, false)
}

function choose(
  sizes: ShimSizes,
  ideal: number,
  limits: Limits,
  expect: (shimMm: number) => number,
  roundUp: boolean,
): ShimChoice | MeasureRefusal {
  const crossed = crossedLimits(limits)
  if (crossed) return crossed
  const impossible =
    impossibleSize({ 'the shim that is needed': ideal }, 'mm', 'any') ?? impossibleSizes(sizes)
  if (impossible) return impossible
  const shim = 'sizesMm' in sizes ? ofSizes(sizes.sizesMm, ideal, roundUp) : ofStep(sizes, ideal, roundUp)
  if (shim === undefined) return refuseMeasure('no_sizes', { what: 'shim' })
  const expected = clean(expect(shim))
  const verdict = verdictOn(expected, limits)
  return {
    idealMm: clean(ideal),
    shimMm: clean(shim),
    expected,
    verdict,
    farOff: isFarOff(sizes, shim, ideal),
  }
}

const LEAST_STEP_MM = 1e-4

/** A step, a smallest or a largest that cannot be. */
function impossibleSizes(sizes: ShimSizes): MeasureRefusal | undefined {
  if ('sizesMm' in sizes) return undefined
  const { stepMm, minMm = 0, maxMm = minMm } = sizes
  if (isNumber(stepMm) && stepMm > 0 && stepMm < LEAST_STEP_MM)
    return refuseMeasure('size_impossible', {
      what: 'the step between shims',
      value: stepMm,
      unit: 'mm',
      must: `at least ${LEAST_STEP_MM}`,
    })
  return (
    impossibleSize({ 'the step between shims': stepMm }) ??
    impossibleSize({ 'the thinnest shim': minMm, 'the thickest shim': maxMm }, 'mm', 'zero_too')
  )
}

const soundSizes = (sizes: readonly number[]): number[] =>
  listOf(sizes).filter((size) => impossibleSize({ size }, 'mm', 'zero_too') === undefined)

function ofSizes(sizes: readonly number[], ideal: number, roundUp: boolean): number | undefined {
  const sound = soundSizes(sizes)
  const allowed = roundUp ? sound.filter((size) => size >= ideal - 1e-9) : sound
  const nearest = (among: readonly number[]) =>
    [...among].sort((a, b) => clean(Math.abs(a - ideal)) - clean(Math.abs(b - ideal)) || b - a)[0]
  return nearest(allowed) ?? nearest(sound)
}

function ofStep(
  { stepMm, minMm = 0, maxMm = Number.POSITIVE_INFINITY }: Extract<ShimSizes, { stepMm: number }>,
  ideal: number,
  roundUp: boolean,
): number | undefined {
  if (minMm > maxMm) return undefined
  const steps = Number((ideal / stepMm).toFixed(6))
  const shim = (roundUp ? Math.ceil(steps) : Math.round(steps)) * stepMm
  return Math.min(Math.max(shim, minMm), maxMm)
}

function isFarOff(sizes: ShimSizes, shim: number, ideal: number): boolean {
  if (ideal < -1e-9) return true
  const sorted = 'sizesMm' in sizes ? soundSizes(sizes.sizesMm).sort((a, b) => a - b) : []
  const gaps = sorted.slice(1).map((size, i) => size - (sorted[i] ?? size))
  const step = 'sizesMm' in sizes ? Math.max(0, ...gaps) : sizes.stepMm
  return step > 0 && Math.abs(shim - ideal) > step + 1e-9
}

/** What to do next, in words. */
export function shimWords(
  { shimMm, idealMm, expected, verdict, farOff }: ShimChoice,
  { number }: Figures,
): string {
  const size = `${number(shimMm, 6)} mm`
  const right = `${number(idealMm)} mm`
  if (idealMm < -1e-9)
    return `That asks for a shim of ${right}, which cannot be. Measure again; then look at what the shim rests on.`
  if (verdict === 'under' || verdict === 'over')
    return `${right} would be right. The nearest there is, ${size}, does not bring it within limits: order the right one.`
  if (verdict === 'no_limits' && farOff)
    return `${right} would be right. The nearest there is, ${size}, comes to ${number(expected)}: order the right one, or enter the limits.`
  return `Fit ${size}, then measure again.`
}
