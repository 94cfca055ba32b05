/**
 * `npm run demo`: an invented shop on a data folder of its own, made anew at each start.
 *
 * It has a clock of its own: D0 09:45 when it opens, and on from there. Only a folder that carries the
 * demonstration's mark is ever emptied.
 */
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { v7 } from 'uuid'
import { lastTuesday, OPENS_AT, shopClock } from '../seed/clock'
import { EVENT_IDS, seedDemo } from '../seed/demo'
import { idsFrom } from '../seed/ids'
import { makeFolder } from './folder'
import { makeLog } from './log'
import { openShop } from './open-shop'
import { repoFolder } from './repo-folder'
import { run, say, stopWhenAsked } from './run'
import { serve } from './serve'
import { databaseIn, Refused, readSettings } from './settings'

const MARK = 'demonstration-only'

await run(async () => {
  const settings = readSettings(process.env, {
    port: 4748,
    dataFolder: join(repoFolder(), 'data', 'demo'),
    logLevel: 'warn',
  })
  const { dataFolder } = settings
  emptied(dataFolder)
  const log = makeLog(settings.logLevel)
  const clock = shopClock(lastTuesday(Date.now()))
  const behindMs = Date.now() - clock.at(0, OPENS_AT)
  // The past takes ids that come out the same at every start; whatever happens from then on takes them from chance.
  let nextId = idsFrom(EVENT_IDS)
  const shop = await openShop({ dataFolder, now: () => Date.now() - behindMs, log, newId: () => nextId() })
  const { desk, people, photos } = shop
  const table = await seedDemo({ desk, people, photos, clock, repo: repoFolder() })
  nextId = v7
  const serving = await serve(shop, settings, { cookieName: 'paintmark_demo', log })
  stopWhenAsked(async () => {
    await serving.close()
    await shop.close()
  })
  say(`The demonstration runs at ${serving.address}. The shop, its engines and every value are invented.`)
  say('Sign in as:')
  for (const { name, pin } of table) say(`  ${name.padEnd(16)} PIN ${pin}`)
  process.stdout.write(`${JSON.stringify({ address: serving.address, people: table })}\n`)
})

function emptied(folder: string) {
  makeFolder(folder)
  const there = readdirSync(folder)
  if (there.length > 0 && !existsSync(join(folder, MARK)))
    throw new Refused(
      `${folder} holds something that is not the demonstration's, and the demonstration begins by deleting. Choose an empty folder with DATA_DIR.`,
    )
  writeFileSync(join(folder, MARK), 'Everything in this folder is deleted when the demonstration starts.\n')
  const database = databaseIn(folder)
  for (const file of [database, `${database}-wal`, `${database}-shm`, join(folder, 'pepper')])
    rmSync(file, { force: true })
  rmSync(join(folder, 'photos'), { recursive: true, force: true })
}
