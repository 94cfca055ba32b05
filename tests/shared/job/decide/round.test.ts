/** Rounds counted and begun again, the fasteners themselves, and the sealant's clock. */
import { describe, expect, test } from 'vitest'
import { sealantState } from '../../../../shared/job/clocks'
import { fastenerFault } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import {
  bead,
  claim,
  closed,
  count,
  type Given,
  leaveOut,
  place,
  putDown,
  restart,
  scale,
  shows,
  sign,
  slacken,
  turn,
  waive,
} from '../../../shop/acts'
import { floor } from '../../../shop/given'
import { all, housingSigned, rodsProven, sealDone } from '../../../shop/stories'
import { START } from '../../../shop/time'

const faultAt = (jointId: string, position: number, ...happened: Given[]) => {
  const { job } = floor(...happened)
  const joint = indexPlan(job.plan).jointById.get(jointId)
  return joint && fastenerFault(job, joint, position)
}

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

describe('fasteners', () => {
  test('[FA4] what stands in a place, and its cycle', () => {
    floor()
      .when(place('JO', [1, 2]))
      .gives({ type: 'FastenersPlaced', condition: 'new', cycle: 1, flags: [] })
    floor()
      .when(place('JY', [1], { condition: 'reused', cycle: 2 }))
      .gives({ type: 'FastenersPlaced', condition: 'reused', cycle: 2, flags: [] })
  })
  test('[FA1] [FA2] names a joint and its positions', () => {
    floor()
      .when(place('none', [1]))
      .refuses('joint_not_found')
    floor()
      .when(place('JO', [1, 3]))
      .refuses('position_not_found', { position: 3 })
  })
  test('[FA3] said twice with nothing between', () => {
    floor(place('JO', [1, 2]))
      .when(place('JO', [2, 1]))
      .thenNothing()
  })
  test('[FA5] a one-use bolt is never fitted twice, neither reused nor by slackening it', () => {
    floor()
      .when(place('JO', [1], { condition: 'reused' }))
      .gives({ type: 'FastenersPlaced', flags: ['fitted_twice'] })
    const again = [
      claim('rods'),
      place('JO', [1, 2]),
      all('JO', [1, 2], 40),
      place('JO', [1], { condition: 'hand_tight' }),
    ]
    expect(faultAt('JO', 1, again, shows('JO', 1, 40))).toBe('fitted_twice')
    expect(faultAt('JO', 1, again, place('JO', [1]), shows('JO', 1, 40))).toBeUndefined()
  })
  test('[FA6] cycles are counted, trial fits too', () => {
    floor()
      .when(place('JY', [1], { condition: 'reused', cycle: 3 }))
      .gives({ type: 'FastenersPlaced', flags: ['cycles_spent'] })
    floor()
      .when(place('JY', [1], { condition: 'reused' }))
      .gives({ type: 'FastenersPlaced', flags: ['cycles_spent'] })
    const once = [
      claim('trial'),
      place('JY', [1]),
      shows('JY', 1, 12),
      place('JY', [1], { condition: 'hand_tight' }),
    ]
    expect(floor(once).job.fasteners.JY?.[1]).toMatchObject({ cycle: 2, flags: [] })
    const twice = [
      once,
      shows('JY', 1, 12),
      place('JY', [1], { condition: 'hand_tight' }),
      shows('JY', 1, 12),
    ]
    expect(faultAt('JY', 1, twice)).toBe('cycles_spent')
  })
  test('[FA7] another bolt in the place: the readings there were not of it', () => {
    const then = floor(rodsProven()).when(place('JO', [1]))
    then.gives({ type: 'FastenersPlaced', voids: [1] }, { type: 'SignaturesLapsed', because: 'fastener' })
    expect(then.job.readings.JO?.map(({ superseded }) => superseded?.because)).toEqual([
      'refitted',
      undefined,
    ])
    floor(housingSigned())
      .when(place('JB', [2], { condition: 'removed' }))
      .gives({ type: 'FastenersPlaced', voids: [2] }, { type: 'SignaturesLapsed' })
  })
  test('[FA7] saying for the first time what was tightened voids nothing', () => {
    const then = floor(claim('rods'), all('JO', [1, 2], 40)).when(place('JO', [1, 2]))
    then.gives({ type: 'FastenersPlaced' })
    expect(then.events[0]).not.toHaveProperty('voids')
    expect(then.job.readings.JO?.some(({ superseded }) => superseded)).toBe(false)
  })
  test('[FA8] [SG11] what nobody has said, hand-tight and no more, put in by hand and not said new', () => {
    floor(claim('rods'), all('JO', [1, 2], 40))
      .when(sign('rods'))
      .refuses('fastener_not_right', { joint: 'JO', position: 1, fault: 'not_declared' })
    expect(faultAt('JB', 1, place('JB', [1], { condition: 'hand_tight' }))).toBe('hand_tight')
    expect(faultAt('JB', 1, place('JB', [1], { condition: 'hand_tight' }), slacken('JB', 1))).toBe(
      'hand_tight',
    )
    expect(
      faultAt('JB', 1, place('JB', [1], { condition: 'hand_tight' }), shows('JB', 1, 22)),
    ).toBeUndefined()
    expect(faultAt('JO', 1, place('JO', [1], { condition: 'hand_tight' }), shows('JO', 1, 40))).toBe(
      'not_declared',
    )
    expect(
      faultAt('JO', 1, place('JO', [1]), place('JO', [1], { condition: 'hand_tight' }), shows('JO', 1, 40)),
    ).toBe(undefined)
  })
  test('[FA8] T14: a temporary bolt is no fitted one, however well it is tightened', () => {
    const slave = [
      claim('housing'),
      place('JB', [7, 8], { condition: 'temporary' }),
      all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22),
    ]
    floor(slave)
      .when(sign('housing'))
      .refuses('fastener_not_right', { joint: 'JB', position: 7, fault: 'temporary' })
    floor(slave, place('JB', [7, 8], { condition: 'removed' }))
      .when(sign('housing'))
      .refuses('positions_open', { positions: [7, 8] })
    floor(slave, place('JB', [7, 8]), all('JB', [7, 8], 22))
      .when(sign('housing'))
      .gives({ type: 'StepSigned' })
  })
})

