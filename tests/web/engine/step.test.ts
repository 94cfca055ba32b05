/** A step on the engine page, in data and in words. */
import { describe, expect, test } from 'vitest'
import { limitsWords, passesWords } from '../../../shared/plan/words'
import { format } from '../../../web/format'
import { progressOf, stagesOf, stepView } from '../../../web/job/step/step-view'
import {
  fastenerWords,
  hiddenByWords,
  hidesWords,
  progressWords,
  standingWords,
} from '../../../web/job/step/step-words'
import { caps, claim, plan, read, second, sign, stepOf, tell, words } from '../../shop/small-engine'

const standing = (told: ReturnType<typeof tell>, id: string) =>
  standingWords(stepView(told.job, stepOf(told.job, id)), words)

describe('where a step stands, in words', () => {
  test('nothing in its way: ready', () => {
    expect(standing(tell(), 'S1')).toBe('ready')
  })
  test('needs are named by their ids, and what it would hide unproven by its joints', () => {
    expect(standing(tell(), 'C1')).toBe(
      'comes after S3; would cover main cap bolts and rod cap bolts 1–2, not signed off yet',
    )
  })
  test('claimed: by whom and since when', () => {
    expect(standing(tell(claim('suvi', 'S1')), 'S1')).toBe('in work by Suvi since +2 min')
  })
  test('begun and put down is not the same as never touched', () => {
    const told = tell(claim('bram', 'S1'), read('bram', 'J-cap', 1, 1, 50), [
      'bram',
      { type: 'PutDownStep', stepId: 'S1' },
    ])
    expect(standing(told, 'S1')).toBe('interrupted: somebody has to go on with it')
  })
  test('signed once where two are asked: who signed, and that a second is owed', () => {
    expect(standing(tell(...caps, sign('bram', 'S1')), 'S1')).toBe('signed by Bram, needs a second signature')
  })
  test('signed twice: done', () => {
    expect(standing(tell(...caps, sign('bram', 'S1'), second('suvi', 'S1')), 'S1')).toBe('done')
  })
})

describe('who signed', () => {
  test('caps signed by the same two make one dab, with the caps named', () => {
    const told = tell(
      claim('bram', 'S2'),
      ...[1, 2, 3, 4].map((n) => read('bram', 'J-rod', n, 1, 40)),
      sign('bram', 'S2', 'cap-1'),
      sign('bram', 'S2', 'cap-2'),
      second('suvi', 'S2', 'cap-1'),
      second('suvi', 'S2', 'cap-2'),
    )
    const { signers } = stepView(told.job, stepOf(told.job, 'S2'))
    expect(signers.map((pair) => [pair.first.by, pair.second?.by, pair.sets])).toEqual([
      ['bram', 'suvi', ['Rod cap 1', 'Rod cap 2']],
    ])
  })
  test('a cap not looked at yet stands apart', () => {
    const told = tell(
      claim('bram', 'S2'),
      ...[1, 2, 3, 4].map((n) => read('bram', 'J-rod', n, 1, 40)),
      sign('bram', 'S2', 'cap-1'),
      sign('bram', 'S2', 'cap-2'),
      second('suvi', 'S2', 'cap-1'),
    )
    const { signers } = stepView(told.job, stepOf(told.job, 'S2'))
    expect(signers.map((pair) => [pair.second?.by, pair.sets])).toEqual([
      ['suvi', ['Rod cap 1']],
      [undefined, ['Rod cap 2']],
    ])
  })
})

describe('joints, hides and measurements', () => {
  test('a joint counts final, proven and flagged positions', () => {
    const told = tell(claim('bram', 'S2'), read('bram', 'J-rod', 1, 1, 40), read('bram', 'J-rod', 2, 1, 70))
    const [joint] = stepView(told.job, stepOf(told.job, 'S2')).joints
    expect(joint).toMatchObject({ count: 4, begun: 2, final: 1, flagged: 1, proven: 0 })
  })
  test('a whole joint is named without positions, a part with them', () => {
    const { job } = tell()
    expect(hidesWords(stepView(job, stepOf(job, 'C1')).hides)).toBe(
      'main cap bolts (S1) and rod cap bolts 1–2 (S2)',
    )
    expect(hidesWords([])).toBeUndefined()
  })
  test('what hides a step says so in the future until the cover has begun', () => {
    const { job } = tell()
    expect(hiddenByWords(stepView(job, stepOf(job, 'S1')).hiddenBy)).toEqual([
      { text: 'C1 will cover main cap bolts', covered: false },
    ])
    const begun = tell(read('suvi', 'J-sump', 1, 1, 20))
    expect(hiddenByWords(stepView(begun.job, stepOf(begun.job, 'S1')).hiddenBy)).toEqual([
      { text: 'C1 covers main cap bolts', covered: true },
    ])
  })
  test('a measurement shows the entry that stands at each place', () => {
    const take = (value: number) => ({
      type: 'TakeMeasurement' as const,
      stepId: 'S3',
      measurementId: 'float',
      place: 'crank',
      value,
      instrument: 'dial',
    })
    const { job } = tell(claim('bram', 'S3'), ['bram', take(0.4)], ['bram', take(0.17)])
    expect(stepView(job, stepOf(job, 'S3')).measurements[0]?.places).toMatchObject([
      { place: 'crank', entry: { value: 0.17, inBand: true } },
    ])
  })
})

describe('stages', () => {
  test('progress counts a step signed once as waiting, not as done', () => {
    const { job } = tell(...caps, sign('bram', 'S1'), claim('suvi', 'S2'))
    const [short] = stagesOf(job.plan)
    const progress = progressOf(job, short?.steps ?? [])
    expect(progress).toEqual({ steps: 3, done: 0, awaiting: 1, inWork: 1, ready: 1, minutesLeft: 40 })
    expect(progressWords(progress)).toBe('0 of 3 done, 1 needs a second signature, 1 in work, 1 ready')
  })
  test('a stage without steps is left out', () => {
    const { job } = tell()
    const more = { ...job.plan, stages: [...job.plan.stages, { id: 'Z', title: 'Empty' }] }
    expect(stagesOf(more).map(({ id }) => id)).toEqual(['S', 'C'])
  })
})

describe('what the sheet asks, in words', () => {
  test('passes carry their unit once, angles and waits their own', () => {
    expect(
      passesWords(
        [
          { kind: 'torque', torqueNm: 30 },
          { kind: 'torque', torqueNm: 65 },
          { kind: 'angle', angleDeg: 90 },
        ],
        format,
      ),
    ).toBe('30 → 65 N·m → +90°')
    expect(
      passesWords(
        [{ kind: 'torque', torqueNm: 30 }, { kind: 'slacken' }, { kind: 'wait', minutes: 90 }],
        format,
      ),
    ).toBe('30 N·m → slacken fully → wait 1 h 30 min')
    expect(passesWords([{ kind: 'torque', torqueNm: null }], format)).toBe('no published torque')
  })
  test('a fastener is counted, threaded, and has a length where one is given', () => {
    expect(fastenerWords(plan.steps[0]?.joints[0] ?? expect.fail('no joint'))).toBe('2 × M10x1.25 × 30, 10.9')
  })
  test('limits on one side or both', () => {
    expect(limitsWords({ unit: 'mm', min: 0.1, max: 0.25 }, format)).toBe('0.10 to 0.25 mm')
    expect(limitsWords({ unit: 'N·m', max: 6 }, format)).toBe('at most 6 N·m')
    expect(limitsWords({ unit: 'bar', min: 2 }, format)).toBe('at least 2 bar')
  })
})
