/** Volumes and heights of a cylinder: swept volume, compression ratio, piston protrusion and its gasket. */
import type { Figures } from '../words'
import { type MeasureRefusal, refuseMeasure } from './refusals'
import {
  clean,
  fieldsOf,
  impossibleSize,
  isNumber,
  type Judged,
  judge,
  type Limits,
  listOf,
  verdictOn,
} from './verdict'

/** A cylinder's volume, cm³, from diameter and height in mm: π/4 · d² · h. */
const discCc = (diameterMm: number, heightMm: number): number =>
  ((Math.PI / 4) * diameterMm ** 2 * heightMm) / 1000

/** Swept volume of one cylinder or of all, cm³: π/4 · bore² · stroke · cylinders. */
export function sweptVolumeCc(input: {
  boreMm: number
  strokeMm: number
  cylinders?: number
}): number | MeasureRefusal {
  const { boreMm, strokeMm, cylinders = 1 } = fieldsOf(input)
  const impossible =
    impossibleSize({ 'the bore': boreMm, 'the stroke': strokeMm }) ??
    impossibleSize({ 'the number of cylinders': cylinders }, '')
  return impossible ?? discCc(boreMm, strokeMm) * cylinders
}

export interface CompressionInput {
  boreMm: number
  strokeMm: number
  /** Chamber in the head, cm³. */
  chamberCc: number
  gasketMm: number
  /** Bore of the gasket; the cylinder's where not given. */
  gasketBoreMm?: number
  /** Piston below the deck at top dead centre; negative where it stands proud. */
  deckMm?: number
  /** In the piston: a dish or valve pockets above zero, a dome below. */
  dishCc?: number
}

/**
 * Compression ratio of one cylinder: (Vs + Vc) / Vc with Vc = chamber + gasket + deck + dish. No unit.
 */
export function compressionRatio(input: CompressionInput, limits: Limits = {}): Judged | MeasureRefusal {
  const { boreMm, chamberCc, gasketMm, gasketBoreMm = boreMm, deckMm = 0, dishCc = 0 } = fieldsOf(input)
  const swept = sweptVolumeCc(input)
  if (typeof swept !== 'number') return swept
  const impossible =
    impossibleSize({ 'the gasket': gasketMm, 'the chamber': chamberCc }, 'mm or cm³', 'zero_too') ??
    impossibleSize({ 'the gasket’s bore': gasketBoreMm }) ??
    impossibleSize({ 'the deck height': deckMm, 'the dish': dishCc }, 'mm or cm³', 'any')
  if (impossible) return impossible
  const left = chamberCc + discCc(gasketBoreMm, gasketMm) + discCc(boreMm, deckMm) + dishCc
  // A thousandth of a cubic millimetre: less is no room, and the ratio would leave what a number holds.
  if (!(left > LEAST_CC))
    return refuseMeasure('no_clearance_volume', { volumeCc: clean(Number(left.toFixed(3))) })
  return judge((swept + left) / left, ': 1', limits, {
    under: 'Too low: fit a thinner gasket, and check deck height and chamber volume.',
    over: 'Too high: fit a thicker gasket, and check how much was skimmed off head or block.',
  })
}

const LEAST_CC = 1e-6

export interface GasketGrade {
  name: string
  minMm: number
  maxMm: number
}

export interface GasketChoice {
  highestMm: number
  /** Absent where no grade covers it. */
  grade?: string
  /** It lies on the border of two grades: the thicker, that is the later of the list, is chosen. */
  onBorder: boolean
}

/**
 * Which gasket the pistons ask: the grade of the highest protrusion of all. On the border of two grades the one for
 * the higher protrusion, which leaves more room. Common practice, no source; the maker's table governs.
 */
export function gasketGrade(
  protrusionsMm: readonly number[],
  grades: readonly GasketGrade[],
): GasketChoice | MeasureRefusal {
  const protrusions = listOf(protrusionsMm)
  const sound = listOf(grades)
    .map(fieldsOf)
    .filter((one) => isNumber(one.minMm) && isNumber(one.maxMm) && typeof one.name === 'string')
  if (protrusions.length === 0) return refuseMeasure('nothing_measured', { what: 'piston protrusion' })
  if (sound.length === 0) return refuseMeasure('no_sizes', { what: 'gasket' })
  for (const value of protrusions) {
    const impossible = impossibleSize({ 'a protrusion': value }, 'mm', 'any')
    if (impossible) return impossible
  }
  const highestMm = clean(Math.max(...protrusions))
  const covering = [...sound]
    .sort((a, b) => a.minMm - b.minMm)
    .filter(({ minMm, maxMm }) => verdictOn(highestMm, { min: minMm, max: maxMm }) === 'inside')
  const grade = covering.at(-1)?.name
  return {
    highestMm,
    ...(grade === undefined ? {} : { grade }),
    onBorder: covering.length > 1,
  }
}

/** What to do next, in words. */
export function gasketWords({ grade, highestMm }: GasketChoice, { number }: Figures): string {
  return grade === undefined
    ? `No gasket covers ${number(highestMm)} mm: measure again on two sides of the piston; then look at rod, piston and deck.`
    : `Gasket ${grade}, by the highest piston, ${number(highestMm)} mm.`
}
