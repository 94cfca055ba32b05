/** What a record amounts to: final, proven, ready, hidden; the reason an engine waits; its summary. */
import { describe, expect, test } from 'vitest'
import { ATTENTION, reasonSentence } from '../../../shared/job/reason'
import { reasonFor } from '../../../shared/job/reason-for'
import { summarise } from '../../../shared/job/summary'
import type { Job, PlannedJob } from '../../../shared/job/types'
import {
  flaggedOn,
  hasBegun,
  hiddenBy,
  isDone,
  isProven,
  isSigned,
  nextInRound,
  openNeeds,
  positionState,
  setViews,
  standingOf,
  unprovenBehind,
} from '../../../shared/job/verdicts'
import {
  answer,
  claim,
  type Given,
  measure,
  open,
  putDown,
  scale,
  secondSign,
  shows,
  sign,
  slacken,
  turn,
} from '../../shop/acts'
import { fresh, given } from '../../shop/given'
import {
  capSigned,
  capsReady,
  headProven,
  headSigned,
  headTorqued,
  headTurned,
  sumpDone,
} from '../../shop/stories'
import { START } from '../../shop/time'
import { words } from '../../shop/words'

const stepOf = (job: PlannedJob, id: string) => {
  const step = job.plan.steps.find((one) => one.id === id)
  if (!step) throw new Error(`no step ${id}`)
  return step
}
const jointOf = (job: PlannedJob, id: string) => {
  const joint = job.plan.steps.flatMap(({ joints }) => joints).find((one) => one.id === id)
  if (!joint) throw new Error(`no joint ${id}`)
  return joint
}
const headBolt = (...happened: Given[]) => {
  const { job } = given(...happened)
  return positionState(job, jointOf(job, 'JH'), 2)
}
const headSet = (...happened: Given[]) => {
  const { job } = given(...happened)
  return setViews(job, stepOf(job, 'head'))[0]
}
const standing = (id: string, ...happened: Given[]) => {
  const { job } = given(...happened)
  return standingOf(job, stepOf(job, id))
}

describe('a position', () => {
  test('[VW1] is open while a pass is to go', () => {
    expect(headBolt()).toEqual({ reached: [], nextPass: 1, flags: [], final: false })
    expect(headBolt(headTorqued())).toEqual({ reached: [1], nextPass: 2, flags: [], final: false })
  })
  test('[VW1] is final when all passes are reached and no flag stands', () => {
    expect(headBolt(headTurned())).toEqual({ reached: [1, 2], nextPass: undefined, flags: [], final: true })
    expect(headBolt(headTorqued(), turn('JH', 2, 99))).toMatchObject({
      nextPass: undefined,
      flags: ['out_of_band', 'overshot'],
      final: false,
    })
  })
  test('[VW1] names a flag once, however many readings carry it', () => {
    expect(headBolt(shows('JH', 2, 30), turn('JH', 2, 90)).flags).toEqual(['not_claimed', 'out_of_order'])
  })
  test('[VW2] a flagged slackening in a slacken pass stands, a taking back does not', () => {
    const flags = (...happened: Given[]) => {
      const { job } = given(...happened)
      return flaggedOn(job, jointOf(job, 'JR')).map((reading) => [reading.pass, ...reading.flags])
    }
    const torqued = [claim('reseat'), shows('JR', 1, 20), shows('JR', 2, 20)]
    expect(flags(torqued, slacken('JR', 1, { pass: 2, by: 'bo' }))).toEqual([[2, 'not_claimed']])
    expect(flags(torqued, slacken('JR', 1, { pass: 1, by: 'bo' }))).toEqual([])
  })
  test('[VW3] the next of a round is the next in order that has no reading', () => {
    const { job } = given(claim('head'), shows('JH', 2, 30))
    expect(nextInRound(job, stepOf(job, 'head'), jointOf(job, 'JH'), 4, 1)).toEqual({
      positions: [2, 1, 4, 3],
      ordered: true,
      next: 1,
    })
    expect(nextInRound(job, stepOf(job, 'caps'), jointOf(job, 'JC'), 4, 1)).toMatchObject({
      positions: [4, 3],
      next: 4,
    })
  })
})

