/** What a supervisor accepts: accepted is never proven. */
import { describe, expect, test } from 'vitest'
import { isAccepted, isProven, setViews, standingOf, unprovenBehind } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import { claim, type Given, measure, place, secondSign, shows, sign, waive } from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { entry } from '../../../shop/ids'
import { people } from '../../../shop/people'
import { testShop } from '../../../shop/shop'
import { all, capsMeasured, capsReady, housingProven, pumpProven, pumpSigned } from '../../../shop/stories'

const second = { kind: 'second', stepId: 'pump', setId: 'step' } as const

describe('a waiver', () => {
  test('[WV6] T13: a second signature accepted, not proven', () => {
    const accepted = [pumpSigned(), waive(second)]
    const { job } = floor(accepted)
    expect([isProven(job, { joint: 'JP' }), isAccepted(job, { joint: 'JP' })]).toEqual([false, true])
    const step = indexPlan(job.plan).stepById.get('shroud')
    expect(step && unprovenBehind(job, step)).toEqual([])
    floor(accepted, housingProven()).when(claim('shroud')).gives({ type: 'StepClaimed' })
    const after = floor(accepted, secondSign('pump')).job
    expect(isProven(after, { joint: 'JP' })).toBe(true)
  })
  test('[WV6] a reading, a fastener, a measurement, a gate: signed on it, and still not proven', () => {
    const odd = floor(
      claim('pump'),
      all('JP', [1, 2], 30),
      shows('JP', 3, 33),
      waive({ kind: 'reading', readingId: entry(4) }),
    )
    odd.when(sign('pump')).gives({ type: 'StepSigned' })
    const flagged = floor(
      claim('pump'),
      all('JP', [1, 2], 30),
      shows('JP', 3, 33),
      waive({ kind: 'reading', readingId: entry(4) }),
      sign('pump'),
      secondSign('pump'),
    ).job
    expect([isProven(flagged, { joint: 'JP' }), isAccepted(flagged, { joint: 'JP' })]).toEqual([false, true])
    const reused = floor(
      claim('rods'),
      place('JO', [1]),
      place('JO', [2], { condition: 'reused' }),
      all('JO', [1, 2], 40),
      waive({ kind: 'fastener', jointId: 'JO', position: 2 }),
      sign('rods'),
      secondSign('rods'),
    ).job
    expect([isProven(reused, { joint: 'JO' }), isAccepted(reused, { joint: 'JO' })]).toEqual([false, true])
    const caps = given(
      capsReady(),
      measure('cap 1', 0.2),
      waive({
        kind: 'measurement',
        entryId: given(capsReady(), measure('cap 1', 0.2)).job.steps.caps?.measurements.at(-1)?.id ?? '',
      }),
      sign('caps'),
    ).job
    const step = indexPlan(caps.plan).stepById.get('caps')
    expect(step && setViews(caps, step).at(-1)).toMatchObject({ waived: true, proven: false })
  })
  test('[WV6] a gate accepted lets the step be signed', () => {
    given(
      claim('caps'),
      capsReady().slice(1),
      measure('cap 1', 0.05),
      waive({ kind: 'gate', stepId: 'caps', gateId: 'picture' }),
    )
      .when(sign('caps'))
      .gives({ type: 'StepSigned' })
    floor(claim('closing'), waive({ kind: 'gate', stepId: 'closing', gateId: 'rags' }))
      .when(sign('closing'))
      .gives({ type: 'StepSigned' })
  })
  test('[WV6] [CL9] T9: begun on a supervisor’s word, the class A behind it is hidden all the same', () => {
    const hiding = waive({ kind: 'hiding', stepId: 'shroud' })
    floor(housingProven())
      .when(claim('shroud'))
      .refuses('would_hide_unproven', { behind: [{ joint: 'JP' }] })
    floor(housingProven(), hiding).when(claim('shroud')).gives({ type: 'StepClaimed' })
    const { job } = floor(housingProven(), hiding, claim('shroud'), all('JS', [1, 2], 9), sign('shroud'))
    expect(isAccepted(job, { joint: 'JP' })).toBe(false)
    expect(job.waivers).toMatchObject([{ what: { kind: 'hiding' }, lapsed: { by: 'ana' } }])
  })
  test('[WV7] [LP3] it lapses with what it accepted', () => {
    const { job } = floor(pumpSigned(), waive(second), shows('JP', 1, 30))
    expect(job.waivers[0]?.lapsed).toMatchObject({ by: 'ana' })
    floor(
      pumpSigned(),
      waive(second),
      claim('twin'),
      shows('JP', 1, 30),
      claim('pump'),
      shows('JP', 1, 30),
      sign('pump'),
    )
      .when(secondSign('pump'))
      .gives({ type: 'StepSecondSigned' })
    const again = floor(
      pumpSigned(),
      waive(second),
      shows('JP', 1, 30),
      claim('pump'),
      shows('JP', 1, 30),
      sign('pump'),
    )
    expect(isAccepted(again.job, { joint: 'JP' })).toBe(false)
    const bolt = waive({ kind: 'fastener', jointId: 'JO', position: 1 })
    floor(
      claim('rods'),
      place('JO', [1], { condition: 'temporary' }),
      bolt,
      all('JO', [1, 2], 40),
      place('JO', [2]),
      place('JO', [1], { condition: 'removed' }),
      shows('JO', 1, 40),
    )
      .when(sign('rods'))
      .refuses('fastener_not_right', { position: 1, fault: 'removed' })
  })
  test('[WV1] names something that is there', () => {
    floor()
      .when(waive({ kind: 'reading', readingId: 'none' }))
      .refuses('reading_not_found')
    floor()
      .when(waive({ kind: 'fastener', jointId: 'none', position: 1 }))
      .refuses('joint_not_found')
    floor()
      .when(waive({ kind: 'fastener', jointId: 'JP', position: 9 }))
      .refuses('position_not_found')
    floor()
      .when(waive({ kind: 'measurement', entryId: 'none' }))
      .refuses('entry_not_found')
    floor()
      .when(waive({ kind: 'hiding', stepId: 'none' }))
      .refuses('step_not_found')
    floor()
      .when(waive({ kind: 'second', stepId: 'pump', setId: 'none' }))
      .refuses('set_not_found')
    floor()
      .when(waive({ kind: 'second', stepId: 'trial', setId: 'step' }))
      .refuses('no_second_asked')
    floor().when(waive(second)).refuses('not_signed_yet')
    floor()
      .when(waive({ kind: 'gate', stepId: 'pump', gateId: 'none' }))
      .refuses('gate_not_found')
  })
  test('[WV2] by a supervisor or the owner', () => {
    floor(pumpSigned())
      .when({ ...waive(second), by: 'bo' })
      .refuses('role_needed')
  })
  test('[WV3] the same again', () => {
    floor(pumpSigned(), waive(second)).when(waive(second)).thenNothing()
  })
  test('[WV4] nobody accepts ahead what nobody has seen', () => {
    floor(pumpProven()).when(waive(second)).refuses('nothing_to_accept')
    floor(claim('pump'), shows('JP', 1, 30))
      .when(waive({ kind: 'reading', readingId: entry(2) }))
      .refuses('nothing_to_accept')
    floor()
      .when(waive({ kind: 'fastener', jointId: 'JP', position: 1 }))
      .refuses('nothing_to_accept')
    given(capsMeasured())
      .when(waive({ kind: 'measurement', entryId: entry(1) }))
      .refuses('nothing_to_accept')
    floor(pumpProven())
      .when(waive({ kind: 'hiding', stepId: 'shroud' }))
      .refuses('nothing_to_accept')
    floor()
      .when(waive({ kind: 'sealant', stepId: 'twin' }))
      .refuses('nothing_to_accept')
    given(capsReady())
      .when(waive({ kind: 'gate', stepId: 'caps', gateId: 'shells' }))
      .refuses('nothing_to_accept')
  })
  test('[WV5] says so when the one who accepts had worked on it', () => {
    const own = floor(claim('pump'), shows('JP', 1, 33, { by: 'dee' })).when(
      waive({ kind: 'reading', readingId: entry(2) }),
    )
    own.gives({ type: 'Waived', ownWork: true })
    expect(floor(pumpSigned()).when(waive(second)).events[0]).not.toHaveProperty('ownWork')
  })
  test('a step done on a waiver counts as done on the board', () => {
    const { job } = floor(pumpSigned(), waive(second))
    const step = indexPlan(job.plan).stepById.get('pump')
    expect(step && standingOf(job, step)).toBe('done')
  })
  test('[VW8] T9: the cover off, the bolts done and signed by both, the cover on again', () => {
    const covered = [
      housingProven(),
      waive({ kind: 'hiding', stepId: 'shroud' }),
      claim('shroud'),
      all('JS', [1, 2], 9),
      sign('shroud'),
      claim('pump'),
    ]
    floor(covered)
      .when(shows('JP', 1, 30))
      .flags('out_of_reach')
    const off = [covered, place('JS', [1, 2], { condition: 'removed' })]
    floor(off)
      .when(shows('JP', 1, 30))
      .flags()
    floor(off).when(claim('shroud')).refuses('would_hide_unproven')
    const redone = [off, all('JP', [1, 2, 3], 30), sign('pump'), secondSign('pump')]
    expect(floor(redone).job.steps.pump?.sets.step?.second).not.toHaveProperty('late')
    floor(redone).when(claim('shroud')).gives({ type: 'StepClaimed' })
  })
})

