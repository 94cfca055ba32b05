/**
 * Holds, deferrals, notes, promises and releases as the engine page shows them. Pure views of the job, most
 * pressing first; the words for a single one stand beside its view.
 */
import { sealantState } from '../../../shared/job/clocks'
import { HOLD_WORDS } from '../../../shared/job/hold-words'
import { deferralOpen, deferralTitle, releaseInForce } from '../../../shared/job/release'
import type { FastenerCondition, Hold, Job, Note, Photo, PlannedJob } from '../../../shared/job/types'
import { deferralsOf } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep } from '../../../shared/plan/types'
import { positionsInWords, type Words } from '../../../shared/words'
import { format } from '../../format'

const MINUTE = 60_000

export interface HoldView {
  hold: Hold
  late: boolean
  /** `expected 14:00`, `was expected 20 Nov 12:00`, `nobody knows when`. */
  when: string
}

/** Open ones: what is late first, then what is expected soonest, then what has no date. */
export function openHoldViews(job: Job, now: number, words: Words): HoldView[] {
  return job.holds
    .filter(({ cleared }) => !cleared)
    .map((hold) => {
      const { expectedAt } = hold
      const late = expectedAt !== undefined && expectedAt < now
      const when =
        expectedAt === undefined
          ? 'nobody knows when'
          : `${late ? 'was expected' : 'expected'} ${words.moment(expectedAt)}`
      return { hold, late, when }
    })
    .sort((a, b) => (a.hold.expectedAt ?? Infinity) - (b.hold.expectedAt ?? Infinity) || 0)
}

/** `part: head gasket, expected 14:00`: why a step is on hold. */
export const holdWords = ({ hold, when }: HoldView): string =>
  `${HOLD_WORDS[hold.kind]}: ${hold.what}, ${when}`

export interface DeferralView {
  id: string
  what: string
  due: { id: string; title: string }
  reason: string
  by: string
  since: number
  /** Fitted and final by now: nothing is left but the signature of the step where it is due. */
  closed: boolean
}

/** Those not withdrawn: open ones first, the oldest of them on top. */
export function deferralViews(job: PlannedJob): DeferralView[] {
  const { stepById } = indexPlan(job.plan)
  return deferralsOf(job)
    .map((deferral) => ({
      id: deferral.id,
      what: deferralTitle(job, deferral),
      due: { id: deferral.dueStepId, title: stepById.get(deferral.dueStepId)?.title ?? '' },
      reason: deferral.reason,
      by: deferral.made.by,
      since: deferral.made.doneAt,
      closed: !deferralOpen(job, deferral),
    }))
    .sort((a, b) => Number(a.closed) - Number(b.closed) || a.since - b.since)
}

/** What was left out elsewhere and must be closed before this step is signed. */
export const dueHere = (job: PlannedJob, stepId: string): DeferralView[] =>
  deferralViews(job).filter(({ due, closed }) => due.id === stepId && !closed)

/** What of this step was left out, and where it is due. */
export const leftOut = (job: PlannedJob, step: AdoptedStep): DeferralView[] => {
  const ids = new Set(
    deferralsOf(job)
      .filter(({ what }) =>
        what.kind === 'step' ? what.stepId === step.id : step.joints.some(({ id }) => id === what.joint),
      )
      .map(({ id }) => id),
  )
  return deferralViews(job).filter(({ id, closed }) => ids.has(id) && !closed)
}

/** Newest first; for one step or for all. */
export const notesOf = (job: Job, stepId?: string): Note[] =>
  job.notes
    .filter((note) => stepId === undefined || note.stepId === stepId)
    .toSorted((a, b) => b.doneAt - a.doneAt)

/** What a photo shows, as far as anybody said: its caption, its place where the caption leaves it out, its step. */
export function photoWords({ caption, place, stepId }: Photo): string {
  const said = caption?.replace(/\.$/, '')
  const where = place && !said?.toLowerCase().includes(place.toLowerCase()) ? place : undefined
  return (
    [said, where, stepId ? `on ${stepId}` : undefined].filter(Boolean).join(', ') || 'a photo of the engine'
  )
}

