/** The shop's log as the programs of the machine open it: to read it, or to change it while no server runs. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { type Held, type Program, takeFolder } from './holding'
import { openMigrated } from './open-shop'
import { repoFolder } from './repo-folder'
import { databaseIn, Refused, readSettings } from './settings'
import { type EventStore, type ShopDatabase, sqliteEventStore } from './store'

/**
 * `to`: what for, as in `to rebuild from`. Refused where there is no log, or where a server runs. Closing the store closes
 * the database.
 */
export async function openLogToChange(
  to: string,
  program: Program,
): Promise<{ store: EventStore; db: ShopDatabase; held: Held }> {
  const dataFolder = folderOfLog(to)
  const held = takeFolder(dataFolder, program, 'Stop it first, then try again.')
  const db = await openMigrated(dataFolder, Date.now)
  return { store: sqliteEventStore(db), db, held }
}

function folderOfLog(to: string): string {
  const { dataFolder } = readSettings(process.env, {
    port: 0,
    dataFolder: join(repoFolder(), 'data', 'shop'),
  })
  const file = databaseIn(dataFolder)
  if (existsSync(file)) return dataFolder
  throw new Refused(
    `There is no log at ${file} ${to}. Name its folder with DATA_DIR, or start the shop first.`,
  )
}
