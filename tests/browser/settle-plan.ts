/**
 * A plan with torques nobody published, of every kind that matters: a steel bolt into a known hole, one with too little thread in
 * soft metal, a stud into nobody knows what, stainless dry, a taper plug. Everything in it is invented.
 */
import type { Joint, Plan } from '../../shared/plan/types'
import { joint as anyJoint, plan, step } from '../shop/plan'

const joint = (id: string, title: string, some: Partial<Joint>) =>
  anyJoint(id, {
    title,
    lubrication: 'oil',
    positions: [20, 60, 100, 140].map((x, i) => ({ n: i + 1, x, y: 30 })),
    passes: [{ kind: 'torque', torqueNm: null, wrench: 'TW-13' }],
    ...some,
  })

export const SETTLE_PLAN: Plan = plan({
  id: 'lorne-t1',
  title: 'Lorne T1, covers and brackets',
  source: 'Made up for a test. In a real plan: the maker’s manual by title, edition and page.',
  stages: [{ id: 'A', title: 'Covers' }],
  steps: [
    step('A1', {
      title: 'Covers and brackets',
      joints: [
        joint('L-bracket', 'Bracket bolts', {
          lengthMm: 40,
          hole: { material: 'cast iron', stackMm: 18, washerMm: 2, depthMm: 32, threadMm: 28 },
        }),
        joint('L-cover', 'Cover bolts', {
          thread: 'M8x1.25',
          lengthMm: 25,
          class: 'C',
          hole: { material: 'cast aluminium', stackMm: 18, depthMm: 20, threadMm: 16 },
        }),
        joint('L-word', 'Clamp bolts', {
          lubrication: 'no oil',
          lengthMm: 40,
          hole: { material: 'cast iron', stackMm: 18, washerMm: 2, depthMm: 32, threadMm: 28 },
        }),
        joint('L-film', 'Carrier bolts', {
          lubrication: 'dry film lubricant (MoS2)',
          lengthMm: 40,
          hole: { material: 'cast iron', stackMm: 18, washerMm: 2, depthMm: 32, threadMm: 28 },
        }),
        joint('L-stud', 'Manifold studs', { fastener: 'stud', lengthMm: 45 }),
        joint('L-steel', 'Elbow bolts', { grade: 'A4-70', lubrication: 'dry' }),
        joint('L-taper', 'Gallery plug', {
          fastener: 'plug',
          thread: 'R1/8',
          grade: 'taper',
          positions: [{ n: 1, x: 20, y: 30 }],
        }),
      ],
    }),
  ],
})
