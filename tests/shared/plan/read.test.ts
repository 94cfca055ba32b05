import { describe, expect, test } from 'vitest'
import { indexPlan, roundOf, setOf, signatureSets } from '../../../shared/plan/read'
import { joint, planOf, step } from '../../shop/plan'

describe('signature sets', () => {
  test('a step without named sets has its own alone, which covers everything', () => {
    const bare = step('A1', { joints: [joint('J1'), joint('J2')] })
    expect(signatureSets(bare)).toEqual([
      {
        id: 'step',
        title: 'Step A1',
        covers: [
          { joint: 'J1', positions: [1, 2, 3, 4] },
          { joint: 'J2', positions: [1, 2, 3, 4] },
        ],
        remainder: true,
      },
    ])
    expect(signatureSets(step('A2')).map((set) => set.id)).toEqual(['step'])
  })

  const named = { id: 'cap', title: 'Cap', covers: [{ joint: 'J1', positions: [2, 3] }] }

  test('the step’s own set takes what the named ones leave', () => {
    const some = step('A1', { joints: [joint('J1')], sets: [named] })
    expect(signatureSets(some).at(-1)).toMatchObject({
      id: 'step',
      covers: [{ joint: 'J1', positions: [1, 4] }],
    })
    expect(setOf(some, 'J1', 2)?.id).toBe('cap')
    expect(setOf(some, 'J1', 1)?.id).toBe('step')
    expect(setOf(some, 'J1', 9)).toBeUndefined()
  })

  test('named sets that leave nothing need no set of the step', () => {
    const whole = { id: 'all', title: 'All', covers: [{ joint: 'J1' }] }
    expect(signatureSets(step('A1', { joints: [joint('J1')], sets: [whole] })).map((set) => set.id)).toEqual([
      'all',
    ])
    const sealed = step('A1', {
      joints: [joint('J1')],
      sets: [whole],
      sealant: { product: 'sealant', closeWithinMinutes: 8, cureMinutes: 60, before: [] },
    })
    expect(signatureSets(sealed).map((set) => set.id)).toEqual(['all', 'step'])
  })

  test('a round is the set’s share of the joint’s order', () => {
    const ordered = step('A1', { joints: [joint('J1', { order: [3, 1, 4, 2] })], sets: [named] })
    expect(roundOf(ordered, 'J1', 2)).toEqual({ positions: [3, 2], ordered: true })
    expect(roundOf(ordered, 'J1', 4)).toEqual({ positions: [1, 4], ordered: true })
    expect(roundOf(ordered, 'J1', 9)).toEqual({ positions: [], ordered: false })
    expect(roundOf(ordered, 'J9', 1)).toEqual({ positions: [], ordered: false })
  })
})

test('the index of a plan is made once', () => {
  const some = planOf(step('A1', { joints: [joint('J1')] }))
  expect(indexPlan(some)).toBe(indexPlan(some))
})
