/** `npm run backup -- FOLDER`: one dated folder in it, made by the running server, or by this program where none runs. */
import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { makeBackupKeeper } from './backups/keeper'
import { takeBackup, takenWords } from './backups/take'
import { afterMs } from './desk/clock'
import { askOrTake } from './holding/ask-or-take'
import { makeLog } from './log'
import { programVersion } from './program-version'
import { repoFolder } from './repo-folder'
import { run } from './run'
import { databaseIn, Refused, readSettings } from './settings'

await run(async () => {
  const { dataFolder, passphrase, backupFolder, logLevel } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const asked = process.argv[2] ? resolve(process.argv[2]) : backupFolder
  if (!asked) throw new Refused('Say into which folder: npm run backup -- FOLDER.')
  if (!existsSync(databaseIn(dataFolder)))
    throw new Refused(`There is no shop in ${dataFolder} to back up. Name its folder with DATA_DIR.`)
  const secret = passphrase === undefined ? {} : { passphrase }
  const answer = await askOrTake(dataFolder, 'backup', { do: 'backup', into: asked, ...secret })
  if ('answer' in answer) return void process.stdout.write(`${answer.answer.sentence}\n`)
  const keeper = makeBackupKeeper({
    dataFolder,
    program: programVersion(),
    now: Date.now,
    after: afterMs,
    log: makeLog(logLevel),
    take: takeBackup,
  })
  const taken = await keeper.take({ into: asked, kind: 'by_hand', ...secret })
  answer.held.release()
  process.stdout.write(`${takenWords(taken)}\n`)
})
