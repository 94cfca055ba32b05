/** A data folder as an earlier build would have written it: today's rows in the tables of then. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { inRepo } from './program'

/** Fills `folder` with the shop of `dataFolder` as it was before the last `back` migrations. */
export function asBeforeMigrations(dataFolder: string, folder: string, back = 1): void {
  const work = mkdtempSync(join(tmpdir(), 'paintmark-older-'))
  try {
    const migrationsFolder = join(work, 'drizzle')
    cpSync(inRepo('drizzle'), migrationsFolder, { recursive: true })
    const journalFile = join(migrationsFolder, 'meta', '_journal.json')
    const journal = JSON.parse(readFileSync(journalFile, 'utf8')) as { entries: object[] }
    journal.entries.splice(-back)
    writeFileSync(journalFile, JSON.stringify(journal))
    mkdirSync(folder, { recursive: true })
    const db = new Database(join(folder, 'paintmark.db'))
    migrate(drizzle({ client: db }), { migrationsFolder })
    db.prepare('attach ? as now').run(join(dataFolder, 'paintmark.db'))
    db.pragma('foreign_keys = off')
    const tables = db
      .prepare(
        "select name from main.sqlite_master where type = 'table' and name not like '\\_\\_%' escape '\\'",
      )
      .pluck()
      .all()
    const columnsOf = db.prepare('select name from pragma_table_info(?, ?)').pluck()
    for (const table of tables) {
      const now = columnsOf.all(table, 'now')
      const columns = columnsOf
        .all(table, 'main')
        .filter((name) => now.includes(name))
        .join(', ')
      db.exec(`insert or replace into main.${table} (${columns}) select ${columns} from now.${table}`)
    }
    db.close()
    cpSync(join(dataFolder, 'pepper'), join(folder, 'pepper'))
  } finally {
    rmSync(work, { recursive: true, force: true })
  }
}
