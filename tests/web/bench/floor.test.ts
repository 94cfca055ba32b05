/** The bench of issue 3 as data: fasteners, interruption, what was left out, sealant, photo places, offers. */
import { describe, expect, test } from 'vitest'
import type { AdoptedStep } from '../../../shared/plan/types'
import type { Wrench } from '../../../shared/shop/types'
import { againstWrench, type Picked } from '../../../shared/wrench'
import { headName, headsOf } from '../../../web/drawings/heads'
import { laterSteps, leftOutOf } from '../../../web/job/deferrals/deferrals'
import { photoPlaces } from '../../../web/job/photos/photos'
import { settledWords, whoSettles } from '../../../web/job/settled/settled-words'
import { clockView, countdown } from '../../../web/job/step/sealant-words'
import { jobCommandWords } from '../../../web/live/job-command-words'
import { markerWords, notYet } from '../../../web/pages/bench/cautions'
import { fastenerHere, oddFasteners, roundToCount, toDeclare } from '../../../web/pages/bench/fasteners'
import { brokenOff } from '../../../web/pages/bench/interruption'
import { stationsOf } from '../../../web/pages/bench/stations'
import { nextTarget, type Round, roundsIn, sheetFor } from '../../../web/pages/bench/work'
import { wrenchChoices, wrenchOffer } from '../../../web/pages/bench/wrench'
import { benchWith } from '../../shop/bench'
import { person } from '../../shop/people'
import { demoPlan } from '../../shop/plans/demo'
import { shopOf } from '../../shop/shop'
import { DAY, MINUTE, START } from '../../shop/time'
import { figures, words } from '../../shop/words'
import { wrench } from '../../shop/wrenches'
import { phaseAt, roundAt } from './at'

const click = (id: string, some: Partial<Wrench> = {}) =>
  wrench(id, { title: id, min: 10, max: 100, increment: 0.5, dueAt: START + 100 * DAY, ...some })
const shop = shopOf({
  people: [person('bram'), person('suvi', { roles: ['supervisor'] })],
  wrenches: [click('TW-11'), click('TW-13', { min: 5, max: 25 }), click('TW-15')],
})
const bench = () => benchWith({ shop, plan: demoPlan('orrath-q31'), pace: 1000 })

const jointWhere = (use: string) => {
  const at = bench()
  const step = at.job().plan.steps.find(({ joints }) => joints[0]?.use.kind === use) as AdoptedStep
  return { at, step, round: roundsIn(at.job(), step)[0] as Round }
}

describe('fasteners', () => {
  test('one-use ones are declared for the whole round in one press; then nothing is asked', () => {
    const { at, round } = jointWhere('one_use')
    const asked = toDeclare(at.job(), round)
    expect(asked).toMatchObject({
      positions: round.positions,
      fresh: `${round.positions.length} new, one-use`,
      reused: [],
    })
    at.does({
      type: 'PlaceFasteners',
      jointId: round.joint.id,
      positions: [...round.positions],
      condition: 'new',
    })
    expect(toDeclare(at.job(), round)).toBeUndefined()
  })

  test('where tightenings are counted, each count from the second is a press', () => {
    const { at, round } = jointWhere('cycles')
    const of = round.positions.length
    expect(toDeclare(at.job(), round)?.reused).toEqual(
      [2, 3, 4].map((cycle) => ({ cycle, words: `${of} reused, tightening ${cycle} of 4` })),
    )
    const n = round.positions[0] ?? 1
    at.does({
      type: 'PlaceFasteners',
      jointId: round.joint.id,
      positions: [n],
      condition: 'reused',
      cycle: 4,
    })
    expect(fastenerHere(at.job(), round.joint, n)).toBe('reused, tightening 4 of 4')
    expect(toDeclare(at.job(), round)?.positions).not.toContain(n)
  })

  test('temporary, removed and hand-tight are said in words and drawn apart', () => {
    const at = bench()
    const step = at.step('D1')
    const round = roundAt(at, 'D1')
    const [a, b, c] = round.positions as [number, number, number]
    const place = (n: number, condition: 'temporary' | 'removed' | 'hand_tight') =>
      at.does({ type: 'PlaceFasteners', jointId: round.joint.id, positions: [n], condition })
    place(a, 'temporary')
    place(b, 'removed')
    place(c, 'hand_tight')
    expect(oddFasteners(at.job(), round)).toEqual([
      `Hand-tight only: ${c}.`,
      `Temporary, to be replaced: ${a}.`,
      `Removed, the hole is empty: ${b}.`,
    ])
    const heads = headsOf(at.job(), shop, step, round.joint)
    expect([a, b, c].map((n) => heads.find((head) => head.n === n)?.fitted)).toEqual([
      'temporary',
      'removed',
      'hand_tight',
    ])
    const hole = heads.find(({ n }) => n === b)
    expect(hole && headName(at.job(), round.joint, hole)).toContain('the hole is empty')
  })

  test('class A is never counted; B is, with what is open', () => {
    const at = bench()
    const head = roundAt(at, 'D1')
    expect(roundToCount(head.joint, head.positions, head.positions)).toBeUndefined()
    const b = at.job().plan.steps.flatMap((step) => roundsIn(at.job(), step))
    const counted = b.find(({ joint, positions }) => joint.class === 'B' && positions.length > 2) as Round
    expect(roundToCount(counted.joint, counted.positions, counted.positions)).toBe(counted.positions.length)
    expect(roundToCount(counted.joint, counted.positions, counted.positions.slice(-2))).toBe(2)
    expect(roundToCount(counted.joint, counted.positions, [])).toBeUndefined()
  })
})

