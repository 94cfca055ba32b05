/**
 * A plan in draft, changed piece by piece: every change gives a new plan, for what looks a plan up keeps by its object.
 *
 * What the editor does not show (gates, sets, outlines, measurements) stays as it is.
 */
import { NOT_GIVEN } from '../../../../shared/plan/fasteners'
import type { Joint, Pass, Plan, PlanStep, Position } from '../../../../shared/plan/types'

const at = <T>(list: readonly T[], index: number, change: (item: T) => T): T[] =>
  list.map((item, i) => (i === index ? change(item) : item))

export const changeStep = (plan: Plan, i: number, patch: Partial<PlanStep>): Plan => ({
  ...plan,
  steps: at(plan.steps, i, (step) => ({ ...step, ...patch })),
})

/** What is given as `undefined` is taken out. */
export function changeJoint(
  plan: Plan,
  i: number,
  k: number,
  patch: { [K in keyof Joint]?: Joint[K] | undefined },
): Plan {
  const change = (joint: Joint): Joint =>
    Object.fromEntries(
      Object.entries({ ...joint, ...patch }).filter(([, value]) => value !== undefined),
    ) as unknown as Joint
  return { ...plan, steps: at(plan.steps, i, (step) => ({ ...step, joints: at(step.joints, k, change) })) }
}

/** The first of `T1`, `T2`, … that nobody has. */
export function newId(prefix: string, taken: Iterable<string>): string {
  const known = new Set(taken)
  let n = 1
  while (known.has(`${prefix}${n}`)) n += 1
  return `${prefix}${n}`
}

export function addStep(plan: Plan): Plan {
  const step: PlanStep = {
    id: newId(
      'T',
      plan.steps.map(({ id }) => id),
    ),
    stage: plan.stages.at(-1)?.id ?? 'S1',
    title: 'New step',
    kind: 'tighten',
    needs: [],
    hides: [],
    minutes: { low: 0, likely: 0, high: 0 },
    signatures: 1,
    joints: [],
    measurements: [],
    parts: [],
    gates: [],
  }
  return { ...plan, steps: [...plan.steps, step] }
}

/** The step and every need of it. What else named it, the check tells. */
export function removeStep(plan: Plan, i: number): Plan {
  const gone = plan.steps[i]
  if (!gone) return plan
  const joints = new Set(gone.joints.map(({ id }) => id))
  return {
    ...plan,
    steps: plan.steps
      .filter((step) => step !== gone)
      .map((step) => ({
        ...step,
        needs: step.needs.filter((id) => id !== gone.id),
        hides: step.hides.filter(({ joint }) => !joints.has(joint)),
      })),
  }
}

export function moveStep(plan: Plan, i: number, by: -1 | 1): Plan {
  const steps = [...plan.steps]
  const [step] = steps.splice(i, 1)
  if (!step || i + by < 0 || i + by > steps.length) return plan
  steps.splice(i + by, 0, step)
  return { ...plan, steps }
}

export function addJoint(plan: Plan, i: number): Plan {
  const joint: Joint = {
    id: newId(
      'J',
      plan.steps.flatMap(({ joints }) => joints.map(({ id }) => id)),
    ),
    title: 'New joint',
    fastener: 'bolt',
    thread: NOT_GIVEN,
    grade: NOT_GIVEN,
    lubrication: NOT_GIVEN,
    class: 'B',
    use: { kind: 'reusable' },
    positions: placed(1, 'row'),
    passes: [{ kind: 'torque', torqueNm: null }],
    interruption: { torqueOnly: 'restart_pass' },
  }
  const step = plan.steps[i]
  return step ? changeStep(plan, i, { joints: [...step.joints, joint] }) : plan
}

export function removeJoint(plan: Plan, i: number, k: number): Plan {
  const gone = plan.steps[i]?.joints[k]
  if (!gone) return plan
  return {
    ...plan,
    steps: plan.steps.map((step) => ({
      ...step,
      joints: step.joints.filter((joint) => joint !== gone),
      hides: step.hides.filter(({ joint }) => joint !== gone.id),
    })),
  }
}

export const PATTERNS = ['row', 'rows', 'circle'] as const
export type Pattern = (typeof PATTERNS)[number]

const APART_MM = 40
const rounded = (value: number) => Math.round(value * 10) / 10 + 0

/** Positions 1 to `count`: in a row, in two rows, or on a circle from the top, clockwise. Millimetres, as if 40 apart. */
export function placed(count: number, pattern: Pattern): Position[] {
  const perRow = Math.ceil(count / 2)
  const radius = Math.max(APART_MM, (count * APART_MM) / (2 * Math.PI))
  return Array.from({ length: count }, (_, i) => {
    const n = i + 1
    if (pattern === 'row') return { n, x: i * APART_MM, y: 0 }
    if (pattern === 'rows') return { n, x: (i % perRow) * APART_MM, y: i < perRow ? 0 : APART_MM * 2 }
    const turn = (2 * Math.PI * i) / count
    return { n, x: rounded(radius * Math.sin(turn)), y: rounded(-radius * Math.cos(turn)) }
  })
}

/** The pattern these positions were placed in; nothing for places of their own. */
export function patternOf(positions: readonly Position[]): Pattern | undefined {
  return PATTERNS.find((pattern) => {
    const like = placed(positions.length, pattern)
    return positions.every(
      ({ n, x, y, label }, i) =>
        label === undefined && like[i]?.n === n && like[i].x === x && like[i].y === y,
    )
  })
}

/** Places anew, and no order: it named the old ones. */
export const placeAnew = (plan: Plan, i: number, k: number, count: number, pattern: Pattern): Plan =>
  changeJoint(plan, i, k, { positions: placed(count, pattern), order: undefined, outline: undefined })

export const NEW_PASS: Record<Pass['kind'], Pass> = {
  torque: { kind: 'torque', torqueNm: null },
  angle: { kind: 'angle', angleDeg: 90 },
  slacken: { kind: 'slacken' },
  wait: { kind: 'wait', minutes: 10 },
}

/** A pass with its limits; both or none. */
export function withLimits(pass: Pass, min: number | undefined, max: number | undefined): Pass {
  if (pass.kind === 'slacken' || pass.kind === 'wait') return pass
  const { limits, ...bare } = pass
  if (min === undefined || max === undefined) return bare as Pass
  const from = limits?.from ?? 'maker'
  return (
    pass.kind === 'torque'
      ? { ...bare, limits: { minNm: min, maxNm: max, from } }
      : { ...bare, limits: { minDeg: min, maxDeg: max, from } }
  ) as Pass
}
