/**
 * A shop's database opened to be looked at: nothing is written, migrated or made in its folder, and it may lie on a medium
 * that cannot be written to.
 *
 * SQLite makes files of its own beside a database whose write-ahead log is not as it should be. Such a one, left by a killed
 * program or copied without its parts, is looked at in a copy, which is gone afterwards.
 */
import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  mkdtempSync,
  openSync,
  readSync,
  rmSync,
  writeSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Client from 'better-sqlite3'
import { DatabaseRefused } from '../store'

export interface ReadOnly {
  client: Client.Database
  /** Whether entries may lie in a write-ahead log, and there is none beside it. */
  lacksLog: boolean
  close(): void
}

/** In the file's head: 2 where entries may lie in a write-ahead log, 1 where not. */
const MODES_AT = 18
const ALONE = Buffer.from([1, 1])

export function openReadOnly(file: string, busyTimeoutMs = 5000): ReadOnly {
  const beside = (ending: string) => existsSync(`${file}${ending}`)
  const hasLog = beside('-wal')
  const isAlone = modes(file)?.equals(ALONE) === true
  const asItIs = isAlone ? !beside('-journal') : hasLog && beside('-shm')
  const copied = asItIs ? undefined : copyOf(file)
  const remove = () => copied && rmSync(copied.folder, { recursive: true, force: true })
  try {
    const client = new Client(copied?.file ?? file, {
      readonly: true,
      fileMustExist: true,
      timeout: busyTimeoutMs,
    })
    return {
      client,
      lacksLog: !isAlone && !hasLog,
      close() {
        client.close()
        remove()
      },
    }
  } catch (error) {
    remove()
    throw error
  }
}

function copyOf(file: string): { folder: string; file: string } {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-look-'))
  const copy = join(folder, 'paintmark.db')
  try {
    const parts = ['', '-wal', '-journal'].filter((ending) => existsSync(`${file}${ending}`))
    for (const ending of parts)
      copyFileSync(`${file}${ending}`, `${copy}${ending}`, constants.COPYFILE_FICLONE)
    if (parts.includes('-journal')) settle(copy)
    if (!parts.includes('-wal') && modes(copy)) setAlone(copy)
    return { folder, file: copy }
  } catch (error) {
    rmSync(folder, { recursive: true, force: true })
    throw new DatabaseRefused(
      `${file} is looked at in a copy, and that could not be made in ${tmpdir()}: ${(error as Error).message}. Make room there, or name another place with TMPDIR.`,
      { cause: error },
    )
  }
}

/** What a program that was killed had begun is taken back, as it would be by the next that writes. */
function settle(copy: string) {
  const client = new Client(copy, { fileMustExist: true })
  try {
    client.prepare('select count(*) from sqlite_master').get()
  } finally {
    client.close()
  }
}

function modes(file: string): Buffer | undefined {
  const handle = openSync(file, 'r')
  try {
    const bytes = Buffer.alloc(2)
    return readSync(handle, bytes, 0, 2, MODES_AT) === 2 ? bytes : undefined
  } finally {
    closeSync(handle)
  }
}

function setAlone(file: string) {
  const handle = openSync(file, 'r+')
  try {
    writeSync(handle, ALONE, 0, 2, MODES_AT)
  } finally {
    closeSync(handle)
  }
}
