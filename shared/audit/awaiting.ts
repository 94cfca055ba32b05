/**
 * What wants the supervisor: signatures before they get hidden, flags that stand, values nobody published,
 * numbers that may be in the wrong unit.
 *
 * Pure views of the fold. Each list comes most urgent first, or in the plan's order where nothing is urgent.
 */
import type { Flag } from '../job/kinds'
import type { Job, PlannedJob, Reading, ScaleEntry, SettledValue, Signature } from '../job/types'
import {
  hiddenBy,
  inPlaceBefore,
  inTheWay,
  needMet,
  oddOn,
  type SetView,
  setViews,
  standingFlags,
  stands,
} from '../job/verdicts'
import type { JointClass } from '../plan/kinds'
import { indexPlan } from '../plan/read'
import type { AdoptedJoint, AdoptedStep, Fasteners } from '../plan/types'

export interface StepName {
  id: string
  title: string
}

/** A signature set that lacks a word. */
export interface SetAwaiting {
  step: StepName
  set: string
  setTitle: string
  covers: { joint: string; title: string; class: JointClass; positions: readonly number[] }[]
  /** `work`: covered by a later step although passes are to go or flags stand. */
  awaits: 'work' | 'first' | 'second'
  /** The doer's signature, where the second is awaited. */
  first?: Signature
  /** Steps begun that cover it already. */
  hiddenBy: StepName[]
  /** The step that would cover it soonest, and how many steps must still be signed before that one can be claimed. */
  hiddenNextBy?: StepName & { stepsBefore: number }
}

/**
 * Sets that wait for a signature: those already covered first, then those that would be covered soonest, then
 * those that nothing covers, the longest waiting first.
 *
 * A set whose fasteners still have work to do is listed only once something covers it.
 */
export function signBeforeHidden(job: Job): SetAwaiting[] {
  const { plan } = job
  if (!plan) return []
  const planned = job as PlannedJob
  return plan.steps
    .flatMap((step) => setViews(planned, step).flatMap((view) => awaiting(planned, step, view) ?? []))
    .sort(
      (a, b) => urgency(a) - urgency(b) || (a.first?.doneAt ?? Infinity) - (b.first?.doneAt ?? Infinity) || 0,
    )
}

function awaiting(job: PlannedJob, step: AdoptedStep, view: SetView): SetAwaiting | undefined {
  const { set, state, covers } = view
  const signed = state.first !== undefined && (view.asks === 1 || state.second !== undefined)
  if (signed || view.accepted) return undefined
  const covering = hiders(job, view)
  const already = covering.filter((hider) => inTheWay(job, hider))
  const awaits = state.first ? 'second' : view.final ? 'first' : 'work'
  if (awaits === 'work' && already.length === 0) return undefined
  // A set without fasteners (counts, looks, measurements) is the doer's to sign; nobody waits to look at it.
  if (awaits === 'first' && covers.length === 0) return undefined
  const next = covering
    .filter((hider) => !already.includes(hider))
    .map(({ id, title }) => ({ id, title, stepsBefore: stepsBefore(job, id, step.id) }))
    .sort((a, b) => a.stepsBefore - b.stepsBefore)[0]
  return {
    step: nameOf(step),
    set: set.id,
    setTitle: set.title,
    covers: covers.map(({ joint: id, positions }) => {
      const joint = indexPlan(job.plan).jointById.get(id)
      return { joint: id, title: joint?.title ?? id, class: joint?.class ?? 'C', positions }
    }),
    awaits,
    ...(state.first ? { first: state.first } : {}),
    hiddenBy: already.map(nameOf),
    ...(next ? { hiddenNextBy: next } : {}),
  }
}

const urgency = ({ hiddenBy, hiddenNextBy }: SetAwaiting): number =>
  hiddenBy.length > 0 ? -1 : (hiddenNextBy?.stepsBefore ?? Number.MAX_SAFE_INTEGER)

const nameOf = ({ id, title }: StepName): StepName => ({ id, title })

/** Steps that cover any position of the set, begun or not, in the plan's order. */
function hiders(job: PlannedJob, { covers }: SetView): AdoptedStep[] {
  const index = indexPlan(job.plan)
  const ids = new Set(
    covers.flatMap((cover) =>
      (index.hiddenBy.get(cover.joint) ?? [])
        .filter((hider) => {
          const step = index.stepById.get(hider.stepId)
          const inPlace = step ? inPlaceBefore(job, cover as Fasteners, step).positions : []
          return hider.positions.some((n) => inPlace.includes(n))
        })
        .map(({ stepId }) => stepId),
    ),
  )
  return job.plan.steps.filter(({ id }) => ids.has(id))
}

