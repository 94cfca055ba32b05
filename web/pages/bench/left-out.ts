/** What was left out of a step on purpose, and the steps it can be due at. Pure. */
import type { Deferral, PlannedJob } from '../../../shared/job/types'
import { deferralsOf, isSigned } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'

/** Later in the plan, and not signed yet. */
export function laterSteps(job: PlannedJob, stepId: string): AdoptedStep[] {
  const { steps } = job.plan
  return steps.slice(steps.findIndex(({ id }) => id === stepId) + 1).filter((step) => !isSigned(job, step))
}

export interface LeftOut {
  deferral: Deferral
  title: string
  positions: number[]
}

export function leftOutOf(job: PlannedJob, step: AdoptedStep): LeftOut[] {
  return deferralsOf(job).flatMap((deferral) => {
    const { what } = deferral
    const joint = what.kind === 'fasteners' ? step.joints.find(({ id }) => id === what.joint) : undefined
    return joint && what.kind === 'fasteners'
      ? [{ deferral, title: joint.title, positions: what.positions }]
      : []
  })
}
