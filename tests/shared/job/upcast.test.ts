/** What older builds stored, lifted when it is read. */
import { describe, expect, test } from 'vitest'
import { judgeTorque } from '../../../shared/fastener'
import { liftJobEvent } from '../../../shared/job/upcast'
import type { Plan } from '../../../shared/plan/types'
import { liftShopEvent } from '../../../shared/shop/upcast'
import { joint, planOf, step } from '../../shop/plan'

const holding = (lubrication: string): Plan =>
  planOf(
    step('A1', { joints: [joint('J1', { lubrication }), joint('J2', { lubrication: 'dry' })] }),
    step('A2'),
  )
const words = (event: unknown) =>
  (event as { plan: Plan }).plan.steps.flatMap(({ joints }) => joints.map(({ lubrication }) => lubrication))

describe('plans of an older build', () => {
  test.each([
    ['adopted by a job', liftJobEvent, 'PlanAdopted'],
    ['in the library', liftShopEvent, 'PlanAdded'],
  ])('%s, “plated” is zinc plated as it was, and nothing else is touched', (_, lift, type) => {
    const stored = { type, by: 'ana', plan: holding('plated') }
    const lifted = lift(stored)
    expect(words(lifted)).toEqual(['zinc plated', 'dry'])
    expect(lifted).toEqual({ ...stored, plan: holding('zinc plated') })
    // What is stored stays as it is: the chain holds its hash.
    expect(words(stored)).toEqual(['plated', 'dry'])
    for (const other of ['plated, oiled', 'Plated', 'zinc_plated']) {
      const today = { type, plan: holding(other) }
      expect(lift(today)).toEqual(today)
    }
  })
  test('its friction is the class it had, not any', () => {
    const [lubrication = ''] = words(
      liftShopEvent({ type: 'PlanAdded', plan: holding('plated') } as { type: string }),
    )
    expect(judgeTorque({ thread: 'M8', grade: '8.8', lubrication, nominalNm: 22 }).friction).toEqual({
      low: 0.14,
      high: 0.24,
    })
  })
})
