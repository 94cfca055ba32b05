/** What became of what was entered under a claim that somebody else had first [CL12]. */
import type { Job } from '../../shared/job/types'
import { indexPlan } from '../../shared/plan/read'
import { counted, upperFirst } from '../../shared/words'
import type { RefusedJobCommand } from '../live/outbox'

export function keptUnderClaim(job: Job, { command, refused, by }: RefusedJobCommand): string | undefined {
  if (command.type !== 'ClaimStep' || refused.code !== 'already_claimed' || !job.plan) return undefined
  const joints = indexPlan(job.plan).stepById.get(command.stepId)?.joints ?? []
  const own = joints
    .flatMap(({ id }) => job.readings[id] ?? [])
    .filter((reading) => reading.by === by && reading.doneAt >= command.doneAt)
  if (own.length === 0) return undefined
  return `${upperFirst(counted(own.length, 'reading'))} entered under this claim ${own.length === 1 ? 'is' : 'are'} kept in the record, flagged: ${command.stepId} was not yours.`
}
