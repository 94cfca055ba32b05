/**
 * What a job's record amounts to: open, final, proven, ready, hidden. Pure views of the fold, never
 * stored, so that a rule that changes changes every verdict at once.
 *
 * Words as in GLOSSARY.md: a position is *final* when all its passes are reached without a flag, and
 * *proven* when every signature its set asks for stands as well.
 */
import { indexPlan, roundOf, type SignatureSetView, signatureSets } from '../plan/read'
import type { AdoptedJoint, AdoptedStep, Fasteners } from '../plan/types'
import type { PlannedJob } from './context'
import type { Flag, Job, MeasurementEntry, Reading, SetState, StepState } from './types'

const NOTHING: StepState = { sets: {}, measurements: [], gates: {}, touchedAt: 0 }

export const stepState = (job: PlannedJob, stepId: string): StepState => job.steps[stepId] ?? NOTHING

/** Neither struck nor superseded. */
export const stands = (entry: { struck?: unknown; superseded?: unknown }): boolean =>
  !entry.struck && !entry.superseded

/** Whether a reading is one its pass is reached by; a slackening reaches only a slacken pass. */
function reaches(joint: AdoptedJoint, reading: Reading): boolean {
  return (joint.passes[reading.pass - 1]?.kind === 'slacken') === (reading.how === 'slackened')
}

/** The reading a position has for a pass, if one stands. */
export function standingReading(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
  pass: number,
): Reading | undefined {
  return job.readings[joint.id]?.findLast(
    (reading) =>
      reading.position === position && reading.pass === pass && stands(reading) && reaches(joint, reading),
  )
}

/** Passes that take a reading; a wait is over by the clock alone. */
export const takesReading = (joint: AdoptedJoint, pass: number): boolean =>
  joint.passes[pass - 1]?.kind !== 'wait'

export interface PositionState {
  /** Passes reached, by number, whatever their flags. */
  reached: number[]
  /** The lowest pass still to go, or undefined when all are reached. */
  nextPass: number | undefined
  /** Flags that stand on its readings. */
  flags: Flag[]
  final: boolean
}

export function positionState(job: PlannedJob, joint: AdoptedJoint, position: number): PositionState {
  const reached: number[] = []
  let nextPass: number | undefined
  for (let pass = 1; pass <= joint.passes.length; pass++) {
    if (!takesReading(joint, pass)) continue
    if (standingReading(job, joint, position, pass)) reached.push(pass)
    else nextPass ??= pass
  }
  const standing = flaggedOn(job, joint).filter((reading) => reading.position === position)
  const flags = [...new Set(standing.flatMap((reading) => reading.flags))]
  return { reached, nextPass, flags, final: nextPass === undefined && flags.length === 0 }
}

/**
 * The readings of a joint whose flags stand: also one that reaches no pass (a click where a wait or a
 * slackening was asked). Taking a fastener back is right at any time and stands against nothing.
 */
export function flaggedOn(job: Job, joint: AdoptedJoint): Reading[] {
  const takesBack = ({ how, pass }: Reading) =>
    how === 'slackened' && joint.passes[pass - 1]?.kind !== 'slacken'
  return (job.readings[joint.id] ?? []).filter(
    (reading) => reading.flags.length > 0 && stands(reading) && !takesBack(reading),
  )
}

/** The round a position belongs to in a pass, and which position of it comes next. */
export function nextInRound(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint,
  position: number,
  pass: number,
) {
  const round = roundOf(step, joint.id, position)
  const next = round.positions.find((n) => !standingReading(job, joint, n, pass))
  return { ...round, next }
}

export interface SetView {
  set: SignatureSetView
  state: SetState
  /** Positions with passes to go. */
  open: { joint: string; position: number; nextPass: number }[]
  /** Positions whose readings carry a flag. */
  flagged: { joint: string; position: number; flags: Flag[] }[]
  /** Every position final. */
  final: boolean
  /** Final, and every signature it asks for stands. */
  proven: boolean
}