describe('the sealant’s clock', () => {
  test('[SE4] a bead starts it, another starts a new one', () => {
    floor().when(bead('seal')).gives({ type: 'SealantStarted', stepId: 'seal' })
    const then = floor(sealDone()).when(bead('seal', { at: 300 }))
    then.gives({ type: 'SealantStarted' }, { type: 'SignaturesLapsed', because: 'sealant' })
    expect(then.job.steps.seal?.sealant).toHaveLength(2)
  })
  test('[SE1] [SE2] [SE5] a step that asks for sealant', () => {
    floor().when(bead('none')).refuses('step_not_found')
    floor().when(bead('twin')).refuses('no_sealant_asked', { stepId: 'twin' })
    floor().when(closed('none')).refuses('step_not_found')
  })
  test('[SE3] [SE7] the same tap again', () => {
    floor(bead('seal', { at: 9 }))
      .when(bead('seal', { at: 9 }))
      .thenNothing()
    floor(bead('seal'), closed('seal')).when(closed('seal')).thenNothing()
    floor(bead('seal')).when(closed('seal')).gives({ type: 'SealantClosed' })
  })
  test('[SE6] nothing to close', () => {
    floor().when(closed('seal')).refuses('sealant_not_started')
  })
  const tight = (at: number) => [
    claim('seal'),
    bead('seal', { at: 122 }),
    all('JE', [1, 2], 9, { at: 125 }),
    closed('seal', { at }),
  ]
  test('[SE8] [SG14] T15: the window to the exact minute', () => {
    floor(tight(130))
      .when(sign('seal', { at: 140 }))
      .gives({ type: 'StepSigned' })
    floor(tight(130 + 1 / 60))
      .when(sign('seal', { at: 140 }))
      .refuses('sealant_open', { state: 'late', minutes: 8 })
    floor(claim('seal'), all('JE', [1, 2], 9))
      .when(sign('seal'))
      .refuses('sealant_open', { state: 'not_started' })
    floor(claim('seal'), bead('seal'), all('JE', [1, 2], 9))
      .when(sign('seal', { at: 500 }))
      .refuses('sealant_open', { state: 'open' })
  })
  test('[SE8] what arrives late counts when it happened', () => {
    floor(tight(130), putDown('seal', { at: 900 }), claim('seal', { at: 901 }))
      .when(sign('seal', { at: 902 }))
      .gives({ type: 'StepSigned' })
  })
  test('[SE9] [CL8] T15: cured at the end of its last minute, and not before', () => {
    floor(sealDone())
      .when(claim('fill', { at: 826.99 }))
      .refuses('still_curing', { of: 'seal', until: START + 827 * 60_000 })
    floor(sealDone())
      .when(claim('fill', { at: 827 }))
      .gives({ type: 'StepClaimed' })
    const { job } = floor(sealDone())
    const step = indexPlan(job.plan).stepById.get('seal')
    expect(step && sealantState(job, step, START + 827 * 60_000)).toEqual({
      state: 'cured',
      since: START + 827 * 60_000,
    })
  })
  test('[WV7] a late bead accepted is not the next one accepted', () => {
    const late = [tight(140), waive({ kind: 'sealant', stepId: 'seal' })]
    floor(late)
      .when(sign('seal', { at: 150 }))
      .gives({ type: 'StepSigned' })
    floor(late, bead('seal', { at: 200 }), closed('seal', { at: 220 }))
      .when(sign('seal', { at: 230 }))
      .refuses('sealant_open', { state: 'late' })
  })
})
