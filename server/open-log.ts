/** The shop's log as the programs open it that read it while no server runs. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { migrations } from './open-shop'
import { repoFolder } from './repo-folder'
import { databaseIn, Refused, readSettings } from './settings'
import { type EventStore, openDatabase, type ShopDatabase, sqliteEventStore } from './store'

/** `to`: what for, as in `to rebuild from`. Refused where there is no log. Closing the store closes the database. */
export function openLog(to: string): { store: EventStore; db: ShopDatabase } {
  const { dataFolder } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const file = databaseIn(dataFolder)
  if (!existsSync(file))
    throw new Refused(
      `There is no log at ${file} ${to}. Name its folder with DATA_DIR, or start the shop first.`,
    )
  const db = openDatabase({ file, migrationsFolder: migrations() })
  return { store: sqliteEventStore(db), db }
}
