/**
 * [RL10] What a release to fitting has frozen is not touched quietly: disturbing it is a rework and withdraws it.
 *
 * Facts are still recorded; the engine simply is not released any more, and says so.
 */
import { isRefusal } from '../../log'
import { indexPlan } from '../../plan/read'
import { type Context, done, type Outcome } from '../context'
import type { JobEvent } from '../events'
import { releaseInForce, stepsOf } from '../release'
import type { PlannedJob } from '../types'
import { answeringStep, isDeferredStep } from '../verdicts'

export function withRework(job: PlannedJob, outcome: Outcome, context: Context): Outcome {
  if (isRefusal(outcome) || outcome.length === 0 || !releaseInForce(job, 'to_fitting')) return outcome
  const frozen = new Set(stepsOf(job, 'to_fitting').map(({ id }) => id))
  const reworkedStep = outcome
    .flatMap((event) => disturbedStep(job, event) ?? [])
    .find((stepId) => frozen.has(stepId))
  if (reworkedStep === undefined) return outcome
  return [
    ...outcome,
    {
      type: 'ReleaseWithdrawn',
      ...done(context),
      kind: 'to_fitting',
      because: 'rework',
      stepId: reworkedStep,
    },
  ]
}

function disturbedStep(job: PlannedJob, event: JobEvent): string | undefined {
  switch (event.type) {
    case 'SignaturesLapsed':
      return event.stepId
    case 'ReadingTaken':
    case 'ReadingStruck':
    case 'RoundRestarted':
    case 'RoundCounted': {
      const step = indexPlan(job.plan).stepOfJoint.get(event.jointId)
      const positions =
        'positions' in event ? event.positions : 'position' in event ? [event.position] : undefined
      // Left out before the release and done after it, as was said then: that disturbs nothing.
      const later =
        step !== undefined &&
        (isDeferredStep(job, step.id) ||
          positions?.every((n) => answeringStep(job, event.jointId, n) !== step) === true)
      return later ? undefined : step?.id
    }
    default:
      return undefined
  }
}
