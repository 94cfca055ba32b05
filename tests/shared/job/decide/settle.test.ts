/** A value nobody published, settled on a basis, with name and reason. */
import { describe, expect, test } from 'vitest'
import type { Proposal } from '../../../../shared/fastener'
import { proposeFor } from '../../../../shared/job/proposal'
import { jobCommandSchema, jobEventSchema } from '../../../../shared/job/schema'
import { trailLine } from '../../../../shared/job/trail'
import { setViews } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import { claim, hole, settle, shows, sign } from '../../../shop/acts'
import { given } from '../../../shop/given'
import { uuid } from '../../../shop/ids'
import { testShop } from '../../../shop/shop'
import { drainDone } from '../../../shop/stories'
import { START } from '../../../shop/time'
import { words } from '../../../shop/words'

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
  test('[SV13] one that the fastener cannot bear is refused, with its figures and what to do', () => {
    const then = given().when(settle('JN', 400, { minNm: 380, maxNm: 420 }))
    then.refuses('torque_impossible', { title: 'Joint JN', judged: { torque: { nominalNm: 400 } } })
  })
  test('[SV13] so is one whose upper limit it cannot bear', () => {
    given()
      .when(settle('JN', 12, { maxNm: 400 }))
      .refuses('torque_impossible', { title: 'Joint JN', judged: { torque: { nominalNm: 12, maxNm: 400 } } })
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
