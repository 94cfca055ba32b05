/** The thread and hole register: which entry of a place is in force, and what stands against its thread. */
import type { HoleEntry, Job } from '../types'

/** What was last found or done at a hole; `undefined` while nobody has said anything of it. */
export const holeAt = (job: Job, jointId: string, position: number): HoleEntry | undefined =>
  job.holes[jointId]?.findLast((entry) => entry.position === position)

/** Until when a bonded insert cures there; over, or never begun, where it is not after `now`. */
export const curesUntil = (job: Job, jointId: string, position: number): number =>
  holeAt(job, jointId, position)?.curesUntil ?? 0
