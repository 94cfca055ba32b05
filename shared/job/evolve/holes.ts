/** What an entry of the hole register does to its joint: it is added, and who looked before has seen something else. */
import type { EventOf } from '../events'
import type { Job } from '../types'
import { changeReadings, lapseWaivers } from './parts'

export function recordHole(job: Job, event: EventOf<'HoleRecorded'>): Job {
  const { type: _, clockOffsetMs: __, ...entry } = event
  const { jointId, position } = entry
  const touched = changeReadings(job, jointId, (list) => list)
  const added = {
    ...touched,
    holes: { ...touched.holes, [jointId]: [...(touched.holes[jointId] ?? []), entry] },
  }
  // [HR12] What a supervisor accepted there was another hole.
  return lapseWaivers(added, [{ kind: 'fastener', jointId, position }], event)
}
