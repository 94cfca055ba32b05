/**
 * Makes one backup: a folder that holds the log at one moment, every photo, and what it says of itself.
 *
 * People work on meanwhile. The database is copied by `VACUUM INTO`, which reads one moment of it and asks nobody to
 * wait; the copy is in rollback-journal mode, so that it opens from a medium that cannot be written. The folder
 * carries another name until all of it is on the disk: one that is there under its own name is whole.
 */
import { constants, existsSync, mkdirSync, readdirSync, realpathSync, rmSync, statSync } from 'node:fs'
import { copyFile, link, rename, rm } from 'node:fs/promises'
import { basename, dirname, join, relative, sep } from 'node:path'
import Client from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { counted } from '../../shared/words'
import { epochIn } from '../box/epoch'
import type { Log } from '../desk/types'
import { diskProblem, onDisk } from '../disk'
import { flush, sha256OfFile, writeWhole } from '../files'
import { copyMarks, hasMarks, marksFolderIn, openMarks, readBook, signingKeyIn } from '../marks'
import { photosIn, placeOfPhoto } from '../photos/shelf'
import { databaseIn, Refused } from '../settings'
import { canonical, OPEN_SINCE } from '../store'
import { backupsIn } from './kept'
import {
  type BackupFile,
  type BackupKind,
  censusOf,
  DATABASE,
  FORMAT,
  MANIFEST,
  type Manifest,
  PARTIAL,
  SECRETS,
} from './manifest'
import { seal, secretsIn } from './secrets'

export interface TakeParts {
  dataFolder: string
  /** The folder in which the backup's own is made. */
  into: string
  kind: BackupKind
  /** Encrypts pepper and keys; without it the backup has none. */
  passphrase?: string
  program: string
  now: number
}

export interface Taken {
  folder: string
  manifest: Manifest
}

export async function takeBackup(parts: TakeParts): Promise<Taken> {
  const { dataFolder, into } = parts
  refuseWhereto(into, dataFolder, parts.kind)
  const shop = shopIn(databaseIn(dataFolder))
  if (!shop) throw new Refused('No shop is open here yet, so there is nothing to back up. Open it first.')
  removeLeft(into, shop.key)
  const folder = join(into, freeName(into, `${stamp(parts.now)}-${shop.key.slice(0, 8)}`))
  const partial = `${folder}${PARTIAL}`
  try {
    mkdirSync(partial, { mode: 0o700 })
    const manifest = await fill(partial, parts, shop)
    await rename(partial, folder)
    flush(into)
    return { folder, manifest }
  } catch (error) {
    await rm(partial, { recursive: true, force: true }).catch(() => undefined)
    const problem = diskProblem(error)
    if (problem) throw new Refused(`No backup was made. ${onDisk(into, problem)}`, { cause: error })
    throw error
  }
}

async function fill(partial: string, parts: TakeParts, shop: Manifest['shop']): Promise<Manifest> {
  const { dataFolder, into, kind, passphrase, program, now } = parts
  const files: BackupFile[] = []
  const add = async (path: string) => {
    const file = join(partial, path)
    flush(file)
    files.push({ path, bytes: statSync(file).size, sha256: await sha256OfFile(file) })
  }
  const copy = join(partial, DATABASE)
  copyDatabase(databaseIn(dataFolder), copy)
  const census = onCopy(copy, censusOf)
  const marks = marksFolderIn(partial)
  const epoch = epochIn(dataFolder, now)
  // A folder of before there were any has none, and is to be known as such.
  if (hasMarks(dataFolder)) {
    copyMarks(marksFolderIn(dataFolder), marks, { entries: census.seq, answers: census.counts.answers })
    await markCopy(copy, { partial, dataFolder, epoch: epoch.id, now })
    for (const name of readdirSync(marks)) await add(`${basename(marks)}/${name}`)
    flush(marks)
  }
  await add(DATABASE)
  if (passphrase !== undefined) {
    writeWhole(join(partial, SECRETS), seal(secretsIn(dataFolder), passphrase, shop.key))
    await add(SECRETS)
  }
  const earlier = backupsIn(into, shop.key).at(-1)?.folder
  const photos = await copyPhotos(join(dataFolder, 'photos'), join(partial, 'photos'), earlier)
  files.push(...photos.files)
  const manifest: Manifest = {
    format: FORMAT,
    kind,
    madeAt: now,
    program,
    shop,
    epoch: { id: epoch.id, number: epoch.number },
    ...census,
    photos: photos.files.length,
    ...markIn(marks),
    damagedPhotos: photos.damaged,
    secrets: passphrase !== undefined,
    files,
  }
  const signed = manifest.mark
    ? { ...manifest, signature: signingKeyIn(dataFolder).sign(canonical(manifest)) }
    : manifest
  writeWhole(join(partial, MANIFEST), `${JSON.stringify(signed, undefined, 1)}\n`)
  return signed
}

