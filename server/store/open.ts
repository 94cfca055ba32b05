/**
 * Opens the shop's database file: checks that it is ours and not newer than this program, brings its
 * tables up to date, and sets it so that what was committed survives a power cut.
 *
 * A file that is refused is not touched. `sqlite.ts` and `server/people/` share what this gives.
 *
 * While it is open the newest entries lie in the write-ahead log beside it, and the file itself says since when: so a copy
 * of the file alone shows that it is torn. Closed in order it stands alone, and reads from a medium that nobody can write to.
 */
import { closeSync, existsSync, openSync, readSync } from 'node:fs'
import Client from 'better-sqlite3'
import { eq } from 'drizzle-orm'
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { readMigrationFiles } from 'drizzle-orm/migrator'
import { DatabaseRefused } from './errors'
import { state } from './tables'

export type ShopDatabase = BetterSQLite3Database & { $client: Client.Database }

export interface OpenDatabase {
  /** A path, or `:memory:`. */
  file: string
  /** The folder with the migrations and their `meta`. */
  migrationsFolder: string
  /** How long a commit waits for another program that holds the file, before it rejects. */
  busyTimeoutMs?: number
  now?: () => number
}

/** The row of `state` that is there while a program has the file open to write: since when, in milliseconds. */
export const OPEN_SINCE = 'open_since'

const FIRST_BYTES = 'SQLite format 3\0'

export function openDatabase(parts: OpenDatabase): ShopDatabase {
  const { file, migrationsFolder, busyTimeoutMs = 2000, now = Date.now } = parts
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
    setState(database, OPEN_SINCE, `${now()}`)
    // Into the file itself: a copy without the log beside it must carry it.
    client.pragma('wal_checkpoint(TRUNCATE)')
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

/** In order: all that is in the log beside it goes into the file, which then stands alone and says that it is closed. */
export function closeDatabase(database: ShopDatabase): void {
  const { $client: client } = database
  if (!client.open) return
  try {
    database.delete(state).where(eq(state.name, OPEN_SINCE)).run()
    client.pragma('wal_checkpoint(TRUNCATE)')
    // Another program that reads it keeps it as it is; whoever comes last puts it together.
    client.pragma('busy_timeout = 0')
    client.pragma('journal_mode = DELETE')
  } catch (error) {
    // As after a power cut: it is still said to be open, and its log lies beside it.
    if (!(error instanceof Client.SqliteError)) throw error
  } finally {
    client.close()
  }
}

/** SHA-256 of every migration of this program, in order. */
export const schemaHashes = (migrationsFolder: string): string[] =>
  readMigrationFiles({ migrationsFolder }).map(({ hash }) => hash)

/** Whether opening it would change the tables of a database that has some. */
export function needsMigration({ file, migrationsFolder }: OpenDatabase): boolean {
  if (file === ':memory:' || !existsSync(file)) return false
  const known = schemaHashes(migrationsFolder)
  refuseWhatIsNotOurs(file, new Set(known))
  if (firstBytes(file).length === 0) return false
  const client = new Client(file, { readonly: true, fileMustExist: true })
  try {
    const tables = client.prepare("select name from sqlite_master where type = 'table'").pluck().all()
    if (!tables.includes('__drizzle_migrations')) return false
    const applied = client.prepare('select count(*) from __drizzle_migrations').pluck().get() as number
    return applied > 0 && applied < known.length
  } finally {
    client.close()
  }
}

export const stateOf = (database: ShopDatabase, name: string): string | undefined =>
  database.select().from(state).where(eq(state.name, name)).get()?.value

export function setState(database: ShopDatabase, name: string, value: string): void {
  database
    .insert(state)
    .values({ name, value })
    .onConflictDoUpdate({ target: state.name, set: { value } })
    .run()
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