/** One signature set of a step, as it stands. */
export function setView(job: PlannedJob, step: AdoptedStep, set: SignatureSetView): SetView {
  const open: SetView['open'] = []
  const flagged: SetView['flagged'] = []
  for (const { joint: jointId, positions } of set.covers) {
    const joint = step.joints.find((candidate) => candidate.id === jointId)
    if (!joint) continue
    for (const position of positions) {
      const { nextPass, flags } = positionState(job, joint, position)
      if (nextPass !== undefined) open.push({ joint: jointId, position, nextPass })
      if (flags.length > 0) flagged.push({ joint: jointId, position, flags })
    }
  }
  const state = stepState(job, step.id).sets[set.id] ?? {}
  const final = open.length === 0 && flagged.length === 0
  const signed = state.first !== undefined && (step.signatures === 1 || state.second !== undefined)
  return { set, state, open, flagged, final, proven: final && signed }
}

export const setViews = (job: PlannedJob, step: AdoptedStep): SetView[] =>
  signatureSets(step).map((set) => setView(job, step, set))

/** Every set carries its doer's signature: what a *need* asks for. */
export function isSigned(job: PlannedJob, step: AdoptedStep): boolean {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).every((set) => sets[set.id]?.first !== undefined)
}

/** Every set carries every signature it asks for. */
export function isDone(job: PlannedJob, step: AdoptedStep): boolean {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).every(
    (set) =>
      sets[set.id]?.first !== undefined && (step.signatures === 1 || sets[set.id]?.second !== undefined),
  )
}

/** Something has happened at the bench in this step: from here on what it hides is out of reach. */
export function hasBegun(job: PlannedJob, step: AdoptedStep): boolean {
  const state = stepState(job, step.id)
  return (
    state.measurements.length > 0 ||
    Object.keys(state.gates).length > 0 ||
    Object.keys(state.sets).length > 0 ||
    step.joints.some((joint) => (job.readings[joint.id]?.length ?? 0) > 0)
  )
}

/** Steps begun that stand in the way of these positions. */
export function hiddenBy(job: PlannedJob, jointId: string, positions: readonly number[]): AdoptedStep[] {
  const index = indexPlan(job.plan)
  return (index.hiddenBy.get(jointId) ?? [])
    .filter(({ positions: covered }) => positions.some((n) => covered.includes(n)))
    .map(({ stepId }) => index.stepById.get(stepId))
    .filter((step): step is AdoptedStep => step !== undefined && hasBegun(job, step))
}

/** The sets that cover any of these fasteners. */
export function setsCovering(job: PlannedJob, fasteners: Fasteners): { step: AdoptedStep; view: SetView }[] {
  const step = indexPlan(job.plan).stepOfJoint.get(fasteners.joint)
  if (!step) return []
  return setViews(job, step)
    .filter(({ set }) =>
      set.covers.some(
        (cover) =>
          cover.joint === fasteners.joint &&
          (!fasteners.positions || cover.positions.some((n) => fasteners.positions?.includes(n))),
      ),
    )
    .map((view) => ({ step, view }))
}

export const isProven = (job: PlannedJob, fasteners: Fasteners): boolean =>
  setsCovering(job, fasteners).every(({ view }) => view.proven)

/** Class A joints that this step would hide and that are not proven yet. */
export function unprovenBehind(job: PlannedJob, step: AdoptedStep): Fasteners[] {
  const { jointById } = indexPlan(job.plan)
  return step.hides.filter((hidden) => jointById.get(hidden.joint)?.class === 'A' && !isProven(job, hidden))
}

/** Steps named in `needs` that their doer has not signed. */
export function openNeeds(job: PlannedJob, step: AdoptedStep): AdoptedStep[] {
  const { stepById } = indexPlan(job.plan)
  return step.needs
    .map((id) => stepById.get(id))
    .filter((need): need is AdoptedStep => need !== undefined && !isSigned(job, need))
}

export type StepStanding = 'not_ready' | 'ready' | 'in_work' | 'awaiting_second' | 'done'

/** Where a step stands, for anybody; who is asked of `decide`. */
export function standingOf(job: PlannedJob, step: AdoptedStep): StepStanding {
  if (isDone(job, step)) return 'done'
  if (stepState(job, step.id).claim) return 'in_work'
  if (isSigned(job, step)) return 'awaiting_second'
  return openNeeds(job, step).length > 0 || unprovenBehind(job, step).length > 0 ? 'not_ready' : 'ready'
}

/** The entry a place has for a measurement, if one stands. */
export function standingMeasurement(
  state: StepState,
  measurementId: string,
  place: string,
): MeasurementEntry | undefined {
  return state.measurements.findLast(
    (entry) => entry.measurementId === measurementId && entry.place === place && stands(entry),
  )
}