function copyDatabase(from: string, to: string) {
  const source = new Client(from, { readonly: true, fileMustExist: true, timeout: 10_000 })
  try {
    source.prepare('vacuum into ?').run(to)
  } finally {
    source.close()
  }
}

/** The copy, in the mode in which it can be read from anywhere. */
export function onCopy<T>(file: string, look: (client: Client.Database) => T): T {
  const client = new Client(file, { fileMustExist: true })
  try {
    client.pragma('journal_mode = delete')
    client.pragma('synchronous = full')
    // It was copied from one that is open; it is not.
    if (hasState(client)) client.prepare('delete from state where name = ?').run(OPEN_SINCE)
    return look(client)
  } finally {
    client.close()
  }
}

/** A database of before there was one has no such table. */
export const hasState = (client: Client.Database): boolean =>
  client.prepare("select 1 from sqlite_master where type = 'table' and name = 'state'").get() !== undefined

/** People worked on while it was made: the last mark before it does not reach to its end. */
async function markCopy(
  copy: string,
  { partial, dataFolder, epoch, now }: { partial: string; dataFolder: string; epoch: string; now: number },
) {
  const client = new Client(copy, { readonly: true, fileMustExist: true })
  try {
    const db = drizzle({ client })
    const marks = openMarks({
      db,
      dataFolder: partial,
      keyFolder: dataFolder,
      epoch,
      now: () => now,
      log: SILENT,
      after: () => () => undefined,
    })
    await marks.mark('backup')
    await marks.close()
  } finally {
    client.close()
  }
}

/** What is wrong with the log is told where it lies, not of its copy. */
const SILENT: Log = { info() {}, warn() {}, error() {}, debug() {} }

/** The furthest mark that the copy bears, by whose key it can be told from one made anew. */
function markIn(marks: string): Pick<Manifest, 'mark'> {
  const { marks: all, keys } = readBook(marks)
  const furthest = all.reduce<(typeof all)[number] | undefined>(
    (most, mark) => (most && most.entries.count > mark.entries.count ? most : mark),
    undefined,
  )
  const key = keys.find(({ key }) => key.startsWith(furthest?.by ?? '?'))?.key
  return furthest && key
    ? { mark: { key, entries: furthest.entries.count, root: furthest.entries.root } }
    : {}
}

/**
 * Every photo under its hash. One that the backup before has, with bytes that still hash to its name, is linked where
 * both lie on one disk; one that is damaged here is taken from there.
 */
async function copyPhotos(from: string, to: string, earlier: string | undefined) {
  const files: BackupFile[] = []
  const damaged: string[] = []
  const folders = new Set<string>()
  for (const sha256 of photosIn(from)) {
    const place = placeOfPhoto(sha256)
    const target = join(to, place)
    mkdirSync(dirname(target), { recursive: true, mode: 0o700 })
    folders.add(dirname(target))
    const sources = [
      ...(earlier ? [() => linkOrCopy(join(earlier, 'photos', place), target)] : []),
      () => copyFile(join(from, place), target, constants.COPYFILE_FICLONE),
    ]
    if (!(await firstGood(sources, target, sha256))) {
      damaged.push(sha256)
      continue
    }
    flush(target)
    files.push({ path: `photos/${sha256.slice(0, 2)}/${sha256}`, bytes: statSync(target).size, sha256 })
  }
  for (const folder of folders) flush(folder)
  return { files, damaged }
}

