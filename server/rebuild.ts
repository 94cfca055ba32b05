/** `npm run rebuild`: the tables that are made from the log, made again from it. Events and answers stay. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { summarise } from '../shared/job/summary'
import type { Job } from '../shared/job/types'
import { emptyFold, foldOn, type StreamName, upcast } from './desk/streams'
import { changedReadings, summaryRow } from './desk/views'
import { migrations } from './open-shop'
import { repoFolder } from './repo-folder'
import { run } from './run'
import { databaseIn, Refused, readSettings } from './settings'
import { openDatabase, type ReadingRow, type SummaryRow, sqliteEventStore } from './store'

await run(async () => {
  const { dataFolder } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const file = databaseIn(dataFolder)
  if (!existsSync(file))
    throw new Refused(
      `There is no log at ${file} to rebuild from. Name its folder with DATA_DIR, or start the shop first.`,
    )
  const store = sqliteEventStore(openDatabase({ file, migrationsFolder: migrations() }))
  const summaries: SummaryRow[] = []
  const readings: ReadingRow[] = []
  for (const { stream } of await store.streams()) {
    if (!stream.startsWith('job:')) continue
    const name = stream as StreamName
    const rows = await store.read(stream)
    const events = rows.map((row) => upcast(row).event)
    const job = foldOn(name, emptyFold(name), events) as Job
    summaries.push(summaryRow(summarise(job, rows.at(-1)?.recordedAt)))
    for (const row of changedReadings(undefined, job)) readings.push(row)
  }
  await store.replaceViews({ summaries, readings })
  await store.close()
  process.stdout.write(
    `Made again from the log: ${summaries.length} ${summaries.length === 1 ? 'job' : 'jobs'} on the board, ${readings.length} readings.\n`,
  )
})
