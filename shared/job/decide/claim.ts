/** Taking a step, leaving it, and giving it to another. First claim wins. */
import { lookUp } from '../../look-up'
import { indexPlan } from '../../plan/read'
import type { AdoptedStep, Fasteners } from '../../plan/types'
import { mayDo } from '../../shop/entitlement'
import { hasLeft } from '../../shop/left'
import { cureInTheWay } from '../clocks'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome, personOf } from '../context'
import type { EventOf } from '../events'
import { stoppedAt } from '../stops'
import type { PlannedJob } from '../types'
import {
  classAsked,
  isSigned,
  isWaived,
  lastSigner,
  openHolds,
  openNeeds,
  stepState,
  unprovenBehind,
} from '../verdicts'
import { leads } from './roles'

/** [CL1–CL13] */
export function claimStep(job: PlannedJob, command: CommandOf<'ClaimStep'>, context: Context): Outcome {
  const { stepId, hidesKnowingly } = command
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const { claim } = stepState(job, stepId)
  if (claim?.by === context.by) return []
  const holder = claim && hasLeft(context.shop, claim.by) ? lookUp(context.shop.people, claim.by) : undefined
  if (claim && !holder) {
    const { doneAt: wished } = context
    const wasLater = claim.doneAt > wished ? { wished } : {}
    return no('already_claimed', { stepId, by: claim.by, since: claim.doneAt, ...wasLater })
  }
  if (isSigned(job, step)) return no('step_already_signed', { stepId, by: lastSigner(job, stepId) })
  const person = personOf(context)
  const cls = classAsked(job, step)
  if (!person || !mayDo(person, cls, job.plan.family))
    return no('not_entitled', { stepId, class: cls, family: job.plan.family })
  const [hold] = openHolds(job, stepId)
  if (hold) return no('on_hold', { stepId, kind: hold.kind, what: hold.what, expectedAt: hold.expectedAt })
  const needs = openNeeds(job, step)
  if (needs.length > 0)
    return no('needs_open', { stepId, needs: needs.map(({ id, title }) => ({ id, title })) })
  const [cure] = cureInTheWay(job, step, context.doneAt)
  if (cure) return no('still_curing', { stepId, of: cure.step.id, title: cure.step.title, until: cure.until })
  const behind = unprovenBehind(job, step, ['A'])
  if (behind.length > 0 && !isWaived(job, { kind: 'hiding', stepId }))
    return no('would_hide_unproven', { stepId, behind: behind.map((hidden) => named(job, hidden)) })
  const lesser = unprovenBehind(job, step, ['B', 'C'])
  if (lesser.length > 0 && !hidesKnowingly)
    return no('asks_before_hiding', { stepId, behind: lesser.map((hidden) => named(job, hidden)) })
  return [
    ...(holder ? [leaving(job, step, context, `${holder.name} has left the shop.`)] : []),
    {
      type: 'StepClaimed',
      ...done(context),
      stepId,
      ...(lesser.length > 0 ? { hidesKnowingly: lesser.map(({ joint }) => joint) } : {}),
    },
  ]
}

/** [PD1–PD5] Left by whoever holds it, or for them by a supervisor; with a joint open, the place is marked. */
export function putDownStep(job: PlannedJob, command: CommandOf<'PutDownStep'>, context: Context): Outcome {
  const { stepId, note } = command
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const { claim } = stepState(job, stepId)
  if (!claim) return []
  if (claim.by !== context.by && !leads(context)) return no('not_your_step', { stepId, by: claim.by })
  return [leaving(job, step, context, note)]
}

function leaving(
  job: PlannedJob,
  step: AdoptedStep,
  context: Context,
  note: string | undefined,
): EventOf<'StepStopped' | 'StepPutDown'> {
  const at = stoppedAt(job, step)
  const about = { ...done(context), stepId: step.id, ...(note ? { note } : {}) }
  return at.length > 0 ? { type: 'StepStopped', ...about, at } : { type: 'StepPutDown', ...about }
}

/** [HO1–HO6] */
export function handOverStep(job: PlannedJob, command: CommandOf<'HandOverStep'>, context: Context): Outcome {
  const { stepId, to, note } = command
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const { claim } = stepState(job, stepId)
  if (claim?.by === to) return []
  if (!claim) return no('not_your_step', { stepId })
  if (claim.by !== context.by && !leads(context)) return no('not_your_step', { stepId, by: claim.by })
  const person = lookUp(context.shop.people, to)
  if (!person) return no('person_unknown', { by: to })
  const cls = classAsked(job, step)
  if (!mayDo(person, cls, job.plan.family))
    return no('receiver_not_entitled', { stepId, to, class: cls, family: job.plan.family })
  const at = stoppedAt(job, step)
  return [
    { type: 'StepHandedOver', ...done(context), stepId, from: claim.by, to, at, ...(note ? { note } : {}) },
  ]
}

function named(job: PlannedJob, { joint, positions }: Fasteners) {
  const { title = joint, fastener = 'bolt' } = indexPlan(job.plan).jointById.get(joint) ?? {}
  return { joint, title, fastener, ...(positions ? { positions } : {}) }
}
