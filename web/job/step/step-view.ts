/**
 * One step of the plan as the engine page shows it: where it stands, who signed, what is measured, what hides it.
 *
 * Pure views of the fold, with ids instead of names; `step-words.ts` puts them into sentences.
 */
import type { MeasurementEntry, PlannedJob, SetState, Signature } from '../../../shared/job/types'
import {
  hasBegun,
  inTheWay,
  leadsNow,
  offLimits,
  openNeeds,
  positionState,
  type SetView,
  type StepStanding,
  setViews,
  standingMeasurement,
  standingOf,
  standingReading,
  stepState,
  takesReading,
  unprovenBehind,
  waitsForCure,
} from '../../../shared/job/verdicts'
import type { Instant } from '../../../shared/log'
import { ledWords } from '../../../shared/measure'
import type { JointClass, ReleaseKind } from '../../../shared/plan/kinds'
import { indexPlan, positionsOf, setOf, stepClass } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep, Gate, Measurement } from '../../../shared/plan/types'
import { format } from '../../format'

/** Some fasteners of a joint, by the names people use. */
export interface NamedFasteners {
  joint: string
  title: string
  /** Absent: all of them. */
  positions?: readonly number[]
}

export interface Behind extends NamedFasteners {
  stepId: string
  /** The step that hides, or is hidden, has begun: the cover is on. */
  covered: boolean
}

export interface JointView {
  joint: AdoptedJoint
  count: number
  /** How many have every pass in band and no flag. */
  final: number
  proven: number
  flagged: number
  /** How many have at least one reading that stands. */
  begun: number
}

export interface MeasurementView {
  measurement: Measurement
  places: { place: string; entry?: MeasurementEntry }[]
  /** What the numbers lead to: which gasket, which shim. */
  leads: { words: string; against: boolean }[]
}

export interface GateView {
  gate: Gate
  /** How it is answered: by hand, or reckoned from the record by rules outside this page. */
  answer?: { by: string; doneAt: number; count?: number }
}

/** One dab of paint: who signed, who looked. Several sets signed by the same two make one. */
export interface SignerPair {
  first: Signature
  second?: SetState['second']
  /** Titles of the named sets it covers; empty for a step signed whole. */
  sets: string[]
}

export interface StepView {
  step: AdoptedStep
  class: JointClass
  /** Class A, or signed twice. */
  critical: boolean
  standing: StepStanding
  begun: boolean
  claim?: { by: string; doneAt: number }
  needs: { id: string; title: string }[]
  /** Class A joints it would hide that are not proven. */
  unproven: NamedFasteners[]
  sets: SetView[]
  signers: SignerPair[]
  joints: JointView[]
  measurements: MeasurementView[]
  gates: GateView[]
  hides: Behind[]
  hiddenBy: Behind[]
  flagged: number
  /** Measurements out of limits and wrong counts. */
  off: number
  /** Nothing but a cure keeps it, until then. */
  curesAt?: Instant
}

export function stepView(job: PlannedJob, step: AdoptedStep, now?: Instant): StepView {
  const curesAt = now === undefined ? undefined : waitsForCure(job, step, now)
  const state = stepState(job, step.id)
  const cls = stepClass(step)
  const sets = setViews(job, step)
  const joints = step.joints.map((joint) => jointView(job, step, joint, sets))
  return {
    step,
    class: cls,
    critical: cls === 'A' || step.signatures === 2,
    standing: standingOf(job, step, now),
    off: offLimits(job, step).length,
    ...(curesAt === undefined ? {} : { curesAt }),
    begun: hasBegun(job, step),
    ...(state.claim ? { claim: state.claim } : {}),
    needs: openNeeds(job, step).map(({ id, title }) => ({ id, title })),
    unproven: unprovenBehind(job, step).map((hidden) => named(job, hidden)),
    sets,
    signers: signersOf(sets),
    joints,
    measurements: step.measurements.map((measurement) => ({
      measurement,
      places: measurement.places.map((place) => {
        const entry = standingMeasurement(state, measurement.id, place)
        return entry ? { place, entry } : { place }
      }),
      leads: ledWords(leadsNow(state, measurement, format)),
    })),
    gates: step.gates.map((gate) => {
      const answer = state.gates[gate.id]
      return answer ? { gate, answer } : { gate }
    }),
    hides: hides(job, step),
    hiddenBy: hiders(job, step),
    flagged: joints.reduce((sum, { flagged }) => sum + flagged, 0),
  }
}

