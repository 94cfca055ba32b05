/**
 * One numbered edition of the release record: the job folded from its log up to what the release covers, and no
 * further. Whatever came later is told apart, and never changes an edition.
 *
 * Pure; the events are the server's, in their order and without a gap.
 */
import type { JobEvent } from '../../../shared/job/events'
import { evolve, newJob } from '../../../shared/job/evolve'
import { stepsOf } from '../../../shared/job/release'
import type { Job, PlannedJob, Release } from '../../../shared/job/types'
import type { StreamEvent } from '../../../shared/log'
import type { ReleaseKind } from '../../../shared/plan/kinds'

export interface Edition {
  release: Release
  /** The job as the release covers it. */
  job: PlannedJob
  /** What the log has had since; the release's own word is not among it. */
  since: readonly StreamEvent<JobEvent>[]
  /** The job with everything since, for naming it. */
  now: Job
}

export type EditionFound = { edition: Edition } | { missing: 'gap' | 'number'; numbers: string[] }

export function editionOf(
  jobId: string,
  events: readonly StreamEvent<JobEvent>[],
  number: string,
): EditionFound {
  if (events.some(({ version }, index) => version !== index + 1)) return { missing: 'gap', numbers: [] }
  let now = newJob(jobId)
  /** What each release was given on, by version. */
  const releasedOn = new Map<number, Job>()
  for (const { event } of events) {
    if (event.type === 'Released') releasedOn.set(now.version, now)
    now = evolve(now, event)
  }
  const release = now.releases.find((release) => release.number === number)
  const job = release && releasedOn.get(release.version)
  if (!release || !job?.plan) return { missing: 'number', numbers: now.releases.map(({ number }) => number) }
  return {
    edition: {
      release,
      job: job as PlannedJob,
      since: events.filter(({ version }) => version > release.version + 1),
      now,
    },
  }
}

/** The steps a release answers for, by id: a release to fitting says nothing of what comes after it. */
export const coveredSteps = (job: PlannedJob, kind: ReleaseKind): Set<string> =>
  new Set(stepsOf(job, kind).map(({ id }) => id))

/** A long hash in groups, so that two papers can be compared by eye. */
export const inGroups = (hash: string): string => hash.match(/.{1,8}/g)?.join(' ') ?? hash
