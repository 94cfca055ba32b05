/**
 * A job as the board shows it: one small value that says where the engine stands and why it waits.
 *
 * A pure view of `(job, shop)`, made by the server after every change and sent to every board; the browser never
 * folds a job to draw a row. Cells travel as short rows because two hundred boards get each change.
 */
import { stepClass } from '../plan/read'
import type { AdoptedStep } from '../plan/types'
import type { PlannedJob } from './context'
import { type Reason, reasonFor } from './reason'
import { deferralOpen, releaseInForce } from './release'
import type { Job } from './types'
import {
  deferralsOf,
  flaggedOn,
  isDone,
  isSigned,
  type StepStanding,
  standingOf,
  stepState,
} from './verdicts'

export interface JobSummary {
  id: string
  version: number
  number: string
  engine: string
  drives?: string
  serial: string
  owner: string
  plan?: { title: string; edition: number; invented: boolean }
  stages: { id: string; title: string }[]
  cells: Cell[]
  /** Who is on it now, with the step they hold. */
  on: { by: string; stepId: string; since: number }[]
  reason: Reason
  /** The date told to the owner, `YYYY-MM-DD`. */
  promised?: string
  /** The last release in force. */
  released?: { kind: 'to_fitting' | 'to_owner'; number: string }
  /** Signed by their doer, and the likely minutes of all and of those. */
  signed: number
  minutes: { all: number; signed: number }
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
  /** Something of it was left out on purpose, due at these steps. */
  dueAt?: string[]
}

export function summarise(job: Job): JobSummary {
  const { id, version, number, engine, owner, plan } = job
  const planned = plan ? (job as PlannedJob) : undefined
  const stageIndex = new Map(plan?.stages.map((stage, index) => [stage.id, index]))
  const steps = plan?.steps ?? []
  const signed = planned ? steps.filter((step) => isSigned(planned, step)) : []
  const minutes = (list: readonly AdoptedStep[]) => list.reduce((sum, step) => sum + step.minutes.likely, 0)
  return {
    id,
    version,
    number,
    engine: engine.model,
    ...(engine.drives ? { drives: engine.drives } : {}),
    serial: engine.serial,
    owner,
    ...(plan ? { plan: { title: plan.title, edition: plan.edition, invented: plan.invented ?? false } } : {}),
    stages: plan?.stages.map((stage) => ({ id: stage.id, title: stage.title })) ?? [],
    cells: planned ? steps.map((step) => cell(planned, step, stageIndex.get(step.stage) ?? 0)) : [],
    on: steps.flatMap((step) => {
      const claim = job.steps[step.id]?.claim
      return claim ? [{ by: claim.by, stepId: step.id, since: claim.doneAt }] : []
    }),
    reason: reasonFor(job),
    ...(job.promises.length > 0 ? { promised: job.promises.at(-1)?.date } : {}),
    ...(planned ? releasedOf(planned) : {}),
    signed: signed.length,
    minutes: { all: minutes(steps), signed: minutes(signed) },
  }
}

function releasedOf(job: PlannedJob): Pick<JobSummary, 'released'> {
  const release = releaseInForce(job, 'to_owner') ?? releaseInForce(job, 'to_fitting')
  return release ? { released: { kind: release.kind, number: release.number } } : {}
}

function cell(job: PlannedJob, step: AdoptedStep, stage: number): Cell {
  const state = stepState(job, step.id)
  const sets = Object.values(state.sets)
  const by = state.claim?.by ?? sets.findLast((set) => set.first)?.first?.by
  const second = isDone(job, step) ? sets.findLast((set) => set.second)?.second?.by : undefined
  const flagged = step.joints.some((joint) => flaggedOn(job, joint).length > 0)
  const dueAt = deferralsOf(job)
    .filter(({ what }) =>
      what.kind === 'step' ? what.stepId === step.id : step.joints.some(({ id }) => id === what.joint),
    )
    .filter((deferral) => deferralOpen(job, deferral))
    .map(({ dueStepId }) => dueStepId)
  return {
    stepId: step.id,
    stage,
    minutes: step.minutes.likely,
    standing: standingOf(job, step),
    ...(stepClass(step) === 'A' || step.signatures === 2 ? { critical: true } : {}),
    ...(by ? { by } : {}),
    ...(second ? { second } : {}),
    ...(flagged ? { flagged: true } : {}),
    ...(dueAt.length > 0 ? { dueAt } : {}),
  }
}
