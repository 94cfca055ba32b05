/** The SQLite store: the suite, in memory and on a file, and what only a file can promise. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Client from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type OpenDatabase, openDatabase, sqliteEventStore } from '../../server/store'
import { eventStoreKeepsItsPromises } from './event-store'
import { answer, append, batch, opened, reading, summary } from './store-builders'

const migrationsFolder = join(import.meta.dirname, '../../drizzle')
let folder = ''
let files = 0
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'paintmark-store-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const newFile = () => join(folder, `shop-${++files}.db`)
const open = (file: string, rest: Partial<OpenDatabase> = {}) =>
  sqliteEventStore(openDatabase({ file, migrationsFolder, ...rest }))

eventStoreKeepsItsPromises('SQLite in memory', () => open(':memory:'))
eventStoreKeepsItsPromises('SQLite on a file', () => open(newFile()))

/** Everything an open store holds. */
async function contents(file: string) {
  const store = open(file)
  const all = {
    log: await store.readAll(0, 100),
    heads: await store.streams(),
    answers: [...(await store.answers(['c1', 'c2']))],
    summaries: await store.summaries(),
    readings: await store.readings({}),
  }
  await store.close()
  return all
}

async function filled(): Promise<string> {
  const file = newFile()
  const store = open(file)
  await opened(store, [append('job:a', 0, 2), append('shop', 0, 1)])
  await store.commit(
    batch({ answers: [answer('c1')], summaries: [summary('j1', '1001')], readings: [reading('j1', 'r1')] }),
  )
  await store.close()
  return file
}

test('[ES11] what was committed is there after closing and opening again', async () => {
  const file = await filled()
  const before = await contents(file)
  expect(before.log.map((r) => [r.stream, r.version, r.seq])).toEqual([
    ['job:a', 1, 1],
    ['job:a', 2, 2],
    ['shop', 1, 3],
  ])
  expect(before).toMatchObject({
    answers: [['c1', answer('c1')]],
    summaries: [summary('j1', '1001')],
    readings: [reading('j1', 'r1')],
  })
  const store = open(file)
  expect((await opened(store, [append('job:a', 2, 1)])).map((r) => [r.version, r.seq])).toEqual([[3, 4]])
  await store.close()
})

test('[ES11] a commit is flushed to the disk before it resolves: WAL, synchronous FULL, foreign keys', () => {
  const database = openDatabase({ file: newFile(), migrationsFolder })
  expect(database.$client.pragma('journal_mode', { simple: true })).toBe('wal')
  expect(database.$client.pragma('synchronous', { simple: true })).toBe(2)
  expect(database.$client.pragma('foreign_keys', { simple: true })).toBe(1)
  database.$client.close()
})

test('[ES3] a commit while another program holds the file rejects and leaves nothing behind', async () => {
  const file = await filled()
  const before = await contents(file)
  const store = open(file, { busyTimeoutMs: 20 })
  const other = new Client(file)
  other.exec('begin immediate')
  const wanted = batch({ appends: [append('job:a', 2, 1)], answers: [answer('c2')] })
  await expect(store.commit(wanted)).rejects.toThrow(/locked/)
  other.exec('rollback')
  other.close()
  expect(await contents(file)).toEqual(before)
  expect(await store.commit(wanted)).toHaveProperty('committed.length', 1)
  await store.close()
})

test('[ES3] a commit that finds the disk full rejects and leaves nothing behind', async () => {
  const file = await filled()
  const before = await contents(file)
  const database = openDatabase({ file, migrationsFolder })
  const store = sqliteEventStore(database)
  const pages = database.$client.pragma('page_count', { simple: true })
  database.$client.pragma(`max_page_count = ${pages}`)
  const big = { type: 'Noted', text: 'x'.repeat(50_000) }
  const wanted = batch({
    answers: [answer('c2')],
    appends: [append('job:b', 0, 1), append('job:a', 2, [big])],
  })
  await expect(store.commit(wanted)).rejects.toThrow(/full/)
  expect(await contents(file)).toEqual(before)
  database.$client.pragma('max_page_count = 1000000')
  expect(await store.commit(wanted)).toHaveProperty('committed.length', 2)
  await store.close()
})

