/** Opening a job, and adopting a plan from the shop's library. */
import { lookUp } from '../../look-up'
import { adopt } from '../../plan/adopt'
import type { Role } from '../../shop/types'
import { type Context, done, no, type Outcome, personOf } from '../context'
import type { Job, JobCommand } from '../types'

type Command<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>

const MAY_OPEN: Role[] = ['service_writer', 'supervisor', 'owner']
const MAY_ADOPT: Role[] = ['supervisor', 'owner']
const ROLE_WORDS: Record<Role, string> = {
  service_writer: 'service writer',
  technician: 'technician',
  supervisor: 'supervisor',
  owner: 'owner of the shop',
}

const holds = (context: Context, roles: Role[]): boolean =>
  personOf(context)?.roles.some((role) => roles.includes(role)) ?? false

/** [OJ1–OJ4] */
export function openJob(job: Job, command: Command<'OpenJob'>, context: Context): Outcome {
  const { number, engine, owner, agreed } = command
  if (job.version > 0) return no('job_already_open', { number: job.number })
  if (!holds(context, MAY_OPEN))
    return no('role_needed', { what: 'Opening a job', roles: MAY_OPEN.map((r) => ROLE_WORDS[r]) })
  if (context.numberTaken?.(number)) return no('number_taken', { number })
  return [{ type: 'JobOpened', ...done(context), number, engine, owner, agreed }]
}

/** [AP1–AP5] The copy carries its bands, frozen as the shop's tolerances stand today. */
export function adoptPlan(job: Job, command: Command<'AdoptPlan'>, context: Context): Outcome {
  const { planId, edition } = command
  if (job.plan?.id === planId && job.plan.edition === edition) return []
  if (!holds(context, MAY_ADOPT))
    return no('role_needed', { what: 'Adopting a plan', roles: MAY_ADOPT.map((r) => ROLE_WORDS[r]) })
  if (job.plan) return no('plan_already_adopted', { title: job.plan.title, edition: job.plan.edition })
  const plan = lookUp(lookUp(context.shop.plans, planId) ?? {}, edition)
  if (!plan) return no('plan_not_found', { planId, edition })
  return [{ type: 'PlanAdopted', ...done(context), plan: adopt(plan, context.shop.tolerances) }]
}