function jointView(job: PlannedJob, step: AdoptedStep, joint: AdoptedJoint, sets: SetView[]): JointView {
  const view: JointView = { joint, count: joint.positions.length, final: 0, proven: 0, flagged: 0, begun: 0 }
  const passes = joint.passes.map((_, index) => index + 1).filter((pass) => takesReading(joint, pass))
  for (const { n } of joint.positions) {
    const { final, flags } = positionState(job, joint, n)
    const set = setOf(step, joint.id, n)
    if (final) view.final++
    if (final && sets.find((view) => view.set.id === set?.id)?.proven) view.proven++
    if (flags.length > 0) view.flagged++
    if (passes.some((pass) => standingReading(job, joint, n, pass))) view.begun++
  }
  return view
}

/** Signatures that stand, in the order of the sets; equal pairs are drawn once. */
export function signersOf(sets: readonly SetView[]): SignerPair[] {
  const pairs: SignerPair[] = []
  for (const { set, state } of sets) {
    const { first, second } = state
    if (!first) continue
    const same = pairs.find((pair) => pair.first.by === first.by && pair.second?.by === second?.by)
    const title = set.remainder ? [] : [set.title]
    if (same) {
      same.sets.push(...title)
      if (first.doneAt > same.first.doneAt) same.first = first
      if (second && same.second && second.doneAt > same.second.doneAt)
        same.second = { ...second, ...(same.second.late || second.late ? { late: true as const } : {}) }
    } else pairs.push({ first, ...(second ? { second } : {}), sets: title })
  }
  return pairs
}

function named(job: PlannedJob, fasteners: { joint: string; positions?: readonly number[] }): NamedFasteners {
  const joint = indexPlan(job.plan).jointById.get(fasteners.joint)
  const positions = fasteners.positions
  const all = joint && positions && positions.length === joint.positions.length
  return {
    joint: fasteners.joint,
    title: joint?.title ?? fasteners.joint,
    ...(positions && !all ? { positions } : {}),
  }
}

function hides(job: PlannedJob, step: AdoptedStep): Behind[] {
  const { stepOfJoint } = indexPlan(job.plan)
  const covered = inTheWay(job, step)
  return step.hides.map((hidden) => ({
    ...named(job, hidden),
    stepId: stepOfJoint.get(hidden.joint)?.id ?? '',
    covered,
  }))
}

/** Later steps that hide fasteners of this one. */
function hiders(job: PlannedJob, step: AdoptedStep): Behind[] {
  const { hiddenBy, stepById } = indexPlan(job.plan)
  return step.joints.flatMap((joint) =>
    (hiddenBy.get(joint.id) ?? []).map(({ stepId, positions }) => {
      const hider = stepById.get(stepId)
      return {
        ...named(job, {
          joint: joint.id,
          positions: positionsOf({ joint: joint.id, positions: [...positions] }, joint),
        }),
        stepId,
        covered: hider !== undefined && inTheWay(job, hider),
      }
    }),
  )
}

export interface StageView {
  id: string
  title: string
  releases?: ReleaseKind
  steps: AdoptedStep[]
}

/** The plan's stages with their steps, in the plan's order; a stage without steps is left out. */
export function stagesOf(plan: PlannedJob['plan']): StageView[] {
  return plan.stages
    .map((stage) => ({ ...stage, steps: plan.steps.filter((step) => step.stage === stage.id) }))
    .filter(({ steps }) => steps.length > 0)
}

export interface Progress {
  steps: number
  done: number
  /** Signed by the doer, a second signature still owed. */
  awaiting: number
  inWork: number
  ready: number
  minutesLeft: number
}

export function progressOf(job: PlannedJob, steps: readonly AdoptedStep[], now?: Instant): Progress {
  const progress: Progress = {
    steps: steps.length,
    done: 0,
    awaiting: 0,
    inWork: 0,
    ready: 0,
    minutesLeft: 0,
  }
  for (const step of steps) {
    const standing = standingOf(job, step, now)
    if (standing === 'done') progress.done++
    else if (standing === 'awaiting_second') progress.awaiting++
    else {
      if (standing === 'in_work') progress.inWork++
      if (standing === 'ready') progress.ready++
      progress.minutesLeft += step.minutes.likely
    }
  }
  return progress
}
