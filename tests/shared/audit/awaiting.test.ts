/** What wants the supervisor, most urgent first. */
import { describe, expect, test } from 'vitest'
import { flaggedReadings, signBeforeHidden, unitSlips, unpublished } from '../../../shared/audit/awaiting'
import {
  claim,
  click,
  type Given,
  leaveOut,
  open,
  putDown,
  scale,
  secondSign,
  settle,
  shows,
  sign,
  slacken,
  strike,
  waive,
} from '../../shop/acts'
import { floor, fresh, given } from '../../shop/given'
import { entry } from '../../shop/ids'
import {
  capSigned,
  capsReady,
  capTorqued,
  headProven,
  headSigned,
  headTurned,
  pumpProven,
  pumpSigned,
} from '../../shop/stories'

const waiting = (...happened: Given[]) =>
  signBeforeHidden(given(...happened).job).map(({ step, set, awaits }) => `${step.id}/${set} ${awaits}`)

describe('sign before it gets hidden', () => {
  test('nothing waits while nothing is ready to be signed', () => {
    expect(waiting()).toEqual([])
    expect(waiting(claim('head'), shows('JH', 2, 30))).toEqual([])
    expect(waiting(headProven())).toEqual([])
    expect(signBeforeHidden(fresh(open()).job)).toEqual([])
  })
  test('a first signature waits once every position is final, a second after it', () => {
    expect(waiting(headTurned())).toEqual(['head/step first'])
    expect(waiting(headSigned())).toEqual(['head/step second'])
  })
  test('says what it covers, who signed and what would hide it next', () => {
    const [one] = signBeforeHidden(given(headSigned()).job)
    expect(one).toEqual({
      step: { id: 'head', title: 'Step head' },
      set: 'step',
      setTitle: 'Step head',
      covers: [{ joint: 'JH', title: 'Joint JH', class: 'A', positions: [1, 2, 3, 4] }],
      awaits: 'second',
      first: expect.objectContaining({ by: 'ana' }),
      hiddenBy: [],
      hiddenNextBy: { id: 'cover', title: 'Step cover', stepsBefore: 0 },
    })
  })
  test('what would be covered soonest goes first, what nothing covers last', () => {
    const both = [claim('caps'), capSigned(1), capSigned(2), headSigned()]
    expect(waiting(both)).toEqual(['caps/cap-2 second', 'head/step second', 'caps/cap-1 second'])
    expect(waiting(claim('caps'), capSigned(1), headSigned())).toEqual([
      'head/step second',
      'caps/cap-1 second',
    ])
  })
  test('the steps still to be signed before the next cover are counted, the waiting one left out', () => {
    const { job } = given(headTurned())
    const plan = {
      ...job.plan,
      steps: job.plan.steps.map((step) =>
        step.id === 'cover' ? { ...step, needs: ['head', 'reseat'] } : step,
      ),
    }
    expect(signBeforeHidden({ ...job, plan })[0]?.hiddenNextBy).toMatchObject({ id: 'cover', stepsBefore: 1 })
    const { job: two } = given(capsReady(), sign('caps'), headSigned())
    const later = {
      ...two,
      plan: {
        ...two.plan,
        steps: two.plan.steps.map((s) => (s.id === 'sump' ? { ...s, needs: ['reseat'] } : s)),
      },
    }
    expect(signBeforeHidden(later).map(({ step, set }) => `${step.id}/${set}`)).toEqual([
      'head/step',
      'caps/cap-2',
      'caps/cap-1',
      'caps/step',
    ])
  })
  test('what got covered already is at the top, also where work is to go', () => {
    const covered = [claim('caps'), capSigned(2), headSigned(), shows('JS', 1, 10, { by: 'cy' })]
    expect(waiting(covered)).toEqual(['caps/cap-2 second', 'head/step second'])
    expect(signBeforeHidden(given(covered).job)[0]).toMatchObject({ hiddenBy: [{ id: 'sump' }] })
    expect(signBeforeHidden(given(covered).job)[0]).not.toHaveProperty('hiddenNextBy')
    expect(waiting(headSigned(), shows('JS', 1, 10))).toEqual(['caps/cap-2 work', 'head/step second'])
  })
  test('a set that lapsed waits again', () => {
    expect(waiting(headProven(), shows('JH', 2, 30))).toEqual([])
    expect(waiting(headProven(), claim('caps'), capTorqued(1), putDown('caps'))).toEqual(['caps/cap-1 first'])
  })
  test('a step’s own word over counts alone is not waited for, its second signature is', () => {
    expect(
      waiting(capsReady(), secondSign('caps', { setId: 'cap-1' }), secondSign('caps', { setId: 'cap-2' })),
    ).toEqual([])
    expect(
      waiting(
        capsReady(),
        secondSign('caps', { setId: 'cap-1' }),
        secondSign('caps', { setId: 'cap-2' }),
        sign('caps'),
      ),
    ).toEqual(['caps/step second'])
  })
})

