/**
 * What was left out on purpose: which step answers for it now, what a signature covers because of it, and which
 * round it belongs to. Deferring moves work; it takes nothing away from what that work asks for.
 */
import type { JointClass } from '../../plan/kinds'
import {
  indexPlan,
  positionsOf,
  roundOf,
  type SignatureSetView,
  STEP_SET,
  signatureSets,
  stepClass,
} from '../../plan/read'
import type { AdoptedJoint, AdoptedStep, Fasteners } from '../../plan/types'
import type { PlannedJob, StoppedAt } from '../types'
import { deferralsOf, deferredPositions, dueAt } from './deferral-index'
import { standingReading } from './readings'

export { deferralsOf, deferredPositions, isDeferredStep } from './deferral-index'

/** The step's own set, or its last one. */
export const lastSetId = (step: AdoptedStep): string => signatureSets(step).at(-1)?.id ?? STEP_SET

/**
 * What a set covers in this job: the plan's positions without those deferred elsewhere, and, for the last set of
 * a step, whatever is due there.
 */
export function coversOf(
  job: PlannedJob,
  step: AdoptedStep,
  set: SignatureSetView,
): SignatureSetView['covers'] {
  if (deferralsOf(job).length === 0) return set.covers
  const own = set.covers.flatMap(({ joint, positions }) => {
    const away = deferredPositions(job, joint)
    const here = away.size === 0 ? positions : positions.filter((n) => !away.has(n))
    return here.length > 0 ? [{ joint, positions: here }] : []
  })
  return lastSetId(step) === set.id ? [...own, ...dueAt(job, step.id)] : own
}

/** How many signatures a set asks for: the step's, and two where something due here came from a step with two. */
export function signaturesAsked(job: PlannedJob, step: AdoptedStep, setId: string): 1 | 2 {
  if (step.signatures === 2) return 2
  const { stepOfJoint } = indexPlan(job.plan)
  return lastSetId(step) === setId &&
    dueAt(job, step.id).some(({ joint }) => stepOfJoint.get(joint)?.signatures === 2)
    ? 2
    : 1
}

/** The class a person must be entitled to: the step's, or a higher one of something due here. */
export function classAsked(job: PlannedJob, step: AdoptedStep): JointClass {
  const { jointById } = indexPlan(job.plan)
  const classes = [
    stepClass(step),
    ...dueAt(job, step.id).map(({ joint }) => jointById.get(joint)?.class ?? 'C'),
  ]
  return classes.includes('A') ? 'A' : classes.includes('B') ? 'B' : 'C'
}

/** The step whose signature answers for a position: its own, or the one it was deferred to. */
export function answeringStep(job: PlannedJob, jointId: string, position: number): AdoptedStep | undefined {
  const { stepById, stepOfJoint } = indexPlan(job.plan)
  const deferral = deferredPositions(job, jointId).get(position)
  return deferral ? stepById.get(deferral.dueStepId) : stepOfJoint.get(jointId)
}

/** Where a step stands in the plan: plans are written in the order of the work. */
export const planOrder = (job: PlannedJob, stepId: string): number =>
  indexPlan(job.plan).orderOf.get(stepId) ?? -1

/** Those of the fasteners that are in their place before a step begins: what is due at it or later is not. */
export function inPlaceBefore(job: PlannedJob, fasteners: Fasteners, step: AdoptedStep): Required<Fasteners> {
  const { joint } = fasteners
  const adopted = indexPlan(job.plan).jointById.get(joint)
  const positions = adopted ? positionsOf(fasteners, adopted) : (fasteners.positions ?? [])
  const away = deferredPositions(job, joint)
  const order = planOrder(job, step.id)
  const later = (n: number) => {
    const due = away.get(n)?.dueStepId
    return due !== undefined && planOrder(job, due) >= order
  }
  return { joint, positions: away.size === 0 ? [...positions] : positions.filter((n) => !later(n)) }
}

/**
 * The round a position belongs to in a pass, and which position of it comes next. What is deferred to one step
 * makes a round of its own there.
 */
export function nextInRound(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint,
  position: number,
  pass: number,
) {
  const { positions: all, ordered } = roundOf(step, joint.id, position)
  const away = deferredPositions(job, joint.id)
  const due = away.get(position)?.dueStepId
  const positions = away.size === 0 ? all : all.filter((n) => away.get(n)?.dueStepId === due)
  const open = positions.filter((n) => !standingReading(job, joint, n, pass))
  // Loosening goes the other way round.
  const next = joint.passes[pass - 1]?.kind === 'slacken' ? open.at(-1) : open[0]
  return { positions, ordered, next }
}

/** The marker of the round this position is in, while the rule of an interruption has not been followed. */
export const interruptionOf = (job: PlannedJob, jointId: string, position: number): StoppedAt | undefined =>
  job.interrupted[jointId]?.find(({ positions }) => positions.includes(position))