async function firstGood(sources: (() => Promise<void>)[], target: string, sha256: string): Promise<boolean> {
  for (const take of sources) {
    try {
      await take()
    } catch (error) {
      if ((error as { code?: string }).code === 'ENOENT') continue
      throw error
    }
    if ((await sha256OfFile(target)) === sha256) return true
    await rm(target, { force: true })
  }
  return false
}

async function linkOrCopy(from: string, to: string): Promise<void> {
  try {
    await link(from, to)
  } catch (error) {
    if ((error as { code?: string }).code === 'ENOENT') throw error
    await copyFile(from, to, constants.COPYFILE_FICLONE)
  }
}

function refuseWhereto(into: string, dataFolder: string, kind: BackupKind) {
  if (!existsSync(into) || !statSync(into).isDirectory())
    throw new Refused(
      `There is no folder ${into}. Make it, or mount the disk it is on; a backup that makes its own folder may land on the wrong disk.`,
    )
  const within = relative(realpathSync(dataFolder), realpathSync(into))
  if (kind !== 'before_migration' && within !== '..' && !within.startsWith(`..${sep}`))
    throw new Refused(
      `${into} lies in the data folder itself, and would be lost with it. Choose a folder elsewhere, best on another disk.`,
    )
}

/** The shop's name, and its key: the first sixteen digits of the hash of its first entry. Nothing where none is open. */
export function shopIn(database: string): Manifest['shop'] | undefined {
  const client = new Client(database, { readonly: true, fileMustExist: true })
  try {
    const row = client.prepare("select body, hash from event where stream = 'shop' and version = 1").get() as
      | { body: string; hash: string }
      | undefined
    if (!row) return undefined
    const { event } = JSON.parse(row.body) as { event: { name?: string } }
    return { key: row.hash.slice(0, 16), name: event.name ?? '' }
  } finally {
    client.close()
  }
}

/** In UTC, so that backups stand in their order under any clock change: `2026-12-01T11-37-22Z`. */
const stamp = (now: number): string => `${new Date(now).toISOString().slice(0, 19).replaceAll(':', '-')}Z`

function freeName(into: string, name: string): string {
  for (let n = 1; ; n++) {
    const free = n === 1 ? name : `${name}-${n}`
    if (!existsSync(join(into, free))) return free
  }
}

/** What a backup of this shop that was cut short left here. Only one of a shop is made at a time. */
function removeLeft(into: string, shopKey: string) {
  for (const name of readdirSync(into))
    if (name.endsWith(PARTIAL) && name.includes(`-${shopKey.slice(0, 8)}`))
      rmSync(join(into, name), { recursive: true, force: true })
}

/** What was made, in a sentence. */
export const takenWords = ({ folder, manifest }: Taken): string => {
  const { counts, photos, damagedPhotos, secrets, seq } = manifest
  const damaged =
    damagedPhotos.length === 0
      ? ''
      : ` ${counted(damagedPhotos.length, 'photo')} could not be copied, because the bytes are damaged: ${damagedPhotos.join(', ')}.`
  return (
    `The backup is ${folder}: ${counted(seq, 'entry', 'entries')} in ${counted(counts.streams, 'stream')}, ${counted(photos, 'photo')}.${damaged} ` +
    (secrets
      ? 'PINs, keys and the tablets’ trust are in it, encrypted.'
      : 'It holds no secrets: after a restore every PIN has to be set again, and every tablet has to learn again to trust the shop. BACKUP_PASSPHRASE adds them, encrypted.')
  )
}