describe('flagged readings', () => {
  const flagged = (...happened: Given[]) =>
    flaggedReadings(given(...happened).job).map(({ joint, reading, hidden }) => [
      joint,
      reading.position,
      reading.flags,
      hidden,
    ])

  test('those whose flags stand, with whether they can still be reached', () => {
    expect(flagged(claim('drain'), shows('JN', 1, 9), claim('caps'), shows('JC', 4, 60))).toEqual([
      ['JC', 4, ['out_of_band'], false],
      ['JN', 1, ['no_published_value'], false],
    ])
    expect(flagged(claim('caps'), shows('JC', 4, 60), claim('reseat'), shows('JS', 1, 10))).toEqual([
      ['JC', 4, ['out_of_band'], true],
      ['JS', 1, ['not_claimed'], false],
    ])
  })
  test('not those struck, superseded or taken back', () => {
    expect(flagged(claim('drain'), shows('JN', 1, 9), strike(entry(2)))).toEqual([])
    expect(flagged(claim('head'), shows('JH', 2, 20), shows('JH', 2, 30))).toEqual([])
    expect(flagged(shows('JH', 2, 20), slacken('JH', 2, { by: 'bo' }))).toEqual([])
    expect(flaggedReadings(fresh(open()).job)).toEqual([])
  })
})

describe('values nobody published', () => {
  test('each pass, with how many of its positions were recorded all the same', () => {
    expect(unpublished(given().job)).toEqual([
      {
        step: { id: 'drain', title: 'Step drain' },
        joint: 'JN',
        jointTitle: 'Joint JN',
        class: 'B',
        pass: 1,
        positions: [1],
        recorded: 0,
      },
    ])
    const one = given(claim('drain'), shows('JN', 1, 9), shows('JN', 1, 10))
    expect(unpublished(one.job)).toMatchObject([{ joint: 'JN', recorded: 1 }])
    expect(unpublished(fresh(open()).job)).toEqual([])
  })
})

describe('numbers that fit only in another unit', () => {
  const slips = (...happened: Given[]) =>
    unitSlips(given(...happened).job).map(({ kind, joint, entry: { value }, stands }) => [
      kind,
      joint,
      value,
      stands,
    ])

  test('scale entries and readings, those that stand first', () => {
    expect(
      slips(claim('head'), shows('JH', 2, 22), strike(entry(2)), scale('JH', 30, { wrenchId: 'foot' })),
    ).toEqual([
      ['scale', 'JH', 30, true],
      ['reading', 'JH', 22, false],
    ])
    const footed = [
      claim('head'),
      scale('JH', 30, { wrenchId: 'foot' }),
      click('JH', 2, { wrenchId: 'foot' }),
    ]
    expect(slips(footed, scale('JH', 22, { wrenchId: 'foot' }))).toEqual([
      ['reading', 'JH', 30, true],
      ['scale', 'JH', 30, false],
    ])
  })
  test('not those that fit, and not those that read so', () => {
    expect(slips(claim('head'), scale('JH', 30), shows('JH', 2, 22, { readsSo: true }))).toEqual([])
    expect(unitSlips(fresh(open()).job)).toEqual([])
  })
})

describe('on the whole floor', () => {
  test('T13: what a supervisor accepted waits no more; what moved asks for both where it is due', () => {
    const sets = (...happened: Given[]) =>
      signBeforeHidden(floor(...happened).job).map(({ step, awaits, covers }) => [
        step.id,
        awaits,
        covers.map(({ joint }) => joint),
      ])
    expect(sets(pumpSigned())).toEqual([['pump', 'second', ['JP']]])
    expect(sets(pumpSigned(), waive({ kind: 'second', stepId: 'pump', setId: 'step' }))).toEqual([])
    const moved = [
      leaveOut('JP', [3], 'lift'),
      pumpProven([1, 2]),
      claim('lift'),
      shows('JL', 1, 15),
      shows('JP', 3, 30),
    ]
    expect(sets(moved, sign('lift'))).toEqual([['lift', 'second', ['JL', 'JP']]])
  })
  test('a value settled is named with its reason, and judges the reading', () => {
    const { job } = given(claim('drain'), shows('JN', 1, 20), settle('JN', 12))
    expect(unpublished(job)).toMatchObject([{ recorded: 1, settled: { by: 'dee', torqueNm: 12 } }])
    expect(flaggedReadings(job)).toMatchObject([{ flags: ['out_of_band'] }])
  })
})
