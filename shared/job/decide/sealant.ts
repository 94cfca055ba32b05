/** The sealant clock of a step: the first bead starts it, the last fastener closes it. Facts, by when they happened. */
import { indexPlan } from '../../plan/read'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome } from '../context'
import type { PlannedJob } from '../types'
import { stepState } from '../verdicts'
import { ownSetLapses } from './lapse'

/** [SE1–SE4] A second bead, after the first was stripped, starts a new clock; the old one stays in the record. */
export function startSealant(
  job: PlannedJob,
  { stepId }: CommandOf<'StartSealant'>,
  context: Context,
): Outcome {
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  if (!step.sealant) return no('no_sealant_asked', { stepId })
  const clock = stepState(job, stepId).sealant.at(-1)
  if (clock && !clock.closed && clock.started.by === context.by && clock.started.doneAt === context.doneAt)
    return []
  return [
    { type: 'SealantStarted', ...done(context), stepId },
    ...ownSetLapses(job, step, 'sealant', context),
  ]
}

/** [SE5–SE7] */
export function closeSealant(
  job: PlannedJob,
  { stepId }: CommandOf<'CloseSealant'>,
  context: Context,
): Outcome {
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const clock = stepState(job, stepId).sealant.at(-1)
  if (!clock) return no('sealant_not_started', { stepId })
  return clock.closed ? [] : [{ type: 'SealantClosed', ...done(context), stepId }]
}
