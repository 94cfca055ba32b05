/**
 * A second small plan, for the rules of the whole floor: one-use and counted bolts, caps of class B that are counted
 * and broken off, a bolt that waits for a later step, covers of every kind, a bead, both releases.
 *
 * Every value is made up.
 */
import type { Joint, Plan, PlanStep } from '../../../shared/plan/types'
import { joint as anyJoint, step as anyStep, plan, positions } from '../plan'

const joint = (id: string, count: number, some: Partial<Joint>) =>
  anyJoint(id, { thread: 'M8', grade: '10.9', lubrication: 'oiled', positions: positions(count), ...some })
const step = (id: string, some: Partial<PlanStep>) =>
  anyStep(id, { stage: 'build', minutes: { low: 5, likely: 10, high: 20 }, ...some })

export const floorPlan: Plan = plan({
  id: 'floor-engine',
  title: 'Floor engine',
  stages: [
    { id: 'build', title: 'Build', releases: 'to_fitting' },
    { id: 'aboard', title: 'Aboard', releases: 'to_owner' },
  ],
  steps: [
    /** Class A, one-use bolts, signed twice. */
    step('rods', {
      signatures: 2,
      joints: [
        joint('JO', 2, {
          class: 'A',
          use: { kind: 'one_use' },
          passes: [{ kind: 'torque', torqueNm: 40 }],
        }),
      ],
    }),
    /** Class A, three in a row; the third may have to wait for the lift. */
    step('pump', {
      signatures: 2,
      joints: [joint('JP', 3, { class: 'A', passes: [{ kind: 'torque', torqueNm: 30 }] })],
    }),
    /** Class B, two caps that are rounds of their own, torque then angle. */
    step('twin', {
      joints: [
        joint('JT', 4, {
          class: 'B',
          order: [1, 2, 3, 4],
          passes: [
            { kind: 'torque', torqueNm: 20 },
            { kind: 'angle', angleDeg: 60 },
          ],
          interruption: { torqueOnly: 'restart_pass', afterAngle: 'new_fasteners' },
        }),
      ],
      sets: [
        { id: 'left', title: 'Left', covers: [{ joint: 'JT', positions: [1, 2] }] },
        { id: 'right', title: 'Right', covers: [{ joint: 'JT', positions: [3, 4] }] },
      ],
    }),
    /** Class B, eight alike; also signed twice, so that a doer's own second look can be tried. */
    step('housing', {
      signatures: 2,
      joints: [joint('JB', 8, { class: 'B', passes: [{ kind: 'torque', torqueNm: 22 }] })],
    }),
    /** Class C, two tightenings a bolt. */
    step('trial', {
      joints: [
        joint('JY', 2, {
          class: 'C',
          use: { kind: 'cycles', limit: 2 },
          passes: [{ kind: 'torque', torqueNm: 12 }],
        }),
      ],
    }),
    /** A cover that hides class A and B and names no need. */
    step('shroud', {
      hides: [{ joint: 'JP' }, { joint: 'JB', positions: [1, 2] }],
      joints: [joint('JS', 2, { class: 'C', passes: [{ kind: 'torque', torqueNm: 9 }] })],
    }),
    /** A bead: eight minutes, and twelve hours before it is filled. */
    step('seal', {
      sealant: { product: 'Silicone', closeWithinMinutes: 8, cureMinutes: 720, before: ['fill'] },
      joints: [joint('JE', 2, { class: 'C', passes: [{ kind: 'torque', torqueNm: 9 }] })],
    }),
    step('fill', { needs: ['seal'], kind: 'check' }),
    /** Two looks, no joint: as careful as class A. */
    step('closing', {
      signatures: 2,
      kind: 'check',
      gates: [{ id: 'rags', kind: 'count', text: 'Rags', expect: 3 }],
    }),
    /** After the release to fitting: class C, one signature. */
    step('lift', {
      stage: 'aboard',
      joints: [joint('JL', 1, { class: 'C', passes: [{ kind: 'torque', torqueNm: 15 }] })],
      gates: [{ id: 'aboard', kind: 'photo', text: 'As fitted', places: ['port', 'starboard'] }],
    }),
  ],
})
