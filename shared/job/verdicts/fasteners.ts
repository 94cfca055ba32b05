/** What is known of the fastener in a place, how often it was tightened, and whether it may stay there. */
import type { AdoptedJoint } from '../../plan/types'
import type { FastenerFault } from '../fastener-faults'
import type { FastenerState, PlannedJob } from '../types'
import { holeAt, type Misfit, misfit } from './holes'
import { indexReadings } from './reading-index'
import { isTightened, type Tightening, tighteningsOf } from './readings'
import { isWaived } from './state'

/** What is wrong with a hole, or with a length in it: told before anything is tightened there. */
export type HoleFault = Misfit | 'hole_stripped'
export const isHoleFault = (fault: FastenerFault): fault is HoleFault => HOLE_FAULTS.includes(fault)
const HOLE_FAULTS: readonly FastenerFault[] = [
  'hole_stripped',
  'hole_impossible',
  'bottoms_out',
  'too_short',
  'too_long',
]

/** The tightenings of the fastener that is in a place now, as far as the record knows it. */
export const tighteningsHere = (job: PlannedJob, joint: AdoptedJoint, position: number): Tightening[] =>
  tighteningsOf(
    joint,
    job.readings[joint.id] ?? [],
    position,
    job.fasteners[joint.id]?.[position]?.readings?.from,
  )

/**
 * [FA9–FA11] What was said of the fastener in a place, with what its readings have added since: the cycle it is in,
 * and what became of it by being tightened again.
 */
export function fastenerNow(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
): FastenerState | undefined {
  const state = job.fasteners[joint.id]?.[position]
  if (!state || state.condition === 'removed' || state.condition === 'temporary') return state
  const had = tighteningsHere(job, joint, position)
  const cycle = state.cycle === undefined ? undefined : state.cycle + Math.max(0, had.length - 1)
  const flags = [...state.flags]
  if (joint.use.kind === 'cycles' && cycle !== undefined && cycle > joint.use.limit)
    flags.push('cycles_spent')
  if (joint.use.kind === 'one_use' && isSpentByRule(joint, had.slice(0, -1))) flags.push('fitted_twice')
  return { ...state, ...(cycle === undefined ? {} : { cycle }), flags: [...new Set(flags)] }
}

/** [FA3] Whether the fastener in a place was read, or slackened, since it was said what it is. */
export function touchedSinceSaid(job: PlannedJob, joint: AdoptedJoint, position: number): boolean {
  const { from = 0, before = 0 } = job.fasteners[joint.id]?.[position]?.readings ?? {}
  return (
    (indexReadings(job.readings[joint.id]).placesOf.get(position)?.at(-1) ?? -1) >= before ||
    // Said of one that stood tightened there, and slackened with its round since.
    (from < before && !isTightened(job, joint, position))
  )
}

/**
 * [FA11] Slackened and gone on with as the joint's own interruption rule says, a one-use fastener is still the first
 * fitting. After an angle that rule asks for new ones unless it says otherwise.
 */
export const isSpentByRule = ({ interruption }: AdoptedJoint, ended: readonly Tightening[]): boolean =>
  interruption.afterAngle !== 'slacken_restart_joint' && ended.some(({ angle }) => angle)

/**
 * What stands against the fastener itself: a slave bolt, one taken out, one fitted twice; and, where the
 * joint is one-use or counts cycles, one whose history nobody has declared.
 */
export function fastenerFault(
  job: PlannedJob,
  joint: AdoptedJoint,
  position: number,
): FastenerFault | undefined {
  const fault = faultOf(job, joint, position)
  return fault && isWaived(job, { kind: 'fastener', jointId: joint.id, position }) ? undefined : fault
}

export function faultOf(job: PlannedJob, joint: AdoptedJoint, position: number): FastenerFault | undefined {
  if (holeAt(job, joint.id, position)?.condition === 'stripped') return 'hole_stripped'
  const state = job.fasteners[joint.id]?.[position]
  if (state?.condition === 'temporary' || state?.condition === 'removed') return state.condition
  // Before anything is said of it too: the plan's bolt is the one that would be fitted.
  const wrong = misfit(job, joint, position)
  if (wrong) return wrong
  const counts = joint.use.kind !== 'reusable' && !joint.recheckOf
  if (!state) return counts ? 'not_declared' : undefined
  const { condition, cycle } = state
  // Hand-tight and final look the same: only a reading after it says that it is more.
  if (condition === 'hand_tight' && !isTightened(job, joint, position)) return 'hand_tight'
  // Put in by hand says nothing of where it came from.
  if (counts && condition === 'hand_tight' && cycle === undefined) return 'not_declared'
  return joint.use.kind === 'reusable' ? state.flags[0] : fastenerNow(job, joint, position)?.flags[0]
}
