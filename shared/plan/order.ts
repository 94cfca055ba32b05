/**
 * In what order a plan can be done: circles among its needs, and the orders that follow from who hides whom.
 *
 * A step that hides a joint belongs after the step that tightens it. Where the needs say the opposite it is a
 * fault; where they say nothing it is a caution, and the need that is missing is named.
 */
import { type Path, type PlanFault, placeName, type Report } from './place'
import { indexPlan } from './read'
import type { Plan, PlanStep } from './types'

export interface PlanCaution extends PlanFault {
  step: string
  /** The step whose id, among this step's needs, would settle it. */
  need?: string
}

/** Orders that follow from who hides whom, and signatures that look too few. */
export function checkOrder(plan: Plan, fault: Report): PlanCaution[] {
  const { stepOfJoint, stepById } = indexPlan(plan)
  const cautions: PlanCaution[] = []
  plan.steps.forEach((step, i) => {
    const caution = (path: Path, problem: string, fix: string, need?: string) =>
      cautions.push({
        path: placeName(plan, ['steps', i, ...path]),
        problem,
        fix,
        step: step.id,
        ...(need ? { need } : {}),
      })
    const before = allNeeds(step, stepById)
    const named = new Set<string>()
    step.hides.forEach(({ joint }, k) => {
      const tightens = stepOfJoint.get(joint)
      if (!tightens || tightens === step || before.has(tightens.id)) return
      if (allNeeds(tightens, stepById).has(step.id)) {
        fault(
          ['steps', i, 'hides', k],
          `${step.id} covers ${joint}, but ${tightens.id}, which tightens it, comes after ${step.id}`,
          `Let ${step.id} come after ${tightens.id}, or take ${joint} out of what it covers.`,
        )
        return
      }
      if (named.has(tightens.id)) return
      named.add(tightens.id)
      caution(
        ['hides', k],
        `${step.id} covers ${joint} but does not come after its step ${tightens.id}`,
        `Let ${step.id} come after ${tightens.id}.`,
        tightens.id,
      )
    })
    step.joints.forEach((joint, k) => {
      if (joint.class === 'A' && step.signatures === 1)
        caution(
          ['joints', k],
          `${joint.id} is class A and ${step.id} takes one signature`,
          'Ask for two signatures, or look at the class.',
        )
      if (joint.interruption.afterAngle && !joint.passes.some((pass) => pass.kind === 'angle'))
        caution(
          ['joints', k, 'interruption'],
          `${joint.id} has no angle pass`,
          'Take out what to do after an angle, or add the angle.',
        )
    })
  })
  return cautions
}

/** Everything a step needs, directly or through others. */
function allNeeds(step: PlanStep, stepById: ReadonlyMap<string, PlanStep>): Set<string> {
  const positions = new Set<string>()
  const open = [...step.needs]
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (positions.has(id)) continue
    positions.add(id)
    open.push(...(stepById.get(id)?.needs ?? []))
  }
  return positions
}

/** Each circle once, as ids that end where they began. A step that names itself is reported elsewhere. */
export function needCycles(plan: Plan): string[][] {
  const { stepById } = indexPlan(plan)
  const cycles: string[][] = []
  const finished = new Set<string>()
  const trail: string[] = []
  const visit = (id: string) => {
    const from = trail.indexOf(id)
    if (from >= 0) return void cycles.push([...trail.slice(from), id])
    if (finished.has(id)) return
    trail.push(id)
    for (const need of stepById.get(id)?.needs ?? []) if (need !== id) visit(need)
    trail.pop()
    finished.add(id)
  }
  for (const step of plan.steps) visit(step.id)
  return cycles
}

/**
 * How one of a joint is called beside its noun: `5`, or, where the order is another than the numbers,
 * `14 (8th in order)`, as the map shows it.
 */
export function numberWords(joint: { order?: readonly number[] }, n: number): string {
  const { order } = joint
  if (!order || order.every((position, index) => position === index + 1)) return `${n}`
  const turn = order.indexOf(n) + 1
  return turn > 0 ? `${n} (${ordinal(turn)} in order)` : `${n}`
}

export function ordinal(n: number): string {
  const tens = n % 100
  const end = tens > 10 && tens < 14 ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th')
  return `${n}${end}`
}
