/**
 * What comes next at the bench, as data: the rounds of a step, their passes, the heads in their order, and what
 * stands against them. Pure views of `(job, step)`; the pages only draw them.
 *
 * A *round* is what is tightened together: all of a joint, or one cap of it where caps are signed one by one.
 */
import type { PlannedJob, Reading } from '../../../shared/job/types'
import {
  askedNm,
  deferralsOf,
  deferredPositions,
  flaggedOn,
  positionState,
  standingReading,
  takesReading,
} from '../../../shared/job/verdicts'
import { indexPlan, roundOf, setOf } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep, Pass } from '../../../shared/plan/types'
import { positionsInWords } from '../../../shared/words'
import { proposedOrder, routeOf } from './order'

export interface Round {
  /** Joint and first position: names the round within its step. */
  key: string
  joint: AdoptedJoint
  title: string
  positions: readonly number[]
  ordered: boolean
  /** Where the plan gives no order: one from the places on the map. Never a rule. */
  proposed?: readonly number[]
  setId?: string
  /** Left out in an earlier step on purpose, and due here. */
  leftOutIn?: string
}

/** The rounds of a step, in the plan's order. */
export function roundsOf(step: AdoptedStep): Round[] {
  return step.joints.flatMap((joint) => {
    const rounds: Round[] = []
    const seen = new Set<number>()
    for (const { n } of joint.positions) {
      if (seen.has(n)) continue
      const { positions, ordered } = roundOf(step, joint.id, n)
      for (const position of positions) seen.add(position)
      const set = setOf(step, joint.id, n)
      const own = set && !set.remainder
      rounds.push({
        key: `${joint.id}:${n}`,
        joint,
        title: own ? set.title : joint.title,
        positions,
        ordered,
        ...proposal(joint, positions),
        ...(own ? { setId: set.id } : {}),
      })
    }
    return rounds
  })
}

/**
 * The rounds as this job has them: without what was left out on purpose, and with what was left out earlier and
 * is due here.
 */
export function roundsIn(job: PlannedJob, step: AdoptedStep): Round[] {
  const { jointById, stepOfJoint } = indexPlan(job.plan)
  const own = roundsOf(step).flatMap((round) => {
    const away = deferredPositions(job, round.joint.id)
    const positions = round.positions.filter((n) => !away.has(n))
    if (positions.length === 0) return []
    if (away.size === 0) return [round]
    const { proposed: _, ...rest } = round
    return [{ ...rest, positions, ...proposal(round.joint, positions) }]
  })
  const due = deferralsOf(job).flatMap(({ id, what, dueStepId }): Round[] => {
    const joint = what.kind === 'fasteners' ? jointById.get(what.joint) : undefined
    if (what.kind !== 'fasteners' || !joint || dueStepId !== step.id) return []
    const leftOutIn = stepOfJoint.get(joint.id)?.id ?? ''
    return [
      {
        key: `due:${id}`,
        joint,
        title: `${joint.title} ${positionsInWords(what.positions)}`,
        positions: what.positions,
        ordered: false,
        leftOutIn,
      },
    ]
  })
  return [...own, ...due]
}

function proposal(joint: AdoptedJoint, positions: readonly number[]): Pick<Round, 'proposed'> {
  const proposed = proposedOrder(joint, positions)
  return proposed ? { proposed } : {}
}

/** The pass as it is asked: with the settled torque where none is published. */
export function sheetFor(job: PlannedJob, joint: AdoptedJoint, pass: number): Pass | undefined {
  const sheet = joint.passes[pass - 1]
  return sheet?.kind === 'torque' ? { ...sheet, torqueNm: askedNm(job, joint, pass) } : sheet
}

/** What is shown: one pass of one round. */
export interface BenchTarget {
  round: string
  pass: number
}

interface PassView {
  n: number
  pass: Pass
  state: 'done' | 'now' | 'to_come'
  /** Positions that have it, of those in the round. */
  reached: number
  of: number
  flagged: boolean
}

export function passViews(job: PlannedJob, round: Round): PassView[] {
  const { joint, positions } = round
  const bad = flaggedOn(job, joint).filter((reading) => positions.includes(reading.position))
  let open = false
  return joint.passes.map((pass, index) => {
    const n = index + 1
    const reached = takesReading(joint, n)
      ? positions.filter((position) => standingReading(job, joint, position, n)).length
      : waitBegun(job, round, n)
        ? positions.length
        : 0
    const done = reached === positions.length
    const state = done ? 'done' : open ? 'to_come' : 'now'
    if (!done) open = true
    return {
      n,
      pass,
      state,
      reached,
      of: positions.length,
      flagged: bad.some((reading) => reading.pass === n),
    }
  })
}

/** A wait is passed once anything after it was recorded on every position; till then it is what is on. */
function waitBegun(job: PlannedJob, { joint, positions }: Round, pass: number): boolean {
  return positions.every((position) =>
    joint.passes.some((_, index) => index + 1 > pass && standingReading(job, joint, position, index + 1)),
  )
}

/** When a wait before this pass is over; `undefined` when none is asked, or its pass has not begun. */
export function waitUntil(job: PlannedJob, { joint, positions }: Round, pass: number): number | undefined {
  const ends = joint.passes.slice(0, pass - 1).flatMap((wait, index) => {
    if (wait.kind !== 'wait') return []
    const before = positions.map((n) => standingReading(job, joint, n, index)?.doneAt)
    return before.every((at) => at !== undefined)
      ? [Math.max(...(before as number[])) + wait.minutes * 60_000]
      : []
  })
  return ends.length > 0 ? Math.max(...ends) : undefined
}

/** The first pass of the first round that still has a position to go. */
export function nextTarget(job: PlannedJob, step: AdoptedStep, after?: BenchTarget): BenchTarget | undefined {
  const rounds = roundsIn(job, step)
  const from = after
    ? Math.max(
        0,
        rounds.findIndex(({ key }) => key === after.round),
      )
    : 0
  for (const round of [...rounds.slice(from), ...rounds.slice(0, from)]) {
    const passes = round.positions.map((n) => positionState(job, round.joint, n).nextPass)
    const open = passes.filter((pass) => pass !== undefined)
    if (open.length > 0) return { round: round.key, pass: Math.min(...open) }
  }
  return undefined
}

/** Slackening goes the other way round, and no order is held against it. */
export const loosens = (round: Round, pass: number): boolean =>
  round.joint.passes[pass - 1]?.kind === 'slacken'

/** The head that comes next in a pass, or undefined when the pass is through. */
export function nextHead(job: PlannedJob, round: Round, pass: number): number | undefined {
  const along = routeOf(round, loosens(round, pass))?.positions ?? round.positions
  return along.find((n) => !standingReading(job, round.joint, n, pass))
}

/** Readings of a round whose flags stand, the newest first. */
export function oddReadings(job: PlannedJob, round: Round): Reading[] {
  return flaggedOn(job, round.joint)
    .filter(({ position }) => round.positions.includes(position))
    .reverse()
}
