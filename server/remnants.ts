/**
 * Signs that a shop was here whose log is gone. Nobody is offered to open a new one beside them: whoever came first would
 * be its owner, and the old shop's photos and PINs would be taken for theirs.
 */
import { existsSync, readdirSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { RESTORING } from './backups/restore'
import { isOfHolding } from './holding'
import { databaseIn, Refused } from './settings'

/** What a server leaves beside its database, with what it is called. */
const LEFT: readonly (readonly [name: string, words: string])[] = [
  ['photos', 'photos'],
  ['pepper', 'the pepper of its PINs'],
  ['tls', 'its certificates'],
  ['marks', 'signed marks of its log'],
  ['marks.key', 'the key of its marks'],
  ['pins.key', 'the key that PINs are sealed to'],
  ['epoch.json', 'the epoch of its log'],
  ['backups.json', 'what was known of its backups'],
  ['before-migration', 'backups from before a migration'],
]
/** What a start makes before any shop is open. */
const MADE = ['pepper', 'tls', 'marks', 'marks.key', 'epoch.json']
/** What is only there where a shop was open once. */
const ONLY_OF_A_SHOP = ['photos', 'backups.json', 'before-migration']

/** Before anything is opened: refused where the database is missing beside what belongs to it, or a restore was cut short. */
export function refuseRemnants(folder: string): void {
  if (existsSync(join(folder, RESTORING)))
    throw new Refused(
      `A restore into ${folder} was cut short, and what it holds is not a whole shop. Run "npm run restore" again: it begins anew.`,
    )
  const database = databaseIn(folder)
  if (existsSync(database)) return
  const left = LEFT.filter(([name]) => isThere(folder, name)).map(([, words]) => words)
  if (existsSync(`${database}-wal`)) left.unshift('a part of its database (paintmark.db-wal)')
  if (left.length > 0) throw new Refused(sentence(folder, 'its database paintmark.db is missing', left))
}

/** After it was opened: refused where no shop is in the log beside what only a shop leaves. */
export function refuseLostShop(folder: string): void {
  const left = LEFT.filter(([name]) => ONLY_OF_A_SHOP.includes(name) && isThere(folder, name))
  if (left.length > 0)
    throw new Refused(
      sentence(
        folder,
        'there is no shop in its database',
        left.map(([, words]) => words),
      ),
    )
}

/**
 * For a start that fails after all: what it made in a folder that was empty goes again, and nothing else. To be called
 * before anything is made there.
 */
export function undoIn(folder: string): () => void {
  const wasEmpty = readdirSync(folder).every(isOfHolding)
  return () => {
    if (!wasEmpty) return
    const database = ['', '-wal', '-shm', '-journal'].map((ending) => `${databaseIn(folder)}${ending}`)
    for (const path of [...database, ...MADE.map((name) => join(folder, name))])
      rmSync(path, { recursive: true, force: true })
  }
}

const sentence = (folder: string, what: string, left: readonly string[]) =>
  `A shop was in ${folder}: ${left.join(', ')} ${left.length === 1 && !left[0]?.endsWith('s') ? 'is' : 'are'} there, but ${what}. ` +
  'Move this folder away and restore the last good backup into an empty one (npm run restore), or name another folder with DATA_DIR.'

function isThere(folder: string, name: string): boolean {
  const path = join(folder, name)
  if (!existsSync(path)) return false
  return statSync(path).isDirectory() ? readdirSync(path).length > 0 : true
}
