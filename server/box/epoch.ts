/**
 * Which life of the log this is. A restore takes the log back to an earlier moment and opens the next epoch; by it a device
 * that was told of a higher place in the one before can tell that entries of its own may be gone.
 *
 * Kept in `epoch.json` beside the database, not in it: a backup's database is restored as it was.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { v7 } from 'uuid'
import type { Instant } from '../../shared/log'
import { writeWhole } from '../files'
import { Refused } from '../settings'

export interface Epoch {
  /** UUIDv7. */
  id: string
  /** Counts from 1. */
  number: number
  since: Instant
  /** The backup it began from; absent in the first. */
  from?: { epoch: string; seq: number; madeAt: Instant }
}

const FILE = 'epoch.json'

/** The folder's epoch; a folder without one is in its first. */
export function epochIn(folder: string, now: Instant): Epoch {
  const file = join(folder, FILE)
  if (!existsSync(file)) return writeEpoch(folder, { id: v7(), number: 1, since: now })
  try {
    const epoch = JSON.parse(readFileSync(file, 'utf8')) as Epoch
    if (typeof epoch.id === 'string' && Number.isInteger(epoch.number)) return epoch
  } catch {
    // Said below.
  }
  throw new Refused(
    `${file} does not hold what was written. Delete it: the next start begins a new epoch, and nothing of the log is touched.`,
  )
}

export function writeEpoch(folder: string, epoch: Epoch): Epoch {
  writeWhole(join(folder, FILE), `${JSON.stringify(epoch)}\n`)
  return epoch
}

/** The epoch that a restore opens. */
export const nextEpoch = (
  before: Pick<Epoch, 'id' | 'number'>,
  { seq, madeAt }: { seq: number; madeAt: Instant },
  now: Instant,
): Epoch => ({ id: v7(), number: before.number + 1, since: now, from: { epoch: before.id, seq, madeAt } })
