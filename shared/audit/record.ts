/**
 * The record: every fastener of a job, pass by pass, with what was asked, what was reached, by whom, with
 * which wrench, and whose signatures stand on it. The same questions for the lists are in `awaiting.ts`.
 *
 * Pure views of the fold, in the plan's order; nothing is stored and nothing is left out: a struck or
 * superseded reading stands under `earlier`, where it was taken.
 */
import type { FastenerFault } from '../job/fastener-faults'
import type { FastenerState, Job, PlannedJob, Reading, SetState, Signature } from '../job/types'
import {
  bandFor,
  deferredPositions,
  fastenerFault,
  fastenerNow,
  hiddenBy,
  inTheWay,
  positionState,
  type SetView,
  setsCovering,
  setView,
  setViews,
  standingReading,
  takesReading,
} from '../job/verdicts'
import { ofStep } from '../job/verdicts/memory'
import { JOINT_CLASSES, type JointClass } from '../plan/kinds'
import { indexPlan, signatureSets } from '../plan/read'
import type { AdoptedJoint, AdoptedStep, Band, Pass } from '../plan/types'

/**
 * `flagged` goes before `open`: what is odd wants a decision, what is open only wants work. `flagged` is also a wrong
 * fastener in the place. `accepted`: a supervisor waived what it lacks; not proven.
 */
export type RecordVerdict = 'open' | 'flagged' | 'final' | 'accepted' | 'proven'
export const RECORD_VERDICTS: readonly RecordVerdict[] = ['open', 'flagged', 'final', 'accepted', 'proven']

/** One fastener. */
export interface RecordLine {
  stepId: string
  stepTitle: string
  stage: string
  joint: string
  jointTitle: string
  class: JointClass
  /** The joint whose fasteners this one looks at again; they are counted there. */
  recheckOf?: string
  position: number
  /** Where the trade names the position. */
  label?: string
  /** The signature set it belongs to. */
  set: string
  setTitle: string
  passes: RecordPass[]
  first?: Signature
  second?: SetState['second']
  secondAsked: boolean
  /** What is known of the fastener there, and what stands against it. */
  fastener?: FastenerState
  fault?: FastenerFault
  /** Left out on purpose, due at this step. */
  dueAt?: string
  /** A step begun covers it. */
  hidden: boolean
  verdict: RecordVerdict
}

export interface RecordPass {
  /** 1 for the first. */
  pass: number
  /** Kind and nominal, as the plan asks. */
  asked: Pass
  /** Frozen when the plan was adopted, or settled since; `null` where nothing is judged. */
  band: Band | null
  /** A wait is over by the clock alone and takes no reading. */
  state: 'reached' | 'open' | 'by_clock'
  /** What the pass is reached by: torque or angle, as read, wrench and its last check then, by, doneAt, flags. */
  reading?: Reading
  /** Everything else recorded for it, oldest first: struck, superseded, a taking back, or not what was asked. */
  earlier: Reading[]
}

export const record = (job: Job): RecordLine[] =>
  job.plan?.steps.flatMap((step) => linesOf(job as PlannedJob, step)) ?? []

/** A step's, the same objects while nothing they show has changed. */
function linesOf(job: PlannedJob, step: AdoptedStep): readonly RecordLine[] {
  const kept = ofStep(job, step, 'record', (): { lines?: readonly RecordLine[]; by: unknown[] } => ({
    by: [],
  }))
  const by = elsewhere(job, step)
  if (!kept.lines || by.length !== kept.by.length || by.some((one, at) => one !== kept.by[at])) {
    kept.lines = reckonLines(job, step)
    kept.by = by
  }
  return kept.lines
}

/** What they show beside their own step: the covers over it, and the sets of those it left fasteners to. */
function elsewhere(job: PlannedJob, step: AdoptedStep): unknown[] {
  const { hiddenBy, stepById } = indexPlan(job.plan)
  return step.joints.flatMap(({ id }) => {
    const covers = (hiddenBy.get(id) ?? []).map(({ stepId }) => {
      const cover = stepById.get(stepId)
      return cover !== undefined && inTheWay(job, cover)
    })
    const due = new Set([...deferredPositions(job, id).values()].map(({ dueStepId }) => dueStepId))
    return [
      ...covers,
      ...[...due].flatMap((dueId) => {
        const dueStep = stepById.get(dueId)
        return dueStep ? setViews(job, dueStep) : []
      }),
    ]
  })
}

function reckonLines(job: PlannedJob, step: AdoptedStep): RecordLine[] {
  const lines = signatureSets(step).flatMap((set) => {
    const own = setView(job, step, set)
    return set.covers.flatMap(({ joint: jointId, positions }) => {
      const joint = step.joints.find(({ id }) => id === jointId)
      return joint ? positions.map((n) => line(job, step, joint, n, own)) : []
    })
  })
  return lines.sort(byPlan(step))
}