/** Steps not signed yet that must be before `stepId` can be claimed, leaving out the one that waits. */
function stepsBefore(job: PlannedJob, stepId: string, waiting: string): number {
  const { stepById } = indexPlan(job.plan)
  const before = new Set<string>()
  const look = (id: string): void => {
    for (const need of stepById.get(id)?.needs ?? []) {
      const step = stepById.get(need)
      if (!step || before.has(need) || needMet(job, step)) continue
      before.add(need)
      look(need)
    }
  }
  look(stepId)
  before.delete(waiting)
  return before.size
}

/** Where in the plan a fact belongs. */
export interface PlaceInPlan {
  step: StepName
  joint: string
  jointTitle: string
  class: JointClass
}

const placeOf = (step: AdoptedStep, joint: AdoptedJoint): PlaceInPlan => ({
  step: nameOf(step),
  joint: joint.id,
  jointTitle: joint.title,
  class: joint.class,
})

const joints = (job: Job): [AdoptedStep, AdoptedJoint][] =>
  job.plan?.steps.flatMap((step) => step.joints.map((joint): [AdoptedStep, AdoptedJoint] => [step, joint])) ??
  []

/** Readings whose flags stand, in the plan's order, then as they were recorded. */
export function flaggedReadings(
  job: Job,
): (PlaceInPlan & { reading: Reading; flags: readonly Flag[]; hidden: boolean })[] {
  const planned = job as PlannedJob
  return (
    job.plan?.steps.flatMap((step) =>
      oddOn(planned, step).flagged.map(({ joint, reading }) => ({
        ...placeOf(step, joint),
        reading,
        flags: standingFlags(job, reading),
        hidden: hiddenBy(planned, joint.id, [reading.position]).length > 0,
      })),
    ) ?? []
  )
}

/** Torque passes for which nobody published a value: nothing there can be proven until one is settled, as it then says. */
export function unpublished(
  job: Job,
): (PlaceInPlan & { pass: number; positions: number[]; recorded: number; settled?: SettledValue })[] {
  return joints(job).flatMap(([step, joint]) =>
    joint.passes.flatMap((passAsked, index) => {
      if (passAsked.kind !== 'torque' || passAsked.torqueNm !== null) return []
      const pass = index + 1
      const settled = job.settled[joint.id]?.[pass]
      const recorded = (job.readings[joint.id] ?? []).filter(
        (reading) => reading.pass === pass && stands(reading),
      )
      return [
        {
          ...placeOf(step, joint),
          pass,
          positions: joint.positions.map(({ n }) => n),
          recorded: new Set(recorded.map(({ position }) => position)).size,
          ...(settled ? { settled } : {}),
        },
      ]
    }),
  )
}

/** A number that fits only in another unit. `stands`: still on the wrench, or neither struck nor superseded. */
export type UnitSlipLine = PlaceInPlan & { stands: boolean } & (
    | { kind: 'scale'; entry: ScaleEntry }
    | { kind: 'reading'; entry: Reading }
  )

/** Scale entries and readings held up, those that stand first, each in the order they were recorded. */
export function unitSlips(job: Job): UnitSlipLine[] {
  const places = new Map(joints(job).map(([step, joint]) => [joint.id, placeOf(step, joint)]))
  const at = <T extends { jointId: string }>(entry: T): PlaceInPlan[] => {
    const place = places.get(entry.jointId)
    return place ? [place] : []
  }
  const scales = job.scaleLog
    .filter(({ slip }) => slip)
    .flatMap((entry) =>
      at(entry).map((place): UnitSlipLine => {
        const inForce = job.scales[entry.wrenchId]?.id === entry.id
        return { ...place, kind: 'scale', entry, stands: inForce }
      }),
    )
  const readings = Object.values(job.readings)
    .flat()
    .filter(({ slip }) => slip)
    .flatMap((entry) =>
      at(entry).map((place): UnitSlipLine => ({ ...place, kind: 'reading', entry, stands: stands(entry) })),
    )
  return [...scales, ...readings].sort(
    (a, b) => Number(b.stands) - Number(a.stands) || a.entry.doneAt - b.entry.doneAt,
  )
}
