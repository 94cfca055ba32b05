/**
 * The rows beside the log for one job, made from its entries alone: `rebuild` writes them, `verify` compares them, and the
 * first start of a build that makes them otherwise makes them again.
 */
import { summarise } from '../../shared/job/summary'
import type { Job } from '../../shared/job/types'
import { ChainBroken, type EventStore, type Recorded, type Views } from '../store'
import { emptyFold, foldOn, type JobStream, upcast } from './streams'
import type { Log } from './types'
import { changedReadings, summaryRow } from './views'

/** Which rows this build makes: raised whenever the same log comes to other ones. */
export const VIEWS_EDITION = '1'
/** The row of `state` that says which edition the rows are of. */
export const VIEWS = 'views'

export function viewsOf(stream: JobStream, recorded: readonly Recorded[]): Views & { job: Job } {
  const events = recorded.map((row) => upcast(row).event)
  const job = foldOn(stream, emptyFold(stream), events) as Job
  return {
    job,
    summaries: [summaryRow(summarise(job, recorded.at(-1)?.recordedAt))],
    readings: changedReadings(undefined, job),
  }
}

/** Rows written together. */
const JOBS_AT_ONCE = 50

/** Every job's rows, written over the ones there; those of a damaged stream stay as they are. */
export async function makeViewsAgain(store: EventStore, log: Log): Promise<void> {
  const jobs = (await store.streams()).filter(({ stream }) => stream.startsWith('job:'))
  let waiting: Views = { summaries: [], readings: [] }
  const write = async () => {
    await store.commit({ ...waiting, appends: [], answers: [] })
    waiting = { summaries: [], readings: [] }
  }
  for (const { stream } of jobs) {
    try {
      const { summaries, readings } = viewsOf(stream as JobStream, await store.read(stream))
      waiting.summaries.push(...summaries)
      waiting.readings.push(...readings)
    } catch (err) {
      if (!(err instanceof ChainBroken)) throw err
      log.error({ err, stream }, 'The rows of a damaged stream stay as they are.')
    }
    if (waiting.summaries.length >= JOBS_AT_ONCE) await write()
  }
  await write()
  if (jobs.length > 0)
    log.info(
      { jobs: jobs.length },
      'Board and readings were made again from the log, as this version makes them.',
    )
}
