/** Which round is meant where sets split a joint, and the way round of a loosening. */
import { describe, expect, test } from 'vitest'
import { nextInRound } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import { claim, count, type Given, shows, slacken, turn } from '../../../shop/acts'
import { floor, given } from '../../../shop/given'

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