describe('waiving on one’s own work', () => {
  /** A supervisor who also does. */
  const eve = { ...people.ana, id: 'eve', initials: 'EV', roles: ['supervisor' as const] }
  const shop = { people: { ...testShop.people, eve } }
  test('[WV8] is recorded so, and such a set is accepted, never proven', () => {
    const done: Given[] = [
      claim('pump', { by: 'ana' }),
      shows('JP', 1, 35, { by: 'ana' }),
      all('JP', [2, 3], 30, { by: 'ana' }),
    ]
    const reading = floor(done).job.readings.JP?.[0]?.id ?? ''
    const waived = floor(done)
      .inShop({ people: { ...testShop.people, ana: { ...people.ana, roles: ['supervisor'] } } })
      .when(waive({ kind: 'reading', readingId: reading }, { by: 'ana' }))
    waived.gives({ type: 'Waived', ownWork: true })
    const after = floor(done, waived.events, sign('pump'), secondSign('pump'))
    const pump = indexPlan(after.job.plan).stepById.get('pump')
    expect(pump && setViews(after.job, pump)).toMatchObject([{ proven: false, accepted: true, waived: true }])
    floor(done)
      .inShop(shop)
      .when(waive({ kind: 'reading', readingId: reading }, { by: 'eve' }))
      .gives({ type: 'Waived' })
    expect(
      floor(done)
        .inShop(shop)
        .when(waive({ kind: 'reading', readingId: reading }, { by: 'eve' })).events[0],
    ).not.toHaveProperty('ownWork')
  })
})
