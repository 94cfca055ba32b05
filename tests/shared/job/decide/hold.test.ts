/** What office and bench tell each other: holds, notes, photos, promises; a doer's second look, a look noted. */
import { describe, expect, test } from 'vitest'
import { jobCommandSchema } from '../../../../shared/job/schema'
import {
  arrived,
  changeHold,
  claim,
  clear,
  handOver,
  look,
  note,
  open,
  photo,
  place,
  promise,
  raise,
  recheck,
  secondSign,
  shows,
  sign,
  slacken,
} from '../../../shop/acts'
import { floor, fresh } from '../../../shop/given'
import { entry, uuid } from '../../../shop/ids'
import { people } from '../../../shop/people'
import { all, housingSigned, pumpSigned } from '../../../shop/stories'
import { START } from '../../../shop/time'

describe('a hold', () => {
  const held = raise(['twin', 'trial'])
  test('[HD3] anybody raises one; no step of it is claimed or signed', () => {
    floor()
      .when(raise(['twin'], { by: 'wim' }))
      .gives({ type: 'HoldRaised', kind: 'part', what: 'a shim' })
    floor(held).when(claim('twin')).refuses('on_hold', { stepId: 'twin', kind: 'part', what: 'a shim' })
    floor(held).when(claim('pump')).gives({ type: 'StepClaimed' })
    floor(claim('pump'), all('JP', [1, 2, 3], 30), raise(['pump']))
      .when(sign('pump'))
      .refuses('on_hold', { stepId: 'pump' })
  })
  test('[CL6] [SG7] cleared, it goes on', () => {
    floor(held, clear(entry(1)))
      .when(claim('twin'))
      .gives({ type: 'StepClaimed' })
    floor(claim('pump'), all('JP', [1, 2, 3], 30), raise(['pump']), clear(entry(5)))
      .when(sign('pump'))
      .gives({ type: 'StepSigned' })
  })
  test('[CL6] a fact is recorded all the same', () => {
    floor(claim('pump'), raise(['pump']))
      .when(shows('JP', 1, 30))
      .flags()
  })
  test('[HD1] on steps of the plan', () => {
    floor()
      .when(raise(['twin', 'none']))
      .refuses('step_not_found', { stepId: 'none' })
  })
  test('[HD2] the same hold again', () => {
    floor(held).when(held).thenNothing()
    floor(held, clear(entry(1)))
      .when(held)
      .gives({ type: 'HoldRaised' })
  })
  test('[HD6] expected otherwise', () => {
    const then = floor(held).when(changeHold(entry(1), { expectedAt: START }))
    then.gives({ type: 'HoldChanged', expectedAt: START })
    expect(then.job.holds).toMatchObject([{ what: 'a shim', expectedAt: START }])
    floor(held, changeHold(entry(1), { expectedAt: START }))
      .when(changeHold(entry(1), { what: 'a shim', expectedAt: START }))
      .thenNothing()
  })
  test('[HD4] [HD5] [HD7] one that the job has and that stands', () => {
    floor()
      .when(changeHold('none', { what: 'x' }))
      .refuses('hold_not_found')
    floor(held, clear(entry(1)))
      .when(changeHold(entry(1), { what: 'x' }))
      .refuses('hold_cleared', { by: 'ana' })
    floor().when(clear('none')).refuses('hold_not_found')
  })
  test('[HD9] an expected date is taken back; taken back already, nothing', () => {
    const dated = raise(['twin'], { expectedAt: START })
    const then = floor(dated).when(changeHold(entry(1), { expectedAt: null }))
    then.gives({ type: 'HoldChanged', undated: true })
    expect(then.events[0]).not.toHaveProperty('expectedAt')
    expect(then.job.holds[0]).not.toHaveProperty('expectedAt')
    floor(held)
      .when(changeHold(entry(1), { expectedAt: null }))
      .thenNothing()
    const again = floor(dated, changeHold(entry(1), { expectedAt: null, what: 'two' }))
    expect(again.job.holds).toMatchObject([{ what: 'two' }])
    again.when(changeHold(entry(1), { expectedAt: START })).gives({ type: 'HoldChanged', expectedAt: START })
  })
  test('[HD10] an approval is cleared by the office, with how it was said; the rest by anybody', () => {
    const asked = raise(['twin'], { kind: 'approval', what: 'new liners' })
    const how = 'Mr Vane by telephone, 14:10: yes to 1,240'
    floor(asked)
      .when(clear(entry(1), { by: 'ana', how }))
      .refuses('role_needed', { roles: ['service_writer', 'supervisor', 'owner'] })
    for (const by of ['wim', 'dee'])
      floor(asked)
        .when(clear(entry(1), { by, how }))
        .gives({ type: 'HoldCleared', how })
    floor(asked, clear(entry(1), { by: 'wim' }))
      .when(clear(entry(1), { by: 'ana' }))
      .thenNothing()
    floor(raise(['twin'], { kind: 'question' }))
      .when(clear(entry(1), { by: 'ana' }))
      .gives({ type: 'HoldCleared' })
    const sent = { type: 'ClearHold', holdId: 'x', commandId: uuid(1) }
    expect(jobCommandSchema.safeParse({ ...sent, how: ' ' }).success).toBe(false)
    expect(jobCommandSchema.safeParse({ ...sent, how }).success).toBe(true)
  })
  test('[HD8] cleared once', () => {
    floor(held)
      .when(clear(entry(1)))
      .gives({ type: 'HoldCleared', how: 'it came' })
    floor(held, clear(entry(1)))
      .when(clear(entry(1)))
      .thenNothing()
  })
})

