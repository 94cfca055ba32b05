/** What an entry of the hole register does to its joint: it is added, and who looked before has seen something else. */
import type { EventOf, Job } from '../types'
import { changeReadings } from './parts'

export function recordHole(job: Job, event: EventOf<'HoleRecorded'>): Job {
  const { type: _, clockOffsetMs: __, ...entry } = event
  const { jointId } = entry
  const touched = changeReadings(job, jointId, (list) => list)
  return { ...touched, holes: { ...touched.holes, [jointId]: [...(touched.holes[jointId] ?? []), entry] } }
}
