/** Which backups of a shop lie in a folder, and which of the hourly ones go as they grow older. */
import { existsSync, readdirSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import type { Instant } from '../../shared/log'
import { MANIFEST, type Manifest, PARTIAL, readManifest } from './manifest'

export interface Kept {
  folder: string
  manifest: Manifest
}

/** Of this shop, whole ones, the oldest first. What cannot be read is nobody's, and left alone. */
export function backupsIn(into: string, shopKey: string): Kept[] {
  return readdirSync(into, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && !entry.name.endsWith(PARTIAL))
    .map(({ name }) => join(into, name))
    .filter((folder) => existsSync(join(folder, MANIFEST)))
    .flatMap((folder) => {
      try {
        return [{ folder, manifest: readManifest(folder) }]
      } catch {
        return []
      }
    })
    .filter(({ manifest }) => manifest.shop.key === shopKey)
    .sort((a, b) => a.manifest.madeAt - b.manifest.madeAt)
}

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS
const DAYS_BY_DAY = 31

/**
 * Those to remove: all of the last day stay, then the last of each day for a month, then the last of each month.
 * Days and months are UTC's: whoever moves the clock moves no backup. Those made by hand stay, and so does the newest.
 */
export function tooMany<T extends { madeAt: Instant; kind: Manifest['kind'] }>(
  backups: readonly T[],
  now: Instant,
): T[] {
  const newestFirst = backups.filter(({ kind }) => kind === 'hourly').sort((a, b) => b.madeAt - a.madeAt)
  const seen = new Set<string>()
  return newestFirst.filter(({ madeAt }, index) => {
    const age = now - madeAt
    if (index === 0 || age <= DAY_MS) return false
    const day = new Date(madeAt).toISOString().slice(0, 10)
    const slot = age <= DAYS_BY_DAY * DAY_MS ? day : day.slice(0, 7)
    if (!seen.has(slot)) {
      seen.add(slot)
      return false
    }
    return true
  })
}

/** Before a migration: the last three are enough to go back by. */
const BEFORE_MIGRATIONS = 3

export function removeOld(into: string, shopKey: string, now: Instant): void {
  const all = backupsIn(into, shopKey).map(({ folder, manifest }) => ({ folder, ...manifest }))
  const old = tooMany(all, now)
  const before = all.filter(({ kind }) => kind === 'before_migration').slice(0, -BEFORE_MIGRATIONS)
  for (const { folder } of [...old, ...before]) {
    // Under the name of one that is not whole first: half of it removed is no backup.
    const going = `${folder}${PARTIAL}`
    renameSync(folder, going)
    rmSync(going, { recursive: true, force: true })
  }
}
