/** The doer’s word, the second person’s, and the doer’s own second look. */
import { describe, expect, test } from 'vitest'
import type { JobEvent } from '../../../../shared/job/events'
import { unsignedLook, unsignedWords } from '../../../../shared/job/looks'
import {
  answer,
  claim,
  click,
  digestOf,
  type Given,
  look,
  measure,
  note,
  place,
  putDown,
  recheck,
  restart,
  sealedSecond,
  secondSign,
  sha256,
  shows,
  sign,
  slacken,
  turn,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { people } from '../../../shop/people'
import {
  all,
  capSigned,
  capsAnswered,
  capsMeasured,
  capsProven,
  capsReady,
  capTorqued,
  coverDone,
  headProven,
  headSigned,
  headTorqued,
  headTurned,
  housingSigned,
  proofBegun,
  pumpSigned,
  sumpDone,
} from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

const capsSigned = () => [claim('caps'), capSigned(1), capSigned(2)]

const sumpBegun = shows('JS', 1, 10, { by: 'cy' })

describe('signing', () => {
  test('[SG17] the doer signs what is done, and is through', () => {
    const then = given(headTurned()).when(sign('head', { at: 50 }))
    then.gives({ type: 'StepSigned', stepId: 'head', setId: 'step', by: 'ana' })
    expect(then.job.steps.head).toMatchObject({
      sets: { step: { first: { by: 'ana', doneAt: START + 50 * 60_000 } } },
    })
    expect(then.job.steps.head).not.toHaveProperty('claim')
  })
  test('[SG17] the claim holds until the last set is signed', () => {
    const { job } = given(claim('caps'), capTorqued(1)).when(sign('caps', { setId: 'cap-1' }))
    expect(job.steps.caps).toMatchObject({
      claim: { by: 'ana' },
      sets: { 'cap-1': { first: { by: 'ana' } } },
    })
    expect(given(capsReady()).when(sign('caps')).job.steps.caps).not.toHaveProperty('claim')
  })
  test('[SG1] a step the plan has not', () => {
    given().when(sign('none')).refuses('step_not_found', { stepId: 'none' })
  })
  test('[SG2] a set the step has not; without a name the step’s own is meant', () => {
    given(claim('caps'))
      .when(sign('caps', { setId: 'cap-9' }))
      .refuses('set_not_found', { setId: 'cap-9', sets: ['cap-1', 'cap-2', 'step'] })
    given(headTurned())
      .when(sign('head', { setId: 'step' }))
      .gives({ type: 'StepSigned', setId: 'step' })
    given(capsReady()).when(sign('caps')).gives({ type: 'StepSigned', setId: 'step' })
  })
  test('[SG3] a second tap by the same hand changes nothing', () => {
    given(headSigned()).when(sign('head')).thenNothing()
    given(headProven()).when(sign('head')).thenNothing()
  })
  test('[SG4] what is signed is not signed by another', () => {
    given(headSigned())
      .when(sign('head', { by: 'bo' }))
      .refuses('step_already_signed', { stepId: 'head', by: 'ana' })
  })
  test('[SG5] the one who did it signs', () => {
    given(headTurned())
      .when(sign('head', { by: 'bo' }))
      .refuses('not_your_step', { stepId: 'head', by: 'ana' })
    given(headTurned(), putDown('head'))
      .when(sign('head'))
      .refuses('not_your_step', { stepId: 'head', by: undefined })
  })
  test('[SG6] an entitlement taken away since the claim counts', () => {
    const ana = { ...people.ana, mayDo: { classes: ['B' as const], families: [] } }
    given(claim('head'))
      .inShop({ people: { ...people, ana } })
      .when(sign('head'))
      .refuses('not_entitled', { class: 'A', family: 'diesel' })
  })
  test('[SG8] the step itself is signed after its sets', () => {
    given(claim('caps'), capTorqued(1), sign('caps', { setId: 'cap-1' }))
      .when(sign('caps'))
      .refuses('sets_first', { stepId: 'caps', sets: ['Cap 2'] })
    given(claim('caps'))
      .when(sign('caps'))
      .refuses('sets_first', { sets: ['Cap 1', 'Cap 2'] })
  })
  test('[SG9] positions with passes to go, of the first joint and pass that has any', () => {
    given(claim('head'))
      .when(sign('head'))
      .refuses('positions_open', {
        joint: 'JH',
        title: 'Joint JH',
        positions: [1, 2, 3, 4],
        pass: 1,
        passes: 2,
      })
    given(headTorqued(), turn('JH', 2, 90))
      .when(sign('head'))
      .refuses('positions_open', { positions: [1, 3, 4], pass: 2 })
    given(headTurned(), slacken('JH', 4))
      .when(sign('head'))
      .refuses('positions_open', { positions: [4], pass: 1 })
  })
  test('[SG9] a wait is over by the clock alone', () => {
    given(
      claim('reseat'),
      [1, 2].map((n) => shows('JR', n, 20)),
      [1, 2].map((n) => slacken('JR', n, { pass: 2 })),
      [1, 2].map((n) => shows('JR', n, 25, { pass: 4, at: 90 })),
    )
      .when(sign('reseat'))
      .gives({ type: 'StepSigned' })
  })
  test('[SG10] a flag that stands is named with its position', () => {
    given(
      headTorqued(),
      [2, 1, 4, 3].map((n) => turn('JH', n, n === 4 ? 96 : 90)),
    )
      .when(sign('head'))
      .refuses('flags_stand', { joint: 'JH', position: 4, flags: ['out_of_band', 'overshot'] })
    given(claim('drain'), shows('JN', 1, 12))
      .when(sign('drain'))
      .refuses('flags_stand', { flags: ['no_published_value'] })
  })
  test('[SG10] open positions are said before flags', () => {
    given(claim('head'), shows('JH', 2, 40))
      .when(sign('head'))
      .refuses('positions_open')
  })
  test('[SG10] a reading that reaches no pass stands against it all the same', () => {
    given(
      claim('reseat'),
      [1, 2].map((n) => shows('JR', n, 20)),
      [1, 2].map((n) => slacken('JR', n, { pass: 2 })),
      shows('JR', 1, 20, { pass: 3 }),
      [1, 2].map((n) => shows('JR', n, 25, { pass: 4, at: 90 })),
    )
      .when(sign('reseat'))
      .refuses('flags_stand', { joint: 'JR', position: 1, flags: ['other_than_asked'] })
  })
  test('[SG10] taking a fastener back stands against nothing, by whomever', () => {
    given(headTorqued(), slacken('JH', 2, { by: 'bo' }), shows('JH', 2, 30))
      .when(sign('head'))
      .refuses('positions_open', { pass: 2 })
    given(claim('drain'), slacken('JN', 1, { by: 'bo' }))
      .when(sign('drain'))
      .refuses('positions_open', { pass: 1 })
  })
  test('[SG12] every place is measured', () => {
    given(capsSigned(), measure('cap 1', 0.05))
      .when(sign('caps'))
      .refuses('measurement_missing', { title: 'Cap gap', places: ['cap 2'] })
  })
  test('[SG13] and within limits', () => {
    given(capsSigned(), measure('cap 1', 0.05), measure('cap 2', 0.09))
      .when(sign('caps'))
      .refuses('measurement_out_of_limits', {
        title: 'Cap gap',
        place: 'cap 2',
        value: 0.09,
        unit: 'mm',
        min: 0.03,
        max: 0.08,
      })
    given(
      capsSigned(),
      measure('cap 1', 0.05),
      measure('cap 2', 0.05),
      measure('crank', 0.4, { measurementId: 'float' }),
    )
      .when(sign('caps'))
      .refuses('measurement_out_of_limits', { place: 'crank', max: 0.3 })
  })
  test('[SG15] counts are right and looks are taken; a photo does not stop it', () => {
    const measured = [capsSigned(), capsMeasured()]
    given(measured).when(sign('caps')).refuses('gate_open', { text: 'Shells fitted' })
    given(measured, answer('shells', { count: 3 }))
      .when(sign('caps'))
      .refuses('gate_open', { text: 'Shells fitted' })
    given(measured, answer('shells', { count: 4 }))
      .when(sign('caps'))
      .refuses('gate_open', { text: 'The crank turns freely' })
    given(measured, capsAnswered()).when(sign('caps')).gives({ type: 'StepSigned', setId: 'step' })
  })
  test('[SG15] what must be proven is reckoned from the signatures', () => {
    const rest = [capsProven(), coverDone(), sumpDone(), proofBegun()]
    given(headProven(), rest)
      .when(sign('proof', { by: 'cy', at: 205 }))
      .gives({ type: 'StepSigned' })
    given(headProven(), rest, shows('JH', 2, 30))
      .when(sign('proof', { by: 'cy', at: 205 }))
      .refuses('gate_open', { text: 'Head bolts proven' })
    given(headProven(), rest)
      .when(sign('proof', { by: 'cy', at: 164 }))
      .refuses('gate_open', { text: 'Sealant cured' })
    given(headProven(), rest, shows('JC', 2, 50))
      .when(sign('proof', { by: 'cy', at: 205 }))
      .refuses('gate_open', { text: 'No class A joint open' })
  })
  test('[SG15] a cap asks for no count: those belong to the step', () => {
    given(claim('caps'), capTorqued(1))
      .when(sign('caps', { setId: 'cap-1' }))
      .gives({ type: 'StepSigned', setId: 'cap-1' })
  })
})

describe('second-signing', () => {
  test('[SS11] another person, having looked', () => {
    const then = given(headSigned()).when(secondSign('head'))
    then.gives({ type: 'StepSecondSigned', stepId: 'head', setId: 'step', by: 'bo', through: 'sign_in' })
    expect(then.events[0]).not.toHaveProperty('late')
    expect(then.job.steps.head?.sets.step).toMatchObject({ first: { by: 'ana' }, second: { by: 'bo' } })
  })
  test('[SS11] through a grant it says so', () => {
    const then = given(headSigned()).when(secondSign('head', { through: 'grant', sawVersion: 12 }))
    then.gives({ type: 'StepSecondSigned', through: 'grant' })
    expect(then.job.steps.head?.sets.step?.second?.through).toBe('grant')
  })
  test('[SS11] after it got covered it is late, and says so', () => {
    const begun = given(claim('caps'), capSigned(2), sumpBegun)
    begun.when(secondSign('caps', { setId: 'cap-2' })).gives({ type: 'StepSecondSigned', late: true })
    const other = given(claim('caps'), capSigned(1), sumpBegun).when(secondSign('caps', { setId: 'cap-1' }))
    other.gives({ type: 'StepSecondSigned' })
    expect(other.events[0]).not.toHaveProperty('late')
    const claimed = given(headProven(), shows('JH', 2, 30), slacken('JH', 2))
    expect(claimed.job.steps.head?.sets.step).toEqual({ lapsed: 1 })
  })
  test('[SS1] a step the plan has not', () => {
    given().when(secondSign('none')).refuses('step_not_found')
  })
  test('[SS2] a set the step has not', () => {
    given(headSigned())
      .when(secondSign('head', { setId: 'cap-1' }))
      .refuses('set_not_found', { sets: ['step'] })
  })
  test('[SS3] a step that asks for one signature', () => {
    given().when(secondSign('sump')).refuses('no_second_asked', { stepId: 'sump' })
  })
  test('[SS4] a second tap by the same hand changes nothing', () => {
    given(headProven()).when(secondSign('head')).thenNothing()
  })
  test('[SS5] two second signatures are one too many', () => {
    given(headProven())
      .when(secondSign('head', { by: 'dee' }))
      .refuses('already_second_signed', { by: 'bo' })
    given(headProven())
      .when(secondSign('head', { by: 'ana' }))
      .refuses('already_second_signed')
  })
  test('[SS6] the doer signs first', () => {
    given(headTurned()).when(secondSign('head')).refuses('not_signed_yet', { stepId: 'head', setId: 'step' })
    given(headTurned())
      .when(secondSign('head', { by: 'ana' }))
      .refuses('not_signed_yet')
  })
  test('[SS7] nobody looks at their own work: not who signed, not who took a reading', () => {
    given(headSigned())
      .when(secondSign('head', { by: 'ana' }))
      .refuses('own_work', { stepId: 'head', by: 'ana' })
    given(
      claim('head', { by: 'bo' }),
      [2, 1, 4, 3].map((n) => shows('JH', n, 30, { by: 'bo' })),
      putDown('head', { by: 'bo' }),
      claim('head'),
      [2, 1, 4, 3].map((n) => turn('JH', n, 90)),
      sign('head'),
    )
      .when(secondSign('head'))
      .refuses('own_work', { by: 'bo' })
  })
  test('[SS7] a reading since retaken by another is no work that stands', () => {
    given(
      claim('head', { by: 'bo' }),
      shows('JH', 2, 30, { by: 'bo' }),
      putDown('head', { by: 'bo' }),
      claim('head'),
      restart('JH', 2, { how: 'slackened' }),
      headTurned(),
      sign('head'),
    )
      .when(secondSign('head'))
      .gives({ type: 'StepSecondSigned', by: 'bo' })
  })
  test('[SS8] class and family are looked at, apart from what one may do', () => {
    given(headSigned())
      .when(secondSign('head', { by: 'cy' }))
      .refuses('not_entitled_to_second', { class: 'A', family: 'diesel' })
    given(headSigned())
      .when(secondSign('head', { by: 'wim' }))
      .refuses('not_entitled_to_second')
    given(headSigned())
      .when(secondSign('head', { by: 'dee' }))
      .gives({ type: 'StepSecondSigned', by: 'dee' })
  })
  test('[SS9] what is open or flagged is said again, though no accepted history leads there', () => {
    const signedBare: JobEvent = {
      type: 'StepSigned',
      stepId: 'head',
      setId: 'step',
      by: 'ana',
      doneAt: START,
    }
    given(signedBare).when(secondSign('head')).refuses('positions_open', { pass: 1 })
    given(
      claim('head'),
      [2, 1, 4, 3].map((n) => [shows('JH', n, 30), turn('JH', n, 99)]),
      signedBare,
    )
      .when(secondSign('head'))
      .refuses('flags_stand', { position: 1 })
  })
  test('[SS10] a grant is for what was looked at, by its digest: what is no part of that takes nothing back', () => {
    const saw = given(headSigned()).job
    const granted = { through: 'grant', sawDigest: digestOf(saw, 'head', 'step'), sha256 } as const
    given(headSigned(), measure('cap 1', 0.05), claim('caps'), click('JC', 2), look('head', 'dee'))
      .when(secondSign('head', granted))
      .gives({ type: 'StepSecondSigned', through: 'grant' })
    given(headSigned(), turn('JH', 2, 90))
      .when(secondSign('head', granted))
      .refuses('not_signed_yet')
    given(headSigned(), restart('JH', 2, { how: 'slackened' }), headSigned())
      .when(secondSign('head', granted))
      .refuses('changed_since_look')
  })
  test('[SS10] a page of an older build says the version', () => {
    const story = given(headSigned())
    const signedAt = story.job.version
    story
      .when(secondSign('head', { through: 'grant', sawVersion: signedAt - 1 }))
      .refuses('changed_since_look')
    story
      .when(secondSign('head', { through: 'grant', sawVersion: signedAt }))
      .gives({ type: 'StepSecondSigned' })
    given(headSigned(), measure('cap 1', 0.05), claim('caps'), click('JC', 2))
      .when(secondSign('head', { through: 'grant', sawVersion: signedAt }))
      .gives({ type: 'StepSecondSigned' })
  })
})

describe('a second signature whose PIN came sealed', () => {
  const signed = given(headSigned())
  const saw = signed.job

  test('[SS21] counts as theirs where the PIN is right and the step is as it was looked at', () => {
    const then = signed.when(sealedSecond(saw, 'right', { at: 60 }))
    then.gives({ type: 'StepSecondSigned', by: 'bo', through: 'sealed', doneAt: START + 60 * 60_000 })
    expect(then.job.steps.head?.sets.step?.second).toMatchObject({ by: 'bo', through: 'sealed' })
  })
  test('[SS21] with the entries of the same tablet that waited before it', () => {
    const seen = given(headTurned(), sign('head', { commandId: 'another' })).job
    given(headTurned(), sign('head', { at: 900 }))
      .when(sealedSecond(seen, 'right', { at: 901 }))
      .gives({ type: 'StepSecondSigned', by: 'bo' })
  })
  test('[SS21] whatever is no part of what was looked at takes nothing back', () => {
    given(headSigned(), claim('caps'), capTorqued(1), look('head', 'dee'), note('hot today'))
      .when(sealedSecond(saw, 'right'))
      .gives({ type: 'StepSecondSigned' })
  })
  test.each([
    ['the doer', 'ana'],
    ['somebody else', 'cy'],
    ['whoever looked', 'bo'],
  ])('[SS21] a change takes it back, though signed again: made by %s', (_, by) => {
    given(headSigned(), restart('JH', 2, { how: 'slackened', by }), headSigned())
      .when(sealedSecond(saw, 'right'))
      .gives({ type: 'LookNoted', personId: 'bo', flag: 'changed' })
  })
  test.each([
    ['wrong', 'wrong_pin'],
    ['unreadable', 'pin_unreadable'],
  ] as const)('[SS22] a PIN that is %s leaves a flagged look by whoever has the tablet', (pin, flag) => {
    const then = signed.when(sealedSecond(saw, pin))
    then.gives({ type: 'LookNoted', by: 'ana', personId: 'bo', stepId: 'head', setId: 'step', flag })
    expect(then.job.steps.head?.sets.step).toMatchObject({
      first: { by: 'ana' },
      look: { personId: 'bo', flag },
    })
    expect(then.job.steps.head?.sets.step).not.toHaveProperty('second')
    expect(then.job.steps.head?.touchedAt).toBe(saw.steps.head?.touchedAt)
  })
  test('[SS22] so does a right one where a rule speaks against it, and never a refusal', () => {
    signed
      .when(sealedSecond(saw, 'right', { personId: 'ana' }))
      .gives({ type: 'LookNoted', personId: 'ana', flag: 'not_allowed' })
    given(headTorqued())
      .when(sealedSecond(given(headTorqued()).job, 'right'))
      .gives({ type: 'LookNoted', flag: 'not_allowed' })
  })
  test('[SS22] of two the first counts; the other is told so', () => {
    const proven = given(headProven('ana', 'dee'))
    proven
      .when(sealedSecond(saw, 'right'))
      .gives({ type: 'LookNoted', by: 'bo', personId: 'bo', flag: 'second_stands' })
    given(headProven()).when(sealedSecond(saw, 'right')).thenNothing()
  })
  test('[SS22] refused is only what names nothing', () => {
    signed.when(sealedSecond(saw, 'right', { personId: 'constructor' })).refuses('person_unknown')
    const { command, ...around } = sealedSecond(saw, 'right')
    signed
      .when({ ...around, command: { ...command, stepId: 'none' } as typeof command })
      .refuses('step_not_found')
  })
  test('[SS22] what is told names the person, the step and why', () => {
    const { events } = signed.when(sealedSecond(saw, 'wrong'))
    const told = unsignedLook(events.map((event) => ({ version: 1, recordedAt: 0, event })))
    expect(told && unsignedWords(told, words)).toBe(
      'The PIN entered for bo on head was wrong. The look is noted and is no second signature. Ask bo to enter it again.',
    )
    const { events: fine } = signed.when(sealedSecond(saw, 'right'))
    expect(unsignedLook(fine.map((event) => ({ version: 1, recordedAt: 0, event })))).toBeUndefined()
  })
  test('[SS18] [SS22] a look noted after a flagged one is a look of its own', () => {
    const flagged = sealedSecond(saw, 'wrong')
    given(headSigned(), flagged).when(look('head', 'bo')).gives({ type: 'LookNoted' })
    given(headSigned(), flagged).when(sealedSecond(saw, 'right')).gives({ type: 'StepSecondSigned' })
  })
  test('[SS23] on the tablet it is a look until the server has answered', () => {
    const then = signed.when(sealedSecond(saw, undefined))
    then.gives({ type: 'LookNoted', by: 'ana', personId: 'bo' })
    expect(then.events[0]).not.toHaveProperty('flag')
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

describe('second-signing one’s own work', () => {
  const caps = (...own: Given[]): Given[] => [claim('caps'), capSigned(1), capSigned(2), ...own, sign('caps')]

  test('[SS7] not who took a measurement of the step’s own set', () => {
    const by = (who: string): Given[] =>
      caps(measure('cap 1', 0.05, { by: who }), capsMeasured().slice(1), capsAnswered())
    given(by('bo')).when(secondSign('caps')).refuses('own_work', { by: 'bo' })
    given(by('ana')).when(secondSign('caps')).gives({ type: 'StepSecondSigned' })
    given(by('bo'))
      .when(secondSign('caps', { setId: 'cap-1' }))
      .gives({ type: 'StepSecondSigned' })
    given(caps(measure('cap 1', 0.05, { by: 'bo' }), capsMeasured(), capsAnswered()))
      .when(secondSign('caps'))
      .gives({ type: 'StepSecondSigned' })
  })
  test('[SS7] not who counted or looked for its gates', () => {
    given(caps(capsMeasured(), answer('shells', { count: 4, by: 'bo' }), answer('turns')))
      .when(secondSign('caps'))
      .refuses('own_work')
  })
  test('[SS7] not who put a fastener in', () => {
    const rods = (who: string): Given[] => [
      claim('rods'),
      place('JO', [1], { by: who }),
      place('JO', [2]),
      all('JO', [1, 2], 40),
      sign('rods'),
    ]
    floor(rods('bo')).when(secondSign('rods')).refuses('own_work', { by: 'bo' })
    floor(rods('ana')).when(secondSign('rods')).gives({ type: 'StepSecondSigned' })
  })
  test('[SS7] not who laid the bead or closed it', () => {
    const twice = (job: ReturnType<typeof given>['job']) => ({
      ...job,
      plan: {
        ...job.plan,
        steps: job.plan.steps.map((step) =>
          step.id === 'sump' ? { ...step, signatures: 2 as const, hides: [] } : step,
        ),
      },
    })
    const plan = twice(given().job).plan
    const sealed = (who: string): Given[] => [
      { type: 'PlanAdopted', by: 'dee', doneAt: 0, plan },
      claim('sump', { at: 100 }),
      { by: 'ana', at: 100, command: { type: 'StartSealant', stepId: 'sump' } },
      all('JS', [1, 2], 10, { at: 102 }),
      { by: who, at: 105, command: { type: 'CloseSealant', stepId: 'sump' } },
      sign('sump', { at: 106 }),
    ]
    given(sealed('bo'))
      .when(secondSign('sump', { at: 107 }))
      .refuses('own_work')
    given(sealed('ana'))
      .when(secondSign('sump', { at: 107 }))
      .gives({ type: 'StepSecondSigned' })
  })
})

describe('gates that are reckoned', () => {
  test('[SG18] stop the signature and not the claim: the work of the step may be done meanwhile', () => {
    const proof: Given[] = [{ type: 'StepSigned', by: 'ana', doneAt: 0, stepId: 'cover', setId: 'step' }]
    given(proof)
      .when(claim('proof', { by: 'cy', at: 300 }))
      .gives({ type: 'StepClaimed' })
    given(proof, claim('proof', { by: 'cy', at: 300 }), all('JX', [1, 2], 10, { by: 'cy', at: 301 }))
      .when(sign('proof', { by: 'cy', at: 302 }))
      .refuses('gate_open', { text: 'Head bolts proven' })
  })
})
