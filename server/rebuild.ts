/** `npm run rebuild`: the tables that are made from the log, made again from it. Events and answers stay. */

import { counted } from '../shared/words'
import type { JobStream } from './desk/streams'
import { VIEWS, VIEWS_EDITION, viewsOf } from './desk/views-of'
import { makeLetGo } from './let-go'
import { openLogToChange } from './open-log'
import { run } from './run'
import { Refused } from './settings'
import { setState, type Views } from './store'

const letGo = makeLetGo()

await run(async () => {
  const { store, db, held } = await openLogToChange('to rebuild from', 'rebuild')
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
    for (const { stream } of jobs) {
      if (stopped)
        throw new Refused(
          'Stopped. Nothing was changed: board and readings are as they were before. Start it again when there is time.',
        )
      const rows = await store.read(stream)
      const { summaries, readings: ofJob } = viewsOf(stream as JobStream, rows)
      readings += ofJob.length
      yield { summaries, readings: ofJob }
      done += rows.length
      letGo(rows.length)
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
  setState(db, VIEWS, VIEWS_EDITION)
  await store.close()
  held.release()
  process.stdout.write(
    `Made again from the log: ${counted(jobs.length, 'job')}, ${counted(readings, 'reading')}.\n`,
  )
})
