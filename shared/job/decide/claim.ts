/** Taking a step, and leaving it. First claim wins. */
import { indexPlan, stepClass } from '../../plan/read'
import type { AdoptedStep } from '../../plan/types'
import { mayDo } from '../../shop/entitlement'
import { type Context, done, no, type Outcome, type PlannedJob, personOf } from '../context'
import type { JobCommand } from '../types'
import { isSigned, openNeeds, stepState, unprovenBehind } from '../verdicts'

type Command<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>

/** [CL1–CL8] */
export function claimStep(job: PlannedJob, command: Command<'ClaimStep'>, context: Context): Outcome {
  const { stepId } = command
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const { claim } = stepState(job, stepId)
  if (claim?.by === context.by) return []
  if (claim) return no('already_claimed', { stepId, by: claim.by, since: claim.doneAt })
  if (isSigned(job, step)) return no('step_already_signed', { stepId, by: lastSigner(job, step) })
  const person = personOf(context)
  const cls = stepClass(step)
  if (!person || !mayDo(person, cls, job.plan.family))
    return no('not_entitled', { stepId, class: cls, family: job.plan.family })
  const needs = openNeeds(job, step)
  if (needs.length > 0)
    return no('needs_open', { stepId, needs: needs.map(({ id, title }) => ({ id, title })) })
  const behind = unprovenBehind(job, step)
  if (behind.length > 0)
    return no('would_hide_unproven', { stepId, behind: behind.map((hidden) => named(job, hidden)) })
  return [{ type: 'StepClaimed', ...done(context), stepId }]
}

/** [PD1–PD4] A claim is given back by the one who holds it. */
export function putDownStep(job: PlannedJob, command: Command<'PutDownStep'>, context: Context): Outcome {
  const { stepId } = command
  if (!indexPlan(job.plan).stepById.has(stepId)) return no('step_not_found', { stepId })
  const { claim } = stepState(job, stepId)
  if (!claim) return []
  if (claim.by !== context.by) return no('not_your_step', { stepId, by: claim.by })
  return [{ type: 'StepPutDown', ...done(context), stepId }]
}

function lastSigner(job: PlannedJob, step: AdoptedStep): string {
  const signed = Object.values(stepState(job, step.id).sets).flatMap((set) => set.first ?? [])
  return signed.sort((a, b) => a.doneAt - b.doneAt).at(-1)?.by ?? ''
}

function named(job: PlannedJob, { joint, positions }: { joint: string; positions?: number[] }) {
  const title = indexPlan(job.plan).jointById.get(joint)?.title ?? joint
  return positions ? { joint, title, positions } : { joint, title }
}
