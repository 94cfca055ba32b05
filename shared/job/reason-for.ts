/** Finds the one reason an engine waits: the first that holds, in the order the shop would ask. */
import type { Instant } from '../log'
import { indexPlan } from '../plan/read'
import { CLOCKS_ASIDE, cureInTheWay } from './clocks'
import type { Reason } from './reason'
import { caseUnanswered, releaseInForce } from './release'
import type { Job, PlannedJob } from './types'
import {
  inTheWay,
  isDone,
  isSigned,
  oddOn,
  openNeeds,
  type StepStanding,
  setViews,
  standingFlags,
  standingOf,
  unprovenBehind,
} from './verdicts'

/** At a moment; without one, as if every clock had run out. */
export function reasonFor(job: Job, now: Instant = CLOCKS_ASIDE): Reason {
  if (!job.plan) return { code: 'no_plan' }
  const planned = job as PlannedJob
  const { steps } = job.plan
  return (
    secondLate(planned) ??
    released(planned) ??
    flagged(planned) ??
    off(planned) ??
    onHold(planned, now) ??
    secondDue(planned) ??
    warranty(planned) ??
    inWork(planned) ??
    stopped(planned) ??
    nobodyOnIt(planned, now) ??
    curing(planned, now) ??
    (steps.every((step) => isDone(planned, step)) ? { code: 'all_signed' } : stuck(planned))
  )
}

/** Signed once, and already covered by a later step: the costliest state an engine can be in. */
function secondLate(job: PlannedJob): Reason | undefined {
  for (const step of job.plan.steps) {
    const behind = inTheWay(job, step) ? unprovenBehind(job, step)[0] : undefined
    if (behind) {
      const title = indexPlan(job.plan).jointById.get(behind.joint)?.title ?? behind.joint
      return { code: 'second_late', step: step.id, title: step.title, behind: title }
    }
  }
  return undefined
}

function flagged(job: PlannedJob): Reason | undefined {
  for (const step of job.plan.steps) {
    const [first] = oddOn(job, step).flagged
    const flag = first && standingFlags(job, first.reading)[0]
    if (!first || !flag) continue
    const { joint, reading } = first
    return {
      code: 'flagged',
      step: step.id,
      joint: joint.title,
      fastener: joint.fastener,
      position: reading.position,
      flag,
      by: reading.by,
    }
  }
  return undefined
}

/**
 * A measurement out of limits, or a count that is wrong: the reason until it is put right or accepted, or until
 * somebody raises a hold and so says what the engine waits for because of it.
 */
function off(job: PlannedJob): Reason | undefined {
  const lastRaisedAt = Math.max(
    0,
    ...job.holds.flatMap(({ cleared, raised }) => (cleared ? [] : [raised.doneAt])),
  )
  for (const step of job.plan.steps) {
    const offLimit = oddOn(job, step).off.find(
      (candidate) =>
        (candidate.kind === 'count' ? candidate.answer : candidate.entry).doneAt > lastRaisedAt ||
        lastRaisedAt === 0,
    )
    if (offLimit?.kind === 'count') {
      const { gate, answer } = offLimit
      const { count, by } = answer
      return { code: 'wrong_count', step: step.id, text: gate.text, count, expect: gate.expect, by }
    }
    if (!offLimit) continue
    const { measurement, entry } = offLimit
    const { title, unit, min, max, places } = measurement
    return {
      code: 'out_of_limits',
      step: step.id,
      title,
      ...(places.length > 1 ? { place: entry.place } : {}),
      value: entry.value,
      unit,
      ...(min === undefined ? {} : { min }),
      ...(max === undefined ? {} : { max }),
      by: entry.by,
    }
  }
  return undefined
}

/** Delivered: nothing waits until somebody complains. */
function released(job: PlannedJob): Reason | undefined {
  const release = releaseInForce(job, 'to_owner')
  return release && { code: 'released', kind: release.kind, number: release.number }
}

/** The open hold that is expected last: it is the one the owner of the engine waits for. */
function onHold(job: PlannedJob, now: Instant): Reason | undefined {
  const [hold] = job.holds
    .filter(({ cleared }) => !cleared)
    .sort((a, b) => (b.expectedAt ?? Number.MAX_SAFE_INTEGER) - (a.expectedAt ?? Number.MAX_SAFE_INTEGER))
  if (!hold) return undefined
  const { kind, what, expectedAt } = hold
  const ready = job.plan.steps.filter((step) => GOES_ON.has(standingOf(job, step, now))).length
  return { code: 'on_hold', kind, what, ...(expectedAt === undefined ? {} : { expectedAt }), ready }
}

const GOES_ON: ReadonlySet<StepStanding> = new Set(['ready', 'in_work', 'stopped'])

function warranty(job: PlannedJob): Reason | undefined {
  const last = caseUnanswered(job)
  return last && { code: 'warranty', complaint: last.complaint }
}

function stopped(job: PlannedJob): Reason | undefined {
  const { jointById } = indexPlan(job.plan)
  for (const { id } of job.plan.steps) {
    const mark = job.steps[id]?.stopped?.at[0]
    if (!mark) continue
    const { jointId, position, pass, asks } = mark
    const { title: joint = jointId, fastener = 'bolt' } = jointById.get(jointId) ?? {}
    return { code: 'stopped', joint, fastener, position, pass, asks }
  }
  return undefined
}

/** Waits for a second signature while nobody can go on, or before a ready step would hide it. */
function secondDue(job: PlannedJob): Reason | undefined {
  const waiting = job.plan.steps.find((step) => isSigned(job, step) && !isDone(job, step))
  if (!waiting) return undefined
  const hider = job.plan.steps.find(
    (step) =>
      !inTheWay(job, step) && openNeeds(job, step).length === 0 && unprovenBehind(job, step).length > 0,
  )
  return {
    code: 'second_due',
    step: waiting.id,
    title: waiting.title,
    ...(hider ? { before: hider.title } : {}),
  }
}

function inWork(job: PlannedJob): Reason | undefined {
  const on = job.plan.steps.flatMap((step) => {
    const claim = job.steps[step.id]?.claim
    return claim ? [{ by: claim.by, title: step.title }] : []
  })
  return on.length > 0 ? { code: 'in_work', on } : undefined
}

function nobodyOnIt(job: PlannedJob, now: Instant): Reason | undefined {
  const ready = job.plan.steps.filter((step) => standingOf(job, step, now) === 'ready')
  const [next] = ready
  return next && { code: 'nobody_on_it', step: next.id, title: next.title, ready: ready.length }
}

/** The bead that is cured first, of those that nothing but the clock keeps a step waiting for. */
function curing(job: PlannedJob, now: Instant): Reason | undefined {
  const waiting = job.plan.steps
    .filter((step) => ['ready', 'stopped'].includes(standingOf(job, step)))
    .flatMap((step) => {
      const last = cureInTheWay(job, step, now).sort((a, b) => b.until - a.until)[0]
      return last ? [{ ...last, next: step.title }] : []
    })
  const [first] = waiting.sort((a, b) => a.until - b.until)
  return (
    first && {
      code: 'curing',
      step: first.step.id,
      title: first.step.title,
      until: first.until,
      next: first.next,
    }
  )
}

function stuck(job: PlannedJob): Reason {
  const step = job.plan.steps.find((candidate) => !isDone(job, candidate))
  const behind = step ? setViews(job, step).flatMap((view) => (view.accepted ? [] : [view.set.title])) : []
  return { code: 'stuck', step: step?.id ?? '', title: step?.title ?? '', behind }
}
