/** Verdicts, refusals and the choice of shims and gaskets. Published figures stand in `tests/published/`. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../shared/log'
import {
  bearingClearance,
  compressionRatio,
  endPlay,
  type GasketChoice,
  gasketGrade,
  gasketWords,
  type Judged,
  type MeasureRefusal,
  measureSentence,
  outOfRound,
  ringGap,
  type ShimChoice,
  shimWords,
  spread,
  sweptVolumeCc,
  taper,
  thrustShim,
  timingShim,
  valveShim,
} from '../../../shared/measure'
import { figures } from '../../shop/words'

const refused = (answer: unknown) => {
  expect(isRefusal(answer)).toBe(true)
  return answer as MeasureRefusal
}

describe('a verdict', () => {
  const limits = { min: 0.03, max: 0.07 }
  const clearance = (bore: number) =>
    bearingClearance({ boreWithShellsMm: bore, journalMm: 55 }, limits) as Judged

  test('both limits are inside, also where a float lies a hair beside them', () => {
    expect(55.07 - 55).not.toBe(0.07)
    expect(clearance(55.07).verdict).toBe('inside')
    expect(clearance(55.03).verdict).toBe('inside')
  })
  test('outside says which way and what to do next', () => {
    expect(clearance(55.02)).toMatchObject({ value: 0.02, verdict: 'under' })
    expect(clearance(55.071)).toMatchObject({ value: 0.071, verdict: 'over' })
    expect(clearance(55.071).next).toContain('Too loose')
    expect((ringGap(0.2, { min: 0.25 }) as Judged).next).toContain('file')
    expect((endPlay({ journalLengthMm: 28.5, widthMm: 28 }, { max: 0.25 }) as Judged).next).toContain(
      'oversize',
    )
  })
  test('without limits nothing is judged, and it says so', () => {
    expect(taper([84.01, 84])).toMatchObject({ verdict: 'no_limits' })
  })
  test('a journal thicker than its bore is under, not a fault of the form', () => {
    expect(bearingClearance({ boreWithShellsMm: 54.9, journalMm: 55 }, { min: 0 })).toMatchObject({
      verdict: 'under',
    })
  })
})

describe('what cannot be is refused with a sentence', () => {
  test.each([
    ['size_impossible', bearingClearance({ boreWithShellsMm: 0, journalMm: 55 })],
    ['size_impossible', endPlay({ journalLengthMm: Number.NaN, widthMm: 1 })],
    ['size_impossible', sweptVolumeCc({ boreMm: -1, strokeMm: 80 })],
    ['limits_crossed', ringGap(0.3, { min: 0.4, max: 0.2 })],
    ['limits_crossed', ringGap(0.3, { max: Number.NaN })],
    [
      'limits_crossed',
      valveShim({ oldMm: 2, measuredMm: 0.2, target: { kind: 'middle', min: 0.3, max: 0.2 }, stepMm: 0.05 }),
    ],
    ['size_impossible', bearingClearance({ journalMm: 55 } as never)],
    ['nothing_measured', taper([])],
    ['nothing_measured', spread([])],
    ['pairs_uneven', outOfRound({ a: [1, 2], b: [1] })],
    [
      'no_clearance_volume',
      compressionRatio({ boreMm: 80, strokeMm: 80, chamberCc: 0, gasketMm: 0, dishCc: -2 }),
    ],
    ['no_sizes', gasketGrade([0.6], [])],
    [
      'no_sizes',
      valveShim({ oldMm: 2, measuredMm: 0.2, target: { kind: 'fixed', value: 0.2 }, sizesMm: [] }),
    ],
    ['shim_moves_nothing', timingShim({ fittedMm: 0.5, readDeg: 19, targetDeg: 17, perMm: 0, stepMm: 0.1 })],
  ])('%s', (code, answer) => {
    const refusal = refused(answer)
    expect(refusal.refused).toBe(code)
    expect(measureSentence(refusal, figures)).toMatch(/^\S.{20,}\.$/)
    expect(measureSentence(refusal, figures)).not.toMatch(/undefined|NaN/)
  })
})

describe('choosing a shim', () => {
  const upper = { kind: 'upper_limit', max: 0.25 } as const

  test('aiming at the upper limit rounds the shim up, so that the clearance stays under it', () => {
    const choice = valveShim({ oldMm: 2.8, measuredMm: 0.42, target: upper, stepMm: 0.05 }) as ShimChoice
    expect(choice).toMatchObject({ idealMm: 2.97, shimMm: 3, expected: 0.22, verdict: 'inside' })
  })
  test('the nearest of the sizes there are; where it does not bring it inside, the right one is to be ordered', () => {
    const timing = {
      fittedMm: 0.5,
      readDeg: 19.1,
      targetDeg: 17,
      perMm: -10,
      limits: { min: 16.5, max: 17.5 },
    }
    expect(timingShim({ ...timing, sizesMm: [0.3, 0.5, 0.7] })).toMatchObject({
      idealMm: 0.71,
      shimMm: 0.7,
      expected: 17.1,
      verdict: 'inside',
    })
    const short = timingShim({ ...timing, sizesMm: [0.3, 0.4, 0.5, 0.6] }) as ShimChoice
    expect(short).toMatchObject({ shimMm: 0.6, expected: 18.1, verdict: 'over' })
    expect(shimWords(short, figures)).toContain('order')
  })
  test('a shim that cannot be, or far from any there is, is never told to be fitted', () => {
    const wide = { oldMm: 3.2, measuredMm: 0.65, target: { kind: 'fixed', value: 0.25 } } as const
    const far = valveShim({ ...wide, stepMm: 0.05, minMm: 2.5, maxMm: 3.3 }) as ShimChoice
    expect(far).toMatchObject({ idealMm: 3.6, shimMm: 3.3, expected: 0.55, verdict: 'no_limits' })
    expect(shimWords(far, figures)).toBe(
      '3.6 mm would be right. The nearest there is, 3.3 mm, comes to 0.55: order the right one, or enter the limits.',
    )
    expect(shimWords(valveShim({ ...wide, sizesMm: [2.9, 3, 3.1] }) as ShimChoice, figures)).toContain(
      'order',
    )
    const total = { measuredTotalMm: 0.1, target: { kind: 'fixed', value: 0.14 } } as const
    expect(shimWords(thrustShim({ ...total, sizesMm: [1.75, 1.8] }) as ShimChoice, figures)).toContain(
      'which cannot be',
    )
    expect(
      shimWords(thrustShim({ ...total, measuredTotalMm: 1.93, sizesMm: [1.75, 1.8] }) as ShimChoice, figures),
    ).toBe('Fit 1.8 mm, then measure again.')
  })
  test('what is expected after fitting is within half a step of the target, wherever the sizes reach', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.5, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom(0.01, 0.025, 0.05, 0.1),
        (oldMm, measuredMm, stepMm) => {
          const choice = valveShim({
            oldMm,
            measuredMm,
            target: { kind: 'fixed', value: 0.25 },
            stepMm,
          }) as ShimChoice
          expect(Math.abs(choice.expected - 0.25)).toBeLessThanOrEqual(stepMm / 2 + 1e-6)
        },
      ),
    )
  })
})

describe('the gasket', () => {
  const grades = [
    { name: 'one notch', minMm: 0.55, maxMm: 0.6 },
    { name: 'two notches', minMm: 0.6, maxMm: 0.65 },
    { name: 'three notches', minMm: 0.65, maxMm: 0.7 },
  ]
  test('by the highest piston of all', () => {
    expect(gasketGrade([0.58, 0.63, 0.56], grades)).toMatchObject({ highestMm: 0.63, grade: 'two notches' })
  })
  test('on a border, the one that leaves more room, and it says that it is one', () => {
    expect(gasketGrade([0.6], grades)).toMatchObject({ grade: 'two notches', onBorder: true })
    expect(gasketGrade([0.55], grades)).toMatchObject({ grade: 'one notch', onBorder: false })
  })
  test('a piston that no gasket covers is told, never rounded to the last grade', () => {
    const choice = gasketGrade([0.72], grades)
    expect(choice).not.toHaveProperty('grade')
    expect(gasketWords(choice as GasketChoice, figures)).toContain('No gasket')
  })
})

test('no number makes any of it throw or answer with none', () => {
  const any = fc.double()
  fc.assert(
    fc.property(any, any, any, any, (a, b, c, d) => {
      const answers = [
        bearingClearance({ housingMm: a, shellMm: b, journalMm: c }, { min: 0.02, max: 0.08 }),
        compressionRatio({ boreMm: a, strokeMm: b, chamberCc: c, gasketMm: d }),
        outOfRound({ a: [a, b], b: [c, d] }),
        valveShim({ oldMm: a, measuredMm: b, target: { kind: 'middle', min: c, max: d }, stepMm: 0.05 }),
        timingShim({ fittedMm: a, readDeg: b, targetDeg: c, perMm: d, sizesMm: [0.5, 0.6] }),
        spread([a, b, c, d]),
      ]
      for (const answer of answers)
        if (!isRefusal(answer)) expect(JSON.stringify(answer)).not.toContain('null')
    }),
    { numRuns: 500 },
  )
})
