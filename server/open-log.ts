/** The shop's log as the programs open it that read it while no server runs. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { migrations } from './open-shop'
import { repoFolder } from './repo-folder'
import { databaseIn, Refused, readSettings } from './settings'
import { openDatabase, sqliteEventStore } from './store'

/** `to`: what for, as in `to verify`. Refused where there is no log. */
export function openLog(to: string) {
  const { dataFolder } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const file = databaseIn(dataFolder)
  if (!existsSync(file))
    throw new Refused(
      `There is no log at ${file} ${to}. Name its folder with DATA_DIR, or start the shop first.`,
    )
  return sqliteEventStore(openDatabase({ file, migrationsFolder: migrations() }))
}