describe('an interruption', () => {
  function broken() {
    const at = bench()
    at.done('B5')
    at.happens({ type: 'StepClaimed', by: 'bram', doneAt: at.now(), stepId: 'D1' })
    const round = roundAt(at, 'D1')
    at.does({ type: 'EnterScale', jointId: round.joint.id, pass: 1, wrenchId: 'TW-11', value: 30 })
    for (const position of round.positions.slice(0, 3))
      at.does({
        type: 'TakeReading',
        jointId: round.joint.id,
        position,
        pass: 1,
        how: 'clicked',
        wrenchId: 'TW-11',
      })
    return { at, round }
  }

  test('the marker is said before the stop; after it the page opens with what the rule asks', () => {
    const { at, round } = broken()
    expect(markerWords(at.job(), at.step('D1'))[0]).toMatch(/^Interrupted: .*pass 1, before .*\. Next: /)
    expect(brokenOff(at.job(), round)).toBeUndefined()
    at.does({ type: 'PutDownStep', stepId: 'D1' })
    expect(phaseAt(at, round, 1, 'TW-11')).toEqual({ kind: 'look' })
    at.does({ type: 'ClaimStep', stepId: 'D1' })
    const phase = phaseAt(at, round, 1, 'TW-11')
    expect(phase.kind).toBe('restart')
    if (phase.kind !== 'restart') return
    const [first, ...more] = phase.broken.ways
    expect(first?.how).toBe(phase.broken.mark.asks)
    expect(more.map(({ how }) => how)).toEqual(
      ['again', 'slackened', 'new_fasteners'].slice(
        ['again', 'slackened', 'new_fasteners'].indexOf(phase.broken.mark.asks) + 1,
      ),
    )
    expect(phase.broken.without).toContain('flagged')
  })

  test('one press records it and the work goes on; without it, the readings are flagged', () => {
    const { at, round } = broken()
    at.does({ type: 'PutDownStep', stepId: 'D1' })
    at.does({ type: 'ClaimStep', stepId: 'D1' })
    expect(phaseAt(at, round, 1, 'TW-11', { skippedRestarts: new Set([round.joint.id]) }).kind).toBe(
      'enter_scale',
    )
    at.does({
      type: 'TakeReading',
      jointId: round.joint.id,
      position: round.positions[3] ?? 4,
      pass: 1,
      how: 'clicked',
      wrenchId: 'TW-11',
    })
    expect(at.job().readings[round.joint.id]?.at(-1)?.flags).toContain('not_restarted')
    const how = brokenOff(at.job(), round)?.ways[0]?.how ?? 'again'
    at.does({ type: 'RestartRound', jointId: round.joint.id, position: round.positions[0] ?? 1, how })
    expect(brokenOff(at.job(), round)).toBeUndefined()
    expect(phaseAt(at, round, 1, 'TW-11').kind).toBe('enter_scale')
    expect(nextTarget(at.job(), at.step('D1'))).toEqual({ round: round.key, pass: 1 })
  })
})

