/** `npm run restore -- ONE_BACKUP`: fills an empty data folder with it. */
import { join, resolve } from 'node:path'
import { refuseWithin, restoreBackup, restoredWords } from './backups/restore'
import { takeFolder } from './holding'
import { migrations } from './open-shop'
import { repoFolder } from './repo-folder'
import { run } from './run'
import { Refused, readSettings } from './settings'
import { schemaHashes } from './store'

const WITHOUT = '--without-secrets'

await run(async () => {
  const { dataFolder, passphrase } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const asked = process.argv.slice(2)
  const [name] = asked.filter((each) => each !== WITHOUT)
  if (!name) throw new Refused('Say which backup: npm run restore -- ONE_BACKUP, one of the dated folders.')
  const backup = resolve(name)
  refuseWithin(backup, dataFolder)
  const held = takeFolder(
    dataFolder,
    'restore',
    'Nothing is restored under it: name an empty folder with DATA_DIR.',
  )
  const restored = await restoreBackup({
    backup,
    dataFolder,
    secrets: asked.includes(WITHOUT) ? 'without' : passphrase === undefined ? undefined : { passphrase },
    knownSchema: new Set(schemaHashes(migrations())),
    now: Date.now(),
  })
  held.release()
  for (const sentence of restoredWords(restored, dataFolder)) process.stdout.write(`${sentence}\n`)
})
