/** Plans that are laid out right and mean something wrong. */
import { describe, expect, test } from 'vitest'
import { checkPlan } from '../../../shared/plan/check'
import type { Plan, PlanStep } from '../../../shared/plan/types'
import { joint, planOf, step } from '../../shop/plan'
import { figures } from '../../shop/words'
import { onlyFault, withJoint } from './faults'

describe('meaning', () => {
  test.each<[string, Plan, string]>([
    [
      'an id twice',
      planOf(step('A1'), step('A1')),
      'steps[1] A1 › id: The id A1 is used twice. Give each its own id.',
    ],
    [
      'a joint id in two steps',
      planOf(step('A1', { joints: [joint('J1')] }), step('A2', { joints: [joint('J1')] })),
      'steps[1] A2 › joints[0] J1 › id: J1 is already a joint of A1. Give each joint its own id.',
    ],
    [
      'a stage that is none',
      planOf(step('A1', { stage: 'Z' })),
      'steps[0] A1 › stage: There is no stage Z. Name one of: A.',
    ],
    [
      'a need that is none',
      planOf(step('A1', { needs: ['A9'] })),
      'steps[0] A1 › needs[0]: There is no step A9. Name a step of this plan, or take it out.',
    ],
    [
      'a step that needs itself',
      planOf(step('A1', { needs: ['A1'] })),
      'steps[0] A1 › needs[0]: A1 names itself. Take it out.',
    ],
    [
      'needs in a circle',
      planOf(step('A1', { needs: ['A3'] }), step('A2', { needs: ['A1'] }), step('A3', { needs: ['A2'] })),
      'steps[0] A1 › needs: A1 comes after A3 comes after A2 comes after A1: none of them can begin. Take one of these out.',
    ],
    [
      'hiding a joint that is none',
      planOf(step('A1', { hides: [{ joint: 'J9' }] })),
      'steps[0] A1 › hides[0].joint: There is no joint J9. Name a joint of this plan, or take it out.',
    ],
    [
      'hiding positions that are none',
      planOf(
        step('A1', { joints: [joint('J1')] }),
        step('A2', { needs: ['A1'], hides: [{ joint: 'J1', positions: [4, 5] }] }),
      ),
      'steps[1] A2 › hides[0].positions: J1 has no position 5. It has 1, 2, 3, 4.',
    ],
    [
      'hiding its own joint',
      withJoint({}, { hides: [{ joint: 'J1' }] }),
      'steps[0] A1 › hides[0]: A1 covers J1, a joint of its own. Name only joints of earlier steps.',
    ],
    [
      'hiding what is tightened later',
      planOf(step('A1', { hides: [{ joint: 'J1' }] }), step('A2', { needs: ['A1'], joints: [joint('J1')] })),
      'steps[0] A1 › hides[0]: A1 covers J1, but A2, which tightens it, comes after A1. Let A1 come after A2, or take J1 out of what it covers.',
    ],
    [
      'minutes that fall',
      planOf(step('A1', { minutes: { low: 5, likely: 4, high: 9 } })),
      'steps[0] A1 › minutes: 5, 4, 9 min do not rise. Write the shortest, the likely and the longest, in this order.',
    ],
    [
      'an order that leaves one out',
      withJoint({ order: [1, 2, 3, 3] }),
      'steps[0] A1 › joints[0] J1 › order: The order is not each position once. Order these: 1, 2, 3, 4.',
    ],
    [
      'limits beside the torque',
      withJoint({
        passes: [{ kind: 'torque', torqueNm: 22, limits: { minNm: 23, maxNm: 25, from: 'plan' } }],
      }),
      'steps[0] A1 › joints[0] J1 › passes[0].limits: 23–25 N·m do not enclose 22 N·m. Write a lowest and a highest with the torque between them.',
    ],
    [
      'limits without a torque',
      withJoint({
        passes: [{ kind: 'torque', torqueNm: null, limits: { minNm: 23, maxNm: 25, from: 'plan' } }],
      }),
      'steps[0] A1 › joints[0] J1 › passes[0].limits: Limits stand without a torque. Give the torque, or take the limits out.',
    ],
    [
      'an angle without a rule',
      withJoint({ passes: [{ kind: 'angle', angleDeg: 60 }] }),
      'steps[0] A1 › joints[0] J1 › interruption: It does not say what to do after an angle. Add "afterAngle": "new_fasteners" or "slacken_restart_joint".',
    ],
    [
      'a re-check of nothing',
      withJoint({ recheckOf: 'J1' }),
      'steps[0] A1 › joints[0] J1 › recheckOf: J1 is not a joint to look at again. Name the joint these fasteners were fitted in.',
    ],
    [
      'a position in two sets',
      withJoint(
        {},
        {
          sets: [
            { id: 'a', title: 'a', covers: [{ joint: 'J1' }] },
            { id: 'b', title: 'b', covers: [{ joint: 'J1', positions: [2] }] },
          ],
        },
      ),
      'steps[0] A1 › sets[1] b › covers[0]: J1 position 2 is in a already. Leave each position in one set.',
    ],
    [
      'a set with the step’s own name',
      withJoint({}, { sets: [{ id: 'step', title: 'a', covers: [{ joint: 'J1' }] }] }),
      'steps[0] A1 › sets[0] step › id: “step” names what no set covers. Give the set another id.',
    ],
    [
      'a cure where nothing is sealed',
      planOf(step('A1'), step('A2', { gates: [{ id: 'g', kind: 'cured', text: 'Cured', steps: ['A1'] }] })),
      'steps[1] A2 › gates[0] g › steps: A1 lays no sealant that could cure. Name the steps that have a sealant.',
    ],
    [
      'a gate over a joint that is none',
      planOf(step('A1', { gates: [{ id: 'g', kind: 'proven', text: 'Proven', covers: [{ joint: 'J9' }] }] })),
      'steps[0] A1 › gates[0] g › covers[0].joint: There is no joint J9. Name a joint of this plan, or take it out.',
    ],
    [
      'a band upside down',
      planOf(
        step('A1', { measurements: [{ id: 'm', title: 'm', unit: 'mm', places: ['a'], min: 2, max: 1 }] }),
      ),
      'steps[0] A1 › measurements[0] m: 2 to 1 is not a band. Write the lowest below the highest.',
    ],
  ])('%s', (_, wrong, sentence) => {
    expect(onlyFault(wrong)).toBe(sentence)
  })

  test('a missing need is a caution with the step to add, and adding it settles it', () => {
    const cover = step('A2', { hides: [{ joint: 'J1' }] })
    const open = planOf(step('A1', { joints: [joint('J1')] }), cover)
    expect(checkPlan(open, figures)).toEqual({
      faults: [],
      cautions: [
        {
          path: 'steps[1] A2 › hides[0]',
          problem: 'A2 covers J1 but does not come after its step A1',
          fix: 'Let A2 come after A1.',
          step: 'A2',
          need: 'A1',
        },
      ],
    })
    // Through another step counts as well.
    const settled = planOf(
      open.steps[0] as PlanStep,
      { ...cover, needs: ['A3'] },
      step('A3', { needs: ['A1'] }),
    )
    expect(checkPlan(settled, figures)).toEqual({ faults: [], cautions: [] })
  })

  test('a class A joint under one signature is a caution', () => {
    expect(checkPlan(withJoint({ class: 'A' }), figures).cautions.map((one) => one.problem)).toEqual([
      'J1 is class A and A1 takes one signature',
    ])
    expect(checkPlan(withJoint({ class: 'A' }, { signatures: 2 }), figures).cautions).toEqual([])
  })
})
