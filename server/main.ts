/** `npm start`: the real shop. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { refuseWeak } from './backups/secrets'
import { answersOf } from './box/answers'
import { refuseDemonstration } from './demonstration/folder'
import { format } from './format'
import { refuseHeld, takeFolder } from './holding'
import { makeLog } from './log'
import { openShop } from './open-shop'
import { makeFirstRunCode } from './people/first-run-code'
import { checkInBackground } from './proof/background'
import { noticesOf } from './proof/notices'
import { refuseLostShop, refuseRemnants, undoIn } from './remnants'
import { repoFolder } from './repo-folder'
import { run, say, stopWhenAsked } from './run'
import { openDoor } from './serve'
import { readSettings } from './settings'

const OPEN_THAT_ONE =
  'Open that address, or stop it first; for another shop choose another folder with DATA_DIR.'

await run(async () => {
  const settings = readSettings(process.env, { port: 4747, dataFolder: join(repoFolder(), 'data', 'shop') })
  const { dataFolder, backupFolder, passphrase } = settings
  if (passphrase !== undefined) refuseWeak(passphrase)
  refuseDemonstration(dataFolder)
  refuseRemnants(dataFolder)
  refuseHeld(dataFolder, OPEN_THAT_ONE)
  const log = makeLog(settings.logLevel)
  // From here on something is made; what fails more often than it does was tried before.
  const door = await openDoor(settings)
  const held = takeFolder(dataFolder, 'server', OPEN_THAT_ONE)
  const undo = undoIn(dataFolder)
  const shop = await openShop({ dataFolder, now: Date.now, log }).catch((error) => {
    undo()
    throw error
  })
  const { opened, name, firstRunCode, serving } = await onTheNetwork().catch(async (error) => {
    await shop.close()
    undo()
    throw error
  })

  async function onTheNetwork() {
    const { opened, name } = await shop.desk.shop()
    if (!opened) refuseLostShop(dataFolder)
    const firstRunCode = opened ? undefined : makeFirstRunCode()
    const serving = await door.serve(shop, {
      cookieName: 'paintmark',
      log,
      ...(firstRunCode ? { firstRunCode } : {}),
    })
    held.reachableAt(serving.address)
    await held.answer(answersOf(shop, log, passphrase))
    return { opened, name, firstRunCode, serving }
  }

  if (backupFolder)
    shop.box.backups.start({ into: backupFolder, ...(passphrase === undefined ? {} : { passphrase }) })
  shop.box.chainIs('checking')
  const check = checkInBackground({
    dataFolder,
    log,
    done({ faults, events }) {
      // A shop that is not open yet has nothing to check.
      const found = faults.filter(({ kind }) => events > 0 || kind !== 'empty')
      shop.damage.checked(noticesOf(found))
      shop.box.chainIs(found.length > 0 ? 'damaged' : 'sound')
      for (const { sentence } of found) say(`DAMAGED: ${sentence}`)
      if (found.length === 0) log.info({ events }, 'The data folder was checked: nothing is damaged.')
    },
  })
  stopWhenAsked(async () => {
    check.close()
    await serving.close()
    await shop.close()
    held.release()
  })
  process.stdout.write(`Paintmark runs at ${serving.address}\n`)
  if (opened) say(`The shop ${name} is open. Its data is in ${dataFolder}.`)
  else
    say(`No shop is open yet. Open ${serving.address} and enter this code there to open one: ${firstRunCode}`)
  if (!backupFolder)
    say(
      'The server makes no backups by itself: name a folder for them with BACKUP_DIR, best on another disk.',
    )
  else if (!existsSync(backupFolder))
    say(`There is no folder ${backupFolder} for the backups yet. Make it, or mount the disk it is on.`)
  else if (shop.box.backups.onSameDisk())
    say(
      `Backups go to ${backupFolder}, which is on the same disk as the data: if that disk fails, both are lost.`,
    )
  if (serving.fingerprint)
    say(
      `Tablets learn at ${serving.address}/trust to trust this shop. Its certificate’s SHA-256 fingerprint: ${serving.fingerprint}`,
    )
  if (serving.next)
    say(
      `The certificate is renewed on ${format.date(serving.next.from)}. Let every tablet trust the next one too until then, at ${serving.address}/trust; its fingerprint: ${serving.next.fingerprint}`,
    )
})
