/**
 * Engine measurements against worked figures: from memory of service manuals where said, else computed from the definition
 * that the manual gives. Sizes in mm unless named; tolerance 1e-9, the figures are exact decimals.
 */
import { describe, expect, test } from 'vitest'
import {
  bearingClearance,
  bearingRuleMm,
  compressionRatio,
  endPlay,
  flatnessLimit,
  type Judged,
  outOfRound,
  ringGapRuleMm,
  type ShimChoice,
  sweptVolumeCc,
  taper,
  thrustShim,
  timingShim,
  valveShim,
} from '../../shared/measure'

const within = 9
const value = (judged: unknown) => (judged as Judged).value

describe('shims', () => {
  test('from memory of a diesel’s service manual: 2.80 in, 0.45 read, 0.25 wanted, steps of 0.05 give 3.00', () => {
    const choice = valveShim({
      oldMm: 2.8,
      measuredMm: 0.45,
      target: { kind: 'fixed', value: 0.25 },
      stepMm: 0.05,
      minMm: 2.5,
      maxMm: 3.3,
    }) as ShimChoice
    expect(choice.idealMm).toBeCloseTo(3, within)
    expect(choice.shimMm).toBeCloseTo(3, within)
  })
  test('computed: 17.0° wanted, 19.1° read with 0.50, a tenth moves a degree back: 0.71 would be right', () => {
    const choice = timingShim({
      fittedMm: 0.5,
      readDeg: 19.1,
      targetDeg: 17,
      perMm: -10,
      stepMm: 0.1,
    }) as ShimChoice
    expect(choice.idealMm).toBeCloseTo(0.71, within)
    expect(choice.shimMm).toBeCloseTo(0.7, within)
  })
  test('from memory, result and target (exhaust 0.22 to 0.31): 2.95 in, 0.47 read give 3.15 by the middle', () => {
    const choice = valveShim({
      oldMm: 2.95,
      measuredMm: 0.47,
      target: { kind: 'middle', min: 0.22, max: 0.31 },
      stepMm: 0.05,
    }) as ShimChoice
    expect(choice).toMatchObject({ shimMm: 3.15, verdict: 'inside' })
  })
  test('from memory of a car’s shop manual: 1.93 in all, 0.14 the middle: 1.79, and the 1.80 shim is taken', () => {
    const choice = thrustShim({
      measuredTotalMm: 1.93,
      target: { kind: 'fixed', value: 0.14 },
      stepMm: 0.05,
    }) as ShimChoice
    expect(choice.idealMm).toBeCloseTo(1.79, within)
    expect(choice.shimMm).toBeCloseTo(1.8, within)
  })
})

describe('clearances and form', () => {
  test('computed: bearing, bore with shells less journal: 55.047 − 55.002', () => {
    expect(value(bearingClearance({ boreWithShellsMm: 55.047, journalMm: 55.002 }))).toBeCloseTo(
      0.045,
      within,
    )
  })
  test('computed: bearing from its shell: 59.010 − 2 × 1.985 − 55.002', () => {
    expect(value(bearingClearance({ housingMm: 59.01, shellMm: 1.985, journalMm: 55.002 }))).toBeCloseTo(
      0.038,
      within,
    )
  })
  test('computed: end play 28.10 − 27.95', () => {
    expect(value(endPlay({ journalLengthMm: 28.1, widthMm: 27.95 }))).toBeCloseTo(0.15, within)
  })
  test('definition, from memory of a marine diesel’s service manual: out-of-round is the largest difference at one level', () => {
    const bore = { a: [84.012, 84.008, 84.005], b: [84.004, 84.003, 84.003] }
    expect(value(outOfRound(bore, { max: 0.03 }))).toBeCloseTo(0.008, within)
  })
  test('definition, from memory of a study guide for technicians: taper is top less bottom', () => {
    expect(value(taper([84.045, 84.012]))).toBeCloseTo(0.033, within)
  })
  test('from memory of a car’s service manual: 0.00075 in per inch over 12 in is 0.009 in', () => {
    expect(flatnessLimit(12, 0.00075)).toBeCloseTo(0.009, within)
  })
  test('from memory, rules of the trade: 0.004 of the bore, 0.001 of the journal', () => {
    expect(ringGapRuleMm(4)).toBeCloseTo(0.016, within)
    expect(bearingRuleMm(2.25)).toBeCloseTo(0.00225, within)
  })
})

describe('volumes, computed from the definitions with independent arithmetic', () => {
  test('86 × 86 is 499.557 cm³, four of them 1998.2 cm³', () => {
    // 0.785 398 163 4 × 8.6³ = 0.785 398 163 4 × 636.056 = 499.5572
    expect(sweptVolumeCc({ boreMm: 86, strokeMm: 86 })).toBeCloseTo(499.5572, 4)
    expect(sweptVolumeCc({ boreMm: 86, strokeMm: 86, cylinders: 4 })).toBeCloseTo(1998.2, 1)
  })
  test('499.557 swept over 45 chamber, 1 mm gasket of 87, 0.5 below deck, 3 dish: 9.787 : 1', () => {
    // gasket 5.9447, deck 2.9044: 45 + 5.9447 + 2.9044 + 3 = 56.8491; (499.5572 + 56.8491) / 56.8491 = 9.7874
    const ratio = compressionRatio({
      boreMm: 86,
      strokeMm: 86,
      chamberCc: 45,
      gasketMm: 1,
      gasketBoreMm: 87,
      deckMm: 0.5,
      dishCc: 3,
    })
    expect(value(ratio)).toBeCloseTo(9.7874, 3)
  })
})
