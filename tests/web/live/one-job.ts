/** A server of one job, and entries for it: for tests of what a device makes of its answers. */
import type { JobCommand } from '../../../shared/job/commands'
import type { Context } from '../../../shared/job/context'
import { decide } from '../../../shared/job/decide'
import { evolveAll, newJob } from '../../../shared/job/evolve'
import type { Job } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import type { Answer } from '../../../shared/protocol'
import type { QueuedJobCommand } from '../../../web/live/outbox'
import type { JobStreamEvent } from '../../../web/live/replica'
import { uuid } from '../../shop/ids'
import { contextOf } from '../../shop/run'
import { testShop } from '../../shop/shop'

export const claim = (stepId = 'caps'): JobCommand => ({ type: 'ClaimStep', stepId })
export const reading = (position: number): JobCommand => ({
  type: 'TakeReading',
  jointId: 'JC',
  position,
  pass: 1,
  how: 'clicked',
  wrenchId: 'click',
})

/** Over all servers, so that no two commands of a test share an id. */
let count = 0

/** The server as a replica sees it: one job, one log, every answer kept by command id. */
export function openServer(jobId = 'j1') {
  let job: Job = newJob(jobId)
  const log: JobStreamEvent[] = []
  const answers = new Map<string, Answer>()

  const newContext = (by: string, commandId = uuid(500 + ++count)): Context => ({
    ...contextOf({ by, command: claim() }, 1, testShop),
    commandId,
  })
  function submit(command: JobCommand, context: Context): Answer {
    const known = answers.get(context.commandId)
    if (known) return known
    const outcome = decide(job, command, context)
    const answer: Answer = isRefusal(outcome)
      ? { ok: false, code: outcome.refused, data: outcome.data, sentence: `No: ${outcome.refused}.` }
      : {
          ok: true,
          version: job.version + outcome.length,
          events: outcome.map((event, i) => ({ version: job.version + i + 1, recordedAt: 0, event })),
        }
    if (answer.ok) {
      log.push(...(answer.events as JobStreamEvent[]))
      job = evolveAll(job, answer.events.map(({ event }) => event) as Parameters<typeof evolveAll>[1])
    }
    answers.set(context.commandId, answer)
    return answer
  }
  const accepted = (commandId: string): boolean => answers.get(commandId)?.ok === true

  submit(
    { type: 'OpenJob', number: 'E-1', engine: { model: 'M', serial: 'S' }, owner: 'O', agreed: 'all' },
    newContext('wim'),
  )
  submit({ type: 'AdoptPlan', planId: 'test-engine', edition: 1 }, newContext('dee'))
  return {
    job: () => job,
    after: (version: number) => log.slice(version),
    submit,
    context: newContext,
    accepted,
  }
}

/** As the outbox holds it. */
export const queued = (
  command: JobCommand,
  { by, commandId, doneAt }: Context,
  jobId = 'j1',
): QueuedJobCommand => ({ stream: `job:${jobId}`, command: { commandId, doneAt, ...command }, by })
