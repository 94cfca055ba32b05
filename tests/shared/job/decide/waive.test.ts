/** Values settled where none is published, and what a supervisor accepts: accepted is never proven. */
import { describe, expect, test } from 'vitest'
import type { Proposal } from '../../../../shared/fastener'
import { proposeFor } from '../../../../shared/job/proposal'
import { jobCommandSchema, jobEventSchema } from '../../../../shared/job/schema'
import { trailLine } from '../../../../shared/job/trail'
import { isAccepted, isProven, setViews, standingOf, unprovenBehind } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import { claim, hole, measure, place, secondSign, settle, shows, sign, waive } from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { entry, uuid } from '../../../shop/ids'
import { testShop } from '../../../shop/shop'
import {
  all,
  capsMeasured,
  capsReady,
  drainDone,
  housingProven,
  pumpProven,
  pumpSigned,
} from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

const second = { kind: 'second', stepId: 'pump', setId: 'step' } as const

describe('a value nobody published', () => {
  test('[SV7] [RD12] T3: nothing is proven until it is settled, with name and reason', () => {
    given(claim('drain'), shows('JN', 1, 12))
      .when(sign('drain'))
      .refuses('flags_stand', { flags: ['no_published_value'] })
    given(claim('drain'), shows('JN', 1, 12), settle('JN', 12))
      .when(sign('drain'))
      .gives({ type: 'StepSigned' })
    given(claim('drain'), shows('JN', 1, 20), settle('JN', 12))
      .when(sign('drain'))
      .refuses('flags_stand', { flags: ['out_of_band'] })
    given(claim('drain'), settle('JN', 12))
      .when(shows('JN', 1, 12))
      .flags()
    given().when(settle('JN', 12)).gives({ type: 'ValueSettled', by: 'dee', reason: 'bronze, low pressure' })
  })
  test('[SV7] [LP1] settled anew, what stood on the old value lapses and is judged by the new', () => {
    const then = given(drainDone()).when(settle('JN', 20))
    then.gives({ type: 'ValueSettled' }, { type: 'SignaturesLapsed', stepId: 'drain', because: 'value' })
    const step = indexPlan(then.job.plan).stepById.get('drain')
    expect(step && setViews(then.job, step)[0]).toMatchObject({
      final: false,
      flagged: [{ flags: ['out_of_band'] }],
    })
  })
  test('[SV1] [SV2] names a joint and a pass', () => {
    given().when(settle('none', 12)).refuses('joint_not_found')
    given()
      .when(settle('JN', 12, { pass: 2 }))
      .refuses('pass_not_found')
  })
  test('[SV3] by a supervisor or the owner', () => {
    given()
      .when(settle('JN', 12, { by: 'ana' }))
      .refuses('role_needed')
  })
  test('[SV4] not where one is published', () => {
    given().when(settle('JH', 30)).refuses('value_published', { pass: 1 })
    given()
      .when(settle('JH', 30, { pass: 2 }))
      .refuses('value_published', { pass: 2 })
  })
  test('[SV5] within its own limits', () => {
    given()
      .when(settle('JN', 12, { maxNm: 11.9 }))
      .refuses('limits_miss_value')
  })
  test('[SV6] the same again; another basis is not the same', () => {
    given(settle('JN', 12)).when(settle('JN', 12)).thenNothing()
    given(settle('JN', 12))
      .when(settle('JN', 12, { basis: { kind: 'word', competence: 'another' } }))
      .gives({ type: 'ValueSettled' })
  })
  test('[SV12] settled anew, what was settled before stays with it', () => {
    const then = given(settle('JN', 12), settle('JN', 13)).when(settle('JN', 14)).job.settled.JN?.[1]
    expect(then?.torqueNm).toBe(14)
    expect(then?.earlier?.map(({ torqueNm }) => torqueNm)).toEqual([12, 13])
    expect(then?.earlier?.some((one) => 'earlier' in one)).toBe(false)
  })
})

describe('a value computed', () => {
  const added = { holeMaterial: 'cast iron', engagementMm: 18 }
  /** As the page would: from the joint as it stands, with what is added. */
  const proposalOf = (job = given().job): Proposal => {
    const joint = indexPlan(job.plan).jointById.get('JN')
    const answer = joint && proposeFor(job, joint, 1, testShop.tolerances, added)
    if (!answer || 'refusals' in answer) throw new Error('refused')
    return answer.proposal
  }
  const computed = (proposal: Proposal, but: Partial<Proposal['results']> = {}) => {
    const { torqueNm, minNm, maxNm } = { ...proposal.results, ...but }
    const basis = { kind: 'computed' as const, method: 'preload', inputs: 'as computed', proposal }
    return settle('JN', torqueNm, { minNm, maxNm, basis })
  }
  test('[SV8] is reckoned again and taken with its figures, words and sources', () => {
    const proposal = proposalOf()
    const then = given().when(computed(proposal))
    then.gives({
      type: 'ValueSettled',
      basis: { kind: 'computed', method: 'preload', inputs: 'as computed', proposal },
    })
    expect(then.events.map((event) => jobEventSchema.safeParse(event).error)).toEqual([undefined])
    const [event] = then.events
    const told = event && trailLine(then.job, { version: 1, recordedAt: START, event }, words).sentence
    expect(told).toMatch(
      /friction 0\.08 to 0\.16; hole in grey cast iron.*weakest: the thread of the hole, bears/,
    )
    given(computed(proposal)).when(computed(proposal)).thenNothing()
    expect(
      jobCommandSchema.safeParse({ ...computed(proposal).command, commandId: uuid(1) }).error,
    ).toBeUndefined()
  })
  test('[SV8] other figures than come out are refused', () => {
    const proposal = proposalOf()
    const forged = {
      ...proposal,
      results: { ...proposal.results, torqueNm: 200, maxNm: 210, ceilingNm: 300 },
    }
    given().when(computed(forged)).refuses('proposal_differs', { torqueNm: proposal.results.torqueNm })
    const other = { ...proposal, inputs: { ...proposal.inputs, engagementMm: 30 } }
    given().when(computed(other)).refuses('proposal_differs')
  })
  test('[SV8] [HR5] a thread found stripped since, and nothing is computed for it any more', () => {
    given(hole('JN', 1)).when(computed(proposalOf())).refuses('proposal_refused')
  })
  test('[SV9] more than the weakest link bears is somebody’s own word', () => {
    const proposal = proposalOf()
    const { ceilingNm } = proposal.results
    given()
      .when(computed(proposal, { maxNm: ceilingNm }))
      .gives({ type: 'ValueSettled' })
    given()
      .when(computed(proposal, { maxNm: ceilingNm + 0.1 }))
      .refuses('above_proposal', { ceilingNm })
    given()
      .when(settle('JN', ceilingNm, { maxNm: ceilingNm + 5 }))
      .gives({ type: 'ValueSettled' })
  })
  test('[SV7] computed by hand, as an older build had it, is still taken', () => {
    given()
      .when(settle('JN', 12, { basis: { kind: 'computed', method: 'by hand', inputs: 'M10, 0.14' } }))
      .gives({ type: 'ValueSettled' })
  })
})

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
