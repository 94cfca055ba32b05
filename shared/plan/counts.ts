/**
 * What a plan amounts to, in the numbers a shop plans with.
 *
 * A re-check looks again at fasteners that are counted where they were fitted: its joint and its entries
 * count (they are work), its fasteners do not. A torque pass without a published value makes no entry
 * until one is settled.
 */
import { JOINT_CLASSES, type JointClass } from './kinds'
import type { Plan } from './types'

export interface PlanCounts {
  steps: number
  joints: number
  /** Without those of re-checks. */
  fasteners: number
  byClass: Record<JointClass, number>
  oneUse: number
  /** Fastener and pass: every torque with a published value and every angle, re-checks included. */
  entries: number
  secondSignatures: number
  /** Joint by joint: a step that hides three joints counts three. */
  hides: number
  minutes: { low: number; likely: number; high: number }
}

export function counts(plan: Plan): PlanCounts {
  const joints = plan.steps.flatMap((step) => step.joints)
  const fitted = joints.filter((joint) => joint.recheckOf === undefined)
  const fasteners = (some: typeof joints) => sum(some.map((joint) => joint.positions.length))
  return {
    steps: plan.steps.length,
    joints: joints.length,
    fasteners: fasteners(fitted),
    byClass: Object.fromEntries(
      JOINT_CLASSES.map((cls) => [cls, fasteners(fitted.filter((joint) => joint.class === cls))]),
    ) as Record<JointClass, number>,
    oneUse: fasteners(fitted.filter((joint) => joint.use.kind === 'one_use')),
    entries: sum(joints.map((joint) => joint.positions.length * joint.passes.filter(makesEntry).length)),
    secondSignatures: plan.steps.filter((step) => step.signatures === 2).length,
    hides: sum(plan.steps.map((step) => step.hides.length)),
    minutes: {
      low: sum(plan.steps.map((step) => step.minutes.low)),
      likely: sum(plan.steps.map((step) => step.minutes.likely)),
      high: sum(plan.steps.map((step) => step.minutes.high)),
    },
  }
}

function makesEntry(pass: Plan['steps'][number]['joints'][number]['passes'][number]): boolean {
  return (pass.kind === 'torque' && pass.torqueNm !== null) || pass.kind === 'angle'
}

function sum(numbers: number[]): number {
  return numbers.reduce((total, number) => total + number, 0)
}