function line(job: PlannedJob, step: AdoptedStep, joint: AdoptedJoint, n: number, own: SetView): RecordLine {
  const dueAt = deferredPositions(job, joint.id).get(n)?.dueStepId
  const [due] = dueAt === undefined ? [] : setsCovering(job, { joint: joint.id, positions: [n] })
  // Left out, its signatures stand where it is due.
  const view = due ? setView(job, due.step, due.set) : own
  const label = joint.positions.find((position) => position.n === n)?.label
  const { first, second } = view.state
  const { flags, nextPass } = positionState(job, joint, n)
  const fastener = fastenerNow(job, joint, n)
  const fault = fastenerFault(job, joint, n)
  const odd = flags.length > 0 || (fault !== undefined && nextPass === undefined)
  const verdict: RecordVerdict = odd
    ? 'flagged'
    : nextPass !== undefined
      ? 'open'
      : view.proven
        ? 'proven'
        : view.accepted
          ? 'accepted'
          : 'final'
  return {
    stepId: step.id,
    stepTitle: step.title,
    stage: step.stage,
    joint: joint.id,
    jointTitle: joint.title,
    class: joint.class,
    ...(joint.recheckOf === undefined ? {} : { recheckOf: joint.recheckOf }),
    position: n,
    ...(label === undefined ? {} : { label }),
    set: own.set.id,
    setTitle: own.set.title,
    passes: joint.passes.map((_, index) => passLine(job, joint, n, index + 1)),
    ...(first ? { first } : {}),
    ...(second ? { second } : {}),
    secondAsked: view.asks === 2,
    ...(fastener ? { fastener } : {}),
    ...(fault ? { fault } : {}),
    ...(dueAt === undefined ? {} : { dueAt }),
    hidden: hiddenBy(job, joint.id, [n]).length > 0,
    verdict,
  }
}

function passLine(job: PlannedJob, joint: AdoptedJoint, position: number, pass: number): RecordPass {
  const reading = standingReading(job, joint, position, pass)
  const taken = (job.readings[joint.id] ?? []).filter((r) => r.position === position && r.pass === pass)
  return {
    pass,
    asked: joint.passes[pass - 1] as Pass,
    band: bandFor(job, joint, pass),
    state: !takesReading(joint, pass) ? 'by_clock' : reading ? 'reached' : 'open',
    ...(reading ? { reading } : {}),
    earlier: taken.filter((other) => other !== reading),
  }
}

/** Joints as the plan lists them, positions by number; sets only group what is signed. */
function byPlan(step: AdoptedStep): (a: RecordLine, b: RecordLine) => number {
  const at = new Map(step.joints.map(({ id }, index) => [id, index]))
  return (a, b) => (at.get(a.joint) ?? 0) - (at.get(b.joint) ?? 0) || a.position - b.position
}

/** Each field narrows; an absent one asks nothing. */
export interface RecordFilter {
  /** Took a reading on it, also a struck one, or signed for it. */
  person?: string
  /** Was on it in any pass, also in a reading since struck or superseded. */
  wrench?: string
  verdict?: RecordVerdict
  stage?: string
  joint?: string
}

export function filterRecord(lines: readonly RecordLine[], filter: RecordFilter): RecordLine[] {
  const { person, wrench, verdict, stage, joint } = filter
  return lines.filter(
    (recordLine) =>
      (verdict === undefined || recordLine.verdict === verdict) &&
      (stage === undefined || recordLine.stage === stage) &&
      (joint === undefined || recordLine.joint === joint) &&
      (wrench === undefined || readingsOf(recordLine).some((reading) => reading.wrenchId === wrench)) &&
      (person === undefined ||
        recordLine.first?.by === person ||
        recordLine.second?.by === person ||
        readingsOf(recordLine).some((reading) => reading.by === person)),
  )
}

/** Every reading of a fastener, pass by pass, struck and superseded ones too. */
export const readingsOf = ({ passes }: RecordLine): Reading[] =>
  passes.flatMap(({ reading, earlier }) => (reading ? [...earlier, reading] : earlier))

export type Completeness = Record<JointClass, Record<RecordVerdict, number> & { fasteners: number }>

/** How many fasteners stand where, by class. A re-check looks again at some that are counted already. */
export function completeness(job: Job): Completeness {
  const lines = record(job).filter(({ recheckOf }) => recheckOf === undefined)
  const ofClass = (cls: JointClass) => {
    const some = lines.filter((recordLine) => recordLine.class === cls)
    const count = (verdict: RecordVerdict) =>
      some.filter((recordLine) => recordLine.verdict === verdict).length
    return {
      fasteners: some.length,
      open: count('open'),
      flagged: count('flagged'),
      final: count('final'),
      accepted: count('accepted'),
      proven: count('proven'),
    }
  }
  return Object.fromEntries(JOINT_CLASSES.map((cls) => [cls, ofClass(cls)])) as Completeness
}
