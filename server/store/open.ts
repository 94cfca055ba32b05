/**
 * Opens the shop's database file: checks that it is ours and not newer than this program, brings its
 * tables up to date, and sets it so that what was committed survives a power cut.
 *
 * A file that is refused is not touched. `sqlite.ts` and `server/people/` share what this gives.
 */
import { closeSync, existsSync, openSync, readSync } from 'node:fs'
import Client from 'better-sqlite3'
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { readMigrationFiles } from 'drizzle-orm/migrator'
import { DatabaseRefused } from './errors'

export type ShopDatabase = BetterSQLite3Database & { $client: Client.Database }

export interface OpenDatabase {
  /** A path, or `:memory:`. */
  file: string
  /** The folder with the migrations and their `meta`. */
  migrationsFolder: string
  /** How long a commit waits for another program that holds the file, before it rejects. */
  busyTimeoutMs?: number
}

const FIRST_BYTES = 'SQLite format 3\0'

export function openDatabase({ file, migrationsFolder, busyTimeoutMs = 2000 }: OpenDatabase): ShopDatabase {
  const migrations = readMigrationFiles({ migrationsFolder })
  if (file !== ':memory:' && existsSync(file))
    refuseWhatIsNotOurs(file, new Set(migrations.map((m) => m.hash)))
  let client: Client.Database | undefined
  try {
    client = new Client(file, { timeout: busyTimeoutMs })
    client.pragma('journal_mode = WAL')
    client.pragma('synchronous = FULL')
    client.pragma('foreign_keys = ON')
    const database = drizzle({ client })
    migrate(database, { migrationsFolder })
    return database
  } catch (error) {
    client?.close()
    throw new DatabaseRefused(
      `The database ${file} could not be opened: ${sentence(error)}. ` +
        'Check that its folder exists, can be written, has room, and that no other program holds the file.',
      { cause: error },
    )
  }
}

function refuseWhatIsNotOurs(file: string, knownHashes: Set<string>) {
  const start = firstBytes(file)
  // An empty file is what a start that was cut short leaves behind.
  if (start.length === 0) return
  if (start !== FIRST_BYTES) {
    throw new DatabaseRefused(
      `${file} is not a database. It was left as it is; move it away, or restore the database from a backup.`,
    )
  }
  let applied: { hash: string }[] | undefined
  let foreign = false
  let client: Client.Database | undefined
  try {
    client = new Client(file, { readonly: true, fileMustExist: true })
    const tables = client.prepare("select name from sqlite_master where type = 'table'").pluck().all()
    if (tables.includes('__drizzle_migrations')) {
      applied = client.prepare('select hash from __drizzle_migrations').all() as { hash: string }[]
    } else foreign = tables.length > 0
  } catch (error) {
    throw new DatabaseRefused(
      `The database ${file} cannot be read: ${sentence(error)}. It was left as it is; ` +
        'keep a copy of the data folder and restore the database from the last good backup.',
      { cause: error },
    )
  } finally {
    client?.close()
  }
  if (foreign) {
    throw new DatabaseRefused(
      `${file} is a database of another program. It was left as it is; choose another data folder.`,
    )
  }
  if (applied?.some(({ hash }) => !knownHashes.has(hash))) {
    throw new DatabaseRefused(
      `The database ${file} was made by a newer version of Paintmark. It was left as it is; ` +
        'start that version, or restore a backup made with this one.',
    )
  }
}

function firstBytes(file: string): string {
  const bytes = Buffer.alloc(FIRST_BYTES.length)
  try {
    const handle = openSync(file, 'r')
    try {
      return bytes.toString('latin1', 0, readSync(handle, bytes, 0, bytes.length, 0))
    } finally {
      closeSync(handle)
    }
  } catch (error) {
    throw new DatabaseRefused(`The database ${file} cannot be read: ${sentence(error)}. Check what it is.`, {
      cause: error,
    })
  }
}

function sentence(error: unknown): string {
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error
  return cause instanceof Error ? cause.message : String(cause)
}
