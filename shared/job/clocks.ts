/**
 * Sealant clocks: what was closed in time, what still cures, and when a verdict will change by itself.
 *
 * [SE8–SE9] Everything is reckoned from `doneAt`, when it happened at the bench, not from when it arrived. The window
 * and the cure belong to the step and its product; the product's own sheet governs.
 */
import type { Instant } from '../log'
import { indexPlan } from '../plan/read'
import type { AdoptedStep } from '../plan/types'
import type { PlannedJob } from './types'
import { isWaived, stepState } from './verdicts/state'

const MINUTE = 60_000

/** Past every clock: for whoever asks where a step stands but for what is still running. */
export const CLOCKS_ASIDE: Instant = Number.MAX_SAFE_INTEGER

export type SealantState =
  | { state: 'none' }
  | { state: 'not_started' }
  | { state: 'open'; closeBy: Instant }
  | { state: 'late'; closeBy: Instant; closedAt?: Instant }
  | { state: 'curing'; until: Instant }
  | { state: 'cured'; since: Instant }

/** Where the last bead of a step stands at a moment. */
export function sealantState(job: PlannedJob, step: AdoptedStep, now: Instant): SealantState {
  const { sealant } = step
  if (!sealant) return { state: 'none' }
  const clock = stepState(job, step.id).sealant.at(-1)
  if (!clock) return { state: 'not_started' }
  const closeBy = clock.started.doneAt + sealant.closeWithinMinutes * MINUTE
  const closedAt = clock.closed?.doneAt
  if (closedAt === undefined) return now <= closeBy ? { state: 'open', closeBy } : { state: 'late', closeBy }
  if (closedAt > closeBy && !isWaived(job, { kind: 'sealant', stepId: step.id }))
    return { state: 'late', closeBy, closedAt }
  const until = closedAt + sealant.cureMinutes * MINUTE
  return now < until ? { state: 'curing', until } : { state: 'cured', since: until }
}

/** Sealants that must be cured before this step can begin, and are not. */
export function cureInTheWay(
  job: PlannedJob,
  step: AdoptedStep,
  now: Instant,
): { step: AdoptedStep; until: Instant }[] {
  return (indexPlan(job.plan).curesBefore.get(step.id) ?? []).flatMap((other) => {
    const state = sealantState(job, other, now)
    return state.state === 'curing' ? [{ step: other, until: state.until }] : []
  })
}

/** Whether every named step's sealant has cured. */
export function allCured(job: PlannedJob, stepIds: readonly string[], now: Instant): boolean {
  const { stepById } = indexPlan(job.plan)
  return stepIds.every((id) => {
    const step = stepById.get(id)
    const state = step ? sealantState(job, step, now).state : 'none'
    return state === 'cured' || state === 'none'
  })
}

/** The next moment, always later than now, at which a verdict on this job changes though nobody touches it. */
export function nextChangeAt(job: PlannedJob, now: Instant): Instant | undefined {
  const moments = indexPlan(job.plan).sealed.flatMap((step) => {
    const state = sealantState(job, step, now)
    return state.state === 'curing' ? [state.until] : state.state === 'open' ? [state.closeBy + 1] : []
  })
  return moments.length > 0 ? Math.min(...moments) : undefined
}
