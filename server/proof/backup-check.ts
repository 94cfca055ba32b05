/**
 * A backup against what it says of itself: every file it names by its length and its bytes, and its log by place, heads and
 * counts. Then it is checked like any data folder (`check.ts`). It may lie on a medium that nobody can write to.
 */
import { existsSync, readdirSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import Client from 'better-sqlite3'
import {
  censusOf,
  DATABASE,
  type LogCensus,
  MANIFEST,
  type Manifest,
  readManifest,
} from '../backups/manifest'
import { sha256OfFile } from '../files'
import { marksFolderIn, readBook, signatureHolds } from '../marks'
import { Refused } from '../settings'
import { canonical } from '../store'
import { openReadOnly } from './open-read-only'
import type { Fault } from './report'

const ANOTHER = 'Take another backup, and make a new one with "npm run backup".'

/** Refused where it is no backup at all. */
export async function checkBackup(folder: string): Promise<{ faults: Fault[]; notes: string[] }> {
  const manifest = readManifest(folder)
  const faults: Fault[] = []
  const notes: string[] = []
  const add = (what: string) => void faults.push({ kind: 'backup', sentence: `${what}. ${ANOTHER}` })
  for (const { path, bytes, sha256 } of manifest.files) {
    const file = join(folder, path)
    if (!existsSync(file)) add(`${path} is missing from the backup`)
    else if (statSync(file).size !== bytes || (await sha256OfFile(file)) !== sha256)
      add(`${path} is not what the backup was made with`)
  }
  const named = new Set([MANIFEST, ...manifest.files.map(({ path }) => path)])
  for (const path of filesIn(folder))
    if (!named.has(path)) add(`${path} lies in the backup, which does not name it`)
  const census = existsSync(join(folder, DATABASE)) ? censusIn(join(folder, DATABASE)) : undefined
  const odd =
    census &&
    (Object.keys(census) as (keyof LogCensus)[]).filter((key) => !isSame(census[key], manifest[key]))
  if (odd && odd.length > 0) add(`${MANIFEST} does not fit the database beside it (${odd.join(', ')})`)
  if (!isSigned(manifest, folder)) add(`${MANIFEST} is not what the shop’s key has signed`)
  if (manifest.damagedPhotos.length > 0)
    notes.push(
      `Photos that were damaged already when it was made are not in it: ${manifest.damagedPhotos.join(', ')}.`,
    )
  return { faults, notes }
}

/** By the key that the marks beside it were made with last. A backup of a shop without marks has no signature. */
function isSigned({ signature, ...rest }: Manifest, folder: string): boolean {
  const key = readBook(marksFolderIn(folder)).keys.at(-1)?.key
  if (!rest.mark || key === undefined) return !rest.mark && key === undefined
  return (
    rest.mark.key === key &&
    /^[0-9a-f]{128}$/.test(signature ?? '') &&
    signatureHolds(key, canonical(rest), signature ?? '')
  )
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)

/** Nothing where it is damaged: that is told by the check of the log. */
function censusIn(file: string): LogCensus | undefined {
  let open: ReturnType<typeof openReadOnly> | undefined
  try {
    open = openReadOnly(file)
    return censusOf(open.client)
  } catch (error) {
    if (error instanceof Refused || isSqlite(error)) return undefined
    throw error
  } finally {
    open?.close()
  }
}

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))

const isSqlite = (error: unknown) => error instanceof Client.SqliteError
