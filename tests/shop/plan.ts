/** A plan and its parts, right in every respect: a test says only what matters. Every value is made up. */
import type { Joint, Plan, PlanStep } from '../../shared/plan/types'

export const positions = (count: number) =>
  Array.from({ length: count }, (_, i) => ({ n: i + 1, x: i * 40, y: 0 }))

export const joint = (id: string, some: Partial<Joint> = {}): Joint => ({
  id,
  title: `Joint ${id}`,
  fastener: 'bolt',
  thread: 'M8x1.25',
  grade: '8.8',
  lubrication: 'dry',
  class: 'B',
  use: { kind: 'reusable' },
  positions: positions(4),
  passes: [{ kind: 'torque', torqueNm: 22 }],
  interruption: { torqueOnly: 'restart_pass' },
  ...some,
})

export const step = (id: string, some: Partial<PlanStep> = {}): PlanStep => ({
  id,
  stage: 'A',
  title: `Step ${id}`,
  kind: 'tighten',
  needs: [],
  hides: [],
  minutes: { low: 10, likely: 20, high: 40 },
  signatures: 1,
  joints: [],
  measurements: [],
  parts: [],
  gates: [],
  ...some,
})

export const plan = (some: Partial<Plan> & Pick<Plan, 'steps'>): Plan => ({
  format: 'paintmark-plan/1',
  id: 'small',
  edition: 1,
  title: 'Small plan',
  family: 'diesel',
  source: 'Made up for tests.',
  invented: true,
  stages: [{ id: 'A', title: 'All of it' }],
  ...some,
})

export const planOf = (...steps: PlanStep[]): Plan => plan({ steps })