describe('notes and promises', () => {
  test('[NO1] [NO2] a note, of the engine or of a step of it', () => {
    floor()
      .when(note('rust', { stepId: 'none' }))
      .refuses('step_not_found')
    floor()
      .when(note('rust', { stepId: 'pump', by: 'wim' }))
      .gives({ type: 'NoteAdded', text: 'rust' })
    expect(floor(note('one'), note('one')).job.notes).toHaveLength(2)
  })
  test('[NO2] [FW6] before there is a plan too', () => {
    fresh(open()).when(note('no oil')).gives({ type: 'NoteAdded' })
    fresh(open())
      .when(note('x', { stepId: 'pump' }))
      .refuses('step_not_found')
    fresh(open()).when(photo('p')).gives({ type: 'PhotoAdded' })
    fresh(open(), photo('p')).when(arrived('p')).gives({ type: 'PhotoArrived' })
    fresh(open()).when(promise('2030-02-01')).gives({ type: 'DatePromised' })
    fresh(open())
      .when(raise(['pump']))
      .refuses('no_plan')
    fresh().when(note('x')).refuses('job_not_open')
  })
  test('[PR1] [PR2] [PR3] a date, by the office, with its history', () => {
    floor()
      .when(promise('2030-02-01', { by: 'ana' }))
      .refuses('role_needed')
    floor(promise('2030-02-01')).when(promise('2030-02-01')).thenNothing()
    const { job } = floor(promise('2030-02-01'), promise('2030-02-08', { by: 'dee', reason: 'liner 3' }))
    expect(job.promises).toMatchObject([
      { date: '2030-02-01', reason: 'the shim' },
      { date: '2030-02-08', by: 'dee' },
    ])
  })
})

describe('a photo', () => {
  const port = { stepId: 'lift', gateId: 'aboard', place: 'port' }
  test('[PH4] is a fact before its bytes are here', () => {
    const then = floor().when(photo('p', port))
    then.gives({ type: 'PhotoAdded' })
    expect(then.job.photos[0]).not.toHaveProperty('arrived')
    expect(floor(photo('p', port), arrived('p')).job.photos[0]).toMatchObject({ arrived: true })
  })
  test('[PH1] the same again', () => {
    floor(photo('p', port)).when(photo('p', port)).thenNothing()
  })
  test('[PH2] [PH3] [PH4] of a step, a gate that asks for one, a place of it', () => {
    floor()
      .when(photo('p', { stepId: 'none' }))
      .refuses('step_not_found')
    floor()
      .when(photo('p', { ...port, gateId: 'rags' }))
      .refuses('gate_not_found')
    floor()
      .when(photo('p', { stepId: 'closing', gateId: 'rags' }))
      .refuses('gate_not_found')
    floor()
      .when(photo('p', { gateId: 'aboard' }))
      .refuses('gate_not_found')
    floor()
      .when(photo('p', { ...port, place: 'keel' }))
      .refuses('place_not_found', { place: 'keel' })
  })
  test('[PH5] [PH6] [PH7] arrives once, when its bytes are here', () => {
    floor().when(arrived('p')).refuses('photo_not_found')
    floor(photo('p'))
      .when(arrived('p', { bytesHere: () => false }))
      .refuses('photo_not_here')
    floor(photo('p'), arrived('p')).when(arrived('p')).thenNothing()
  })
})

describe('the doer’s own second look', () => {
  const allowed = { selfRecheck: { allowed: true, afterMinutes: 30 } } as const
  const signed = housingSigned()
  test('[SS15] after the interval, recorded as their own', () => {
    const then = floor(signed)
      .inShop(allowed)
      .when(recheck('housing', { at: 100 }))
    then.gives({ type: 'OwnWorkRechecked', by: 'ana', stepId: 'housing' })
    expect(then.job.steps.housing?.sets.step?.second).toMatchObject({ through: 'own_recheck' })
    floor(signed, shows('JB', 1, 22))
      .inShop(allowed)
      .when(recheck('housing', { at: 100 }))
      .refuses('not_signed_yet')
  })
  test('[SS12] names, and what stands already', () => {
    floor(signed).inShop(allowed).when(recheck('none')).refuses('step_not_found')
    floor(signed)
      .inShop(allowed)
      .when(recheck('housing', { setId: 'x' }))
      .refuses('set_not_found')
    floor(signed).inShop(allowed).when(recheck('trial')).refuses('no_second_asked')
    floor(claim('housing')).inShop(allowed).when(recheck('housing')).refuses('not_signed_yet')
    floor(signed, secondSign('housing'))
      .inShop(allowed)
      .when(recheck('housing'))
      .refuses('already_second_signed')
    const own = {
      type: 'OwnWorkRechecked',
      stepId: 'housing',
      setId: 'step',
      by: 'ana',
      doneAt: START,
    } as const
    floor(signed, own).inShop(allowed).when(recheck('housing')).thenNothing()
  })
  test('[SS13] off by default, never class A, only the doer', () => {
    floor(signed)
      .when(recheck('housing', { at: 900 }))
      .refuses('recheck_not_allowed', { why: 'off' })
    floor(pumpSigned())
      .inShop(allowed)
      .when(recheck('pump', { at: 900 }))
      .refuses('recheck_not_allowed', { why: 'class_a' })
    floor(signed)
      .inShop(allowed)
      .when(recheck('housing', { by: 'bo', at: 900 }))
      .refuses('recheck_not_allowed', { why: 'not_the_doer' })
  })
  test('[SS14] not before the interval is over', () => {
    const story = floor(
      claim('housing'),
      all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22),
      sign('housing', { at: 50 }),
    ).inShop(allowed)
    story.when(recheck('housing', { at: 79.9 })).refuses('recheck_too_soon', { from: START + 80 * 60_000 })
    story.when(recheck('housing', { at: 80 })).gives({ type: 'OwnWorkRechecked' })
  })
})