test('left out on purpose: gone from its round, listed there, a round of its own where it is due', () => {
  const at = bench()
  const round = roundAt(at, 'D1')
  const last = round.positions.at(-1) as number
  expect(laterSteps(at.job(), 'D1').map(({ id }) => id)).toContain('D2')
  expect(laterSteps(at.job(), 'D1').map(({ id }) => id)).not.toContain('D1')
  at.does(
    {
      type: 'Defer',
      what: { kind: 'fasteners', joint: round.joint.id, positions: [last] },
      dueStepId: 'D2',
      reason: 'in the way',
    },
    'suvi',
  )
  expect(roundAt(at, 'D1').positions).toEqual(round.positions.slice(0, -1))
  expect(leftOutOf(at.job(), 'D1')).toMatchObject([
    {
      what: `${round.joint.title}, bolt ${last}`,
      deferral: { what: { positions: [last] }, dueStepId: 'D2' },
    },
  ])
  const due = roundsIn(at.job(), at.step('D2')).find(({ leftOutIn }) => leftOutIn === 'D1') as Round
  expect(due).toMatchObject({ positions: [last], joint: { id: round.joint.id } })
  expect(stationsOf(at.job(), at.step('D2'), at.now()).map(({ key }) => key)).toContain(due.key)
  const head = headsOf(at.job(), shop, at.step('D1'), round.joint).find(({ n }) => n === last)
  expect(head).toMatchObject({ leftOut: 'D2' })
  expect(head && headName(at.job(), round.joint, head)).toContain('left out, due at D2')
})

test('what is left out until the covering step is not in its way; the rest is named', () => {
  const at = bench()
  const { joint } = roundAt(at, 'D1')
  const why = () => notYet(at.job(), at.step('D1'))[0]?.why
  expect(why()).toBe('It covers head bolts 2, 4–5, 7 (not tightened yet).')
  at.does(
    {
      type: 'Defer',
      what: { kind: 'fasteners', joint: joint.id, positions: [4, 5] },
      dueStepId: 'D2',
      reason: 'in the way',
    },
    'suvi',
  )
  expect(why()).toBe('It covers head bolts 2, 7 (not tightened yet).')
})

describe('the sealant clock', () => {
  test('runs from the first bead, is late past its window, cures from the last fastener', () => {
    const at = bench()
    const step = at.job().plan.steps.find(({ sealant }) => sealant) as AdoptedStep
    const { closeWithinMinutes, cureMinutes, before } = step.sealant as NonNullable<AdoptedStep['sealant']>
    const view = () => clockView(at.job(), step, at.now(), words)
    expect(view()).toMatchObject({ state: 'not_started', press: { does: 'start' } })
    at.does({ type: 'StartSealant', stepId: step.id })
    at.later(MINUTE)
    expect(view()).toMatchObject({
      state: 'open',
      figure: `${closeWithinMinutes - 1}:00`,
      press: { does: 'close' },
    })
    at.later(closeWithinMinutes * MINUTE)
    expect(view()).toMatchObject({ state: 'late', figure: '+1:00' })
    at.does({ type: 'StartSealant', stepId: step.id })
    at.does({ type: 'CloseSealant', stepId: step.id })
    const until = at.now() + cureMinutes * MINUTE
    expect(view().line).toContain(`Cures until ${words.moment(until)}`)
    for (const id of before) expect(view().line).toContain(id)
    at.later(cureMinutes * MINUTE)
    expect(view().state).toBe('cured')
  })

  test('minutes and seconds, hours only where there are some', () => {
    expect([0, 65_000, 3_600_000 + 65_000, -5].map(countdown)).toEqual(['0:00', '1:05', '1:01:05', '0:00'])
  })
})

