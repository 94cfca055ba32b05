/** `npm run rebuild`: the tables that are made from the log, made again from it. Events and answers stay. */

import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { summarise } from '../shared/job/summary'
import type { Job } from '../shared/job/types'
import { counted } from '../shared/words'
import { emptyFold, foldOn, type StreamName, upcast } from './desk/streams'
import { changedReadings, summaryRow } from './desk/views'
import { openLog } from './open-log'
import { run } from './run'
import { Refused } from './settings'
import type { Views } from './store'

/** Left to itself, Node keeps a hundred megabytes of engines that were done with before it looks for them. */
const LET_GO_EVERY = 10_000
setFlagsFromString('--expose-gc')
const letGo = runInNewContext('gc') as () => void

await run(async () => {
  const store = openLog('to rebuild from')
  let stopped = false
  process.once('SIGINT', () => {
    stopped = true
  })
  const jobs = (await store.streams()).filter(({ stream }) => stream.startsWith('job:'))
  const all = jobs.reduce((sum, { version }) => sum + version, 0)
  let readings = 0

  /** A job at a time: a shop's ten years do not fit in memory, one engine does. */
  async function* views(): AsyncGenerator<Views> {
    let done = 0
    let told = 0
    let held = 0
    for (const { stream } of jobs) {
      if (stopped)
        throw new Refused(
          'Stopped. Nothing was changed: board and readings are as they were before. Start it again when there is time.',
        )
      const name = stream as StreamName
      const rows = await store.read(stream)
      const events = rows.map((row) => upcast(row).event)
      const job = foldOn(name, emptyFold(name), events) as Job
      const ofJob = changedReadings(undefined, job)
      readings += ofJob.length
      yield { summaries: [summaryRow(summarise(job, rows.at(-1)?.recordedAt))], readings: ofJob }
      done += rows.length
      held += rows.length
      if (held >= LET_GO_EVERY) {
        held = 0
        letGo()
      }
      const percent = Math.floor((100 * done) / all)
      if (percent >= told + 10) {
        told = percent
        process.stderr.write(`${percent} % read. Ctrl-C stops it and leaves all as it was.\n`)
      }
      // Lets a signal in.
      await new Promise((resolve) => setImmediate(resolve))
    }
  }

  await store.replaceViews(views())
  await store.close()
  process.stdout.write(
    `Made again from the log: ${counted(jobs.length, 'job')}, ${counted(readings, 'reading')}.\n`,
  )
})
