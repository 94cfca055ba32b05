/**
 * A job as the board shows it: one small value that says where the engine stands and why it waits.
 *
 * A pure view of `(job, now)`, made by the server after every change and again when a clock runs out, and sent to
 * every board; the browser never folds a job to draw a row. Cells travel as short rows because two hundred boards get each change.
 */
import { kindsOf } from '../kinds'
import type { Instant } from '../log'
import { type JointClass, RELEASES, type ReleaseKind } from '../plan/kinds'
import { indexPlan, stepClass } from '../plan/read'
import type { AdoptedStep } from '../plan/types'
import { CLOCKS_ASIDE, nextChangeAt } from './clocks'
import type { Reason } from './reason'
import { reasonFor } from './reason-for'
import { againstRelease, deferralOpen, releaseInForce, stepsOf } from './release'
import type { Hold, Job, PlannedJob } from './types'
import {
  deferralsOf,
  inTheWay,
  isDone,
  isSigned,
  oddOn,
  openNeeds,
  type StepStanding,
  standingOf,
  stepState,
  waitsForCure,
} from './verdicts'
import { ofStep } from './verdicts/memory'

export interface JobSummary {
  id: string
  version: number
  number: string
  engine: string
  drives?: string
  serial: string
  owner: string
  plan?: { title: string; edition: number; invented: boolean; family?: string }
  stages: { id: string; title: string }[]
  cells: Cell[]
  /** Who is on it now, with the step they hold. */
  on: { by: string; stepId: string; since: number }[]
  reason: Reason
  /** The date told to the owner, `YYYY-MM-DD`. */
  promised?: string
  /** The last release in force. */
  released?: { kind: ReleaseKind; number: string }
  /** Signed by their doer, and the likely minutes of all and of those. */
  signed: number
  minutes: { all: number; signed: number }
  /** When anything on it last happened. */
  changedAt?: number
  /** What its steps wait for; as the next five, left out where there is none. */
  holds?: Pick<Hold, 'kind' | 'what' | 'stepIds' | 'expectedAt'>[]
  /** Steps that whoever is entered for them could take now. */
  ready?: OpenStep[]
  /** Signed by their doer, a second look owed; `before`: the ready step that would cover it. */
  toLook?: (OpenStep & { by: string; before?: string })[]
  /** Torque passes that nobody published or settled a value for. */
  unsettled?: number
  /** The release that nothing stands against. */
  releasable?: ReleaseKind
  /** When it changes though nobody touches it: the server makes it again then. */
  changesAt?: Instant
}

export interface OpenStep {
  stepId: string
  title: string
  class: JointClass
}

/** One step of the build strip. */
export interface Cell {
  stepId: string
  /** Index into `stages`. */
  stage: number
  /** Likely minutes: the cell's share of the strip. */
  minutes: number
  standing: StepStanding
  /** Class A, or signed twice: it carries a notch. */
  critical?: true
  /** Who holds it or signed it. */
  by?: string
  second?: string
  /** A reading on it carries a flag that stands. */
  flagged?: true
  /** A measurement out of limits or a wrong count stands on it. */
  offLimits?: true
  /** Nothing but the clock keeps it: a bead cures until then. */
  curesAt?: Instant
  /** Something of it was left out on purpose, due at these steps. */
  dueAt?: string[]
}

