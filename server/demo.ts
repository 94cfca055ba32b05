/**
 * `npm run demo`: an invented shop on a data folder of its own, made anew at each start.
 *
 * Only a folder that carries the demonstration's mark is ever emptied.
 */
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { seedDemo } from '../seed/demo'
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
  const shop = await openShop({ dataFolder, now: Date.now, log })
  const { desk, people, newId } = shop
  const table = await seedDemo({ desk, people, newId, now: Date.now(), repo: repoFolder() })
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
}
