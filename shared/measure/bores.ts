/** Form of a bore, a journal or a face: out-of-round, taper, flatness. All in mm. */
import { type MeasureRefusal, refuseMeasure } from './refusals'
import { fieldsOf, impossibleSize, type Judged, judge, type Limits, listOf } from './verdict'

const WEAR = {
  under: 'Below the lowest figure given: measure again.',
  over: 'Worn out of shape: send it to the machine shop, and name the size it needs.',
}

/**
 * Out-of-round, mm: the largest difference, at one level, between two readings square to each other. `a` and `b` hold
 * the two directions level by level. Definition as in a diesel maker's service manual.
 */
export function outOfRound(
  input: { a: readonly number[]; b: readonly number[] },
  limits: Limits = {},
): Judged | MeasureRefusal {
  const [a, b] = [listOf(fieldsOf(input).a), listOf(fieldsOf(input).b)]
  if (a.length !== b.length)
    return refuseMeasure('pairs_uneven', { what: 'Out-of-round', first: a.length, second: b.length })
  const wrong = readingsWrong([...a, ...b], 'out-of-round')
  if (wrong) return wrong
  const differences = a.map((value, level) => Math.abs(value - (b[level] as number)))
  return judge(Math.max(...differences), 'mm', limits, WEAR)
}

/** Taper, mm: largest − smallest reading along one direction. */
export function taper(readings: readonly number[], limits: Limits = {}): Judged | MeasureRefusal {
  const list = listOf(readings)
  const wrong = readingsWrong(list, 'taper')
  return wrong ?? judge(Math.max(...list) - Math.min(...list), 'mm', limits, WEAR)
}

/** Flatness permitted over a span, both in one unit of length: span · limit per unit of length. */
export const flatnessLimit = (span: number, limitPerLength: number): number | MeasureRefusal =>
  impossibleSize({ 'the span': span, 'the limit per length': limitPerLength }, '', 'zero_too') ??
  span * limitPerLength

function readingsWrong(readings: readonly number[], what: string): MeasureRefusal | undefined {
  if (readings.length === 0) return refuseMeasure('nothing_measured', { what })
  for (const value of readings) {
    const impossible = impossibleSize({ 'a diameter': value })
    if (impossible) return impossible
  }
  return undefined
}
