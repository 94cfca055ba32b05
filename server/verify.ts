/** `npm run verify`: every stream of the log against its hash chain, every release against its head. Ends with 1 when anything is wrong. */

import { counted } from '../shared/words'
import { openLog } from './open-log'
import { run } from './run'
import { verifyLog } from './store'

await run(async () => {
  const store = openLog('to verify')
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
