/** What the readings of a fastener amount to: which stand, what is odd about them, which pass comes next. */
import { inBand } from '../../plan/adopt'
import type { AdoptedJoint, Band } from '../../plan/types'
import type { Flag } from '../kinds'
import type { Job, PlannedJob, Reading } from '../types'
import { indexReadings, placeOf } from './reading-index'
import { isWaived } from './state'

/** The band a pass is judged by: a settled value's where none is published, else the one frozen at adoption. */
export const bandFor = (job: PlannedJob, joint: AdoptedJoint, pass: number): Band | null =>
  job.settled[joint.id]?.[pass]?.band ?? joint.bands[pass - 1] ?? null

/** What a torque pass asks, with a settled value where none is published. */
export function askedNm(job: PlannedJob, joint: AdoptedJoint, pass: number): number | null {
  const passAsked = joint.passes[pass - 1]
  return passAsked?.kind === 'torque'
    ? (passAsked.torqueNm ?? job.settled[joint.id]?.[pass]?.torqueNm ?? null)
    : null
}

/** Whether a reading is one its pass is reached by; a slackening reaches only a slacken pass. */
const reaches = (joint: AdoptedJoint, { pass, how }: Reading): boolean =>
  how === 'counted' || (joint.passes[pass - 1]?.kind === 'slacken') === (how === 'slackened')

/** A slackening outside a slacken pass: it takes the fastener back and is no reading of a pass. */
export const takesBack = (joint: AdoptedJoint, { pass, how }: Pick<Reading, 'pass' | 'how'>): boolean =>
  how === 'slackened' && joint.passes[pass - 1]?.kind !== 'slacken'

/** One tightening of a fastener: from its first reading in a torque or angle pass until it was slackened. */
export interface Tightening {
  /** Where its first reading is in the joint's list. */
  from: number
  /** An angle was turned in it. */
  angle: boolean
}

/**
 * How often a fastener has been tightened, by the readings of its place from one of the list on.
 *
 * A slackening outside the plan's own slacken pass ends one, and so does a round begun again slackened; going
 * round again does not, nor does the plan's own slackening. What was struck did not happen.
 */
export function tighteningsOf(
  joint: AdoptedJoint,
  list: readonly Reading[],
  position: number,
  from = 0,
): Tightening[] {
  const tightenings: Tightening[] = []
  let now: Tightening | undefined
  let undone: string | undefined
  for (const place of indexReadings(list).placesOf.get(position) ?? []) {
    const reading = list[place]
    if (!reading || place < from || reading.struck) continue
    if (takesBack(joint, reading)) now = undefined
    const passKind = joint.passes[reading.pass - 1]?.kind
    if (reading.how === 'slackened' || (passKind !== 'torque' && passKind !== 'angle')) continue
    const { superseded } = reading
    const ends =
      superseded?.because === 'restarted' && superseded.how === 'slackened'
        ? `${superseded.by} ${superseded.doneAt}`
        : undefined
    if (!now || (undone !== undefined && undone !== ends)) {
      now = { from: place, angle: false }
      tightenings.push(now)
    }
    now.angle ||= passKind === 'angle'
    undone = ends
  }
  return tightenings
}

/** The flags of a reading that still stand: none when waived, and judged by the value settled now, if one was. */
export function standingFlags(job: Job, reading: Reading): readonly Flag[] {
  const flags = judgedAnew(job, reading)
  return flags.length > 0 && isWaived(job, { kind: 'reading', readingId: reading.id }) ? [] : flags
}

const BY_VALUE: readonly Flag[] = ['no_published_value', 'out_of_band']

/** A value may be settled after the reading, and settled again: it is judged by the one in force. */
function judgedAnew(job: Job, { jointId, pass, how, torqueNm, flags }: Reading): readonly Flag[] {
  const settledValue = job.settled[jointId]?.[pass]
  if (!settledValue || how === 'slackened' || flags.includes('other_than_asked')) return flags
  const others = flags.filter((flag) => !BY_VALUE.includes(flag))
  return torqueNm !== undefined && inBand(torqueNm, settledValue.band) ? others : [...others, 'out_of_band']
}

/** The readings of a position that are neither struck nor superseded, in the order they were recorded. */
export const standingAt = (job: Job, joint: AdoptedJoint, position: number): readonly Reading[] =>
  indexReadings(job.readings[joint.id]).standingAt.get(position) ?? []

/** The reading a position has for a pass, if one stands. */
export function standingReading(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
  pass: number,
): Reading | undefined {
  return standingAt(job, joint, position).findLast(
    (reading) => reading.pass === pass && reaches(joint, reading),
  )
}

/** Whether a fastener has been tightened, and neither taken back nor changed since. */
export const isTightened = (job: PlannedJob, joint: AdoptedJoint, position: number): boolean =>
  standingAt(job, joint, position).some(({ how }) => how !== 'slackened')

/**
 * The readings of a joint whose flags stand: also one that reaches no pass (a click where a wait or a
 * slackening was asked). Taking a fastener back is right at any time and stands against nothing.
 */
export function flaggedOn(job: Job, joint: AdoptedJoint): Reading[] {
  const list = job.readings[joint.id] ?? []
  const flagged = [...indexReadings(list).standingAt.values()].flatMap((standing) =>
    standing.filter((reading) => isFlagged(job, joint, reading)),
  )
  return flagged.length < 2
    ? flagged
    : flagged.sort((a, b) => (placeOf(list, a.id) ?? 0) - (placeOf(list, b.id) ?? 0))
}

const isFlagged = (job: Job, joint: AdoptedJoint, reading: Reading): boolean =>
  !takesBack(joint, reading) && standingFlags(job, reading).length > 0

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
  const flagged = standingAt(job, joint, position).filter((reading) => isFlagged(job, joint, reading))
  const flags = [...new Set(flagged.flatMap((reading) => standingFlags(job, reading)))]
  return { reached, nextPass, flags, final: nextPass === undefined && flags.length === 0 }
}
