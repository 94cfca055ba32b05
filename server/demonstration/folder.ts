/**
 * The demonstration's data folder. It begins by deleting, so it deletes only where it may [DM1]: in a folder that is
 * empty or carries its mark, whose log is that of an invented shop, and on which no other demonstration runs.
 * The real shop asks here too, and opens nothing of the demonstration's [DM2].
 */
import { existsSync, lstatSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import Client from 'better-sqlite3'
import { makeFolder } from '../folder'
import { type Held, isOfHolding, takeFolder } from '../holding'
import { keyFileIn, marksFolderIn } from '../marks'
import { pinKeyFileIn } from '../people/pin-key'
import { databaseIn, Refused } from '../settings'

const MARK = 'demonstration-only'

const isMarked = (folder: string): boolean => {
  const mark = join(folder, MARK)
  return existsSync(mark) && lstatSync(mark).isFile()
}

/** Takes the folder for this process until it ends, however it ends; another demonstration on it is refused. */
export function claimFolder(folder: string): Held {
  makeFolder(folder)
  const there = readdirSync(folder).filter((name) => !isOfHolding(name))
  if (there.length > 0 && !isMarked(folder))
    throw new Refused(
      `${folder} holds something that is not the demonstration's, and the demonstration begins by deleting. Choose an empty folder with DATA_DIR.`,
    )
  const held = takeFolder(
    folder,
    'demonstration',
    'Look for its window, or choose another folder with DATA_DIR.',
  )
  writeFileSync(join(folder, MARK), 'Everything in this folder is deleted when the demonstration starts.\n')
  return held
}

/** Empties a folder that was claimed: log, photos and pepper go, and nothing else. */
export function emptyFolder(folder: string): void {
  if (!isMarked(folder))
    throw new Refused(`${folder} has lost the demonstration's mark; nothing was deleted.`)
  const database = databaseIn(folder)
  if (inventedShopIn(database) === false)
    throw new Refused(
      `${folder} carries the demonstration's mark, but the log in it is of a real shop. Nothing was deleted. Move that log to a folder of its own, or choose another one for the demonstration with DATA_DIR.`,
    )
  const files = [database, `${database}-wal`, `${database}-shm`, `${database}-journal`]
  const names = ['pepper', 'epoch.json', 'backups.json', basename(pinKeyFileIn(folder))].map((name) =>
    join(folder, name),
  )
  for (const file of [...files, ...names, keyFileIn(folder)]) rmSync(file, { force: true })
  for (const part of [join(folder, 'photos'), marksFolderIn(folder)])
    rmSync(part, { recursive: true, force: true })
}

/** Before the real shop opens a folder: refuses one of the demonstration's. */
export function refuseDemonstration(folder: string): void {
  if (existsSync(join(folder, MARK)))
    throw new Refused(
      `${folder} is the demonstration's: everything in it is invented, and deleted when a demonstration starts. Name the shop's own folder with DATA_DIR, or start "npm run demo".`,
    )
  if (inventedShopIn(databaseIn(folder)))
    throw new Refused(
      `The log in ${folder} is of an invented shop. It was left as it is. Name the shop's own folder with DATA_DIR.`,
    )
}

/** Whether the log's shop was opened as an invented one; nothing where no shop is open or no log can be read. */
function inventedShopIn(database: string): boolean | undefined {
  if (!existsSync(database)) return undefined
  let client: Client.Database | undefined
  try {
    client = new Client(database, { readonly: true, fileMustExist: true })
    const row = client.prepare("select body from event where stream = 'shop' and version = 1").get()
    if (!row) return undefined
    const { event } = JSON.parse((row as { body: string }).body) as { event?: { invented?: boolean } }
    return event?.invented === true
  } catch {
    return undefined
  } finally {
    client?.close()
  }
}