describe('a set', () => {
  test('[VW4] is final when every position is, and proven with every signature it asks for', () => {
    expect(headSet(headTorqued())).toMatchObject({ final: false, proven: false })
    expect(headSet(headTurned())).toMatchObject({ final: true, proven: false })
    expect(headSet(headSigned())).toMatchObject({ final: true, proven: false })
    expect(headSet(headProven())).toMatchObject({ final: true, proven: true })
    expect(headSet(headProven(), slacken('JH', 2))).toMatchObject({ final: false, proven: false })
  })
  test('[VW4] where one signature is asked, one proves', () => {
    const { job } = given(capsBoth(), sumpDone())
    expect(isProven(job, { joint: 'JS' })).toBe(true)
    expect(isDone(job, stepOf(job, 'sump'))).toBe(true)
  })
  test('[VW5] fasteners are proven when every set that covers any of them is', () => {
    const { job } = given(claim('caps'), capSigned(1), capSigned(2), secondSign('caps', { setId: 'cap-1' }))
    expect(isProven(job, { joint: 'JC', positions: [1, 2] })).toBe(true)
    expect(isProven(job, { joint: 'JC', positions: [2, 3] })).toBe(false)
    expect(isProven(job, { joint: 'JC' })).toBe(false)
  })
})

const capsBoth = (): Given[] => [
  claim('caps'),
  capSigned(1),
  capSigned(2),
  secondSign('caps', { setId: 'cap-1' }),
  secondSign('caps', { setId: 'cap-2' }),
]
describe('a step', () => {
  test('[VW6] is signed when every set carries its doer’s word, done when it carries all', () => {
    const { job: ready } = given(capsReady())
    expect(isSigned(ready, stepOf(ready, 'caps'))).toBe(false)
    const { job: signed } = given(capsReady(), sign('caps'))
    expect([isSigned(signed, stepOf(signed, 'caps')), isDone(signed, stepOf(signed, 'caps'))]).toEqual([
      true,
      false,
    ])
    const { job: done } = given(
      capsReady(),
      sign('caps'),
      ['cap-1', 'cap-2', 'step'].map((setId) => secondSign('caps', { setId })),
    )
    expect(isDone(done, stepOf(done, 'caps'))).toBe(true)
  })
  test('[VW7] begins with its first fact: a reading, a measurement, an answer; not with a claim or a scale', () => {
    const begun = (id: string, ...happened: Given[]) => {
      const { job } = given(...happened)
      return hasBegun(job, stepOf(job, id))
    }
    expect(begun('head')).toBe(false)
    expect(begun('head', claim('head'), scale('JH', 30))).toBe(false)
    expect(begun('head', shows('JH', 2, 30))).toBe(true)
    expect(begun('caps', measure('cap 1', 0.05))).toBe(true)
    expect(begun('caps', answer('turns'))).toBe(true)
  })
  test('[VW8] hides what it covers once it has begun, only those positions', () => {
    const { job: before } = given(capsBoth(), claim('sump', { by: 'cy' }))
    expect(hiddenBy(before, 'JC', [3])).toEqual([])
    const { job } = given(capsBoth(), sumpDone())
    expect(hiddenBy(job, 'JC', [3]).map(({ id }) => id)).toEqual(['sump'])
    expect(hiddenBy(job, 'JC', [1, 2])).toEqual([])
    expect(hiddenBy(job, 'JH', [1])).toEqual([])
  })
  test('[VW9] only class A joints must be proven before they are covered', () => {
    const { job } = given(headSigned())
    expect(unprovenBehind(job, stepOf(job, 'cover'))).toEqual([{ joint: 'JH' }])
    expect(openNeeds(job, stepOf(job, 'cover'))).toEqual([])
    const plan = {
      ...job.plan,
      steps: job.plan.steps.map((step) => ({
        ...step,
        joints: step.joints.map((joint) => (joint.id === 'JH' ? { ...joint, class: 'B' as const } : joint)),
      })),
    }
    expect(unprovenBehind({ ...job, plan }, stepOf({ ...job, plan }, 'cover'))).toEqual([])
  })
  test('[VW10] stands where anybody can see it', () => {
    expect(standing('head')).toBe('ready')
    expect(standing('cover')).toBe('not_ready')
    expect(standing('sump')).toBe('not_ready')
    expect(standing('head', claim('head'))).toBe('in_work')
    expect(standing('head', claim('head'), putDown('head'))).toBe('ready')
    expect(standing('head', headSigned())).toBe('awaiting_second')
    expect(standing('cover', headSigned())).toBe('not_ready')
    expect(standing('head', headProven())).toBe('done')
    expect(standing('cover', headProven())).toBe('ready')
    expect(standing('head', headProven(), shows('JH', 2, 30))).toBe('ready')
  })
})

