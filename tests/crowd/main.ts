/**
 * `npm run crowd`: the demonstration's shop with a full yard, for looking at what much data does to a screen.
 * `npm run crowd -- 200` opens it with that many engines more (200 unless told), and with one whose names, plan
 * and joint are as large as they come. On a folder of its own that is removed when it ends.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { lastTuesday, OPENS_AT, shopClock } from '../../seed/clock'
import { seedDemo } from '../../seed/demo'
import { makeLog } from '../../server/log'
import { openShop } from '../../server/open-shop'
import { repoFolder } from '../../server/repo-folder'
import { run, say, stopWhenAsked } from '../../server/run'
import { serve } from '../../server/serve'
import { Refused, readSettings } from '../../server/settings'
import { fullYard } from './yard'

/** More would leave no room for steps to lie in the past. */
const MOST = 2000

await run(async () => {
  const asked = process.argv[2] ?? '200'
  const count = Number(asked)
  if (!/^\d+$/.test(asked) || count > MOST)
    throw new Refused(`"${asked}" engines were asked for. Give a whole number up to ${MOST}.`)
  const dataFolder = mkdtempSync(join(tmpdir(), 'paintmark-crowd-'))
  const settings = { ...readSettings(process.env, { port: 4749, dataFolder, logLevel: 'warn' }), dataFolder }
  const log = makeLog(settings.logLevel)
  const clock = shopClock(lastTuesday(Date.now()))
  const behindMs = Date.now() - clock.at(0, OPENS_AT)
  const shop = await openShop({ dataFolder, now: () => Date.now() - behindMs, log })
  const repo = repoFolder()
  const people = await seedDemo({ ...shop, clock, repo, yard: fullYard(repo, count) })
  const serving = await serve(shop, settings, { cookieName: 'paintmark_crowd', log })
  stopWhenAsked(async () => {
    await serving.close()
    await shop.close()
    rmSync(dataFolder, { recursive: true, force: true })
  })
  say(`${count} engines more, all invented, at ${serving.address}. PINs are the demonstration's.`)
  process.stdout.write(`${JSON.stringify({ address: serving.address, people })}\n`)
})