test('[ES15] a PIN that comes with a batch is written with it and its seal, or not at all', async () => {
  const file = await filled()
  const store = open(file)
  const row = { personId: 'ana', pinHash: 'argon', setAt: 5, mac: 'mac' }
  const pin = { row, seal: { name: 'pins_seal', value: 'over ana' } }
  const kept = () => {
    const db = new Client(file, { readonly: true })
    const found = [
      db
        .prepare('select person_id as personId, pin_hash as pinHash, set_at as setAt, mac from credential')
        .all(),
      db.prepare("select value from state where name = 'pins_seal'").pluck().get(),
    ]
    db.close()
    return found
  }
  const stale = batch({ appends: [append('job:a', 9, 1)], pin })
  expect(await store.commit(stale)).toHaveProperty('stale')
  const twice = batch({ appends: [append('job:a', 2, 1)], answers: [answer('c9'), answer('c9')], pin })
  await expect(store.commit(twice)).rejects.toThrow(/answered already/)
  expect(kept()).toEqual([[], undefined])
  expect(await store.commit(batch({ appends: [append('job:a', 2, 1)], pin }))).toHaveProperty('committed')
  expect(kept()).toEqual([[row], 'over ana'])
  const gone = { gone: 'ana', seal: { name: 'pins_seal', value: 'over nobody' } }
  expect(await store.commit(batch({ appends: [append('job:a', 9, 1)], pin: gone }))).toHaveProperty('stale')
  expect(kept()).toEqual([[row], 'over ana'])
  await store.commit(batch({ appends: [append('job:a', 3, 1)], pin: gone }))
  expect(kept()).toEqual([[], 'over nobody'])
  await store.close()
})

test('[ES2] two stores on one file: one commit wins, the other is stale', async () => {
  const file = await filled()
  const [one, two] = [open(file), open(file)]
  const wanted = () => batch({ appends: [append('job:a', 2, 1)] })
  const outcomes = await Promise.all([one.commit(wanted()), two.commit(wanted())])
  expect(outcomes.map((o) => Object.keys(o)[0]).sort()).toEqual(['committed', 'stale'])
  expect(await two.read('job:a')).toEqual(await one.read('job:a'))
  await Promise.all([one.close(), two.close()])
})

describe('a file that cannot be the database is refused with a sentence and left as it is', () => {
  const refuses = (file: string, sentence: RegExp) => {
    const before = readFileSync(file)
    expect(() => open(file)).toThrow(sentence)
    expect(readFileSync(file).equals(before)).toBe(true)
  }

  test('not a database', () => {
    const file = newFile()
    writeFileSync(file, 'order book of the shop')
    refuses(file, /is not a database\. It was left as it is/)
  })

  test('a database of another program', () => {
    const file = newFile()
    const other = new Client(file)
    other.exec('create table recipes (title text)')
    other.close()
    refuses(file, /is a database of another program/)
  })

  test('a database made by a newer version', async () => {
    const file = await filled()
    const other = new Client(file)
    other
      .prepare('insert into __drizzle_migrations (hash, created_at) values (?, ?)')
      .run('of-tomorrow', 9e12)
    other.close()
    refuses(file, /was made by a newer version of Paintmark/)
  })

  test('a database broken in the middle of its first page', async () => {
    const file = await filled()
    const bytes = readFileSync(file)
    bytes.fill(0xff, 20, 4000)
    writeFileSync(file, bytes)
    refuses(file, /cannot be read: .* It was left as it is/)
  })

  test('a folder that does not exist', () => {
    expect(() => open(join(folder, 'nowhere', 'shop.db'))).toThrow(/could not be opened: .*folder/)
  })
})

test('an empty file, as a start cut short leaves it, becomes the database', async () => {
  const file = newFile()
  writeFileSync(file, '')
  expect((await contents(file)).log).toEqual([])
})

test('a view or an answer edited by hand is named with what to do, and the log reads on', async () => {
  const file = await filled()
  const other = new Client(file)
  other.exec("update answer set answer = 'yes'; update reading set flags = ''")
  other.close()
  const store = open(file)
  await expect(store.readings({})).rejects.toThrow(
    'The reading row "r1" does not hold what was written. Run "npm run rebuild"',
  )
  await expect(store.answers(['c1'])).rejects.toThrow(/answer row "c1".*Restore/)
  expect(await store.readAll(0, 10)).toHaveLength(3)
  await store.replaceViews([{ summaries: [summary('j1', '1001')], readings: [reading('j1', 'r1')] }])
  expect(await store.summaries()).toEqual([summary('j1', '1001')])
  await store.close()
})
