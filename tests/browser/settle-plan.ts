/**
 * A plan with torques nobody published, of every kind that matters: a steel bolt into a known hole, one with too little thread in
 * soft metal, a stud into nobody knows what, stainless dry, a taper plug. Everything in it is invented.
 */
import type { Joint, Plan } from '../../shared/plan/types'

const joint = (id: string, title: string, some: Partial<Joint>): Joint => ({
  id,
  title,
  fastener: 'bolt',
  thread: 'M8x1.25',
  grade: '8.8',
  lubrication: 'oil',
  class: 'B',
  use: { kind: 'reusable' },
  positions: [
    { n: 1, x: 20, y: 30 },
    { n: 2, x: 60, y: 30 },
    { n: 3, x: 100, y: 30 },
    { n: 4, x: 140, y: 30 },
  ],
  passes: [{ kind: 'torque', torqueNm: null, wrench: 'TW-13' }],
  interruption: { torqueOnly: 'restart_pass' },
  ...some,
})

export const SETTLE_PLAN: Plan = {
  format: 'paintmark-plan/1',
  id: 'lorne-t1',
  edition: 1,
  title: 'Lorne T1, covers and brackets',
  family: 'diesel',
  source: 'Made up for a test. In a real plan: the maker’s manual by title, edition and page.',
  invented: true,
  stages: [{ id: 'A', title: 'Covers' }],
  steps: [
    {
      id: 'A1',
      stage: 'A',
      title: 'Covers and brackets',
      kind: 'tighten',
      needs: [],
      hides: [],
      minutes: { low: 10, likely: 20, high: 40 },
      signatures: 1,
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
        joint('L-stud', 'Manifold studs', { fastener: 'stud', lengthMm: 45 }),
        joint('L-steel', 'Elbow bolts', { grade: 'A4-70', lubrication: 'dry' }),
        joint('L-taper', 'Gallery plug', {
          fastener: 'plug',
          thread: 'R1/8',
          grade: 'taper',
          positions: [{ n: 1, x: 20, y: 30 }],
        }),
      ],
      measurements: [],
      parts: [],
      gates: [],
    },
  ],
}
