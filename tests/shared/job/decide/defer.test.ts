/** What is left out on purpose: due at a named step, and asked there for all it would have been asked at home. */
import { describe, expect, test } from 'vitest'
import { againstRelease } from '../../../../shared/job/release'
import { isProven, setViews, standingOf } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import { claim, type Given, leaveOut, leaveStep, secondSign, shows, sign, withdraw } from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { all, housingProven, pumpProven, pumpSigned, twinTurned } from '../../../shop/stories'
import { START } from '../../../shop/time'

const seven = leaveOut('JB', [7], 'lift')
const housingWithout = (): Given[] => [
  seven,
  claim('housing'),
  all('JB', [1, 2, 3, 4, 5, 6, 8], 22),
  sign('housing'),
  secondSign('housing'),
]
const third = leaveOut('JP', [3], 'lift')

describe('leaving out', () => {
  test('[DE12] T2: six of seven are signed, the seventh is due at its step and asked there', () => {
    floor(housingWithout(), claim('lift'), shows('JL', 1, 15))
      .when(sign('lift'))
      .refuses('positions_open', { joint: 'JB', positions: [7] })
    floor(housingWithout(), claim('lift'), shows('JL', 1, 15), shows('JB', 7, 22))
      .when(sign('lift'))
      .gives({ type: 'StepSigned', stepId: 'lift' })
    const { job } = floor(housingWithout())
    expect(isProven(job, { joint: 'JB' })).toBe(false)
    expect(isProven(job, { joint: 'JB', positions: [1, 8] })).toBe(true)
  })
  test('[DE12] T2: the release says so while it is open', () => {
    const { job } = floor(housingWithout())
    expect(againstRelease(job, 'to_owner', START)).toContainEqual(
      expect.objectContaining({ code: 'deferral_open', what: 'Joint JB, bolt 7', dueStepId: 'lift' }),
    )
  })
  test('[RD26] it is read where it is due, by who holds that step', () => {
    floor(housingWithout(), claim('lift'))
      .when(shows('JB', 7, 22))
      .flags()
    floor(housingWithout())
      .when(shows('JB', 7, 22))
      .flags('not_claimed')
    floor(seven, claim('housing'))
      .when(shows('JB', 7, 22))
      .flags('not_claimed')
  })
  test('[DE12] [CL5] [SG6] no way round a class: whoever closes it may do it', () => {
    floor(third)
      .when(claim('lift', { by: 'cy' }))
      .refuses('not_entitled', { class: 'A' })
    floor(claim('lift', { by: 'cy' }), seven)
      .when(sign('lift', { by: 'cy' }))
      .refuses('not_entitled', { class: 'B' })
    floor()
      .when(claim('lift', { by: 'cy' }))
      .gives({ type: 'StepClaimed' })
  })
  test('[DE12] [SS3] no way round a second signature', () => {
    const closed = [
      third,
      pumpProven([1, 2]),
      claim('lift'),
      shows('JL', 1, 15),
      shows('JP', 3, 30),
      sign('lift'),
    ]
    const { job } = floor(closed)
    expect(isProven(job, { joint: 'JP' })).toBe(false)
    expect(againstRelease(job, 'to_owner', START)).toContainEqual(
      expect.objectContaining({ code: 'second_missing', stepId: 'lift' }),
    )
    const step = indexPlan(job.plan).stepById.get('lift')
    expect(step && standingOf(job, step)).toBe('awaiting_second')
    floor(closed).when(secondSign('lift')).gives({ type: 'StepSecondSigned', stepId: 'lift' })
    expect(isProven(floor(closed, secondSign('lift')).job, { joint: 'JP' })).toBe(true)
    floor(claim('lift'), shows('JL', 1, 15), sign('lift'))
      .when(secondSign('lift'))
      .refuses('no_second_asked')
  })
  test('[SS10] a reading of what is due there is a change since the look', () => {
    const story = floor(third, pumpProven([1, 2]), claim('lift'), shows('JL', 1, 15), shows('JP', 3, 30))
    expect(story.job.steps.lift?.touchedAt).toBe(story.job.version)
  })
  test('[LP1] disturbed there, it takes back the signature given there', () => {
    floor(housingWithout(), claim('lift'), shows('JL', 1, 15), shows('JB', 7, 22), sign('lift'))
      .when(shows('JB', 7, 22))
      .gives({ type: 'ReadingTaken' }, { type: 'SignaturesLapsed', stepId: 'lift' })
  })
  test('[CL9] [RD23] what is fitted later is not hidden by a cover that went on before', () => {
    floor(third, pumpProven([1, 2]), housingProven())
      .when(claim('shroud'))
      .gives({ type: 'StepClaimed' })
    const covered = [
      third,
      pumpProven([1, 2]),
      housingProven(),
      claim('shroud'),
      all('JS', [1, 2], 9),
      claim('lift'),
    ]
    floor(covered)
      .when(shows('JP', 3, 30))
      .flags()
    floor(covered)
      .when(shows('JP', 2, 30))
      .flags('not_claimed', 'out_of_reach')
    floor(leaveOut('JP', [3], 'twin'), pumpProven([1, 2]), housingProven())
      .when(claim('shroud'))
      .refuses('would_hide_unproven')
  })
  test('[DE1] [DE2] names steps and a joint of the plan', () => {
    floor()
      .when(leaveOut('JB', [7], 'none'))
      .refuses('step_not_found', { stepId: 'none' })
    floor()
      .when(leaveOut('none', [7], 'lift'))
      .refuses('joint_not_found')
    floor().when(leaveStep('none', 'lift')).refuses('step_not_found', { stepId: 'none' })
  })
  test('[DE3] and positions', () => {
    floor()
      .when(leaveOut('JB', [9], 'lift'))
      .refuses('position_not_found', { position: 9 })
  })
  test('[DE4] the same again', () => {
    floor(seven).when(seven).thenNothing()
    floor(leaveStep('trial', 'lift')).when(leaveStep('trial', 'lift')).thenNothing()
  })
  test('[DE5] left out once', () => {
    floor(seven)
      .when(leaveOut('JB', [7, 8], 'shroud'))
      .refuses('already_deferred', { dueStepId: 'lift' })
    floor(leaveStep('trial', 'lift')).when(leaveStep('trial', 'fill')).refuses('already_deferred')
  })
  test('[DE6] what has a reading was not left out', () => {
    floor(claim('housing'), shows('JB', 7, 22))
      .when(seven)
      .refuses('already_fitted', { position: 7 })
  })
  test('[DE8] what is signed is not left out', () => {
    floor(pumpSigned()).when(leaveStep('pump', 'lift')).refuses('step_already_signed', { by: 'ana' })
  })
  test('[DE9] due further down the plan', () => {
    floor()
      .when(leaveOut('JB', [7], 'housing'))
      .refuses('due_too_early')
    floor().when(leaveStep('lift', 'rods')).refuses('due_too_early')
  })
  test('[DE10] where the last word is still to come', () => {
    floor(claim('lift'), shows('JL', 1, 15), sign('lift'))
      .when(seven)
      .refuses('due_already_signed')
  })
  test('[DE11] class A on a supervisor’s word, also a step without a joint that asks for two looks', () => {
    floor()
      .when({ ...third, by: 'ana' })
      .refuses('not_entitled_to_defer', { class: 'A' })
    floor()
      .when(leaveStep('closing', 'lift', { by: 'ana' }))
      .refuses('not_entitled_to_defer', { class: 'A' })
    floor()
      .when(leaveOut('JB', [7], 'lift', { by: 'cy' }))
      .refuses('not_entitled_to_defer', { class: 'B' })
    floor()
      .when(leaveOut('JB', [7], 'lift', { by: 'ana' }))
      .gives({ type: 'Deferred' })
    floor()
      .when(leaveStep('trial', 'lift', { by: 'cy' }))
      .gives({ type: 'Deferred' })
  })
})

