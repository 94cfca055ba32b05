/** What somebody can do on this engine now: theirs first, then what is ready for them, then the rest with its reason. */
import type { JobCommand } from '../../../shared/job/commands'
import type { PlannedJob } from '../../../shared/job/types'
import {
  isDone,
  isSigned,
  positionState,
  setViews,
  standingOf,
  stepState,
} from '../../../shared/job/verdicts'
import type { Instant } from '../../../shared/log'
import type { AdoptedStep } from '../../../shared/plan/types'
import { listed } from '../../../shared/words'
import type { JobScope } from '../../job/scope'

/** Whether a command would be taken; else why not, as a sentence. */
export type May = (command: JobCommand) => string | undefined

/** On a list the refusal of every line says what stands before it, not again what a claim is. */
export function whyNot(refused: ReturnType<JobScope['may']>): string | undefined {
  if (refused?.code === 'needs_open')
    return `Comes after ${listed(refused.data.needs.map(({ id, title }) => `${id} ${title}`))}.`
  if (refused?.code === 'not_entitled')
    return `Class ${refused.data.class} on a ${refused.data.family} engine: you may not sign that.`
  return refused?.sentence
}

export interface StepRow {
  step: AdoptedStep
  /** Share of its fasteners that are final. */
  final: number
  of: number
  /** Who holds it, if somebody does. */
  by?: string
  why?: string
  /** Somebody left it in the middle: where it stands is read before going on. */
  stopped?: boolean
}

export interface Choice {
  mine: StepRow[]
  /** Signed by another, and this person may look and sign second. */
  second: StepRow[]
  ready: StepRow[]
  others: StepRow[]
  notReady: StepRow[]
  done: StepRow[]
}

export function choiceFor(job: PlannedJob, me: string, may: May, now?: Instant): Choice {
  const choice: Choice = { mine: [], second: [], ready: [], others: [], notReady: [], done: [] }
  for (const step of job.plan.steps) {
    const row = rowOf(job, step)
    const { claim } = stepState(job, step.id)
    if (claim?.by === me) choice.mine.push(row)
    else if (maySecond(job, step, may)) choice.second.push(row)
    // Whoever had it and has left holds it no more.
    else if (claim && may({ type: 'ClaimStep', stepId: step.id }) === undefined) choice.ready.push(row)
    else if (claim) choice.others.push({ ...row, by: claim.by })
    else if (isDone(job, step)) choice.done.push(row)
    else if (isSigned(job, step)) choice.others.push(row)
    else {
      const why = may({ type: 'ClaimStep', stepId: step.id })
      if (why === undefined) choice.ready.push(row)
      else choice.notReady.push({ ...row, why })
    }
  }
  // What could begin, and only not by this person, stands before what nobody could begin.
  choice.notReady.sort(
    (a, b) =>
      Number(standingOf(job, a.step, now) !== 'ready') - Number(standingOf(job, b.step, now) !== 'ready'),
  )
  return choice
}

function maySecond(job: PlannedJob, step: AdoptedStep, may: May): boolean {
  if (step.signatures !== 2) return false
  return setViews(job, step).some(
    ({ set, state }) =>
      state.first &&
      !state.second &&
      may({ type: 'SecondSignStep', stepId: step.id, setId: set.id }) === undefined,
  )
}

function rowOf(job: PlannedJob, step: AdoptedStep): StepRow {
  const states = step.joints.flatMap((joint) => joint.positions.map(({ n }) => positionState(job, joint, n)))
  const stopped = stepState(job, step.id).stopped !== undefined
  return {
    step,
    final: states.filter(({ final }) => final).length,
    of: states.length,
    ...(stopped ? { stopped } : {}),
  }
}
