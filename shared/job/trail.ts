/**
 * A job's record as sentences: one for each event, in the order they were recorded.
 *
 * Says what happened and no more; judgement stands in `verdicts.ts`. Old entries are said in the words of
 * today, from the values they carry.
 */
import type { Instant, StreamEvent } from '../log'
import { indexPlan } from '../plan/read'
import type { Words } from '../words'
import type { JobEvent } from './events'
import { SENTENCES } from './trail/sentences'
import type { Job } from './types'

export interface TrailLine {
  version: number
  doneAt: Instant
  recordedAt: Instant
  by: string
  type: JobEvent['type']
  /** The step it belongs to; an event of the whole job has none. */
  stepId?: string
  sentence: string
}

/** `job` names what the event points at; the plan it follows never changes. */
export function trailLine(
  job: Job,
  { version, recordedAt, event }: StreamEvent<JobEvent>,
  words: Words,
): TrailLine {
  const { doneAt, by, type } = event
  const stepId = stepIdOf(job, event)
  return {
    version,
    doneAt,
    recordedAt,
    by,
    type,
    ...(stepId === undefined ? {} : { stepId }),
    sentence: sentence(event, job, words.person(by), words),
  }
}

function stepIdOf(job: Job, event: JobEvent): string | undefined {
  if ('stepId' in event) return event.stepId
  if (event.type === 'PhotoAdded') return event.photo.stepId
  return 'jointId' in event && job.plan ? indexPlan(job.plan).stepOfJoint.get(event.jointId)?.id : undefined
}

const sentence = (event: JobEvent, job: Job, who: string, words: Words): string =>
  (SENTENCES[event.type] as (event: JobEvent, job: Job, who: string, words: Words) => string)(
    event,
    job,
    who,
    words,
  )
