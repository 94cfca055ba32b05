/** What is known of the fastener in a place, and whether it may stay there. */
import type { AdoptedJoint } from '../../plan/types'
import type { PlannedJob } from '../context'
import type { FastenerFlag } from '../types'
import { isTightened } from './readings'
import { isWaived } from './state'

export type FastenerFault = FastenerFlag | 'not_declared' | 'temporary' | 'hand_tight' | 'removed'

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
  const state = job.fasteners[joint.id]?.[position]
  const counts = joint.use.kind !== 'reusable' && !joint.recheckOf
  if (!state) return counts ? 'not_declared' : undefined
  const { condition, flags, cycle } = state
  if (condition === 'temporary' || condition === 'removed') return condition
  // Hand-tight and final look the same: only a reading after it says that it is more.
  if (condition === 'hand_tight' && !isTightened(job, joint, position)) return 'hand_tight'
  // Put in by hand says nothing of where it came from.
  if (counts && condition === 'hand_tight' && cycle === undefined) return 'not_declared'
  return flags[0]
}
