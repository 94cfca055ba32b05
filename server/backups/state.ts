/** What is known of a shop's backups from one start to the next: `backups.json` in the data folder. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Instant } from '../../shared/log'
import { writeWhole } from '../files'
import type { Manifest } from './manifest'

export interface GoodBackup {
  folder: string
  shopKey: string
  madeAt: Instant
  /** The highest place of the log in it, and the epoch that place is of. */
  seq: number
  epoch: string
  /** How the database's files looked just before: as they look now, nothing was written since. */
  written: string
  secrets: boolean
  damagedPhotos: number
}

export interface BackupState {
  last?: GoodBackup
  /** The first of the tries that failed since then, and what the last of them said. */
  failing?: { since: Instant; sentence: string }
}

const FILE = 'backups.json'

/** What cannot be read is not known; the next backup writes it again. */
export function stateIn(dataFolder: string): BackupState {
  try {
    return JSON.parse(readFileSync(join(dataFolder, FILE), 'utf8')) as BackupState
  } catch {
    return {}
  }
}

export function keepState(dataFolder: string, state: BackupState): void {
  writeWhole(join(dataFolder, FILE), `${JSON.stringify(state)}\n`)
}

export const goodBackup = (folder: string, manifest: Manifest, written: string): GoodBackup => ({
  folder,
  shopKey: manifest.shop.key,
  madeAt: manifest.madeAt,
  seq: manifest.seq,
  epoch: manifest.epoch.id,
  written,
  secrets: manifest.secrets,
  damagedPhotos: manifest.damagedPhotos.length,
})
