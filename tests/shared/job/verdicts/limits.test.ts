/** Measurements out of limits and wrong counts: they stand like a flag, on the cell and as the reason. */
import { describe, expect, test } from 'vitest'
import { DEFAULT_FORMAT, makeFormat } from '../../../../shared/format'
import { reasonSentence } from '../../../../shared/job/reason'
import { reasonFor } from '../../../../shared/job/reason-for'
import { summarise } from '../../../../shared/job/summary'
import { offLimits } from '../../../../shared/job/verdicts'
import { limitsWords, toDecimals } from '../../../../shared/plan/words'
import { answer, claim, type Given, measure, raise, shows, strikeMeasured, waive } from '../../../shop/acts'
import { given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { words } from '../../../shop/words'

const long = measure('crank', 0.34, { measurementId: 'float' })
const off = (...happened: Given[]) => {
  const { job } = given(...happened)
  return job.plan.steps.flatMap((step) => offLimits(job, step).map(({ kind }) => kind))
}
const reason = (...happened: Given[]) => reasonFor(given(...happened).job)
const caps = (...happened: Given[]) =>
  summarise(given(...happened).job).cells.find(({ stepId }) => stepId === 'caps')

describe('[VW16] a measurement out of limits', () => {
  test('stands until it is taken again, struck or accepted', () => {
    expect(off(long)).toEqual(['measurement'])
    expect(off(long, measure('crank', 0.3, { measurementId: 'float' }))).toEqual([])
    expect(off(long, strikeMeasured(entry(1)))).toEqual([])
    expect(off(long, waive({ kind: 'measurement', entryId: entry(1) }))).toEqual([])
    expect(off(measure('cap 1', 0.05))).toEqual([])
  })
  test('marks its cell', () => {
    expect(caps(long)).toMatchObject({ offLimits: true })
    expect(caps(measure('cap 1', 0.05))).not.toHaveProperty('offLimits')
  })
  test('is the one reason, with what it reads and what the plan asks for', () => {
    expect(reason(long)).toEqual({
      code: 'out_of_limits',
      step: 'caps',
      title: 'End float',
      value: 0.34,
      unit: 'mm',
      max: 0.3,
      by: 'ana',
    })
    expect(reasonSentence(reason(long), words)).toBe(
      'End float reads 0.34 mm; the plan says at most 0.30 mm. ana measured it.',
    )
    expect(reasonSentence(reason(measure('cap 2', 0.1)), words)).toBe(
      'Cap gap at cap 2 reads 0.10 mm; the plan says 0.03 to 0.08 mm. ana measured it.',
    )
  })
  test('comes after a flag on a reading, and before somebody in work', () => {
    expect(reason(long, shows('JN', 1, 12))).toMatchObject({ code: 'flagged' })
    expect(reason(long, claim('head'))).toMatchObject({ code: 'out_of_limits' })
  })
  test('is answered by a hold raised since, and stands again when it is cleared or measured later', () => {
    expect(reason(long, raise(['caps'], { kind: 'approval' }))).toMatchObject({ code: 'on_hold' })
    expect(reason(raise(['head']), long)).toMatchObject({ code: 'out_of_limits' })
    expect(caps(long, raise(['caps']))).toMatchObject({ standing: 'on_hold', offLimits: true })
  })
})

describe('[VW16] a wrong count', () => {
  test('stands like it, until it is counted again or accepted', () => {
    const wrong = answer('shells', { count: 3 })
    expect(off(wrong)).toEqual(['count'])
    expect(off(wrong, answer('shells', { count: 4 }))).toEqual([])
    expect(off(wrong, waive({ kind: 'gate', stepId: 'caps', gateId: 'shells' }))).toEqual([])
    expect(off(answer('turns'))).toEqual([])
    expect(caps(wrong)).toMatchObject({ offLimits: true })
    expect(reasonSentence(reason(wrong), words)).toBe('“Shells fitted”: 3 counted, 4 needed. ana counted.')
  })
})

describe('limits in words', () => {
  test('all with the decimals of the finest', () => {
    const limits = { value: 0.34, min: 0.1, max: 0.28, unit: 'mm' }
    expect([toDecimals(0.34, limits, words), limitsWords(limits, words)]).toEqual(['0.34', '0.10 to 0.28 mm'])
    expect(limitsWords({ min: 7, unit: 'bar' }, words)).toBe('at least 7 bar')
    expect(limitsWords({ max: 2.5, value: 3, unit: '°' }, words)).toBe('at most 2.5°')
    expect(toDecimals(1e-7, {}, words)).toBe('1e-7')
  })
  test('and with the shop’s decimal mark', () => {
    const comma = makeFormat({ ...DEFAULT_FORMAT, decimalMark: ',', timeZone: 'UTC' })
    expect(limitsWords({ min: 0.1, max: 0.28, unit: 'mm' }, comma)).toBe('0,10 to 0,28 mm')
  })
})
