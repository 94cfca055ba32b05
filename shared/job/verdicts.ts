/**
 * What a job's record amounts to: open, final, proven, ready, hidden. Pure views of the fold, never
 * stored, so that a rule that changes changes every verdict at once.
 *
 * Words as in GLOSSARY.md: a position is *final* when all its passes are reached without a standing flag, and
 * *proven* when every signature its set asks for stands as well. A waiver makes something *accepted*,
 * never proven.
 */
import { inBand } from '../plan/adopt'
import { indexPlan, roundOf, type SignatureSetView, STEP_SET, signatureSets } from '../plan/read'
import type { AdoptedJoint, AdoptedStep, Band, Fasteners } from '../plan/types'
import type { PlannedJob } from './context'
import type {
  Deferral,
  FastenerFlag,
  Flag,
  Job,
  MeasurementEntry,
  Reading,
  SetState,
  StepState,
  Waived,
} from './types'

const NOTHING: StepState = { sets: {}, measurements: [], gates: {}, sealant: [], touchedAt: 0 }

export const stepState = (job: PlannedJob, stepId: string): StepState => job.steps[stepId] ?? NOTHING

/** Neither struck nor superseded. */
export const stands = (entry: { struck?: unknown; superseded?: unknown }): boolean =>
  !entry.struck && !entry.superseded

/** The band a pass is judged by: a settled value's where none is published, else the one frozen at adoption. */
export const bandFor = (job: PlannedJob, joint: AdoptedJoint, pass: number): Band | null =>
  job.settled[joint.id]?.[pass]?.band ?? joint.bands[pass - 1] ?? null

/** What a torque pass asks, with a settled value where none is published. */
export function askedNm(job: PlannedJob, joint: AdoptedJoint, pass: number): number | null {
  const asked = joint.passes[pass - 1]
  return asked?.kind === 'torque' ? (asked.torqueNm ?? job.settled[joint.id]?.[pass]?.torqueNm ?? null) : null
}

export const isWaived = (job: Job, what: Waived): boolean =>
  job.waivers.some(({ what: waived }) => {
    const entries = Object.entries(what)
    return entries.every(([key, value]) => (waived as Record<string, unknown>)[key] === value)
  })

/** Whether a reading is one its pass is reached by; a slackening reaches only a slacken pass. */
function reaches(joint: AdoptedJoint, reading: Reading): boolean {
  return (joint.passes[reading.pass - 1]?.kind === 'slacken') === (reading.how === 'slackened')
}

