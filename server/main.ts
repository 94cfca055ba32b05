/** `npm start`: the real shop. */
import { join } from 'node:path'
import { refuseDemonstration } from './demonstration/folder'
import { makeLog } from './log'
import { openShop } from './open-shop'
import { repoFolder } from './repo-folder'
import { run, say, stopWhenAsked } from './run'
import { serve } from './serve'
import { readSettings } from './settings'

await run(async () => {
  const settings = readSettings(process.env, { port: 4747, dataFolder: join(repoFolder(), 'data', 'shop') })
  refuseDemonstration(settings.dataFolder)
  const log = makeLog(settings.logLevel)
  const shop = await openShop({ dataFolder: settings.dataFolder, now: Date.now, log })
  const serving = await serve(shop, settings, { cookieName: 'paintmark', log })
  stopWhenAsked(async () => {
    await serving.close()
    await shop.close()
  })
  const { opened, name } = await shop.desk.shop()
  process.stdout.write(`Paintmark runs at ${serving.address}\n`)
  if (opened) say(`The shop ${name} is open. Its data is in ${settings.dataFolder}.`)
  else say('No shop is open yet: the page at that address opens one and enters its first supervisor.')
  if (serving.fingerprint)
    say(
      `Tablets learn at ${serving.address}/trust to trust this shop. Its certificate’s SHA-256 fingerprint: ${serving.fingerprint}`,
    )
})