/** As it looks at a moment; without one, as if every clock had run out. */
export function summarise(job: Job, now: Instant = CLOCKS_ASIDE): JobSummary {
  const { id, version, number, engine, owner, plan } = job
  const planned = plan ? (job as PlannedJob) : undefined
  const steps = plan?.steps ?? []
  const signed = planned ? steps.filter((step) => isSigned(planned, step)) : []
  const parts = planned ? partsOf(planned, now) : []
  const changesAt = planned && nextChangeAt(planned, now)
  const minutes = (list: readonly AdoptedStep[]) => list.reduce((sum, step) => sum + step.minutes.likely, 0)
  return {
    id,
    version,
    number,
    engine: engine.model,
    ...(engine.drives ? { drives: engine.drives } : {}),
    serial: engine.serial,
    owner,
    ...(plan
      ? {
          plan: {
            title: plan.title,
            edition: plan.edition,
            invented: plan.invented ?? false,
            family: plan.family,
          },
        }
      : {}),
    stages: plan?.stages.map((stage) => ({ id: stage.id, title: stage.title })) ?? [],
    cells: planned ? parts.map((part) => cell(planned, part, now)) : [],
    on: steps.flatMap((step) => {
      const claim = job.steps[step.id]?.claim
      return claim ? [{ by: claim.by, stepId: step.id, since: claim.doneAt }] : []
    }),
    reason: reasonFor(job, now),
    ...(job.promises.length > 0 ? { promised: job.promises.at(-1)?.date } : {}),
    ...(planned ? releasedOf(planned) : {}),
    signed: signed.length,
    minutes: { all: minutes(steps), signed: minutes(signed) },
    changedAt: lastAt(job, parts),
    ...(planned ? openEnds(planned, parts, now) : {}),
    ...(changesAt === undefined ? {} : { changesAt }),
  }
}

/** A step with what is reckoned of it once for all who ask. */
interface Part {
  step: AdoptedStep
  stage: number
  standing: StepStanding
  own: OwnPart
}

function partsOf(job: PlannedJob, now: Instant): Part[] {
  const stageIndex = new Map(job.plan.stages.map((stage, index) => [stage.id, index]))
  return job.plan.steps.map((step) => ({
    step,
    stage: stageIndex.get(step.stage) ?? 0,
    standing: standingOf(job, step, now),
    own: ownPart(job, step),
  }))
}

/** What somebody has to see to, as far as the board says it; an empty list does not travel. */
function openEnds(
  job: PlannedJob,
  parts: readonly Part[],
  now: Instant,
): Pick<JobSummary, 'holds' | 'ready' | 'toLook' | 'unsettled' | 'releasable'> {
  const holds = job.holds
    .filter(({ cleared }) => !cleared)
    .map(({ kind, what, stepIds, expectedAt }) => ({
      kind,
      what,
      stepIds,
      ...(expectedAt === undefined ? {} : { expectedAt }),
    }))
  const ready = parts.filter(({ standing }) => TO_TAKE.has(standing)).map(({ step }) => openStep(step))
  const toLook = parts
    .filter(({ standing }) => standing === 'awaiting_second')
    .map(({ step }) => look(job, step))
  const unsettled = parts.reduce((sum, { own }) => sum + own.unsettled, 0)
  const releasable = kindsOf(RELEASES).find((kind) => mayRelease(job, kind, now))
  return {
    ...(holds.length > 0 ? { holds } : {}),
    ...(ready.length > 0 ? { ready } : {}),
    ...(toLook.length > 0 ? { toLook } : {}),
    ...(unsettled > 0 ? { unsettled } : {}),
    ...(releasable ? { releasable } : {}),
  }
}

const TO_TAKE: ReadonlySet<StepStanding> = new Set(['ready', 'stopped'])

const openStep = (step: AdoptedStep): OpenStep => ({
  stepId: step.id,
  title: step.title,
  class: stepClass(step),
})

function look(job: PlannedJob, step: AdoptedStep): OpenStep & { by: string; before?: string } {
  const { hiddenBy, stepById } = indexPlan(job.plan)
  const first = Object.values(stepState(job, step.id).sets).findLast((set) => set.first)?.first
  const covering = step.joints
    .flatMap(({ id }) => hiddenBy.get(id) ?? [])
    .flatMap(({ stepId }) => stepById.get(stepId) ?? [])
    .find((other) => !inTheWay(job, other) && openNeeds(job, other).length === 0)
  return { ...openStep(step), by: first?.by ?? '', ...(covering ? { before: covering.title } : {}) }
}

/** The cheap question first: two hundred engines ask it, and few have every step done. */
function mayRelease(job: PlannedJob, kind: ReleaseKind, now: Instant): boolean {
  if (!job.plan.stages.some((stage) => stage.releases === kind) || releaseInForce(job, kind)) return false
  const steps = stepsOf(job, kind)
  return steps.every((step) => isDone(job, step)) && againstRelease(job, kind, now).length === 0
}