/** The flags of a reading that still stand: none when waived, and re-judged once its value is settled. */
export function standingFlags(job: Job, reading: Reading): readonly Flag[] {
  const { flags } = reading
  if (flags.length === 0) return flags
  if (isWaived(job, { kind: 'reading', readingId: reading.id })) return []
  const settled = job.settled[reading.jointId]?.[reading.pass]
  if (!settled || !flags.includes('no_published_value')) return flags
  const others = flags.filter((flag) => flag !== 'no_published_value')
  return reading.torqueNm !== undefined && inBand(reading.torqueNm, settled.band)
    ? others
    : [...others, 'out_of_band']
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

/**
 * The readings of a joint whose flags stand: also one that reaches no pass (a click where a wait or a
 * slackening was asked). Taking a fastener back is right at any time and stands against nothing.
 */
export function flaggedOn(job: Job, joint: AdoptedJoint): Reading[] {
  const takesBack = ({ how, pass }: Reading) =>
    how === 'slackened' && joint.passes[pass - 1]?.kind !== 'slacken'
  return (job.readings[joint.id] ?? []).filter(
    (reading) =>
      reading.flags.length > 0 &&
      stands(reading) &&
      !takesBack(reading) &&
      standingFlags(job, reading).length > 0,
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
  const flags = [...new Set(standing.flatMap((reading) => standingFlags(job, reading)))]
  return { reached, nextPass, flags, final: nextPass === undefined && flags.length === 0 }
}

export type FastenerFault = FastenerFlag | 'not_declared' | 'temporary' | 'hand_tight' | 'removed'

/**
 * What stands against the fastener itself: a slave bolt, one taken out, one fitted twice; and, where the
 * joint is one-use or counts cycles, one whose history nobody has declared.
 */
export function fastenerFault(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
): FastenerFault | undefined {
  if (isWaived(job, { kind: 'fastener', jointId: joint.id, position })) return undefined
  const state = job.fasteners[joint.id]?.[position]
  if (!state) return joint.use.kind === 'reusable' || joint.recheckOf ? undefined : 'not_declared'
  const { condition, flags } = state
  if (condition === 'temporary' || condition === 'removed') return condition
  // Hand-tight and final look the same: only a reading after it says that it is more.
  if (condition === 'hand_tight')
    return job.readings[joint.id]?.some(
      (r) => r.position === position && stands(r) && r.doneAt >= state.doneAt,
    )
      ? undefined
      : 'hand_tight'
  return flags[0]
}

/** Deferrals not withdrawn. */
export const deferralsOf = (job: PlannedJob): Deferral[] =>
  job.deferrals.filter((deferral) => !deferral.withdrawn)

/** Positions of a joint left out on purpose, and where they are due. */
export function deferredPositions(job: PlannedJob, jointId: string): Map<number, Deferral> {
  const positions = new Map<number, Deferral>()
  for (const deferral of deferralsOf(job))
    if (deferral.what.kind === 'fasteners' && deferral.what.joint === jointId)
      for (const position of deferral.what.positions) positions.set(position, deferral)
  return positions
}

/**
 * What a set covers in this job: the plan's positions without those deferred elsewhere, and, for the last set of
 * a step, whatever is due there.
 */
export function coversOf(
  job: PlannedJob,
  step: AdoptedStep,
  set: SignatureSetView,
): SignatureSetView['covers'] {
  const deferrals = deferralsOf(job)
  if (deferrals.length === 0) return set.covers
  const own = set.covers.map(({ joint, positions }) => {
    const away = deferredPositions(job, joint)
    return { joint, positions: positions.filter((n) => !away.has(n)) }
  })
  if (signatureSets(step).at(-1)?.id !== set.id) return own
  const due = deferrals.flatMap(({ what, dueStepId }) =>
    what.kind === 'fasteners' && dueStepId === step.id
      ? [{ joint: what.joint, positions: what.positions }]
      : [],
  )
  return [...own, ...due]
}

/** The step whose signature answers for a position: its own, or the one it was deferred to. */
export function answeringStep(job: PlannedJob, jointId: string, position: number): AdoptedStep | undefined {
  const { stepById, stepOfJoint } = indexPlan(job.plan)
  const deferral = deferredPositions(job, jointId).get(position)
  return deferral ? stepById.get(deferral.dueStepId) : stepOfJoint.get(jointId)
}

/** The round a position belongs to in a pass, without deferred ones, and which position of it comes next. */
export function nextInRound(
  job: PlannedJob,
  step: AdoptedStep,
  joint: AdoptedJoint,
  position: number,
  pass: number,
) {
  const { positions: all, ordered } = roundOf(step, joint.id, position)
  const away = deferredPositions(job, joint.id)
  const positions = away.has(position) ? [position] : all.filter((n) => !away.has(n))
  const next = positions.find((n) => !standingReading(job, joint, n, pass))
  return { positions, ordered, next }
}

export interface SetView {
  set: SignatureSetView
  covers: SignatureSetView['covers']
  state: SetState
  /** Positions with passes to go. */
  open: { joint: string; position: number; nextPass: number }[]
  /** Positions whose readings carry a flag. */
  flagged: { joint: string; position: number; flags: Flag[] }[]
  /** Positions whose fastener itself is not right. */
  faulty: { joint: string; position: number; fault: FastenerFault }[]
  /** Every position final, with a right fastener in it. */
  final: boolean
  /** Final, and every signature it asks for stands. */
  proven: boolean
  /** Proven, or its missing second signature waived: accepted, not proven. */
  accepted: boolean
}

/** One signature set of a step, as it stands. */
export function setView(job: PlannedJob, step: AdoptedStep, set: SignatureSetView): SetView {
  const { jointById } = indexPlan(job.plan)
  const covers = coversOf(job, step, set)
  const open: SetView['open'] = []
  const flagged: SetView['flagged'] = []
  const faulty: SetView['faulty'] = []
  for (const { joint: jointId, positions } of covers) {
    const joint = jointById.get(jointId)
    if (!joint) continue
    for (const position of positions) {
      const { nextPass, flags } = positionState(job, joint, position)
      if (nextPass !== undefined) open.push({ joint: jointId, position, nextPass })
      if (flags.length > 0) flagged.push({ joint: jointId, position, flags })
      const fault = fastenerFault(job, joint, position)
      if (fault) faulty.push({ joint: jointId, position, fault })
    }
  }
  const state = stepState(job, step.id).sets[set.id] ?? {}
  const final = open.length === 0 && flagged.length === 0 && faulty.length === 0
  const proven = final && state.first !== undefined && (step.signatures === 1 || state.second !== undefined)
  const waived =
    state.first !== undefined && isWaived(job, { kind: 'second', stepId: step.id, setId: set.id })
  return { set, covers, state, open, flagged, faulty, final, proven, accepted: proven || (final && waived) }
}

export const setViews = (job: PlannedJob, step: AdoptedStep): SetView[] =>
  signatureSets(step).map((set) => setView(job, step, set))

/** Every set carries its doer's signature: what a *need* asks for. A step deferred as a whole meets it too. */
export function isSigned(job: PlannedJob, step: AdoptedStep): boolean {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).every((set) => sets[set.id]?.first !== undefined) || isDeferredStep(job, step.id)
}

export const isDeferredStep = (job: PlannedJob, stepId: string): boolean =>
  deferralsOf(job).some(({ what }) => what.kind === 'step' && what.stepId === stepId)

/** Every set carries every signature it asks for, or its missing second one is waived. */
export function isDone(job: PlannedJob, step: AdoptedStep): boolean {
  const { sets } = stepState(job, step.id)
  return signatureSets(step).every(
    ({ id }) =>
      sets[id]?.first !== undefined &&
      (step.signatures === 1 ||
        sets[id]?.second !== undefined ||
        isWaived(job, { kind: 'second', stepId: step.id, setId: id })),
  )
}

/** Something has happened at the bench in this step: from here on what it hides is out of reach. */
export function hasBegun(job: PlannedJob, step: AdoptedStep): boolean {
  const state = stepState(job, step.id)
  return (
    state.measurements.length > 0 ||
    state.sealant.length > 0 ||
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

/** The sets that cover any of these fasteners, wherever they were deferred to. */
export function setsCovering(job: PlannedJob, fasteners: Fasteners): { step: AdoptedStep; view: SetView }[] {
  const { jointById } = indexPlan(job.plan)
  const positions = fasteners.positions ?? jointById.get(fasteners.joint)?.positions.map(({ n }) => n) ?? []
  const steps = new Set(positions.map((position) => answeringStep(job, fasteners.joint, position)))
  return [...steps]
    .filter((step): step is AdoptedStep => step !== undefined)
    .flatMap((step) => setViews(job, step).map((view) => ({ step, view })))
    .filter(({ view }) =>
      view.covers.some(
        (cover) => cover.joint === fasteners.joint && cover.positions.some((n) => positions.includes(n)),
      ),
    )
}

export const isProven = (job: PlannedJob, fasteners: Fasteners): boolean =>
  setsCovering(job, fasteners).every(({ view }) => view.proven)

/** Joints of these classes that a step would hide and that are neither proven nor accepted. */
export function unprovenBehind(
  job: PlannedJob,
  step: AdoptedStep,
  classes: readonly string[] = ['A'],
): Fasteners[] {
  const { jointById } = indexPlan(job.plan)
  return step.hides.filter(
    (hidden) =>
      classes.includes(jointById.get(hidden.joint)?.class ?? '') &&
      !setsCovering(job, withoutDeferred(job, hidden)).every(({ view }) => view.accepted),
  )
}

/** A fastener left out on purpose is not hidden by what covers the place it will stand in later. */
function withoutDeferred(job: PlannedJob, fasteners: Fasteners): Fasteners {
  const away = deferredPositions(job, fasteners.joint)
  if (away.size === 0) return fasteners
  const positions =
    fasteners.positions ??
    indexPlan(job.plan)
      .jointById.get(fasteners.joint)
      ?.positions.map(({ n }) => n)
  return { joint: fasteners.joint, positions: (positions ?? []).filter((n) => !away.has(n)) }
}

/** Steps named in `needs` that their doer has not signed. */
export function openNeeds(job: PlannedJob, step: AdoptedStep): AdoptedStep[] {
  const { stepById } = indexPlan(job.plan)
  return step.needs
    .map((id) => stepById.get(id))
    .filter((need): need is AdoptedStep => need !== undefined && !isSigned(job, need))
}

/** Holds on a step that nobody has cleared. */
export const openHolds = (job: PlannedJob, stepId: string) =>
  job.holds.filter((hold) => !hold.cleared && hold.stepIds.includes(stepId))

export type StepStanding =
  | 'not_ready'
  | 'on_hold'
  | 'deferred'
  | 'ready'
  | 'in_work'
  | 'stopped'
  | 'awaiting_second'
  | 'done'

/** Where a step stands, for anybody, clocks aside; who and when is asked of `decide`. */
export function standingOf(job: PlannedJob, step: AdoptedStep): StepStanding {
  if (isDone(job, step)) return 'done'
  const state = stepState(job, step.id)
  if (openHolds(job, step.id).length > 0) return 'on_hold'
  if (state.claim) return 'in_work'
  if (isDeferredStep(job, step.id)) return 'deferred'
  if (isSigned(job, step)) return 'awaiting_second'
  if (
    openNeeds(job, step).length > 0 ||
    (unprovenBehind(job, step).length > 0 && !isWaived(job, { kind: 'hiding', stepId: step.id }))
  )
    return 'not_ready'
  return state.stopped ? 'stopped' : 'ready'
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

/** The step's own set, or its last one. */
export const lastSetId = (step: AdoptedStep): string => signatureSets(step).at(-1)?.id ?? STEP_SET
