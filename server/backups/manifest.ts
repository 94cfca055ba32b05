/**
 * What a backup says of itself: `manifest.json` in its folder. Every file in it is named with its length and SHA-256,
 * and the log with its counts, its last place and the head of every stream, so that a restore can tell whether it
 * has all of it.
 */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type Client from 'better-sqlite3'
import type { Instant } from '../../shared/log'
import type { Epoch } from '../box/epoch'
import { Refused } from '../settings'
import type { StreamHead } from '../store'

export const FORMAT = 1
export const MANIFEST = 'manifest.json'
export const DATABASE = 'paintmark.db'
export const SECRETS = 'secrets.json'
/** A folder with this at the end of its name is being made, or was cut short. */
export const PARTIAL = '.partial'

export type BackupKind = 'by_hand' | 'hourly' | 'before_migration'

export interface BackupFile {
  /** Within the backup, with forward slashes. */
  path: string
  bytes: number
  sha256: string
}

/** What a copy of the log holds. */
export interface LogCensus {
  /** Place of the last event in the log. */
  seq: number
  heads: StreamHead[]
  headsDigest: string
  counts: Record<'events' | 'streams' | 'answers' | 'summaries' | 'readings' | 'credentials', number>
  /** SHA-256 of every migration that was applied, in order. */
  schema: string[]
}

export interface Manifest extends LogCensus {
  format: typeof FORMAT
  kind: BackupKind
  madeAt: Instant
  /** The version of Paintmark that made it. */
  program: string
  shop: { key: string; name: string }
  epoch: Pick<Epoch, 'id' | 'number'>
  photos: number
  /** Photos whose bytes are not those of their name any more, here or in any backup at hand: left out. */
  damagedPhotos: string[]
  /** The furthest signed mark in it, and the public key it was made with. */
  mark?: { key: string; entries: number; root: string }
  /** Whether pepper and keys are in it, encrypted. */
  secrets: boolean
  files: BackupFile[]
  /** By the key of `mark`, over the canonical form of all else; absent where there is no mark. */
  signature?: string
}

/** SHA-256 over the lines `stream version hash`, in the order of the streams' names by their bytes. */
export function headsDigest(heads: readonly StreamHead[]): string {
  const lines = heads.map(({ stream, version, hash }) => `${stream} ${version} ${hash}\n`)
  lines.sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)))
  return createHash('sha256').update(lines.join('')).digest('hex')
}

const COUNTED = {
  events: 'event',
  streams: 'stream_head',
  answers: 'answer',
  summaries: 'summary',
  readings: 'reading',
  credentials: 'credential',
} as const

/** Counts a database, and refuses one whose ends do not fit its entries: a copy of it would be no backup. */
export function censusOf(client: Client.Database): LogCensus {
  const one = (sql: string) => client.prepare(sql).pluck().get() as number
  const damage = client.pragma('quick_check(1)', { simple: true })
  if (damage !== 'ok') throw new Refused(`The database is damaged (${damage}). ${SEE_VERIFY}`)
  const heads = client
    .prepare('select stream, version, hash from stream_head order by stream')
    .all() as StreamHead[]
  const counts = Object.fromEntries(
    Object.entries(COUNTED).map(([name, table]) => [name, one(`select count(*) from ${table}`)]),
  ) as LogCensus['counts']
  const seq = one('select coalesce(max(seq), 0) from event')
  const lastOf = client.prepare('select hash from event where stream = ? and version = ?').pluck()
  const odd = heads.find(({ stream, version, hash }) => lastOf.get(stream, version) !== hash)
  if (odd)
    throw new Refused(`The last entries of ${odd.stream} are missing or not what was written. ${SEE_VERIFY}`)
  const told = heads.reduce((sum, { version }) => sum + version, 0)
  if (counts.events !== seq || told !== seq)
    throw new Refused(
      `Entries of the log are missing: it counts to ${seq} and holds ${counts.events}. ${SEE_VERIFY}`,
    )
  const schema = client.prepare('select hash from __drizzle_migrations order by id').pluck().all() as string[]
  return { seq, heads, headsDigest: headsDigest(heads), counts, schema }
}

const SEE_VERIFY = 'Run "npm run verify" to see what is damaged; the backups made before are still good.'

/** Reads and checks its form; what it says of the files is checked by whoever uses them. */
export function readManifest(folder: string): Manifest {
  if (basename(folder).endsWith(PARTIAL))
    throw new Refused(
      `${folder} was cut short and is no backup. Take one whose name does not end in ${PARTIAL}.`,
    )
  let text: string
  try {
    text = readFileSync(join(folder, MANIFEST), 'utf8')
  } catch {
    throw new Refused(
      `${folder} is no backup: there is no ${MANIFEST} in it. Name one dated folder that "npm run backup" made.`,
    )
  }
  const manifest = parsed(text)
  if (!manifest)
    throw new Refused(`${join(folder, MANIFEST)} does not hold what was written. Take another backup.`)
  if (manifest.format !== FORMAT)
    throw new Refused(
      `${folder} was made by another version of Paintmark (${manifest.program}). Restore it with that version.`,
    )
  return manifest
}

function parsed(text: string): Manifest | undefined {
  try {
    const manifest = JSON.parse(text) as Manifest
    const whole =
      Number.isInteger(manifest.format) &&
      Number.isInteger(manifest.seq) &&
      Array.isArray(manifest.heads) &&
      Array.isArray(manifest.schema) &&
      typeof manifest.epoch?.id === 'string' &&
      typeof manifest.shop?.key === 'string' &&
      Array.isArray(manifest.files) &&
      manifest.files.every(({ path, sha256 }) => isInside(path) && /^[0-9a-f]{64}$/.test(sha256))
    return whole ? manifest : undefined
  } catch {
    return undefined
  }
}

/** No path of a manifest leads out of its folder. */
const isInside = (path: unknown): boolean =>
  typeof path === 'string' && path.split('/').every((part) => /^[\w-][\w.-]*$/.test(part))
