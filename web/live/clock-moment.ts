/**
 * Now, for views that change by themselves: it moves only when a clock of the job has run out, so that a page
 * redraws then and at no other time. Without a cure or an open bead it stands still and costs nothing but a look.
 */
import { type Accessor, createMemo } from 'solid-js'
import { nextChangeAt } from '../../shared/job/clocks'
import type { Job, PlannedJob } from '../../shared/job/types'
import { useNow } from '../ui/clock'

const LOOK_MS = 5000

/** The moment views are to be reckoned at, given the one before: later only when something ran out between. */
export function momentAfter(job: Job, before: number, now: number): number {
  if (now < before) return now
  const next = job.plan ? nextChangeAt(job as PlannedJob, before) : undefined
  return next !== undefined && next <= now ? now : before
}

export function useMoment(job: Accessor<Job>): Accessor<number> {
  const now = useNow(LOOK_MS)
  return createMemo<number>((before) => momentAfter(job(), before, now()), now())
}
