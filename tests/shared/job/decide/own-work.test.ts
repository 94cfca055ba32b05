/** Nobody looks at their own work, whatever the work was; who waives on their own is recorded as such. */
import { describe, expect, test } from 'vitest'
import { setViews } from '../../../../shared/job/verdicts'
import { indexPlan } from '../../../../shared/plan/read'
import {
  answer,
  claim,
  type Given,
  measure,
  place,
  putDown,
  secondSign,
  shows,
  sign,
  strike,
  waive,
} from '../../../shop/acts'
import { floor, given } from '../../../shop/given'
import { people } from '../../../shop/people'
import { testShop } from '../../../shop/shop'
import { all, capSigned, capsAnswered, capsMeasured, rodsProven } from '../../../shop/stories'

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

describe('striking a mistaken slackening', () => {
  test('[ST5] does not bring back what it voided: nobody can know that the joint was not moved', () => {
    const back: Given[] = [
      rodsProven(),
      claim('pump'),
      all('JP', [1, 2, 3], 30),
      { by: 'ana', command: { type: 'TakeReading', jointId: 'JP', position: 1, pass: 1, how: 'slackened' } },
    ]
    const slackened = floor(back).job.readings.JP?.at(-1)?.id ?? ''
    const { job } = floor(back, strike(slackened))
    expect(
      job.readings.JP?.map(({ struck, superseded }) => [struck !== undefined, superseded?.because]),
    ).toEqual([
      [false, 'slackened'],
      [false, undefined],
      [false, undefined],
      [true, undefined],
    ])
    floor(back, strike(slackened))
      .when(sign('pump'))
      .refuses('positions_open', { joint: 'JP', positions: [1], pass: 1 })
    floor(back, strike(slackened), putDown('pump')).when(claim('pump')).gives({ type: 'StepClaimed' })
  })
})