/** By the bench's clock; what came late does not make an engine look fresh. */
function lastAt(job: Job, parts: readonly Part[]): number {
  let last = job.openedAt
  const see = (signature: { doneAt: number } | undefined) => {
    if (signature && signature.doneAt > last) last = signature.doneAt
  }
  for (const { own } of parts) last = Math.max(last, own.lastAt)
  for (const hold of job.holds) see(hold.cleared ?? hold.raised)
  for (const deferral of job.deferrals) see(deferral.withdrawn ?? deferral.made)
  for (const list of [job.waivers, job.releases, job.warranties, job.promises, job.notes, job.photos])
    see(list.at(-1))
  return last
}

function releasedOf(job: PlannedJob): Pick<JobSummary, 'released'> {
  const release = releaseInForce(job, 'to_owner') ?? releaseInForce(job, 'to_fitting')
  return release ? { released: { kind: release.kind, number: release.number } } : {}
}

/** What of a summary follows from a step's own entries, and so is kept until one of them changes. */
interface OwnPart {
  shown: Pick<Cell, 'critical' | 'by' | 'second' | 'flagged' | 'offLimits' | 'dueAt'>
  unsettled: number
  lastAt: number
  /** As it was last drawn; the same object while it looks the same. */
  cell?: Cell
}

const ownPart = (job: PlannedJob, step: AdoptedStep): OwnPart =>
  ofStep(job, step, 'summary', () => ({
    shown: shownOf(job, step),
    unsettled: unsettledOn(job, step),
    lastAt: lastOn(job, step),
  }))

function cell(job: PlannedJob, { step, stage, standing, own }: Part, now: Instant): Cell {
  const curesAt = waitsForCure(job, step, now)
  if (own.cell?.standing === standing && own.cell.curesAt === curesAt) return own.cell
  own.cell = {
    stepId: step.id,
    stage,
    minutes: step.minutes.likely,
    standing,
    ...own.shown,
    ...(curesAt === undefined ? {} : { curesAt }),
  }
  return own.cell
}

function shownOf(job: PlannedJob, step: AdoptedStep): OwnPart['shown'] {
  const state = stepState(job, step.id)
  const sets = Object.values(state.sets)
  const by = state.claim?.by ?? sets.findLast((set) => set.first)?.first?.by
  const second = isDone(job, step) ? sets.findLast((set) => set.second)?.second?.by : undefined
  const { flagged, off } = oddOn(job, step)
  const dueAt = deferralsOf(job)
    .filter(({ what }) =>
      what.kind === 'step' ? what.stepId === step.id : step.joints.some(({ id }) => id === what.joint),
    )
    .filter((deferral) => deferralOpen(job, deferral))
    .map(({ dueStepId }) => dueStepId)
  return {
    ...(stepClass(step) === 'A' || step.signatures === 2 ? { critical: true } : {}),
    ...(by ? { by } : {}),
    ...(second ? { second } : {}),
    ...(flagged.length > 0 ? { flagged: true } : {}),
    ...(off.length > 0 ? { offLimits: true } : {}),
    ...(dueAt.length > 0 ? { dueAt } : {}),
  }
}

/** Torque passes of a step that nobody published or settled a value for. */
const unsettledOn = (job: PlannedJob, step: AdoptedStep): number =>
  step.joints.flatMap(({ id, passes }) =>
    passes.filter((pass, i) => pass.kind === 'torque' && pass.torqueNm === null && !job.settled[id]?.[i + 1]),
  ).length

/** When anything of a step last happened, by the bench's clock; 0 before that. */
function lastOn(job: PlannedJob, step: AdoptedStep): number {
  const { claim, sets, measurements, stopped, sealant } = stepState(job, step.id)
  const signatures = [
    ...step.joints.map(({ id }) => job.readings[id]?.at(-1)),
    claim,
    stopped,
    measurements.at(-1),
    sealant.at(-1)?.started,
    sealant.at(-1)?.closed,
    ...Object.values(sets).flatMap(({ first, second }) => [first, second]),
  ]
  return Math.max(0, ...signatures.map((signature) => signature?.doneAt ?? 0))
}
