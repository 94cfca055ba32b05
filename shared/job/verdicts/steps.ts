/** Where a step stands: signed, done, begun, hidden, ready, and what is in its way. */

import type { Instant } from '../../log'
import { indexPlan, signatureSets } from '../../plan/read'
import type { AdoptedJoint, AdoptedStep, Fasteners } from '../../plan/types'
import { CLOCKS_ASIDE, cureInTheWay } from '../clocks'
import type { Hold, PlannedJob, Reading } from '../types'
import { deferredPositions, inPlaceBefore, isDeferredStep, planOrder, signaturesAsked } from './deferrals'
import { type OffLimits, offLimits } from './limits'
import { ofStep } from './memory'
import { flaggedOn } from './readings'
import { isAccepted } from './sets'
import { isWaived, stepState } from './state'

/** What a step amounts to by its own entries alone. */
interface OwnVerdict {
  signed: boolean
  done: boolean
  covers: boolean
}

/** Every step is asked for these again and again by whoever needs, hides or lists it. */
const ownVerdict = (job: PlannedJob, step: AdoptedStep): OwnVerdict =>
  ofStep(job, step, 'own', () => ({
    signed: everySetSigned(job, step),
    done: everySignatureThere(job, step),
    covers: hasBegun(job, step) && !isTakenOff(job, step),
  }))

/** Every set carries its doer's signature. */
export const isSigned = (job: PlannedJob, step: AdoptedStep): boolean => ownVerdict(job, step).signed

/** Every set carries every signature it asks for, or its missing second one is waived. */
export const isDone = (job: PlannedJob, step: AdoptedStep): boolean => ownVerdict(job, step).done

/** Begun and not taken off again: what it hides cannot be reached. */
export const inTheWay = (job: PlannedJob, step: AdoptedStep): boolean => ownVerdict(job, step).covers

function everySetSigned(job: PlannedJob, step: AdoptedStep): boolean {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).every(({ id }) => sets[id]?.first !== undefined)
}

/** Whoever gave the last of the doer's signatures on a step. */
export function lastSigner(job: PlannedJob, stepId: string): string {
  const signed = Object.values(stepState(job, stepId).sets).flatMap((set) => set.first ?? [])
  return signed.sort((a, b) => a.doneAt - b.doneAt).at(-1)?.by ?? ''
}

/** What a *need* asks for: signed by its doer, or left out on purpose. */
export const needMet = (job: PlannedJob, step: AdoptedStep): boolean =>
  isSigned(job, step) || isDeferredStep(job, step.id)

function everySignatureThere(job: PlannedJob, step: AdoptedStep): boolean {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).every(
    ({ id }) =>
      sets[id]?.first !== undefined &&
      (signaturesAsked(job, step, id) === 1 ||
        sets[id]?.second !== undefined ||
        isWaived(job, { kind: 'second', stepId: step.id, setId: id })),
  )
}

/** What is odd about a step: readings whose flags stand, measurements and counts off their limits. */
export interface Odd {
  flagged: readonly { joint: AdoptedJoint; reading: Reading }[]
  off: readonly OffLimits[]
}

export const oddOn = (job: PlannedJob, step: AdoptedStep): Odd =>
  ofStep(job, step, 'odd', () => ({
    flagged: step.joints.flatMap((joint) => flaggedOn(job, joint).map((reading) => ({ joint, reading }))),
    off: offLimits(job, step),
  }))

/** Something has happened at the bench in this step: from here on what it hides is out of reach. */
export function hasBegun(job: PlannedJob, step: AdoptedStep): boolean {
  const state = stepState(job, step.id)
  return (
    state.measurements.length > 0 ||
    state.sealant.length > 0 ||
    Object.keys(state.gates).length > 0 ||
    Object.keys(state.sets).length > 0 ||
    step.joints.some(
      ({ id }) => (job.readings[id]?.length ?? 0) > 0 || Object.keys(job.fasteners[id] ?? {}).length > 0,
    )
  )
}

