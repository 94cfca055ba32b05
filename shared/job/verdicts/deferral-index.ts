/** Deferrals not withdrawn, looked up by joint, by step and by where they are due; indexed once a list. */
import type { Fasteners } from '../../plan/types'
import type { Deferral, Job } from '../types'

interface DeferralIndex {
  open: readonly Deferral[]
  byJoint: ReadonlyMap<string, ReadonlyMap<number, Deferral>>
  steps: ReadonlySet<string>
  dueAt: ReadonlyMap<string, readonly Required<Fasteners>[]>
}

const indexes = new WeakMap<readonly Deferral[], DeferralIndex>()
const NO_POSITIONS: ReadonlyMap<number, Deferral> = new Map()
const NOTHING_DUE: readonly Required<Fasteners>[] = []

/** Deferrals not withdrawn. */
export const deferralsOf = (job: Job): readonly Deferral[] => indexOf(job.deferrals).open

/** Positions of a joint left out on purpose, and where they are due. */
export const deferredPositions = (job: Job, jointId: string): ReadonlyMap<number, Deferral> =>
  indexOf(job.deferrals).byJoint.get(jointId) ?? NO_POSITIONS

export const isDeferredStep = (job: Job, stepId: string): boolean => indexOf(job.deferrals).steps.has(stepId)

/** Fasteners of earlier steps that are due at this one. */
export const dueAt = (job: Job, stepId: string): readonly Required<Fasteners>[] =>
  indexOf(job.deferrals).dueAt.get(stepId) ?? NOTHING_DUE

function indexOf(deferrals: readonly Deferral[]): DeferralIndex {
  const cached = indexes.get(deferrals)
  if (cached) return cached
  const open = deferrals.filter((deferral) => !deferral.withdrawn)
  const byJoint = new Map<string, Map<number, Deferral>>()
  const steps = new Set<string>()
  const due = new Map<string, Required<Fasteners>[]>()
  for (const deferral of open) {
    const { what, dueStepId } = deferral
    if (what.kind === 'step') {
      steps.add(what.stepId)
      continue
    }
    const { joint, positions } = what
    const ofJoint = byJoint.get(joint) ?? new Map<number, Deferral>()
    byJoint.set(joint, ofJoint)
    for (const position of positions) ofJoint.set(position, deferral)
    due.set(dueStepId, [...(due.get(dueStepId) ?? []), { joint, positions }])
  }
  const index = { open, byJoint, steps, dueAt: due }
  indexes.set(deferrals, index)
  return index
}
