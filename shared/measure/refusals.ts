/** Why nothing was reckoned from a measurement: the codes of this room and the one sentence of each. */
import { type Refusal, refuse } from '../log'
import { unitAfter } from '../units'
import { counted, exact, type Figures } from '../words'

interface MeasureRefusalData {
  /** `must`: its bounds, in words. */
  size_impossible: { what: string; value: number; unit: string; must: string }
  limits_crossed: { min: number; max: number }
  nothing_measured: { what: string }
  pairs_uneven: { what: string; first: number; second: number }
  no_clearance_volume: { volumeCc: number }
  no_sizes: { what: string }
  shim_moves_nothing: { perMm: number }
}

export type MeasureRefusal = Refusal<keyof MeasureRefusalData>

export const refuseMeasure = <Code extends keyof MeasureRefusalData>(
  code: Code,
  data: MeasureRefusalData[Code],
): MeasureRefusal => refuse(code, { ...data })

const SENTENCES: {
  [Code in keyof MeasureRefusalData]: (data: MeasureRefusalData[Code], figures: Figures) => string
} = {
  size_impossible: (d, f) =>
    Number.isFinite(d.value)
      ? `${exact(d.value, f)}${unitAfter(d.unit)} cannot be ${d.what}: it must be ${f.digits(d.must)}${unitAfter(d.unit)}. Measure it again and enter what you read.`
      : `There is no number for ${d.what}. Measure it and enter what you read.`,
  limits_crossed: (d, f) =>
    Number.isNaN(d.min) || Number.isNaN(d.max)
      ? 'A limit is not a number. Enter both as the maker gives them, or leave one empty.'
      : `Limits from ${exact(d.min, f)} to ${exact(d.max, f)} leave nothing between them. Enter the lower one first.`,
  nothing_measured: (d) => `There is no number for ${d.what} yet. Measure at least one place.`,
  pairs_uneven: (d) =>
    `${d.what}: ${counted(d.first, 'reading')} one way and ${d.second} the other. Take both at every level.`,
  no_clearance_volume: (d, f) =>
    `What is left above the piston comes to ${exact(d.volumeCc, f)} cm³. Look at chamber, gasket, deck and dish again.`,
  no_sizes: (d) =>
    `There are no sizes of ${d.what} to choose from. Enter the sizes, or the step between them.`,
  shim_moves_nothing: (d, f) =>
    `A shim that moves ${exact(d.perMm, f)} for each millimetre corrects nothing. Enter what one millimetre moves.`,
}

/** What is so, which one, what to do next. */
export function measureSentence(refusal: MeasureRefusal, figures: Figures): string {
  const sentence = SENTENCES[refusal.refused] as (data: Record<string, unknown>, figures: Figures) => string
  return sentence(refusal.data, figures)
}
