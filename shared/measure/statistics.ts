/** A series of readings in a few numbers: what a general library reckons, under our names. */
import { max, mean, min, sampleStandardDeviation } from 'simple-statistics'
import { type MeasureRefusal, refuseMeasure } from './refusals'
import { impossibleSize, listOf } from './verdict'

export interface Spread {
  count: number
  mean: number
  min: number
  max: number
  range: number
  /** Sample standard deviation (n − 1); absent for a single reading. */
  deviation?: number
}

/** Mean, extremes and sample standard deviation, in the unit of the readings. */
export function spread(series: readonly number[]): Spread | MeasureRefusal {
  const readings = listOf(series)
  if (readings.length === 0) return refuseMeasure('nothing_measured', { what: 'the series' })
  // Beyond this the squares of the deviation leave what a double holds.
  for (const value of readings) {
    const wrong = impossibleSize({ 'a reading': value }, '', 'any', 1e12)
    if (wrong) return wrong
  }
  const values = [...readings]
  const [low, high] = [min(values), max(values)]
  return {
    count: values.length,
    mean: mean(values),
    min: low,
    max: high,
    range: high - low,
    ...(values.length > 1 ? { deviation: sampleStandardDeviation(values) } : {}),
  }
}