describe('leaving out a step', () => {
  const left = leaveStep('seal', 'lift')
  test('[CL7] meets a need, is not signed, and can be taken up', () => {
    const { job } = floor(left)
    const step = indexPlan(job.plan).stepById.get('seal')
    expect(step && standingOf(job, step)).toBe('deferred')
    floor(left).when(claim('fill')).gives({ type: 'StepClaimed' })
    floor(left).when(claim('seal')).gives({ type: 'StepClaimed', stepId: 'seal' })
    floor().when(claim('fill')).refuses('needs_open')
  })
  test('[SG16] the step where it is due is not signed before it', () => {
    floor(left, claim('lift'), shows('JL', 1, 15))
      .when(sign('lift'))
      .refuses('deferrals_due', { stepId: 'lift', what: ['seal Step seal'] })
    floor(leaveStep('fill', 'lift'), left, claim('fill'), sign('fill'), claim('lift'), shows('JL', 1, 15))
      .when(sign('lift'))
      .refuses('deferrals_due', { what: ['seal Step seal'] })
  })
})

describe('withdrawing', () => {
  test('[DE14] it belongs where it came from again', () => {
    const then = floor(seven).when(withdraw(entry(1)))
    then.gives({ type: 'DeferralWithdrawn', deferralId: entry(1) })
    const step = indexPlan(then.job.plan).stepById.get('housing')
    expect(step && setViews(then.job, step)[0]?.open).toHaveLength(8)
    floor(seven, withdraw(entry(1)))
      .when(withdraw(entry(1)))
      .thenNothing()
  })
  test('[DE13] one the job has', () => {
    floor().when(withdraw('none')).refuses('deferral_not_found')
  })
  test('[DE15] by the one who made it, or a supervisor', () => {
    const mine = leaveOut('JB', [7], 'lift', { by: 'ana' })
    floor(mine)
      .when(withdraw(entry(1), { by: 'bo' }))
      .refuses('not_yours_to_strike', { by: 'ana' })
    floor(mine)
      .when(withdraw(entry(1), { by: 'ana' }))
      .gives({ type: 'DeferralWithdrawn' })
  })
  test('[DE16] not once its set was signed without it', () => {
    floor(housingWithout())
      .when(withdraw(entry(1)))
      .refuses('signed_without_it', { stepId: 'housing' })
    floor(leaveOut('JT', [4], 'lift'), claim('twin'), twinTurned('left'), sign('twin', { setId: 'left' }))
      .when(withdraw(entry(1)))
      .gives({ type: 'DeferralWithdrawn' })
  })
})