/** Taken off again: every fastener it put in is out; where it has none, somebody has said so. */
const isTakenOff = (job: PlannedJob, { id: stepId, joints }: AdoptedStep): boolean =>
  joints.length > 0
    ? joints.every(({ id, positions }) =>
        positions.every(({ n }) => job.fasteners[id]?.[n]?.condition === 'removed'),
      )
    : stepState(job, stepId).takenOff !== undefined

/** A cover without fasteners of its own: that it came off must be said. */
export const isBareCover = ({ hides, joints }: AdoptedStep): boolean =>
  hides.length > 0 && joints.length === 0

/** Until when a cure keeps a step that nothing else keeps; nothing where it can begin, or where more is in its way. */
export function waitsForCure(job: PlannedJob, step: AdoptedStep, now: Instant): Instant | undefined {
  const cures = cureInTheWay(job, step, now).map(({ until }) => until)
  if (cures.length === 0) return undefined
  const otherwise = standingOf(job, step)
  return otherwise === 'ready' || otherwise === 'stopped' ? Math.max(...cures) : undefined
}

/** Steps begun that stand in the way of these positions; one fitted later than a cover went on is not under it. */
export function hiddenBy(job: PlannedJob, jointId: string, positions: readonly number[]): AdoptedStep[] {
  const index = indexPlan(job.plan)
  const away = deferredPositions(job, jointId)
  const under = (n: number, stepId: string) => {
    const due = away.get(n)?.dueStepId
    return due === undefined || planOrder(job, due) < planOrder(job, stepId)
  }
  return (index.hiddenBy.get(jointId) ?? [])
    .filter(({ stepId, positions: covered }) =>
      positions.some((n) => covered.includes(n) && under(n, stepId)),
    )
    .map(({ stepId }) => index.stepById.get(stepId))
    .filter((step): step is AdoptedStep => step !== undefined && inTheWay(job, step))
}

/** Joints of these classes that a step would hide and that are neither proven nor accepted. */
export function unprovenBehind(
  job: PlannedJob,
  step: AdoptedStep,
  classes: readonly string[] = ['A'],
): Fasteners[] {
  if (step.hides.length === 0) return []
  const { jointById } = indexPlan(job.plan)
  return step.hides.filter(
    (hidden) =>
      classes.includes(jointById.get(hidden.joint)?.class ?? '') &&
      !isAccepted(job, inPlaceBefore(job, hidden, step)),
  )
}

/** Steps named in `needs` that their doer has not signed. */
export const openNeeds = (job: PlannedJob, step: AdoptedStep): AdoptedStep[] =>
  step.needs.flatMap((id) => openNeed(job, id) ?? [])

const openNeed = (job: PlannedJob, id: string): AdoptedStep | undefined => {
  const need = indexPlan(job.plan).stepById.get(id)
  return need && !needMet(job, need) ? need : undefined
}

/** Holds on a step that nobody has cleared. */
export const openHolds = (job: PlannedJob, stepId: string) =>
  job.holds.filter((hold) => holdsUp(hold, stepId))

const holdsUp = (hold: Hold, stepId: string): boolean => !hold.cleared && hold.stepIds.includes(stepId)

export type StepStanding =
  | 'not_ready'
  | 'on_hold'
  | 'deferred'
  | 'ready'
  | 'in_work'
  | 'stopped'
  | 'awaiting_second'
  | 'done'

/**
 * Where a step stands at a moment, for anybody; who may take it is asked of `decide`. Without a moment: as if
 * every clock had run out.
 */
export function standingOf(job: PlannedJob, step: AdoptedStep, now: Instant = CLOCKS_ASIDE): StepStanding {
  if (isDone(job, step)) return 'done'
  const state = stepState(job, step.id)
  if (job.holds.some((hold) => holdsUp(hold, step.id))) return 'on_hold'
  if (state.claim) return 'in_work'
  if (isSigned(job, step)) return 'awaiting_second'
  if (isDeferredStep(job, step.id)) return 'deferred'
  if (
    step.needs.some((id) => openNeed(job, id)) ||
    cureInTheWay(job, step, now).length > 0 ||
    (unprovenBehind(job, step).length > 0 && !isWaived(job, { kind: 'hiding', stepId: step.id }))
  )
    return 'not_ready'
  return state.stopped ? 'stopped' : 'ready'
}
