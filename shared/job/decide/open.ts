/** Opening a job, and adopting a plan from the shop's library. */
import { lookUp } from '../../look-up'
import { adopt } from '../../plan/adopt'
import { impossiblePasses } from '../../plan/fasteners'
import { LEADS, OFFICE } from '../../shop/entitlement'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome } from '../context'
import type { Job } from '../types'
import { roleMissing } from './roles'

/** [OJ1–OJ3] */
export function openJob(job: Job, command: CommandOf<'OpenJob'>, context: Context): Outcome {
  const { number, engine, owner, agreed } = command
  if (job.version > 0) return no('job_already_open', { number: job.number })
  const refusal = roleMissing(context, OFFICE, 'open a job')
  if (refusal) return refusal
  if (context.numberTaken?.(number)) return no('number_taken', { number })
  return [{ type: 'JobOpened', ...done(context), number, engine, owner, agreed }]
}

/** [AP1–AP6] The copy carries its bands, frozen as the shop's tolerances stand today. */
export function adoptPlan(job: Job, command: CommandOf<'AdoptPlan'>, context: Context): Outcome {
  const { planId, edition } = command
  if (job.plan?.id === planId && job.plan.edition === edition) return []
  const refusal = roleMissing(context, LEADS, 'adopt a plan')
  if (refusal) return refusal
  if (job.plan) return no('plan_already_adopted', { title: job.plan.title, edition: job.plan.edition })
  const plan = lookUp(lookUp(context.shop.plans, planId) ?? {}, edition)
  if (!plan) return no('plan_not_found', { planId, edition })
  for (const step of plan.steps)
    for (const joint of step.joints) {
      const [first] = impossiblePasses(joint, context.shop.tolerances)
      if (first)
        return no('torque_impossible', {
          stepId: step.id,
          title: joint.title,
          pass: first.pass,
          judged: first.judged,
          planTitle: plan.title,
        })
    }
  return [{ type: 'PlanAdopted', ...done(context), plan: adopt(plan, context.shop.tolerances) }]
}
