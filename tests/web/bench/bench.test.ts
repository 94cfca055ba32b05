import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import { decide } from '../../../shared/job/decide'
import { FLAGS } from '../../../shared/job/kinds'
import type { RefusalCode } from '../../../shared/job/refusals'
import { kindsOf } from '../../../shared/kinds'
import { isRefusal } from '../../../shared/log'
import { numberWords } from '../../../shared/plan/order'
import type { Shop, Wrench } from '../../../shared/shop/types'
import { againstWrench, type Picked, type Setting } from '../../../shared/wrench'
import { headName, headsOf } from '../../../web/drawings/heads'
import { adviceFor, interruptionWords, notYet, stopWords } from '../../../web/pages/bench/cautions'
import { choiceFor, whyNot } from '../../../web/pages/bench/choose'
import { stationsOf } from '../../../web/pages/bench/stations'
import {
  nextTarget,
  oddReadings,
  passViews,
  type Round,
  roundsOf,
  waitUntil,
} from '../../../web/pages/bench/work'
import { heldUp, proposedWrench, shownOn, wrenchChoices } from '../../../web/pages/bench/wrench'
import { benchWith } from '../../shop/bench'
import { person } from '../../shop/people'
import { demoPlan } from '../../shop/plans/demo'
import { shopOf } from '../../shop/shop'
import { START } from '../../shop/time'
import { figures } from '../../shop/words'
import { wrench } from '../../shop/wrenches'
import { phaseAt } from './at'

const click = (id: string, some: Partial<Wrench> = {}) =>
  wrench(id, { title: id, min: 10, increment: 0.5, ...some })
const shop = shopOf({
  people: [person('bram', { initials: 'BT' }), person('suvi', { initials: 'SH', paint: 'green' })],
  wrenches: [
    click('TW-11'),
    click('TW-12', { min: 40, max: 200, increment: 1, state: 'failed' }),
    click('TW-13', { min: 5, max: 25, increment: 0.1 }),
    click('TW-14', { unit: 'lbf·ft', min: 5, max: 75, increment: 1 }),
    click('TW-15', { min: 20, max: 100, increment: 1 }),
    click('IW-01', { kind: 'indicating', min: 0, max: 50 }),
    click('AG-02', { kind: 'angle_gauge', unit: 'deg', min: 0, max: 360 }),
  ],
})
const bench = (name: string) => benchWith({ shop, plan: demoPlan(name) })

const HEAD = [1, 2, 3, 4, 5, 6, 7, 8]

function headBench() {
  const at = bench('orrath-q31')
  at.done('B5')
  at.does({ type: 'ClaimStep', stepId: 'D1' })
  const [round] = roundsOf(at.step('D1'))
  return { ...at, round: round as Round }
}

