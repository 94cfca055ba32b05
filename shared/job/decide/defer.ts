/** Leaving something out on purpose, due at a named step, which cannot be signed until it is closed. */
import { indexPlan, setOf, stepClass } from '../../plan/read'
import type { AdoptedStep } from '../../plan/types'
import { mayDo } from '../../shop/entitlement'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, jointData, no, noPosition, type Outcome, personOf } from '../context'
import type { PlannedJob } from '../types'
import {
  deferralsOf,
  deferredPositions,
  interruptionOf,
  isSigned,
  lastSetId,
  lastSigner,
  planOrder,
  standingReading,
  stepState,
} from '../verdicts'
import { leads } from './roles'

/** [DE1–DE12] Class A is deferred by a supervisor; the rest by whoever may do it. */
export function defer(job: PlannedJob, command: CommandOf<'Defer'>, context: Context): Outcome {
  const { what, dueStepId, reason } = command
  const { stepById, stepOfJoint, jointById } = indexPlan(job.plan)
  const due = stepById.get(dueStepId)
  if (!due) return no('step_not_found', { stepId: dueStepId })
  const step = what.kind === 'step' ? stepById.get(what.stepId) : stepOfJoint.get(what.joint)
  if (!step)
    return what.kind === 'step'
      ? no('step_not_found', { stepId: what.stepId })
      : no('joint_not_found', { jointId: what.joint })
  const joint = what.kind === 'fasteners' ? jointById.get(what.joint) : undefined
  if (what.kind === 'fasteners' && joint) {
    const missing = what.positions.find((n) => !joint.positions.some((position) => position.n === n))
    if (missing !== undefined) return noPosition(joint, missing)
    const already = deferredPositions(job, joint.id)
    if (what.positions.every((n) => already.get(n)?.dueStepId === dueStepId)) return []
    const deferredPosition = what.positions.find((n) => already.has(n))
    if (deferredPosition !== undefined)
      return no('already_deferred', {
        what: `${joint.title}, ${joint.fastener} ${deferredPosition}`,
        dueStepId: already.get(deferredPosition)?.dueStepId ?? '',
      })
    const tightenedPosition = what.positions.find((n) =>
      joint.passes.some((_, i) => standingReading(job, joint, n, i + 1)),
    )
    if (tightenedPosition !== undefined)
      return no('already_fitted', { ...jointData(joint), position: tightenedPosition })
    if (what.positions.some((n) => interruptionOf(job, joint.id, n)))
      return no('round_broken_off', { joint: joint.id, title: joint.title })
  } else {
    const existing = deferralsOf(job).find(
      (deferral) => deferral.what.kind === 'step' && deferral.what.stepId === step.id,
    )
    if (existing?.dueStepId === dueStepId) return []
    if (existing)
      return no('already_deferred', { what: `${step.id} ${step.title}`, dueStepId: existing.dueStepId })
    if (isSigned(job, step))
      return no('step_already_signed', { stepId: step.id, by: lastSigner(job, step.id) })
  }
  if (planOrder(job, dueStepId) <= planOrder(job, step.id))
    return no('due_too_early', { stepId: step.id, dueStepId })
  // The last set takes in what is due, so its signature must still be to come.
  if (stepState(job, due.id).sets[lastSetId(due)]?.first) return no('due_already_signed', { dueStepId })
  const cls = joint?.class ?? stepClass(step)
  const person = personOf(context)
  if (!leads(context) && (cls === 'A' || !person || !mayDo(person, cls, job.plan.family)))
    return no('not_entitled_to_defer', { class: cls })
  const id = entryId(context.commandId, (taken) => job.deferrals.some((deferral) => deferral.id === taken))
  return [{ type: 'Deferred', ...done(context), id, what, dueStepId, reason }]
}

/** [DE13–DE16] Fitted after all where it belongs; what is fitted already stays where it was deferred to. */
export function withdrawDeferral(
  job: PlannedJob,
  command: CommandOf<'WithdrawDeferral'>,
  context: Context,
): Outcome {
  const { deferralId, reason } = command
  const deferral = job.deferrals.find(({ id }) => id === deferralId)
  if (!deferral) return no('deferral_not_found', { deferralId })
  if (deferral.withdrawn) return []
  if (deferral.made.by !== context.by && !leads(context))
    return no('not_yours_to_strike', { by: deferral.made.by })
  const { what } = deferral
  if (what.kind === 'fasteners') {
    const step = indexPlan(job.plan).stepOfJoint.get(what.joint)
    const signed = step && what.positions.some((n) => setSigned(job, step, what.joint, n))
    if (step && signed) return no('signed_without_it', { stepId: step.id })
  }
  return [{ type: 'DeferralWithdrawn', ...done(context), deferralId, reason }]
}

/** Whether the set a position came from has its doer's word, given without that position. */
function setSigned(job: PlannedJob, step: AdoptedStep, joint: string, position: number): boolean {
  const set = setOf(step, joint, position)
  return set !== undefined && stepState(job, step.id).sets[set.id]?.first !== undefined
}
