/** Leaving something out on purpose, due at a named step, which cannot be signed until it is closed. */
import { indexPlan } from '../../plan/read'
import { mayDo } from '../../shop/entitlement'
import { type Context, done, entryId, no, type Outcome, type PlannedJob, personOf } from '../context'
import type { CommandOf } from '../types'
import { deferralsOf, deferredPositions, isSigned, standingReading, stepState } from '../verdicts'
import { leads } from './roles'

/** [DE1–DE9] Class A is deferred by a supervisor; the rest by whoever may do it. */
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
    if (missing !== undefined)
      return no('position_not_found', {
        jointId: joint.id,
        position: missing,
        positions: joint.positions.map(({ n }) => n),
      })
    const already = deferredPositions(job, joint.id)
    if (what.positions.every((n) => already.get(n)?.dueStepId === dueStepId)) return []
    const taken = what.positions.find((n) => already.has(n))
    if (taken !== undefined)
      return no('already_deferred', {
        what: `${joint.title} ${taken}`,
        dueStepId: already.get(taken)?.dueStepId ?? '',
      })
    const fitted = what.positions.find((n) =>
      joint.passes.some((_, i) => standingReading(job, joint, n, i + 1)),
    )
    if (fitted !== undefined)
      return no('already_fitted', { joint: joint.id, title: joint.title, position: fitted })
  } else {
    const known = deferralsOf(job).find(
      (deferral) => deferral.what.kind === 'step' && deferral.what.stepId === step.id,
    )
    if (known?.dueStepId === dueStepId) return []
    if (known) return no('already_deferred', { what: step.id, dueStepId: known.dueStepId })
  }
  if (step.id === dueStepId || !comesAfter(job, dueStepId, step.id))
    return no('due_too_early', { stepId: step.id, dueStepId })
  if (isSigned(job, due)) return no('due_already_signed', { dueStepId })
  const classA = joint ? joint.class === 'A' : step.joints.some((one) => one.class === 'A')
  const person = personOf(context)
  if (
    classA
      ? !leads(context)
      : !leads(context) && !(person && mayDo(person, joint?.class ?? 'B', job.plan.family))
  )
    return no('not_entitled_to_defer', { class: classA ? 'A' : (joint?.class ?? 'B') })
  const id = entryId(context.commandId, (taken) => job.deferrals.some((deferral) => deferral.id === taken))
  return [{ type: 'Deferred', ...done(context), id, what, dueStepId, reason }]
}

/** [DE10–DE12] Fitted after all where it belongs; what is fitted already stays where it was deferred to. */
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
  const stepId =
    deferral.what.kind === 'step'
      ? deferral.what.stepId
      : indexPlan(job.plan).stepOfJoint.get(deferral.what.joint)?.id
  const signed = stepId !== undefined && Object.values(stepState(job, stepId).sets).some((set) => set.first)
  if (deferral.what.kind === 'fasteners' && signed) return no('signed_without_it', { stepId: stepId ?? '' })
  return [{ type: 'DeferralWithdrawn', ...done(context), deferralId, reason }]
}

/** A step is later when it stands further down the plan: plans are written in the order of the work. */
function comesAfter(job: PlannedJob, laterId: string, earlierId: string): boolean {
  const order = job.plan.steps.map(({ id }) => id)
  return order.indexOf(laterId) > order.indexOf(earlierId)
}
