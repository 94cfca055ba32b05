/** The small parts every fold is made of. Each returns a new job and shares what did not change. */

import { kindsOf } from '../../kinds'
import { withEntry } from '../../look-up'
import { indexPlan } from '../../plan/read'
import { RESTARTS, type RestartHow } from '../kinds'
import type { Job, Reading, SetState, Signature, StepState, StoppedAt, Waived } from '../types'
import { carryJoints } from '../verdicts/reading-index'
import { sameWaived } from '../verdicts/state'

export const signature = ({ by, doneAt }: Signature): Signature => ({ by, doneAt })

const NEW_STEP: StepState = { sets: {}, measurements: [], gates: {}, sealant: [], touchedAt: 0 }

/** The same without marking the step as touched: nothing that a second signer looks at has changed. */
export function noteOnStep(job: Job, stepId: string, change: (step: StepState) => StepState): Job {
  return { ...job, steps: withEntry(job.steps, stepId, change(job.steps[stepId] ?? NEW_STEP), stepsOf(job)) }
}

/** How many entries a record by step or by joint may come to. */
export const stepsOf = ({ plan }: Job): number => plan?.steps.length ?? 0

export const changeStep = (job: Job, stepId: string, change: (step: StepState) => StepState): Job =>
  noteOnStep(job, stepId, (step) => ({ ...change(step), touchedAt: job.version }))

export const changeSet = (
  job: Job,
  stepId: string,
  setId: string,
  change: (set: SetState) => SetState,
): Job =>
  changeStep(job, stepId, (step) => ({
    ...step,
    sets: { ...step.sets, [setId]: change(step.sets[setId] ?? {}) },
  }))

/**
 * Also marks as touched every step that answers for some of the joint: a second signer who looked before has
 * seen something else.
 */
export function changeReadings(
  job: Job,
  jointId: string,
  change: (list: Reading[]) => Reading[],
  added?: Reading,
): Job {
  const readings = withEntry(job.readings, jointId, change(job.readings[jointId] ?? []), stepsOf(job))
  carryJoints(job.readings, readings, added)
  const step = job.plan && indexPlan(job.plan).stepOfJoint.get(jointId)
  const due = job.deferrals.flatMap(({ what, dueStepId, withdrawn }) =>
    what.kind === 'fasteners' && what.joint === jointId && !withdrawn ? [dueStepId] : [],
  )
  const answering = new Set(step ? [step.id, ...due] : due)
  return [...answering].reduce((touched, id) => changeStep(touched, id, (state) => state), {
    ...job,
    readings,
  })
}

export const supersede = (
  list: readonly Reading[],
  which: (reading: Reading) => boolean,
  superseded: NonNullable<Reading['superseded']>,
): Reading[] =>
  list.map((earlier) =>
    which(earlier) && !earlier.struck && !earlier.superseded ? { ...earlier, superseded } : earlier,
  )

/** A waiver accepted what was there then; what is done anew is looked at anew. */
export function lapseWaivers(job: Job, what: readonly Waived[], who: Signature): Job {
  const gone = (waived: Waived) => what.some((renewed) => sameWaived(waived, renewed))
  if (!job.waivers.some((waiver) => !waiver.lapsed && gone(waiver.what))) return job
  return {
    ...job,
    waivers: job.waivers.map((waiver) =>
      !waiver.lapsed && gone(waiver.what) ? { ...waiver, lapsed: signature(who) } : waiver,
    ),
  }
}

/** After a stop the number on a scale is entered again: nobody knows who turned it meanwhile. */
export function forgetScales(job: Job, stepId: string): Job {
  const { plan } = job
  if (!plan) return job
  const stepOf = indexPlan(plan).stepOfJoint
  const remaining = Object.entries(job.scales).filter(([, entry]) => stepOf.get(entry.jointId)?.id !== stepId)
  return { ...job, scales: Object.fromEntries(remaining) }
}

/** New fasteners do more than slackening, slackening more than going round again. */
export const strength = (how: RestartHow | 'nothing'): number =>
  ['nothing', ...kindsOf(RESTARTS)].indexOf(how)

/** A round broken off twice before its rule was followed keeps the mark that asks for more. */
export function addMark(marks: readonly StoppedAt[], mark: StoppedAt): StoppedAt[] {
  const sameRound = (other: StoppedAt) => other.positions.some((n) => mark.positions.includes(n))
  const known = marks.find(sameRound)
  const stronger = known && strength(known.asks) >= strength(mark.asks) ? known : mark
  return [...marks.filter((other) => !sameRound(other)), stronger]
}