const SAID: Partial<Record<FastenerCondition, string>> = {
  temporary: 'temporary',
  removed: 'taken out',
}

/** `2 temporary (3–4)`, `1 taken out (7)`: what must not be taken for the real thing. */
export function fastenersSaid(job: PlannedJob, joint: AdoptedJoint): string[] {
  const states = job.fasteners[joint.id] ?? {}
  return (Object.keys(SAID) as FastenerCondition[]).flatMap((condition) => {
    const positions = joint.positions.map(({ n }) => n).filter((n) => states[n]?.condition === condition)
    return positions.length === 0
      ? []
      : [`${positions.length} ${SAID[condition]} (${positionsInWords(positions)})`]
  })
}

/** What is asked when a hold is cleared. An approval costs somebody money: who gave it, when, how, for how much. */
export const clearedLabel = (job: Job, holdId: string): string =>
  job.holds.find(({ id }) => id === holdId)?.kind === 'approval'
    ? 'Who agreed, when, by telephone or letter, and to what amount'
    : 'How it was settled'

/** A sealant clock that runs or ran over: `open 4 of 8 min`, `cures until 22:09`. */
export function sealantWords(
  job: PlannedJob,
  step: AdoptedStep,
  now: number,
  words: Words,
): string | undefined {
  const { sealant } = step
  if (!sealant) return undefined
  const state = sealantState(job, step, now)
  const asked = format.duration(sealant.closeWithinMinutes)
  switch (state.state) {
    case 'open': {
      const open = Math.floor((now - (state.closeBy - sealant.closeWithinMinutes * MINUTE)) / MINUTE)
      return `${sealant.product} open ${open} of ${asked}`
    }
    case 'late':
      return state.closedAt === undefined
        ? `${sealant.product} open for longer than ${asked}`
        : `${sealant.product} was open for longer than ${asked}`
    case 'curing':
      return `${sealant.product} cures until ${words.moment(state.until)}`
    default:
      return undefined
  }
}

/** Steps whose clock runs or ran over, in the plan's order. */
export const clocksOf = (job: PlannedJob, now: number, words: Words) =>
  job.plan.steps.flatMap((step) => {
    const said = sealantWords(job, step, now, words)
    return said ? [{ step, words: said, late: sealantState(job, step, now).state === 'late' }] : []
  })

export interface HeadState {
  text: string
  against: boolean
  /** The number of the record it left, to be opened from here. */
  record?: string
}

/** What of the releases the head says, the last word last. */
export function releaseStates(job: Job, words: Words): HeadState[] {
  if (!job.plan) return []
  const planned = job as PlannedJob
  const states: (HeadState & { at: number })[] = []
  for (const release of job.releases) {
    const owner = release.kind === 'to_owner'
    const who = `${words.person(release.by)}, ${words.moment(release.doneAt)}`
    const { withdrawn } = release
    if (withdrawn)
      states.push({
        at: withdrawn.doneAt,
        text: `Release to ${owner ? 'its owner' : 'fitting'} withdrawn: ${withdrawn.stepId} was worked on again, ${words.moment(withdrawn.doneAt)}.`,
        against: releaseInForce(planned, release.kind) === undefined,
      })
    else
      states.push({
        at: release.doneAt,
        text: owner
          ? `Released to its owner by ${who}: record ${release.number}, edition ${release.edition}.`
          : `Released to fitting by ${who}.`,
        against: false,
        record: release.number,
      })
  }
  const last = job.warranties.at(-1)
  if (last)
    states.push({
      at: last.doneAt,
      text: `Back under warranty since ${words.moment(last.doneAt)}: ${last.complaint}${last.closed ? `. Found: ${last.closed.finding}` : ''}`,
      against: releaseInForce(planned, 'to_owner') === undefined,
    })
  return states.sort((a, b) => a.at - b.at).map(({ at: _, ...state }) => state)
}