describe('the one reason an engine waits', () => {
  const reason = (...happened: Given[]) => reasonFor(given(...happened).job)
  const said = (...happened: Given[]) => reasonSentence(reason(...happened), words)

  test('[VW11] no plan', () => {
    expect(reasonFor(fresh(open()).job)).toEqual({ code: 'no_plan' })
  })
  test('[VW11] nobody on it, and what is next', () => {
    expect(reason()).toEqual({ code: 'nobody_on_it', step: 'caps', title: 'Step caps', ready: 4 })
  })
  test('[VW11] in work', () => {
    expect(said(claim('head'), claim('drain', { by: 'bo' }))).toBe(
      'ana is working on “Step head” and bo is working on “Step drain”.',
    )
  })
  test('[VW11] a second signature, and what would cover it, before who is on it', () => {
    expect(reason(headSigned(), claim('drain'))).toEqual({
      code: 'second_due',
      step: 'head',
      title: 'Step head',
      before: 'Step cover',
    })
  })
  test('[VW11] a flag, before a second signature; a taking back is none', () => {
    expect(reason(headSigned(), shows('JV', 2, 10))).toEqual({
      code: 'second_late',
      step: 'cover',
      title: 'Step cover',
      behind: 'Joint JH',
    })
    expect(reason(headSigned(), claim('drain'), shows('JN', 1, 12))).toMatchObject({
      code: 'flagged',
      joint: 'Joint JN',
      position: 1,
      flag: 'no_published_value',
    })
    expect(reason(slacken('JH', 2))).toMatchObject({ code: 'nobody_on_it' })
    const reseat = [
      claim('reseat'),
      shows('JR', 1, 20),
      shows('JR', 2, 20),
      slacken('JR', 1, { pass: 2, by: 'bo' }),
    ]
    expect(reason(reseat)).toMatchObject({ code: 'flagged', flag: 'not_claimed', by: 'bo' })
  })
  test('[VW11] stuck, when nothing can go on', () => {
    const job = given(claim('caps'), capSigned(1), capSigned(2), putDown('caps')).job
    const only = (ids: string[]): Job => ({
      ...job,
      plan: { ...job.plan, steps: job.plan.steps.filter(({ id }) => ids.includes(id)) },
    })
    expect(reasonFor(only(['cover', 'head']))).toMatchObject({ code: 'nobody_on_it' })
    const stuck = reasonFor(only(['cover', 'proof']))
    expect(stuck).toMatchObject({ code: 'nobody_on_it', step: 'cover' })
    const needsEachOther = {
      ...job.plan,
      steps: job.plan.steps.filter(({ id }) => id === 'sump').map((step) => ({ ...step, needs: ['sump'] })),
    }
    expect(reasonFor({ ...job, plan: needsEachOther })).toMatchObject({ code: 'stuck', step: 'sump' })
  })
  test('[VW11] all signed', () => {
    const { job } = given(capsBoth(), sumpDone())
    const plan = { ...job.plan, steps: job.plan.steps.filter(({ id }) => id === 'sump') }
    expect(reasonFor({ ...job, plan })).toEqual({ code: 'all_signed' })
  })
  test('[VW11] each has its place in the order of attention', () => {
    expect(new Set(ATTENTION).size).toBe(15)
    expect(ATTENTION.indexOf('second_late')).toBeLessThan(ATTENTION.indexOf('flagged'))
    expect(ATTENTION.at(-1)).toBe('released')
  })
})

describe('the summary a board gets', () => {
  test('[VW12] before there is a plan', () => {
    expect(summarise(fresh(open()).job)).toMatchObject({
      number: 'E-1',
      version: 1,
      cells: [],
      stages: [],
      signed: 0,
      on: [],
    })
  })
  test('[VW12] a cell a step, with who holds it, who signed, what is critical and flagged', () => {
    const { job } = given(headProven(), claim('caps', { at: 99 }), shows('JN', 1, 12))
    const summary = summarise(job)
    expect(summary).toMatchObject({
      plan: { title: 'Test engine', edition: 1, invented: true },
      on: [{ by: 'ana', stepId: 'caps', since: START + 99 * 60_000 }],
      signed: 1,
      minutes: { all: 140, signed: 20 },
      reason: { code: 'flagged' },
    })
    expect(summary.cells.map(({ stepId }) => stepId)).toEqual(job.plan.steps.map(({ id }) => id))
    const cell = (id: string) => summary.cells.find(({ stepId }) => stepId === id)
    expect(cell('head')).toEqual({
      stepId: 'head',
      stage: 1,
      minutes: 20,
      standing: 'done',
      critical: true,
      by: 'ana',
      second: 'bo',
    })
    expect(cell('caps')).toEqual({
      stepId: 'caps',
      stage: 0,
      minutes: 20,
      standing: 'in_work',
      critical: true,
      by: 'ana',
    })
    expect(cell('drain')).toEqual({
      stepId: 'drain',
      stage: 0,
      minutes: 20,
      standing: 'ready',
      flagged: true,
    })
  })
})
