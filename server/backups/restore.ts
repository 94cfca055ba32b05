/**
 * Puts one backup into an empty data folder. Everything is copied beside its place and checked there against the
 * manifest; only what agrees to the last byte is put in place, the database last. Then the next epoch begins.
 *
 * While `restore.partial` is there, all that lies in the folder came from a restore that was cut short: a server does
 * not start on it, and another restore begins by removing it.
 */
import {
  constants,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs'
import { copyFile } from 'node:fs/promises'
import { dirname, join, relative, resolve, sep } from 'node:path'
import { counted } from '../../shared/words'
import { type Epoch, nextEpoch, writeEpoch } from '../box/epoch'
import { diskProblem, onDisk } from '../disk'
import { flush, sha256OfFile } from '../files'
import { isOfHolding } from '../holding'
import { PINS_SEAL } from '../people/seal'
import { Refused } from '../settings'
import { type BackupFile, censusOf, DATABASE, type Manifest, readManifest, SECRETS } from './manifest'
import { putSecrets, unseal } from './secrets'
import { hasState, onCopy } from './take'

export const RESTORING = 'restore.partial'

export interface RestoreParts {
  backup: string
  dataFolder: string
  /** `without` leaves the secrets out on purpose. */
  secrets: { passphrase: string } | 'without' | undefined
  /** SHA-256 of every migration this program knows. */
  knownSchema: ReadonlySet<string>
  now: number
}

export interface Restored {
  manifest: Manifest
  epoch: Epoch
  secrets: boolean
}

/** The folder must be held by this process. */
export async function restoreBackup(parts: RestoreParts): Promise<Restored> {
  const { backup, dataFolder, knownSchema, now } = parts
  const manifest = readManifest(backup)
  if (manifest.schema.some((hash) => !knownSchema.has(hash)))
    throw new Refused(
      `${backup} was made by a newer version of Paintmark (${manifest.program}). Nothing was restored; restore it with that version.`,
    )
  const secrets = secretsOf(backup, manifest, parts.secrets)
  emptied(dataFolder)
  const partial = join(dataFolder, RESTORING)
  try {
    mkdirSync(partial, { mode: 0o700 })
    flush(dataFolder)
    for (const file of manifest.files) await copyChecked(backup, partial, file)
    onCopy(join(partial, DATABASE), (client) => {
      compare(censusOf(client), manifest, backup)
      // Without the pepper no PIN could ever be right again.
      if (!secrets) {
        client.exec('delete from credential')
        if (hasState(client)) client.prepare('delete from state where name = ?').run(PINS_SEAL)
      }
    })
    rmSync(join(partial, SECRETS), { force: true })
    if (secrets) putSecrets(partial, secrets)
    const epoch = writeEpoch(partial, nextEpoch(manifest.epoch, manifest, now))
    putInPlace(partial, dataFolder)
    return { manifest, epoch, secrets: secrets !== undefined }
  } catch (error) {
    for (const name of ownFiles(dataFolder)) rmSync(join(dataFolder, name), { recursive: true, force: true })
    const problem = diskProblem(error)
    if (problem) throw new Refused(`Nothing was restored. ${onDisk(dataFolder, problem)}`, { cause: error })
    throw error
  }
}

const ownFiles = (folder: string): string[] => readdirSync(folder).filter((name) => !isOfHolding(name))

function emptied(dataFolder: string) {
  const there = ownFiles(dataFolder)
  if (there.includes(RESTORING)) {
    // The mark goes last: cut short again, the folder still says what it is.
    for (const name of [...there.filter((each) => each !== RESTORING), RESTORING])
      rmSync(join(dataFolder, name), { recursive: true, force: true })
  } else if (there.length > 0)
    throw new Refused(
      `${dataFolder} is not empty (${there.slice(0, 3).join(', ')}), and nothing is restored over what is there. Name an empty folder with DATA_DIR, or move this one away first.`,
    )
}

async function copyChecked(backup: string, partial: string, { path, bytes, sha256 }: BackupFile) {
  const from = join(backup, path)
  const to = join(partial, path)
  const stop = (what: string) =>
    new Refused(`${path} of ${backup} ${what}. Nothing was restored; take another backup.`)
  if (!existsSync(from)) throw stop('is missing')
  if (statSync(from).size !== bytes) throw stop('does not have the length it was made with')
  mkdirSync(dirname(to), { recursive: true, mode: 0o700 })
  await copyFile(from, to, constants.COPYFILE_FICLONE)
  if ((await sha256OfFile(to)) !== sha256) throw stop('is not what was written')
  flush(to)
}

function compare(
  found: Pick<Manifest, 'seq' | 'headsDigest' | 'counts' | 'schema'>,
  manifest: Manifest,
  backup: string,
) {
  const same = (name: 'seq' | 'headsDigest' | 'counts' | 'schema') =>
    JSON.stringify(found[name]) === JSON.stringify(manifest[name])
  for (const name of ['seq', 'counts', 'headsDigest', 'schema'] as const)
    if (!same(name))
      throw new Refused(
        `The log in ${backup} is not the one its manifest tells of (${name}). Nothing was restored; take another backup.`,
      )
}

function secretsOf(backup: string, manifest: Manifest, given: RestoreParts['secrets']) {
  if (!manifest.secrets || given === 'without') return undefined
  if (!given)
    throw new Refused(
      'The backup’s secrets are encrypted. Give their passphrase in BACKUP_PASSPHRASE, or restore without them, so that PINs, keys and the tablets’ trust start anew: --without-secrets.',
    )
  let text: string
  try {
    text = readFileSync(join(backup, SECRETS), 'utf8')
  } catch {
    throw new Refused(
      `${SECRETS} of ${backup} is missing. Nothing was restored; take another backup, or restore without secrets: --without-secrets.`,
    )
  }
  return unseal(text, given.passphrase, manifest.shop.key)
}

/** The database last: a folder without one is never taken for a shop. */
function putInPlace(partial: string, dataFolder: string) {
  const names = readdirSync(partial)
  for (const name of [...names.filter((each) => each !== DATABASE), DATABASE])
    renameSync(join(partial, name), join(dataFolder, name))
  flush(partial)
  flush(dataFolder)
  rmSync(partial, { recursive: true })
  flush(dataFolder)
}

/** A backup is not restored into itself. */
export function refuseWithin(backup: string, dataFolder: string): void {
  const within = relative(resolve(backup), resolve(dataFolder))
  if (within !== '..' && !within.startsWith(`..${sep}`))
    throw new Refused(`${dataFolder} lies in the backup itself. Choose another folder with DATA_DIR.`)
}

/** What was restored, in sentences. */
export const restoredWords = ({ manifest, epoch, secrets }: Restored, dataFolder: string): string[] => [
  `Restored into ${dataFolder}: ${manifest.shop.name}, ${counted(manifest.seq, 'entry', 'entries')} in ${counted(manifest.counts.streams, 'stream')}, ${counted(manifest.photos, 'photo')}. Every file agrees with its manifest.`,
  `The shop goes on after entry ${manifest.seq} of its log, in the log’s epoch ${epoch.number}. Devices send again by themselves what they entered after that. Whoever was signed in on a tablet when the backup was made still is.`,
  secrets
    ? 'PINs, keys and the tablets’ trust are as they were.'
    : 'It holds no PINs and no keys. Set a PIN on this machine: npm run pin -- NAME. PINs that were sealed on tablets without signal count for nothing. Tablets must trust the shop’s new certificate (/trust).',
]
