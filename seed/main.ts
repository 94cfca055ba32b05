/**
 * `npm run demo`: an invented shop on a data folder of its own, made anew at each start.
 *
 * It has a clock of its own: D0 09:45 when it opens, and on from there; the rest of its day can be played.
 */
import { join } from 'node:path'
import { refuseHeld } from '../server/holding'
import { makeLog } from '../server/log'
import { repoFolder } from '../server/repo-folder'
import { run, say, stopWhenAsked } from '../server/run'
import { openDoor } from '../server/serve'
import { readSettings } from '../server/settings'
import { lastTuesday, shopClock } from './clock'
import { openDemonstration } from './demonstration'

await run(async () => {
  const settings = readSettings(process.env, {
    port: 4748,
    dataFolder: join(repoFolder(), 'data', 'demo'),
    logLevel: 'warn',
  })
  refuseHeld(settings.dataFolder, 'Look for its window, or choose another folder with DATA_DIR.')
  const log = makeLog(settings.logLevel)
  const door = await openDoor(settings)
  const { shop, demo, table, reachableAt, close } = await openDemonstration({
    dataFolder: settings.dataFolder,
    clock: shopClock(lastTuesday(Date.now())),
    log,
    failed(error) {
      say(`The demonstration could not begin anew: ${error instanceof Error ? error.message : error}`)
      process.exit(1)
    },
  })
  const serving = await door.serve(shop, { cookieName: 'paintmark_demo', log, demo })
  reachableAt(serving.address)
  stopWhenAsked(async () => {
    await serving.close()
    await close()
  })
  say(`The demonstration runs at ${serving.address}. The shop, its engines and every value are invented.`)
  say('Sign in as:')
  for (const { name, pin } of table) say(`  ${name.padEnd(16)} PIN ${pin}`)
  process.stdout.write(`${JSON.stringify({ address: serving.address, people: table })}\n`)
})
