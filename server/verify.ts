/** `npm run verify`: every stream of the log against its hash chain, every release against its head. Ends with 1 when anything is wrong. */

import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { counted } from '../shared/words'
import { migrations } from './open-shop'
import { repoFolder } from './repo-folder'
import { run } from './run'
import { databaseIn, Refused, readSettings } from './settings'
import { openDatabase, sqliteEventStore, verifyLog } from './store'

await run(async () => {
  const { dataFolder } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const file = databaseIn(dataFolder)
  if (!existsSync(file))
    throw new Refused(
      `There is no log at ${file} to verify. Name its folder with DATA_DIR, or start the shop first.`,
    )
  const store = sqliteEventStore(openDatabase({ file, migrationsFolder: migrations() }))
  const brokenStreams = new Set<string>()
  const { streams, events, broken, missingPlaces, releases } = await verifyLog(store)
  for (const { stream, message } of broken) {
    brokenStreams.add(stream)
    process.stdout.write(`BROKEN  ${message}\n`)
  }
  for (const { stream, version } of await store.streams())
    if (!brokenStreams.has(stream)) process.stdout.write(`ok      ${stream}: ${counted(version, 'event')}\n`)
  for (const { number, version, head } of releases)
    process.stdout.write(
      `release ${number}: entries 1 to ${version}, head ${head}: compare it with the printed record\n`,
    )
  await store.close()
  if (missingPlaces !== 0)
    process.stdout.write(
      `MISSING ${missingPlaces} places of the log are held by no stream: a whole stream was taken out. Restore the last good backup.\n`,
    )
  const sound = broken.length === 0 && missingPlaces === 0
  const counts = `${counted(streams, 'stream')}, ${counted(events, 'event')}`
  process.stdout.write(
    sound ? `OK: ${counts}, every chain holds.\n` : `DAMAGED: ${counts} hold; see above.\n`,
  )
  process.exitCode = sound ? 0 : 1
})