describe('what comes next on a joint', () => {
  test('unclaimed it is only looked at; claimed, the scale is asked before the first head', () => {
    const at = bench('orrath-q31')
    at.done('B5')
    const [round] = roundsOf(at.step('D1')) as [Round]
    expect(phaseAt(at, round, 1, 'TW-11')).toEqual({ kind: 'look' })
    at.does({ type: 'ClaimStep', stepId: 'D1' })
    expect(phaseAt(at, round, 1, 'TW-11')).toMatchObject({ kind: 'enter_scale', wrench: { id: 'TW-11' } })
  })

  test('with the number entered, the heads follow one another; a pass that is through offers the next', () => {
    const at = headBench()
    at.clicks('G-D1', 1, 'TW-11', 30, [1, 2])
    expect(phaseAt(at, at.round, 1, 'TW-11')).toMatchObject({ kind: 'record', how: 'clicked', head: 3 })
    at.clicks('G-D1', 1, 'TW-11', 30, [3, 4, 5, 6, 7, 8])
    expect(phaseAt(at, at.round, 1, 'TW-11')).toEqual({
      kind: 'through',
      next: { round: at.round.key, pass: 2 },
    })
    expect(passViews(at.job(), at.round).map(({ state }) => state)).toEqual([
      'done',
      'now',
      'to_come',
      'to_come',
    ])
  })

  test('at a new pass, and after a put-down, the number is asked again', () => {
    const at = headBench()
    at.clicks('G-D1', 1, 'TW-11', 30, HEAD)
    expect(phaseAt(at, at.round, 2, 'TW-15').kind).toBe('enter_scale')
    at.clicks('G-D1', 2, 'TW-15', 65, [1, 2])
    expect(phaseAt(at, at.round, 2, 'TW-15').kind).toBe('record')
    at.does({ type: 'PutDownStep', stepId: 'D1' })
    at.does({ type: 'ClaimStep', stepId: 'D1' })
    expect(phaseAt(at, at.round, 2, 'TW-15').kind).toBe('restart')
    at.does({
      type: 'RestartRound',
      jointId: at.round.joint.id,
      position: at.round.positions[0] ?? 1,
      how: 'slackened',
    })
    expect(phaseAt(at, at.round, 1, 'TW-15').kind).toBe('enter_scale')
  })

  test('an angle pass takes one press a head, with the gauge or without one', () => {
    const at = headBench()
    at.clicks('G-D1', 1, 'TW-11', 30, HEAD)
    at.clicks('G-D1', 2, 'TW-15', 65, HEAD)
    expect(phaseAt(at, at.round, 3, 'AG-02')).toMatchObject({ kind: 'record', how: 'turned', head: 1 })
    expect(phaseAt(at, at.round, 3, undefined)).toMatchObject({ kind: 'record', how: 'turned', head: 1 })
  })

  test('65 on a lbf·ft scale is held up with both readings, until it is set again or meant so', () => {
    const at = headBench()
    at.clicks('G-D1', 1, 'TW-11', 30, HEAD)
    at.does({ type: 'EnterScale', jointId: 'G-D1', pass: 2, wrenchId: 'TW-14', value: 65 })
    const phase = phaseAt(at, at.round, 2, 'TW-14')
    expect(phase.kind).toBe('held_up')
    if (phase.kind !== 'held_up') return
    expect(phase.why.sentences).toEqual([
      '65 on this wrench is 65 lbf·ft = 88.1 N·m.',
      'The plan says 65 N·m, which is 47.9 on this scale.',
    ])
    expect(phaseAt(at, at.round, 2, 'TW-14', { confirmedScales: [phase.entry.id] }).kind).toBe('record')
    at.does({ type: 'EnterScale', jointId: 'G-D1', pass: 2, wrenchId: 'TW-14', value: 48 })
    expect(phaseAt(at, at.round, 2, 'TW-14').kind).toBe('record')
  })

  test('a setting that is merely under the band is held up too, and said so', () => {
    const at = headBench()
    at.does({ type: 'EnterScale', jointId: 'G-D1', pass: 1, wrenchId: 'TW-11', value: 28 })
    const entry = at.job().scales['TW-11']
    expect(entry && heldUp(entry, 30, at.round.joint)?.title).toBe('Stop: the scale is set below the band.')
  })

  test('a setting that would break the bolt is asked about, and one its wrench does not reach is said', () => {
    const at = headBench()
    at.does({ type: 'EnterScale', jointId: 'G-D1', pass: 1, wrenchId: 'TW-11', value: 400 })
    const broken = at.job().scales['TW-11']
    const why = broken && heldUp(broken, 30, at.round.joint)
    expect(why?.title).toBe('Stop: does the scale really read so?')
    expect(why?.sentences[0]).toMatch(
      /^400 N·m would break an M12x1.5 bolt \(10.9\): even at .* \d+ % of its breaking load\.$/,
    )
    at.does({ type: 'EnterScale', jointId: 'G-D1', pass: 1, wrenchId: 'TW-11', value: 2 })
    const low = at.job().scales['TW-11']
    expect(low && heldUp(low, 30, at.round.joint)?.title).toBe('Stop: TW-11 does not reach that.')
  })

  test('a wait is said with its end, and a head before it is called too early', () => {
    const at = bench('ottersby-s9')
    at.done('D1', 'A1', 'A2', 'B1', 'B2', 'B3', 'C1')
    at.does({ type: 'ClaimStep', stepId: 'D2' })
    const [round] = roundsOf(at.step('D2')) as [Round]
    expect(round.joint.passes.map(({ kind }) => kind)).toEqual(['wait', 'slacken', 'torque'])
    expect(phaseAt(at, round, 1, undefined)).toMatchObject({ kind: 'wait', minutes: 240 })
    expect(phaseAt(at, round, 2, undefined)).toMatchObject({ kind: 'record', how: 'slackened' })
    expect(waitUntil(at.job(), round, 1)).toBeUndefined()
  })
})

