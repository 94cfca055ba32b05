/**
 * The backups of a running shop: taken one at a time, every hour where a folder is named for them, thinned as they
 * grow older; and what is known of the last one.
 *
 * The hours are timers, not the wall's clock: a clock that is set makes none too early and leaves none out.
 */
import { existsSync, statSync } from 'node:fs'
import type { Instant } from '../../shared/log'
import type { After } from '../desk/clock'
import type { Log } from '../desk/types'
import { databaseIn } from '../settings'
import { removeOld } from './kept'
import { type BackupState, goodBackup, keepState, stateIn } from './state'
import { shopIn, type Taken, type TakeParts } from './take'

const HOUR_MS = 3_600_000
/** A start has enough to do. */
const FIRST_MS = 60_000
const AGAIN_MS = 10 * 60_000

export interface Schedule {
  into: string
  passphrase?: string
}

export interface BackupKeeper {
  state(): BackupState
  /** Where the hourly ones go; nothing where none are made. */
  schedule(): Schedule | undefined
  /** Whether they lie on the disk that the data lie on. */
  onSameDisk(): boolean
  /** Waits for the one that is being taken, if one is. */
  take(what: Pick<TakeParts, 'into' | 'kind' | 'passphrase'>): Promise<Taken>
  /** Takes one every hour from now on. */
  start(schedule: Schedule): void
  /** Told after each good one. */
  onGood(listener: () => void): void
  /** No more are begun, and the one under way is given up. */
  close(): Promise<void>
}

export interface KeeperParts {
  dataFolder: string
  program: string
  now: () => Instant
  after: After
  log: Log
  take: (parts: TakeParts, givenUp: AbortSignal) => Promise<Taken>
}

export function makeBackupKeeper({ dataFolder, program, now, after, log, take }: KeeperParts): BackupKeeper {
  let state = stateIn(dataFolder)
  let hourly: Schedule | undefined
  let cancel: (() => void) | undefined
  const closing = new AbortController()
  let running: Promise<unknown> = Promise.resolve()
  const listeners: (() => void)[] = []

  function keep(next: BackupState) {
    state = next
    keepState(dataFolder, state)
  }

  function takeNext(what: Pick<TakeParts, 'into' | 'kind' | 'passphrase'>): Promise<Taken> {
    const taking = running.then(async () => {
      const written = writtenIn(dataFolder)
      const taken = await take({ dataFolder, program, now: now(), ...what }, closing.signal)
      keep({ last: goodBackup(taken.folder, taken.manifest, written) })
      for (const listener of listeners) listener()
      return taken
    })
    running = taking.catch(() => undefined)
    return taking
  }

  async function takeHourly() {
    if (!hourly) return
    let nextMs = HOUR_MS
    try {
      if (!shopIn(databaseIn(dataFolder))) nextMs = FIRST_MS
      else if (isNews(state, dataFolder)) {
        const { manifest, folder } = await takeNext({ kind: 'hourly', ...hourly })
        log.info({ folder, seq: manifest.seq }, 'A backup was made.')
      }
      if (state.last) thin(hourly.into, state.last.shopKey)
    } catch (err) {
      if (closing.signal.aborted) return
      nextMs = AGAIN_MS
      const sentence = err instanceof Error ? err.message : String(err)
      log.error({ err }, 'The hourly backup failed.')
      tellFailing(sentence)
    }
    if (!closing.signal.aborted) cancel = after(nextMs, () => void takeHourly())
  }

  /** One too many is no reason to say that there is none. */
  function thin(into: string, shopKey: string) {
    try {
      removeOld(into, shopKey, now())
    } catch (err) {
      log.warn({ err, into }, 'Backups that are too many by now could not be removed.')
    }
  }

  function tellFailing(sentence: string) {
    try {
      keep({ ...state, failing: { since: state.failing?.since ?? now(), sentence } })
    } catch (err) {
      // A full disk keeps this from being written as well; it is known here.
      log.error({ err }, 'That the backup failed could not be written down.')
      state = { ...state, failing: { since: state.failing?.since ?? now(), sentence } }
    }
  }

  return {
    state: () => state,
    schedule: () => hourly,
    onSameDisk: () => hourly !== undefined && isSameDisk(hourly.into, dataFolder),
    take: takeNext,
    start(schedule) {
      hourly = schedule
      const age = now() - (state.last?.madeAt ?? 0)
      const waits = age >= 0 && age < HOUR_MS ? HOUR_MS - age : 0
      cancel = after(Math.max(FIRST_MS, waits), () => void takeHourly())
    },
    onGood: (listener) => void listeners.push(listener),
    async close() {
      closing.abort()
      cancel?.()
      await running
    },
  }
}

/** Whether anything was written since the last good one, which must still be there. By no clock: one may be set. */
const isNews = ({ last, failing }: BackupState, dataFolder: string): boolean =>
  !last || failing !== undefined || !existsSync(last.folder) || last.written !== writtenIn(dataFolder)

/** Another text after whatever was written to the database. */
const writtenIn = (dataFolder: string): string =>
  [databaseIn(dataFolder), `${databaseIn(dataFolder)}-wal`]
    .filter((file) => existsSync(file))
    .map((file) => statSync(file))
    .map(({ mtimeMs, size }) => `${mtimeMs} ${size}`)
    .join(', ')

function isSameDisk(a: string, b: string): boolean {
  try {
    return statSync(a).dev === statSync(b).dev
  } catch {
    return false
  }
}
