/**
 * What was left out on purpose, as every page shows it, and the commands of its forms. Pure.
 *
 * Compact (bench): one fastener of the round in work, due at a later step, a preset reason; one press to fit it
 * after all. Full (engine, audit): a whole step or some positions of a joint, and the reason in words of one's own.
 */

import type { JobCommand } from '../../../shared/job/commands'
import { deferralOpen, deferralTitle } from '../../../shared/job/release'
import type { Deferral, Deferred, PlannedJob } from '../../../shared/job/types'
import { isSigned, stepState } from '../../../shared/job/verdicts'
import { indexPlan, signatureSets } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { ended, type Words } from '../../../shared/words'

/** Reasons that need no typing. */
export const DEFERRAL_PRESETS = [
  'In the way of a later fit',
  'Part not here yet',
  'Set together with the next part',
] as const

export interface DeferralView {
  deferral: Deferral
  what: string
  due: { id: string; title: string }
  /** Closed: final, or its step done. Withdrawn: fitted where it belongs after all. */
  state: 'open' | 'closed' | 'withdrawn'
  /** Whose signature closed it, at the step where it was due or its own. */
  closedBy?: { by: string; doneAt: number }
}

/** Every one: open ones first, the oldest of them on top. */
export function deferralViews(job: PlannedJob): DeferralView[] {
  const { stepById } = indexPlan(job.plan)
  return job.deferrals
    .map((deferral): DeferralView => {
      const state = deferral.withdrawn ? 'withdrawn' : deferralOpen(job, deferral) ? 'open' : 'closed'
      const closedBy = state === 'closed' ? closing(job, deferral) : undefined
      return {
        deferral,
        what: deferralTitle(job, deferral),
        due: { id: deferral.dueStepId, title: stepById.get(deferral.dueStepId)?.title ?? '' },
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
function closing(job: PlannedJob, { what, dueStepId }: Deferral): DeferralView['closedBy'] {
  const step = indexPlan(job.plan).stepById.get(what.kind === 'step' ? what.stepId : dueStepId)
  const last = step && signatureSets(step).at(-1)
  const first = step && last && stepState(job, step.id).sets[last.id]?.first
  return first ? { by: first.by, doneAt: first.doneAt } : undefined
}

export const dueTitle = ({ due }: DeferralView): string => `${due.id} ${due.title}`.trim()

/** How it ended; nothing while it is open. */
export function endedWords({ deferral: { withdrawn }, state, closedBy }: DeferralView, words: Words) {
  if (state === 'open') return undefined
  if (withdrawn)
    return `No longer left out: ${ended(withdrawn.reason)} ${words.person(withdrawn.by)}, ${words.moment(withdrawn.doneAt)}.`
  return closedBy
    ? `Done: signed by ${words.person(closedBy.by)}, ${words.moment(closedBy.doneAt)}.`
    : 'Closed.'
}

/** What was left out elsewhere and must be closed before this step is signed. */
export const dueHere = (job: PlannedJob, stepId: string): DeferralView[] =>
  deferralViews(job).filter(({ due, state }) => due.id === stepId && state === 'open')

/** The step it was left out of. */
export const leftOutIn = (job: PlannedJob, { what }: Deferral): string | undefined =>
  what.kind === 'step' ? what.stepId : indexPlan(job.plan).stepOfJoint.get(what.joint)?.id

/** What of this step was left out and is not withdrawn, closed or not. */
export const leftOutOf = (job: PlannedJob, stepId: string): DeferralView[] =>
  deferralViews(job).filter(
    ({ deferral, state }) => state !== 'withdrawn' && leftOutIn(job, deferral) === stepId,
  )

/** Where it can be due: later in the plan, and not signed yet. */
export function laterSteps(job: PlannedJob, stepId: string): AdoptedStep[] {
  const { steps } = job.plan
  return steps.slice(steps.findIndex(({ id }) => id === stepId) + 1).filter((step) => !isSigned(job, step))
}

/** The act that takes a deferral back: a fastener is fitted, a step is done. */
export const takeBackLabel = ({ what }: Deferral): string =>
  what.kind === 'step' ? 'Do it now' : 'Fit it now'

interface DeferralDraft {
  what: Deferred
  dueStepId: string
  reason: string
}

/** The command as entered, or the sentence that says what is missing. */
export function leaveOut({ what, dueStepId, reason }: DeferralDraft): JobCommand | string {
  if (what.kind === 'fasteners' && what.positions.length === 0) return 'Tick the positions that are left out.'
  if (!dueStepId) return 'Choose the step where it is due.'
  if (!reason.trim()) return 'Say why it is left out.'
  return { type: 'Defer', what, dueStepId, reason: reason.trim() }
}
