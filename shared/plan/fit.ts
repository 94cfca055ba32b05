/**
 * How a joint's bolt fits a hole: the plan's own, or the one a job's register knows of it. Lengths in mm.
 *
 * What must hold is 1.5 d, or what the maker's bolt has in the maker's hole where that is less, or the insert's length. Only
 * a bolt of the plan's length has the thread the plan prints; of any other the standard's is assumed, and the answer says so.
 */
import {
  type FastenerRefusal,
  type HoleFit,
  holeFit,
  type InsertGiven,
  insertHold,
  thread,
} from '../fastener'
import { isRefusal } from '../log'
import type { Joint, TappedHole } from './types'

/** What of a joint decides how its bolt fits. */
export type FitJoint = Pick<Joint, 'fastener' | 'thread' | 'lengthMm' | 'boltThreadMm' | 'hole'>

export function fitIn(
  joint: FitJoint,
  { hole, insert }: { hole: TappedHole; insert?: InsertGiven },
  lengthMm: number,
): HoleFit | FastenerRefusal {
  const { stackMm, aboveMm = 0, washerMm = 0, depthMm, threadMm } = hole
  const least = leastEngagement(joint, insert)
  const boltThreadMm = boltThread(joint, lengthMm)
  return holeFit({
    boltLengthMm: lengthMm,
    stackMm: stackMm + aboveMm,
    washerMm,
    holeDepthMm: depthMm ?? threadMm,
    threadDepthMm: threadMm,
    ...(depthMm === undefined ? { through: true } : {}),
    thread: joint.thread,
    ...(insert ? { insert } : {}),
    ...(least === undefined ? {} : { minEngagementMm: least }),
    ...(boltThreadMm === undefined ? {} : { boltThreadMm }),
  })
}

/** The plan's own bolt in the plan's own hole; nothing where it does not say both. */
export const plannedFit = (joint: FitJoint): HoleFit | FastenerRefusal | undefined =>
  joint.hole && joint.lengthMm !== undefined ? fitIn(joint, { hole: joint.hole }, joint.lengthMm) : undefined

/** A stud is threaded at both its ends, so that nothing of it stands on its shank. */
const boltThread = ({ fastener, lengthMm, boltThreadMm }: FitJoint, length: number): number | undefined =>
  fastener !== 'bolt' ? length : length === lengthMm ? boltThreadMm : undefined

/** Common practice, no source: fewer full turns hold nothing, whoever printed the lengths. */
const LEAST_TURNS = 3

/** What the maker's bolt has in the maker's hole, where that is less than the trade's rule; an insert has no more than its length. */
function leastEngagement({ hole, lengthMm, thread: designation }: FitJoint, insert: InsertGiven | undefined) {
  const known = thread(designation)
  if (!hole || lengthMm === undefined || isRefusal(known)) return undefined
  const { stackMm, aboveMm = 0, washerMm = 0, threadMm } = hole
  const made = Math.min(lengthMm - stackMm - aboveMm - washerMm, threadMm)
  if (made <= 0 || made >= 1.5 * known.dMm) return undefined
  const hold = insert && insertHold(known, insert)
  const least = hold && !isRefusal(hold) ? Math.min(made, hold.usableMm) : made
  return Math.max(least, LEAST_TURNS * known.pitchMm)
}
