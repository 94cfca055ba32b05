/** A cover without fasteners of its own, off again: without this fact what it hides would stay out of reach for ever. */
import { indexPlan } from '../../plan/read'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome } from '../context'
import type { PlannedJob } from '../types'
import { inTheWay, isBareCover } from '../verdicts'
import { stepLapses } from './lapse'

/** [TO1–TO6] */
export function takeOff(job: PlannedJob, { stepId }: CommandOf<'TakeOff'>, context: Context): Outcome {
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  // One with fasteners says it by them; one that hides nothing covers nothing.
  if (!isBareCover(step) || !inTheWay(job, step)) return []
  return [{ type: 'StepTakenOff', ...done(context), stepId }, ...stepLapses(job, step, 'taken_off', context)]
}