describe('rounds and stations', () => {
  test('rod caps are rounds of their own: the second cap comes after all passes of the first', () => {
    const at = bench('orrath-q31')
    at.done('B2', 'B3')
    at.does({ type: 'ClaimStep', stepId: 'B4' })
    const step = at.step('B4')
    expect(roundsOf(step).map(({ title, positions }) => `${title}: ${positions.join(' ')}`)).toEqual([
      'Rod cap 1: 1 2',
      'Rod cap 2: 3 4',
      'Rod cap 3: 5 6',
    ])
    at.clicks('G-B4', 1, 'TW-11', 15, [1, 2])
    expect(nextTarget(at.job(), step)).toEqual({ round: 'G-B4:1', pass: 2 })
    at.clicks('G-B4', 2, 'TW-11', 25, [1, 2])
    for (const position of [1, 2])
      at.does({
        type: 'TakeReading',
        jointId: 'G-B4',
        position,
        pass: 3,
        how: 'turned',
        value: 60,
        wrenchId: 'AG-02',
      })
    expect(nextTarget(at.job(), step)).toEqual({ round: 'G-B4:3', pass: 1 })
    expect(
      stationsOf(at.job(), step, at.now()).map(({ title, tally, done }) => `${title} ${tally} ${done}`),
    ).toEqual([
      'Rod cap 1 2 of 2 true',
      'Rod cap 2 0 of 2 false',
      'Rod cap 3 0 of 2 false',
      'Measure 0 of 4 false',
      'Sign 0 of 8 false',
    ])
  })

  test('every step of both plans has its signatures as the last station', () => {
    for (const name of ['orrath-q31', 'ottersby-s9']) {
      const at = bench(name)
      for (const step of at.job().plan.steps)
        expect(stationsOf(at.job(), step, at.now()).at(-1)?.kind).toBe('sign')
    }
  })
})

describe('the wrench in hand', () => {
  test('the number is in its unit, to its step, and stays in the band', () => {
    const on = (torqueNm: number, minNm: number, maxNm: number) => {
      const band = { kind: 'torque', minNm, maxNm, from: 'plan' } as const
      const choices = wrenchChoices(shop, { kind: 'torque', torqueNm }, START, { band })
      return choices.find(({ wrench: { id } }) => id === 'TW-14') as Picked
    }
    const foot = on(65, 61.75, 68.25)
    expect(foot.setting).toMatchObject({ unit: 'lbf·ft', betweenMarks: false })
    expect(shownOn(foot.setting as Setting, foot.wrench)).toBe('48')
    const narrow = on(9, 8.8, 9.2)
    expect(narrow.setting?.betweenMarks).toBe(true)
    expect(shownOn(narrow.setting as Setting, narrow.wrench)).toBe('6.64')
  })

  test('best first; what is ruled out stands last with its reason, the plan’s too', () => {
    const choices = wrenchChoices(shop, { kind: 'torque', torqueNm: 65, wrench: 'TW-12' }, START)
    expect(choices.map(({ wrench: { id }, fits }) => `${id} ${fits}`)).toEqual([
      'TW-15 true',
      'TW-14 true',
      'IW-01 false',
      'TW-11 false',
      'TW-13 false',
      'TW-12 false',
    ])
    const why = (id: string) =>
      againstWrench(choices.find(({ wrench }) => wrench.id === id) as Picked, figures)
    expect(why('TW-12')).toEqual(['failed its check: do not use'])
    expect(why('TW-11')).toEqual(['65 N·m is outside its scale, 10–60 N·m'])
    expect(why('TW-14')).toEqual(['its scale is in lbf·ft'])
    expect(proposedWrench(choices)?.id).toBe('TW-15')
  })

  test('the plan’s wrench is the one in hand as long as it fits, also where another ranks higher', () => {
    const far = {
      ...shop,
      wrenches: {
        ...shop.wrenches,
        'TW-14': wrench('TW-14', { away: 'at the slip', unit: 'lbf·ft', max: 75 }),
      },
    }
    const choices = wrenchChoices(far, { kind: 'torque', torqueNm: 20, wrench: 'TW-14' }, START, {
      band: { kind: 'torque', minNm: 19.9, maxNm: 20.1, from: 'plan' },
    })
    expect(choices[0]?.wrench.id).not.toBe('TW-14')
    expect(proposedWrench(choices)?.id).toBe('TW-14')
  })
})

describe('what must be seen', () => {
  test('a head out of its turn is odd, newest first, and advice is there for every flag', () => {
    const at = headBench()
    at.clicks('G-D1', 1, 'TW-11', 30, [1, 5])
    expect(oddReadings(at.job(), at.round).map(({ position, flags }) => `${position} ${flags}`)).toEqual([
      '5 out_of_order',
    ])
    for (const flag of kindsOf(FLAGS))
      expect(adviceFor(flag, { how: 'clicked', band: null, pass: 1 })).toMatch(/\.$/)
  })

  test('what would be covered too early is named, with what it still lacks', () => {
    const at = headBench()
    expect(notYet(at.job(), at.step('D1'))).toEqual([
      {
        stepId: 'D2',
        title: at.step('D2').title,
        why: 'It covers head bolts 2, 4–5, 7 (not tightened yet).',
      },
    ])
    at.clicks('G-D1', 1, 'TW-11', 30, HEAD)
    expect(notYet(at.job(), at.step('D1'))[0]?.why).toContain('3 passes to go')
  })

  test('what a stop costs follows the joint’s own rule, and changes with the first angle', () => {
    const at = headBench()
    expect(interruptionWords(at.job(), at.round.joint, 1)).toMatch(/^Nothing/)
    at.clicks('G-D1', 1, 'TW-11', 30, HEAD)
    expect(stopWords(at.job(), at.step('D1'), at.round.joint, 1).at(-1)).toMatch(/slacken all/)
    at.clicks('G-D1', 2, 'TW-15', 65, HEAD)
    at.does({ type: 'TakeReading', jointId: 'G-D1', position: 1, pass: 3, how: 'turned', value: 90 })
    expect(interruptionWords(at.job(), at.round.joint, 3)).toMatch(/new bolts/)
  })
})