describe('a look noted', () => {
  test('[SS19] proves nothing, and the PIN given for it counts after it', () => {
    const then = floor(pumpSigned()).when(look('pump', 'dee'))
    then.gives({ type: 'LookNoted', personId: 'dee', by: 'ana' })
    expect(then.job.steps.pump?.sets.step).toMatchObject({ first: { by: 'ana' }, look: { personId: 'dee' } })
    expect(then.job.steps.pump?.sets.step).not.toHaveProperty('second')
    const sawVersion = floor(pumpSigned()).job.version
    floor(pumpSigned(), look('pump', 'dee'))
      .when(secondSign('pump', { by: 'dee', through: 'grant', sawVersion }))
      .gives({ type: 'StepSecondSigned', by: 'dee' })
  })
  test('[SS16] [SS17] [SS18] names a step, a set and a person; once', () => {
    floor().when(look('none', 'dee')).refuses('step_not_found')
    floor()
      .when(look('pump', 'dee', { setId: 'x' }))
      .refuses('set_not_found')
    floor().when(look('pump', 'constructor')).refuses('person_unknown')
    floor(pumpSigned(), look('pump', 'dee')).when(look('pump', 'dee')).thenNothing()
  })
})

describe('asked once before hiding', () => {
  test('[CL10] class B and C: yes is recorded with what it hides', () => {
    const pump = [pumpSigned(), secondSign('pump')]
    floor(pump)
      .when(claim('shroud'))
      .refuses('asks_before_hiding', { behind: [{ joint: 'JB', positions: [1, 2] }] })
    floor(pump)
      .when(claim('shroud', { hidesKnowingly: true }))
      .gives({ type: 'StepClaimed', hidesKnowingly: ['JB'] })
    const none = floor(pump, housingSigned(), secondSign('housing')).when(
      claim('shroud', { hidesKnowingly: true }),
    )
    expect(none.events[0]).not.toHaveProperty('hidesKnowingly')
  })
})

describe('traps of the scenario', () => {
  test('T7: out of band, slackened, done again: both readings stay, the first in the trail only', () => {
    const story = floor(claim('housing'), shows('JB', 3, 26.4))
    story.when(sign('housing')).refuses('positions_open')
    const { job } = floor(
      claim('housing'),
      shows('JB', 3, 26.4),
      slacken('JB', 3),
      place('JB', [3]),
      shows('JB', 3, 22),
    )
    expect(
      job.readings.JB?.map(({ torqueNm, flags, superseded }) => [torqueNm, flags, superseded?.because]),
    ).toEqual([
      [26.4, ['out_of_band'], 'slackened'],
      [undefined, [], undefined],
      [22, [], undefined],
    ])
    floor(claim('housing'), shows('JB', 3, 26.4))
      .when(shows('JB', 3, 22))
      .flags('not_slackened')
  })
  test('T8: nine in foot-pounds for nine newton-metres is held up, with both readings', () => {
    const then = floor(claim('trial')).when({
      command: { type: 'EnterScale', jointId: 'JY', pass: 1, wrenchId: 'foot', value: 12 },
      by: 'ana',
    })
    then.gives({
      type: 'ScaleEntered',
      unit: 'lbf·ft',
      slip: { value: 12, readAs: 'lbf·ft', readNm: expect.closeTo(16.27, 2), fitsAs: 'N·m', fitsNm: 12 },
    })
  })
  test('T11: an apprentice is offered class C and nothing above', () => {
    const offered = floor().job.plan.steps.filter(
      ({ id }) => !('refused' in floor().when(claim(id, { by: 'cy' })).outcome),
    )
    expect(offered.map(({ id }) => id)).toEqual(['trial', 'seal', 'lift'])
    floor(claim('trial')).when(handOver('trial', 'cy')).gives({ type: 'StepHandedOver' })
    expect(people.cy.mayDo.classes).toEqual(['C'])
  })
})
