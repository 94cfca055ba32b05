/** What is still open on this engine by somebody's word: deferrals and holds, how old they are, when they are due. */
import { deferralOpen, deferralTitle } from '../../../shared/job/release'
import type { Deferral, Hold, PlannedJob } from '../../../shared/job/types'
import { stepState } from '../../../shared/job/verdicts'
import { indexPlan, signatureSets } from '../../../shared/plan/read'

/** Whether the expected moment has passed. */
export const overdue = (at: number | undefined, now: number): boolean => at !== undefined && at < now

export interface DeferralLine {
  deferral: Deferral
  title: string
  dueTitle: string
  state: 'open' | 'closed' | 'withdrawn'
  /** Whose signature closed it, at the step where it was due or its own. */
  closedBy?: { by: string; doneAt: number }
}

/** Open ones first, the oldest first. */
export function deferralLines(job: PlannedJob): DeferralLine[] {
  const { stepById } = indexPlan(job.plan)
  return job.deferrals
    .map((deferral): DeferralLine => {
      const state = deferral.withdrawn ? 'withdrawn' : deferralOpen(job, deferral) ? 'open' : 'closed'
      const closedBy = state === 'closed' ? closing(job, deferral) : undefined
      return {
        deferral,
        title: deferralTitle(job, deferral),
        dueTitle: `${deferral.dueStepId} ${stepById.get(deferral.dueStepId)?.title ?? ''}`.trim(),
        state,
        ...(closedBy ? { closedBy } : {}),
      }
    })
    .sort(
      (a, b) =>
        Number(b.state === 'open') - Number(a.state === 'open') ||
        a.deferral.made.doneAt - b.deferral.made.doneAt,
    )
}

/** A step left out is closed by its own signature, fasteners by that of the step they were due at. */
function closing(job: PlannedJob, { what, dueStepId }: Deferral): DeferralLine['closedBy'] {
  const step = indexPlan(job.plan).stepById.get(what.kind === 'step' ? what.stepId : dueStepId)
  const last = step && signatureSets(step).at(-1)
  const first = step && last && stepState(job, step.id).sets[last.id]?.first
  return first ? { by: first.by, doneAt: first.doneAt } : undefined
}

/** Not cleared, the one expected last at the end. */
export const openHolds = (job: PlannedJob): Hold[] =>
  job.holds
    .filter(({ cleared }) => !cleared)
    .sort(
      (a, b) => (a.expectedAt ?? Infinity) - (b.expectedAt ?? Infinity) || a.raised.doneAt - b.raised.doneAt,
    )
