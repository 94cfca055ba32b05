/**
 * Questions to a plan, answered from one index a plan object: who hides whom, what one signature covers,
 * in what order a round goes. Pure look-ups, no judgement of a job.
 *
 * Indexes are kept in WeakMaps by the plan or step object, so a plan must never be changed in place.
 */
import { append } from '../look-up'
import type { JointClass } from './kinds'
import type { Fasteners, Joint, Plan, PlanStep, SignatureSet, Stage } from './types'

type JointOf<S extends PlanStep> = S['joints'][number]

export interface PlanIndex<S extends PlanStep = PlanStep> {
  stepById: ReadonlyMap<string, S>
  jointById: ReadonlyMap<string, JointOf<S>>
  stepOfJoint: ReadonlyMap<string, S>
  stageById: ReadonlyMap<string, Stage>
  /** By joint: the steps that hide it, and which of its positions. */
  hiddenBy: ReadonlyMap<string, readonly { stepId: string; positions: readonly number[] }[]>
  /** By step: the steps that name it among their needs. */
  neededBy: ReadonlyMap<string, readonly string[]>
  /** Where each step stands in the plan, from 0. */
  orderOf: ReadonlyMap<string, number>
  /** The steps with a sealant, in the plan's order. */
  sealed: readonly S[]
  /** By step: the steps whose sealant must be cured before it begins. */
  curesBefore: ReadonlyMap<string, readonly S[]>
}

const indexes = new WeakMap<object, PlanIndex>()

/** Works on a plan and on an adopted one alike; the steps that come out are of the kind that went in. */
export function indexPlan<S extends PlanStep>(plan: Omit<Plan, 'steps'> & { steps: S[] }): PlanIndex<S> {
  const known = indexes.get(plan)
  if (known) return known as unknown as PlanIndex<S>
  const stepById = new Map<string, S>()
  const jointById = new Map<string, JointOf<S>>()
  const stepOfJoint = new Map<string, S>()
  const orderOf = new Map<string, number>()
  const curesBefore = new Map<string, S[]>()
  for (const [order, step] of plan.steps.entries()) {
    stepById.set(step.id, step)
    orderOf.set(step.id, order)
    for (const after of new Set(step.sealant?.before)) append(curesBefore, after, step)
    for (const joint of step.joints) {
      jointById.set(joint.id, joint)
      stepOfJoint.set(joint.id, step)
    }
  }
  const hiddenBy = new Map<string, { stepId: string; positions: readonly number[] }[]>()
  const neededBy = new Map<string, string[]>()
  for (const step of plan.steps) {
    for (const hidden of step.hides) {
      const joint = jointById.get(hidden.joint)
      if (joint) append(hiddenBy, joint.id, { stepId: step.id, positions: positionsOf(hidden, joint) })
    }
    for (const need of step.needs) append(neededBy, need, step.id)
  }
  const stageById = new Map(plan.stages.map((stage) => [stage.id, stage]))
  const sealed = plan.steps.filter((step) => step.sealant)
  const index: PlanIndex<S> = {
    stepById,
    jointById,
    stepOfJoint,
    stageById,
    hiddenBy,
    neededBy,
    orderOf,
    sealed,
    curesBefore,
  }
  indexes.set(plan, index as unknown as PlanIndex)
  return index
}

/** The position numbers meant: those named, else all of the joint. */
export function positionsOf(fasteners: Fasteners, joint: Joint): readonly number[] {
  return fasteners.positions ?? joint.positions.map((position) => position.n)
}

/** The id of the set that holds whatever of a step no named set covers. */
export const STEP_SET = 'step'

export interface SignatureSetView {
  id: string
  title: string
  covers: { joint: string; positions: readonly number[] }[]
  /** The step's own set: measurements, gates, the sealant and every position not in a named set. */
  remainder: boolean
}

const setsByStep = new WeakMap<PlanStep, readonly SignatureSetView[]>()

/**
 * What is signed on its own within a step: the named sets, in the plan's order, then the step's own set
 * `'step'` if the named ones leave anything uncovered. A step without named sets has only its own.
 */
export function signatureSets(step: PlanStep): readonly SignatureSetView[] {
  const known = setsByStep.get(step)
  if (known) return known
  const joints = new Map(step.joints.map((joint) => [joint.id, joint]))
  const named = (step.sets ?? []).map((set) => namedSet(set, joints))
  const taken = new Map<string, Set<number>>()
  for (const { joint, positions } of named.flatMap((set) => set.covers)) {
    const numbers = taken.get(joint) ?? new Set()
    for (const n of positions) numbers.add(n)
    taken.set(joint, numbers)
  }
  const left = step.joints
    .map((joint) => ({
      joint: joint.id,
      positions: positionsOf({ joint: joint.id }, joint).filter((n) => !taken.get(joint.id)?.has(n)),
    }))
    .filter((rest) => rest.positions.length > 0)
  const more = left.length > 0 || step.measurements.length > 0 || step.gates.length > 0 || step.sealant
  const sets =
    more || named.length === 0
      ? [...named, { id: STEP_SET, title: step.title, covers: left, remainder: true }]
      : named
  setsByStep.set(step, sets)
  return sets
}

/** The set that covers a position, if the joint has it. */
export function setOf(step: PlanStep, jointId: string, position: number): SignatureSetView | undefined {
  return signatureSets(step).find((set) =>
    set.covers.some((part) => part.joint === jointId && part.positions.includes(position)),
  )
}

export interface Round {
  /** Position numbers: in the tightening order where there is one, else by number. */
  positions: readonly number[]
  /** False: any order is right. */
  ordered: boolean
}

/**
 * One round of a pass: the positions that are tightened together with this one. Positions of a named
 * set make a round of their own (one cap at a time), all others of the joint another.
 */
export function roundOf(step: PlanStep, jointId: string, position: number): Round {
  const joint = step.joints.find((other) => other.id === jointId)
  const covered = setOf(step, jointId, position)?.covers.filter((part) => part.joint === jointId)
  if (!joint || !covered) return { positions: [], ordered: false }
  const members = new Set(covered.flatMap((part) => [...part.positions]))
  if (joint.order) return { positions: joint.order.filter((n) => members.has(n)), ordered: true }
  return { positions: [...members].sort((a, b) => a - b), ordered: false }
}

/**
 * The class a person must be entitled to: the highest among the step's joints. A step without joints is
 * A if it takes two signatures, else C.
 */
export function stepClass(step: PlanStep): JointClass {
  if (step.joints.length === 0) return step.signatures === 2 ? 'A' : 'C'
  const classes = step.joints.map((joint) => joint.class)
  return classes.includes('A') ? 'A' : classes.includes('B') ? 'B' : 'C'
}

function namedSet(set: SignatureSet, joints: ReadonlyMap<string, Joint>): SignatureSetView {
  const covers = set.covers.flatMap((part) => {
    const joint = joints.get(part.joint)
    return joint ? [{ joint: part.joint, positions: positionsOf(part, joint) }] : []
  })
  return { id: set.id, title: set.title, covers, remainder: false }
}