test('a photo gate: to take, taken and on its way, here', () => {
  const at = bench()
  const step = at
    .job()
    .plan.steps.find(({ gates }) => gates.some(({ kind }) => kind === 'photo')) as AdoptedStep
  const gate = step.gates.find(({ kind }) => kind === 'photo')
  if (gate?.kind !== 'photo') throw new Error('no photo gate')
  const [place = ''] = gate.places
  const state = () => photoPlaces(at.job(), step, gate).find((one) => one.place === place)?.state
  const photo = {
    id: 'p1',
    sha256: 'a'.repeat(64),
    bytes: 10,
    mime: 'image/jpeg' as const,
    widthPx: 4,
    heightPx: 3,
    stepId: step.id,
    gateId: gate.id,
    place,
  }
  expect(state()).toBe('open')
  at.does({ type: 'AddPhoto', photo })
  expect(state()).toBe('waiting')
  expect(
    stationsOf(at.job(), step, at.now())
      .find(({ kind }) => kind === 'check')
      ?.tally.endsWith(`of ${step.gates.length}`),
  ).toBe(true)
  const arrived = { ...at.job(), photos: at.job().photos.map((one) => ({ ...one, arrived: true as const })) }
  expect(photoPlaces(arrived, step, gate).find((one) => one.place === place)?.state).toBe('here')
  const taken = at.job().photos.map(({ sha256 }) => sha256)
  const refused = photoPlaces(at.job(), step, gate, new Set(taken)).find((one) => one.place === place)
  expect(refused?.state).toBe('refused')
  expect(photoPlaces(arrived, step, gate, new Set(taken)).find((one) => one.place === place)?.state).toBe(
    'here',
  )
})

test('a wrench that does not fit is offered against the best that does, each with its reason', () => {
  const pass = { kind: 'torque' as const, torqueNm: 30, wrench: 'TW-13' }
  const choices = wrenchChoices(shop, pass, START)
  expect(wrenchOffer(choices, 'TW-11')).toBeUndefined()
  const offer = wrenchOffer(choices, 'TW-13')
  expect(againstWrench(offer?.unfit as Picked, figures)[0]).toContain('5–25')
  expect(offer?.fit?.wrench.id).toBe('TW-11')
  const late = wrenchChoices(shop, pass, START + 200 * DAY)
  expect(wrenchOffer(late, 'TW-11')?.fit).toBeUndefined()
})

test('a value nobody published: who settles it, then the number with its basis', () => {
  const at = bench()
  const step = at.step('F6')
  const joint = step.joints.find(({ passes }) =>
    passes.some((p) => p.kind === 'torque' && p.torqueNm === null),
  )
  if (!joint) throw new Error('F6 has no open value')
  expect(whoSettles(shop)).toBe('Suvi decides it.')
  expect(sheetFor(at.job(), joint, 1)).toMatchObject({ torqueNm: null })
  at.does(
    {
      type: 'SettleValue',
      jointId: joint.id,
      pass: 1,
      torqueNm: 12,
      minNm: 11,
      maxNm: 13,
      basis: { kind: 'word', competence: 'thirty years of it' },
      reason: 'The thread is bronze.',
    },
    'suvi',
  )
  expect(sheetFor(at.job(), joint, 1)).toMatchObject({ torqueNm: 12 })
  const value = at.job().settled[joint.id]?.[1]
  expect(value && settledWords(value, words)).toMatch(
    /^Not published; decided by suvi .*, on a competent person’s word: thirty years of it\. The thread is bronze\.$/,
  )
})

test('what was entered is said in words, and a day is noon of that day', () => {
  const { plan } = bench().job()
  const count = { type: 'CountRound', jointId: 'G-C5', pass: 1, count: 18 } as const
  expect(jobCommandWords(count, plan)).toBe('Sump bolts, pass 1: round done, 18 counted')
  expect(jobCommandWords(count, undefined)).toBe('G-C5, pass 1: round done, 18 counted')
  const place = {
    type: 'PlaceFasteners' as const,
    jointId: 'G-C5',
    positions: [1, 2, 3],
    condition: 'new' as const,
  }
  expect(jobCommandWords(place, plan)).toBe('Sump bolts, bolts 1–3: new')
  expect(jobCommandWords(place, undefined)).toBe('G-C5, number 1–3: new')
})
