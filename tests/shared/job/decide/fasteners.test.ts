/** What stands in a place: said, said again, slackened and tightened again, taken out and put back. */
import { describe, expect, test } from 'vitest'
import { fastenerFault, fastenerNow, faultOf, tighteningsHere } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import {
  claim,
  type Given,
  place,
  restart,
  shows,
  sign,
  slacken,
  strike,
  turn,
  waive,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { all, housingSigned, rodsProven } from '../../../shop/stories'

const faultAt = (jointId: string, position: number, ...happened: Given[]) => {
  const { job } = floor(...happened)
  const joint = indexPlan(job.plan).jointById.get(jointId)
  return joint && fastenerFault(job, joint, position)
}

describe('fasteners said again, and tightened again', () => {
  const tight = [claim('trial'), place('JY', [1]), shows('JY', 1, 12)]
  const cycleAt = (jointId: string, position: number, ...happened: Given[]) => {
    const { job } = floor(...happened)
    const joint = indexPlan(job.plan).jointById.get(jointId)
    return joint && fastenerNow(job, joint, position)?.cycle
  }
  const turned = (at: number[]) => [all('JT', at, 20), at.map((n) => turn('JT', n, 60))]

  test('[FA3] nothing between: nothing, also said for the first time of one that is tightened', () => {
    floor(claim('rods'), all('JO', [1, 2], 40), place('JO', [1, 2]))
      .when(place('JO', [1, 2]))
      .thenNothing()
    floor(place('JO', [1], { condition: 'removed' }))
      .when(place('JO', [1], { condition: 'removed', cycle: 3 }))
      .thenNothing()
    floor(place('JO', [1]))
      .when(place('JO', [1, 2]))
      .gives({ type: 'FastenersPlaced', positions: [2] })
  })
  test('[FA3] [FA9] the same said again after a slackening is another one, and nothing more is void', () => {
    const then = floor(tight, slacken('JY', 1)).when(place('JY', [1]))
    then.gives({ type: 'FastenersPlaced', positions: [1], condition: 'new', cycle: 1, flags: [] })
    expect(then.events[0]).not.toHaveProperty('voids')
    expect(then.job.readings.JY?.map(({ superseded }) => superseded?.because)).toEqual([
      'slackened',
      undefined,
    ])
    expect(cycleAt('JY', 1, tight, slacken('JY', 1), place('JY', [1]), shows('JY', 1, 12))).toBe(1)
  })
  test('[FA3] [FA9] slackened with its round, it is said again too', () => {
    floor(claim('trial'), shows('JY', 1, 12), place('JY', [1]), restart('JY', 1, { how: 'slackened' }))
      .when(place('JY', [1]))
      .gives({ type: 'FastenersPlaced', positions: [1], cycle: 1 })
  })
  test('[FA9] another one said over what is tightened: its readings count from there', () => {
    expect(cycleAt('JY', 1, tight, place('JY', [1]), shows('JY', 1, 12))).toBe(1)
    expect(
      cycleAt('JY', 1, tight, place('JY', [1], { condition: 'reused', cycle: 2 }), shows('JY', 1, 12)),
    ).toBe(2)
  })
  test('[FA10] slackened and tightened again is one cycle more, and past the limit spent', () => {
    const again = [tight, slacken('JY', 1), shows('JY', 1, 12)]
    expect(cycleAt('JY', 1, tight)).toBe(1)
    expect(cycleAt('JY', 1, tight, slacken('JY', 1))).toBe(1)
    expect(cycleAt('JY', 1, again)).toBe(2)
    expect(faultAt('JY', 1, again)).toBeUndefined()
    const third = [again, slacken('JY', 1), shows('JY', 1, 12)]
    expect(cycleAt('JY', 1, third)).toBe(3)
    expect(faultAt('JY', 1, third)).toBe('cycles_spent')
    floor(third, place('JY', [2]), shows('JY', 2, 12))
      .when(sign('trial'))
      .refuses('fastener_not_right', { joint: 'JY', position: 1, fault: 'cycles_spent' })
    expect(faultAt('JY', 1, third, place('JY', [1]), shows('JY', 1, 12))).toBeUndefined()
  })
  test('[FA10] a round begun again slackened counts, going round again does not', () => {
    const begun = (how: 'again' | 'slackened') =>
      cycleAt('JY', 1, tight, restart('JY', 1, { how }), shows('JY', 1, 12))
    expect(begun('again')).toBe(1)
    expect(begun('slackened')).toBe(2)
    const twice = [restart('JY', 1, { how: 'slackened' }), shows('JY', 1, 12)]
    expect(faultAt('JY', 1, tight, twice, twice)).toBe('cycles_spent')
  })
  test('[FA10] retaken, or slackened by mistake and struck, is no cycle', () => {
    expect(cycleAt('JY', 1, tight, shows('JY', 1, 12))).toBe(1)
    const struck = [tight, slacken('JY', 1), strike(entry(4)), shows('JY', 1, 12)]
    expect(cycleAt('JY', 1, struck)).toBe(1)
  })
  test('[FA10] what was tightened before anybody said what it is counts for it', () => {
    const then = floor(claim('trial'), shows('JY', 1, 12), slacken('JY', 1), shows('JY', 1, 12)).when(
      place('JY', [1]),
    )
    then.gives({ type: 'FastenersPlaced', condition: 'new', cycle: 2 })
    expect(then.job.readings.JY?.filter(({ superseded }) => superseded)).toHaveLength(1)
  })
  test('[FA10] the plan’s own slackening is part of one tightening', () => {
    const { job } = given(claim('reseat'), place('JR', [1]), shows('JR', 1, 20, { at: 10 }), [
      slacken('JR', 1, { pass: 2, at: 12 }),
      shows('JR', 1, 25, { pass: 4, at: 60 }),
    ])
    const joint = indexPlan(job.plan).jointById.get('JR')
    expect(joint && tighteningsHere(job, joint, 1)).toHaveLength(1)
  })
  test('[FA11] one-use, torque only: slackened and gone on with as the rule says', () => {
    const again = [
      claim('rods'),
      place('JO', [1, 2]),
      all('JO', [1, 2], 40),
      slacken('JO', 1),
      shows('JO', 1, 40),
    ]
    floor(again).when(sign('rods')).gives({ type: 'StepSigned' })
    expect(faultAt('JO', 1, again, slacken('JO', 1), place('JO', [1], { condition: 'hand_tight' }))).toBe(
      'hand_tight',
    )
  })
  test('[FA11] one-use, turned: new ones where the rule asks them, and not where it says to slacken', () => {
    const stretch = (afterAngle: 'new_fasteners' | 'slacken_restart_joint' | undefined) => {
      const { job } = floor(claim('twin'), place('JT', [1, 2]), turned([1, 2]), slacken('JT', 1), turned([1]))
      const joint = indexPlan(job.plan).jointById.get('JT')
      if (!joint) throw new Error('no joint JT')
      const interruption = { torqueOnly: 'restart_pass' as const, ...(afterAngle ? { afterAngle } : {}) }
      return [1, 2].map((n) => faultOf(job, { ...joint, use: { kind: 'one_use' }, interruption }, n))
    }
    expect(stretch('new_fasteners')).toEqual(['fitted_twice', undefined])
    expect(stretch(undefined)).toEqual(['fitted_twice', undefined])
    expect(stretch('slacken_restart_joint')).toEqual([undefined, undefined])
  })
  test('[FA12] taken out and put back by hand is the same one; said to be new, it is another', () => {
    const out = place('JY', [1], { condition: 'removed' })
    const back = place('JY', [1], { condition: 'hand_tight' })
    floor(tight)
      .when(out)
      .gives({ type: 'FastenersPlaced', condition: 'removed', cycle: 1, voids: [1] })
    floor(tight, out)
      .when(back)
      .gives({ type: 'FastenersPlaced', condition: 'hand_tight', cycle: 2, flags: [] })
    floor(tight, out, back, shows('JY', 1, 12), out)
      .when(back)
      .gives({ type: 'FastenersPlaced', cycle: 3, flags: ['cycles_spent'] })
    floor(tight, out)
      .when(place('JY', [1]))
      .gives({ type: 'FastenersPlaced', cycle: 1, flags: [] })
    const bolt = [
      claim('rods'),
      place('JO', [1]),
      shows('JO', 1, 40),
      place('JO', [1], { condition: 'removed' }),
    ]
    floor(bolt)
      .when(place('JO', [1], { condition: 'hand_tight' }))
      .gives({ type: 'FastenersPlaced', flags: ['fitted_twice'] })
    floor(place('JO', [1]), place('JO', [1], { condition: 'removed' }))
      .when(place('JO', [1], { condition: 'hand_tight' }))
      .gives({ type: 'FastenersPlaced', flags: [] })
  })
  test('[WV7] a spent one accepted is not the next tightening accepted', () => {
    const spent = [
      claim('trial'),
      place('JY', [1], { condition: 'reused', cycle: 3 }),
      shows('JY', 1, 12),
      waive({ kind: 'fastener', jointId: 'JY', position: 1 }),
    ]
    expect(faultAt('JY', 1, spent)).toBeUndefined()
    expect(faultAt('JY', 1, spent, slacken('JY', 1), shows('JY', 1, 12))).toBe('cycles_spent')
    expect(faultAt('JY', 1, spent, restart('JY', 1, { how: 'slackened' }), shows('JY', 1, 12))).toBe(
      'cycles_spent',
    )
  })
  test('[LP1] said anew over a signature, it lapses', () => {
    floor(tight, place('JY', [2]), shows('JY', 2, 12), sign('trial'))
      .when(place('JY', [2], { condition: 'reused', cycle: 2 }))
      .gives(
        { type: 'FastenersPlaced', positions: [2], voids: [2] },
        { type: 'SignaturesLapsed', because: 'fastener' },
      )
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