describe('what somebody can do here', () => {
  test('theirs, then ready, then the rest with its reason', () => {
    const at = headBench()
    const choice = choiceFor(at.job(), 'bram', (command) => {
      const outcome = decide(at.job(), command, {
        shop,
        by: 'bram',
        doneAt: at.now(),
        commandId: 'may-i',
        through: 'sign_in',
      })
      return isRefusal(outcome) ? outcome.refused : undefined
    })
    expect(choice.mine.map(({ step }) => step.id)).toEqual(['D1'])
    expect(choice.ready.map(({ step }) => step.id)).toContain('A1')
    expect(choice.notReady.find(({ step }) => step.id === 'D2')?.why).toBe('needs_open')
    const { mine, second, ready, others, notReady, done } = choice
    expect([mine, second, ready, others, notReady, done].flat()).toHaveLength(at.job().plan.steps.length)
  })

  test('[CL13] a step of somebody who has left is ready for another, and theirs no more', () => {
    const at = headBench()
    const mayIn = (left: Shop['left']) => (command: JobCommand) => {
      const context = { doneAt: at.now(), commandId: 'may-i', through: 'sign_in' as const }
      const outcome = decide(at.job(), command, { shop: { ...shop, left }, by: 'suvi', ...context })
      return isRefusal(outcome) ? outcome.refused : undefined
    }
    const ids = (rows: { step: { id: string } }[]) => rows.map(({ step }) => step.id)
    const before = choiceFor(at.job(), 'suvi', mayIn(undefined))
    expect([ids(before.others).includes('D1'), ids(before.ready).includes('D1')]).toEqual([true, false])
    const after = choiceFor(at.job(), 'suvi', mayIn({ bram: { by: 'suvi', at: at.now() } }))
    expect([ids(after.others).includes('D1'), ids(after.ready).includes('D1')]).toEqual([false, true])
  })

  test('what nobody may do yet says what stands before it, in a few words', () => {
    const refused = (code: RefusalCode, data: object) =>
      whyNot({ code, data, sentence: 'A sentence.' } as Parameters<typeof whyNot>[0])
    const needs = [
      { id: 'C1', title: 'Idler hub' },
      { id: 'C2', title: 'Oil pump' },
    ]
    expect(refused('needs_open', { needs })).toBe('Comes after C1 Idler hub and C2 Oil pump.')
    expect(refused('not_entitled', { class: 'A', family: 'diesel' })).toBe(
      'Class A on a diesel engine: you may not sign that.',
    )
    expect(refused('already_claimed', {})).toBe('A sentence.')
    expect(whyNot(undefined)).toBeUndefined()
  })
})

describe('heads as they stand', () => {
  test('a head wears paint when it is final, and the second signer crosses it', () => {
    const at = bench('orrath-q31')
    at.done('F4')
    const step = at.step('B7')
    at.done('B6', 'B2', 'A3')
    at.does({ type: 'ClaimStep', stepId: 'B7' })
    at.clicks('G-B7', 1, 'TW-13', 22, [1])
    const heads = headsOf(at.job(), shop, step, step.joints[0] as never, {
      pass: 1,
      next: 2,
      waiting: new Map([[1, 'kept']]),
    })
    expect(heads).toMatchObject([
      { n: 1, state: 'final', first: { initials: 'BT', paint: 'blue' }, waiting: 'kept' },
      { n: 2, state: 'open', next: true },
    ])
    expect(heads[0]?.second).toBeUndefined()
    expect(headName(at.job(), step.joints[0] as never, heads[1] as never, 1)).toBe(
      'Cam thrust plate bolts, 2 of 2, pass 1, not yet reached, next',
    )
  })

  test('where the order is another than the numbers, both are said', () => {
    expect(numberWords({ order: [3, 1, 2] }, 1)).toBe('1 (2nd in order)')
    expect(numberWords({ order: [1, 2, 3] }, 3)).toBe('3')
    expect(numberWords({}, 4)).toBe('4')
  })
})
