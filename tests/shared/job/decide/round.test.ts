/** Rounds counted, begun again and broken off. */
import { describe, expect, test } from 'vitest'
import { nextInRound } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import {
  claim,
  count,
  type Given,
  leaveOut,
  putDown,
  restart,
  scale,
  shows,
  sign,
  slacken,
  turn,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { all } from '../../../shop/stories'

describe('a round counted', () => {
  const ready = [claim('housing'), scale('JB', 22)]
  test('[RN6] one press, each recorded as counted at what the scale applies', () => {
    const then = floor(ready).when(count('JB', 8))
    then.gives({
      type: 'RoundCounted',
      jointId: 'JB',
      torqueNm: 22,
      positions: [1, 2, 3, 4, 5, 6, 7, 8],
      flags: [],
    })
    expect(then.job.readings.JB).toHaveLength(8)
    expect(then.job.readings.JB?.[3]).toMatchObject({ how: 'counted', position: 4, by: 'ana' })
  })
  test('[RN6] what is odd about one is flagged on all', () => {
    const { flags } = floor(ready, shows('JB', 3, 30), slacken('JB', 3), shows('JB', 3, 30)).when(
      count('JB', 7),
    ).events[0] as { flags: string[] }
    expect(flags).toEqual([])
    floor(claim('housing'))
      .when(count('JB', 8))
      .gives({ type: 'RoundCounted', flags: ['scale_not_entered'] })
    floor(claim('twin'), all('JT', [1], 20), scale('JT', 20))
      .when(count('JT', 2, { pass: 2, wrenchId: 'gauge' }))
      .gives({ type: 'RoundCounted', flags: ['out_of_order', 'pass_skipped'] })
  })
  test('[RN1] [RN2] names a joint and a pass', () => {
    floor(ready).when(count('none', 8)).refuses('joint_not_found')
    floor(ready)
      .when(count('JB', 8, { pass: 2 }))
      .refuses('pass_not_found')
  })
  test('[RN3] class A is recorded head by head', () => {
    floor(claim('pump'), scale('JP', 30)).when(count('JP', 3)).refuses('every_head', { joint: 'JP' })
  })
  test('[RN4] nothing is open', () => {
    floor(ready, count('JB', 8)).when(count('JB', 8)).thenNothing()
  })
  test('[RN5] the count is that of the open ones of a round, and not of what was left out', () => {
    floor(ready)
      .when(count('JB', 7))
      .refuses('count_differs', { counted: 7, open: [1, 2, 3, 4, 5, 6, 7, 8] })
    floor(leaveOut('JB', [7], 'lift'), ready)
      .when(count('JB', 7))
      .gives({ type: 'RoundCounted', positions: [1, 2, 3, 4, 5, 6, 8] })
  })
  test('[RN5] each cap is a round of its own, and both can be counted, angles too', () => {
    const capped = [claim('twin'), scale('JT', 20), count('JT', 2)]
    floor(capped)
      .when(count('JT', 2))
      .gives({ type: 'RoundCounted', positions: [3, 4], flags: [] })
    floor(capped)
      .when(count('JT', 2, { pass: 2, wrenchId: 'gauge' }))
      .gives({ type: 'RoundCounted', positions: [1, 2], flags: [] })
  })
})

describe('a round begun again', () => {
  const begun = [claim('twin'), all('JT', [1, 2], 20), turn('JT', 1, 60)]
  test('[RN10] again: the latest pass is void; slackened: the whole round', () => {
    const voided = (how: 'again' | 'slackened') =>
      floor(begun)
        .when(restart('JT', 1, { how }))
        .job.readings.JT?.map(({ superseded }) => superseded?.because)
    expect(voided('again')).toEqual([undefined, undefined, 'restarted'])
    expect(voided('slackened')).toEqual(['restarted', 'restarted', 'restarted'])
  })
  test('[RN10] new fasteners are entered as new', () => {
    expect(floor(begun, restart('JT', 1, { how: 'new_fasteners' })).job.fasteners.JT).toMatchObject({
      1: { condition: 'new', cycle: 1 },
      2: { condition: 'new' },
    })
  })
  test('[RN7] [RN8] names a joint and a position', () => {
    floor(begun).when(restart('none', 1)).refuses('joint_not_found')
    floor(begun).when(restart('JT', 9)).refuses('position_not_found', { position: 9 })
  })
  test('[RN9] nothing read and nothing broken off', () => {
    floor(claim('twin')).when(restart('JT', 1)).thenNothing()
  })
  test('[LP1] it takes back the signatures of its set', () => {
    floor(
      claim('twin'),
      all('JT', [1, 2], 20),
      turn('JT', 1, 60),
      turn('JT', 2, 60),
      sign('twin', { setId: 'left' }),
    )
      .when(restart('JT', 1))
      .gives({ type: 'RoundRestarted' }, { type: 'SignaturesLapsed', setId: 'left', because: 'restart' })
  })
})

const left = [claim('twin'), all('JT', [1], 20)]

describe('a round broken off', () => {
  const broken = [left, putDown('twin'), claim('twin')]
  test('[RD24] goes on only after what its rule asks', () => {
    floor(broken)
      .when(shows('JT', 2, 20))
      .flags('not_restarted')
    floor(broken, restart('JT', 2))
      .when(shows('JT', 1, 20))
      .flags()
  })
  test('[RD24] [RN11] one cap’s interruption does not hold up the other', () => {
    floor(broken)
      .when(shows('JT', 3, 20))
      .flags()
    const { job } = floor(broken, shows('JT', 3, 20), putDown('twin'), claim('twin'), restart('JT', 3))
    expect(job.interrupted.JT).toMatchObject([{ positions: [1, 2] }])
    expect(floor(broken, restart('JT', 1)).job.interrupted).toEqual({})
  })
  test('[RN11] less than the rule asks is recorded and leaves the mark; more lifts it', () => {
    const turned = [claim('twin'), all('JT', [1, 2], 20), turn('JT', 1, 60), putDown('twin'), claim('twin')]
    floor(turned, restart('JT', 1, { how: 'slackened' }))
      .when(shows('JT', 1, 20))
      .flags('not_restarted')
    floor(turned, restart('JT', 1, { how: 'new_fasteners' }))
      .when(shows('JT', 1, 20))
      .flags()
    floor(broken, restart('JT', 1, { how: 'new_fasteners' }))
      .when(shows('JT', 1, 20))
      .flags()
  })
  test('[RN11] broken off twice it keeps the mark that asks for more', () => {
    const twice = [
      broken,
      shows('JT', 2, 20),
      turn('JT', 1, 60),
      putDown('twin'),
      claim('twin'),
      restart('JT', 1),
    ]
    expect(floor(twice).job.interrupted.JT).toMatchObject([{ asks: 'new_fasteners' }])
  })
  test('[DE7] leaving out the rest is no way round it', () => {
    floor(broken)
      .when(leaveOut('JT', [2], 'lift'))
      .refuses('round_broken_off', { joint: 'JT' })
  })
})

describe('[RN12] round done of a named position', () => {
  test('takes the round that position belongs to, as the sets split the joint', () => {
    floor(claim('twin'))
      .when(count('JT', 2, { position: 4, wrenchId: 'dial' }))
      .gives({ type: 'RoundCounted', positions: [3, 4] })
    floor(claim('twin'))
      .when(count('JT', 2, { wrenchId: 'dial' }))
      .gives({ type: 'RoundCounted', positions: [1, 2] })
  })
  test('also in a later pass, while another round is still in an earlier one', () => {
    const right: Given[] = [claim('twin'), shows('JT', 3, 20), shows('JT', 4, 20), turn('JT', 3, 60)]
    floor(right)
      .when(count('JT', 1, { pass: 2, position: 3, wrenchId: 'gauge' }))
      .gives({ type: 'RoundCounted', positions: [4] })
  })
  test('nothing where that round is done, though another is open', () => {
    floor(claim('twin'), shows('JT', 3, 20), shows('JT', 4, 20))
      .when(count('JT', 2, { position: 3 }))
      .thenNothing()
  })
  test('its count is held against that round; a place the joint has not is refused', () => {
    floor(claim('twin'))
      .when(count('JT', 4, { position: 3 }))
      .refuses('count_differs', { counted: 4, open: [3, 4] })
    floor(claim('twin'))
      .when(count('JT', 2, { position: 9 }))
      .refuses('position_not_found', { position: 9 })
  })
})

describe('[RD6] a slackening pass', () => {
  /** The reseat joint with an order, to show that none is asked of its slackening. */
  const ordered = (...happened: Given[]): Given[] => {
    const { plan } = given().job
    const steps = plan.steps.map((step) => ({
      ...step,
      joints: step.joints.map((joint) => (joint.id === 'JR' ? { ...joint, order: [1, 2] } : joint)),
    }))
    return [
      { type: 'PlanAdopted', by: 'dee', doneAt: 0, plan: { ...plan, steps } },
      claim('reseat'),
      ...happened,
    ]
  }
  test('is held to no order: neither the tightening order nor the round before it', () => {
    const torqued = [shows('JR', 1, 20), shows('JR', 2, 20)]
    given(ordered(torqued))
      .when(slacken('JR', 1, { pass: 2 }))
      .flags()
    given(ordered(torqued))
      .when(slacken('JR', 2, { pass: 2 }))
      .flags()
    given(ordered(shows('JR', 1, 20)))
      .when(slacken('JR', 1, { pass: 2 }))
      .flags()
    given(ordered())
      .when(shows('JR', 2, 20))
      .flags('out_of_order')
  })
  test('offers the last of the order first', () => {
    const { job } = given(ordered(shows('JR', 1, 20), shows('JR', 2, 20)))
    const step = indexPlan(job.plan).stepById.get('reseat')
    const joint = step?.joints[0]
    expect(step && joint && nextInRound(job, step, joint, 1, 2).next).toBe(2)
    expect(step && joint && nextInRound(job, step, joint, 1, 4).next).toBe(1)
  })
})
