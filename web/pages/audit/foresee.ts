/** What the rules would answer to a command, asked of the same rules that will decide it. */
import { decide } from '../../../shared/job/decide'
import type { Job, JobCommand, JobEvent } from '../../../shared/job/types'
import { isRefusal, type Refusal } from '../../../shared/log'
import type { Shop } from '../../../shared/shop/types'

export function foresee(
  job: Job,
  shop: Shop,
  by: string,
  doneAt: number,
  command: JobCommand,
): readonly JobEvent[] | Refusal {
  // A release asks for the log's hash, which only the server has: any will do to ask whether one may.
  return decide(job, command, { shop, by, doneAt, commandId: 'may-i', through: 'sign_in', head: 'asked' })
}

/** Whether it would be recorded as a word on the same person's work. */
export function ownWork(answer: readonly JobEvent[] | Refusal): boolean {
  return !isRefusal(answer) && answer.some((event) => 'ownWork' in event && event.ownWork === true)
}
