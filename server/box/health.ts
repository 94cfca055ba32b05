/**
 * Whether the box is well: can it write, has its disk room, is there a backup, does the log hold. For a monitor, which
 * need not sign in; so nothing in it names anybody, nor a place on the disk.
 */
import { rm, statfs, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Instant } from '../../shared/log'
import type { BackupKeeper } from '../backups/keeper'
import { diskProblem } from '../disk'

/** What the check of the log that runs after a start has come to. */
export type ChainState = 'not_checked' | 'checking' | 'sound' | 'damaged'

export interface Health {
  ok: boolean
  writable: boolean
  diskLeftBytes: number
  chain: ChainState
  backup: { scheduled: boolean; failing: boolean; lastAt?: Instant; sameDisk?: boolean }
  /** What is not well, each in a sentence. */
  problems: string[]
}

/** Enough for weeks of entries, little for a disk. */
const ROOM_LEAST_BYTES = 200 * 2 ** 20
const BACKUP_FAILING_MOST_MS = 24 * 3_600_000
/** Whoever asks all the time writes no more than this often. */
const LOOK_AGAIN_MS = 5000
const PROBE = 'health.probe'

export function makeHealth(parts: {
  dataFolder: string
  now: () => Instant
  backups: Pick<BackupKeeper, 'state' | 'schedule' | 'onSameDisk'>
  chain: () => ChainState
}): () => Promise<Health> {
  const { dataFolder, now, backups, chain } = parts
  let looked: { at: number; disk: Promise<Disk> } | undefined

  return async () => {
    const at = performance.now()
    if (!looked || at - looked.at > LOOK_AGAIN_MS) looked = { at, disk: lookAtDisk(dataFolder) }
    const { problem, leftBytes } = await looked.disk
    const { last, failing } = backups.state()
    const scheduled = backups.schedule() !== undefined
    const problems = [
      ...(problem ? [`Nothing can be entered: ${problem}.`] : []),
      ...(leftBytes < ROOM_LEAST_BYTES ? ['The disk is almost full.'] : []),
      ...(chain() === 'damaged' ? ['The log is damaged. Run "npm run verify".'] : []),
      ...(scheduled && failing && now() - failing.since > BACKUP_FAILING_MOST_MS
        ? ['No backup could be made for a day.']
        : []),
    ]
    return {
      ok: problems.length === 0,
      writable: problem === undefined,
      diskLeftBytes: leftBytes,
      chain: chain(),
      backup: {
        scheduled,
        failing: failing !== undefined,
        ...(last ? { lastAt: last.madeAt } : {}),
        ...(scheduled ? { sameDisk: backups.onSameDisk() } : {}),
      },
      problems,
    }
  }
}

interface Disk {
  problem?: string
  leftBytes: number
}

/** By writing: a disk that is full or read-only says so only then. */
async function lookAtDisk(folder: string): Promise<Disk> {
  const probe = join(folder, PROBE)
  try {
    const { bavail, bsize } = await statfs(folder)
    try {
      await writeFile(probe, Buffer.alloc(4096), { mode: 0o600, flush: true })
      return { leftBytes: bavail * bsize }
    } catch (error) {
      return { leftBytes: bavail * bsize, problem: diskProblem(error) ?? GONE }
    } finally {
      await rm(probe, { force: true }).catch(() => undefined)
    }
  } catch {
    return { leftBytes: 0, problem: GONE }
  }
}

const GONE = 'the data folder is not there'
