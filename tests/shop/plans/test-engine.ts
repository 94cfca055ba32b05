/**
 * A small plan that has one of everything: caps signed one by one, a head torqued then turned in order, covers
 * that hide them, a slackening and a wait, a torque nobody published, gates of every kind.
 *
 * Every value is made up.
 */
import { adopt } from '../../../shared/plan/adopt'
import type { AdoptedPlan, Joint, Plan, PlanStep } from '../../../shared/plan/types'
import { joint as anyJoint, step as anyStep, plan, positions } from '../plan'

const joint = (id: string, some: Partial<Joint>) =>
  anyJoint(id, {
    thread: 'M10x1.25',
    grade: '10.9',
    lubrication: 'oiled',
    class: 'C',
    positions: positions(2),
    ...some,
  })
const step = (id: string, some: Partial<PlanStep>) => anyStep(id, { stage: 'block', ...some })

export const testPlan: Plan = plan({
  id: 'test-engine',
  title: 'Test engine',
  stages: [
    { id: 'block', title: 'Block' },
    { id: 'top', title: 'Top', releases: 'to_fitting' },
  ],
  steps: [
    /** Class A, two caps of two bolts, each signed on its own by two; then the step itself, with its counts. */
    step('caps', {
      signatures: 2,
      joints: [
        joint('JC', {
          class: 'A',
          positions: positions(4),
          order: [2, 1, 4, 3],
          passes: [{ kind: 'torque', torqueNm: 50 }],
        }),
      ],
      sets: [
        { id: 'cap-1', title: 'Cap 1', covers: [{ joint: 'JC', positions: [1, 2] }] },
        { id: 'cap-2', title: 'Cap 2', covers: [{ joint: 'JC', positions: [3, 4] }] },
      ],
      measurements: [
        { id: 'gap', title: 'Cap gap', unit: 'mm', places: ['cap 1', 'cap 2'], min: 0.03, max: 0.08 },
        { id: 'float', title: 'End float', unit: 'mm', places: ['crank'], max: 0.3 },
      ],
      gates: [
        { id: 'shells', kind: 'count', text: 'Shells fitted', expect: 4 },
        { id: 'turns', kind: 'look', text: 'The crank turns freely' },
        { id: 'picture', kind: 'photo', text: 'Caps, marks up', places: ['front'] },
      ],
    }),
    /** Class A, torque then angle, in order, both limits given. */
    step('head', {
      stage: 'top',
      signatures: 2,
      joints: [
        joint('JH', {
          class: 'A',
          positions: positions(4).map((one) => (one.n === 1 ? { ...one, label: 'front' } : one)),
          order: [2, 1, 4, 3],
          passes: [
            { kind: 'torque', torqueNm: 30, limits: { minNm: 28, maxNm: 32, from: 'maker' } },
            { kind: 'angle', angleDeg: 90, limits: { minDeg: 85, maxDeg: 95, from: 'plan' } },
          ],
          interruption: { torqueOnly: 'slacken_restart_joint', afterAngle: 'new_fasteners', overshootDeg: 5 },
        }),
      ],
    }),
    /** Class C, hides the head bolts and needs them signed. */
    step('cover', {
      stage: 'top',
      needs: ['head'],
      hides: [{ joint: 'JH' }],
      joints: [joint('JV', { passes: [{ kind: 'torque', torqueNm: 10 }] })],
    }),
    /** Hides one cap only and names no need: a plan's author may forget it, the house does not. */
    step('sump', {
      hides: [{ joint: 'JC', positions: [3, 4] }],
      sealant: { product: 'Gasket paste', closeWithinMinutes: 10, cureMinutes: 60, before: ['proof'] },
      joints: [joint('JS', { passes: [{ kind: 'torque', torqueNm: 10 }] })],
    }),
    /** Class B: torque, slacken, wait, torque. */
    step('reseat', {
      joints: [
        joint('JR', {
          class: 'B',
          passes: [
            { kind: 'torque', torqueNm: 20 },
            { kind: 'slacken' },
            { kind: 'wait', minutes: 30 },
            { kind: 'torque', torqueNm: 25 },
          ],
        }),
      ],
    }),
    /** No published value. */
    step('drain', {
      joints: [
        joint('JN', {
          class: 'B',
          positions: positions(1),
          passes: [{ kind: 'torque', torqueNm: null }],
        }),
      ],
    }),
    /** The head bolts looked at again, and the gates that are reckoned. */
    step('proof', {
      stage: 'top',
      kind: 'check',
      needs: ['cover'],
      joints: [joint('JX', { class: 'C', recheckOf: 'JV', passes: [{ kind: 'torque', torqueNm: 10 }] })],
      gates: [
        { id: 'head-proven', kind: 'proven', text: 'Head bolts proven', covers: [{ joint: 'JH' }] },
        { id: 'sealed', kind: 'cured', text: 'Sealant cured', steps: ['sump'] },
        { id: 'none-open', kind: 'no_open_class_a', text: 'No class A joint open' },
      ],
    }),
  ],
})

/** As a job would hold it, under the tolerances of the test shop. */
export const adoptedTestPlan: AdoptedPlan = adopt(testPlan, {
  percent: { A: 5, B: 10, C: 15 },
  angleDeg: 5,
})
