/**
 * [ES7] on a real file: whatever is changed in the rows of a log with plain SQL is found when it is read.
 * The chain cannot know who wrote a row: someone who writes a whole stream and its end anew is found only
 * by a head that was stored elsewhere: in a release that was kept, or on its printed record.
 */
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  ChainBroken,
  canonical,
  openDatabase,
  sha256Hex,
  sqliteEventStore,
  verifyLog,
} from '../../server/store'
import { BEFORE_THE_FIRST, walkChain } from '../../shared/chain'
import { hashText } from '../../web/live/hash'
import { append, opened } from './store-builders'

const migrationsFolder = join(import.meta.dirname, '../../drizzle')

/** Two streams whose events lie in turn: a1 b1 a2 b2 a3 a4. */
async function log() {
  const database = openDatabase({ file: ':memory:', migrationsFolder })
  const store = sqliteEventStore(database)
  const note = (text: string) => [{ type: 'Noted', text }]
  await opened(store, [
    append('job:a', 0, note('första')),
    append('job:b', 0, note('same')),
    append('job:a', 1, note('same')),
    append('job:b', 1, note('\ufffd')),
    append('job:a', 2, note('same'), { causeId: 'why' }),
    append('job:a', 3, note('')),
  ])
  return { store, sql: database.$client }
}
type Log = Awaited<ReturnType<typeof log>>

const brokenAt = async (reading: Promise<unknown>) => {
  const error = await reading.then(
    () => undefined,
    (e: unknown) => e,
  )
  expect(error).toBeInstanceOf(ChainBroken)
  const { stream, version } = error as ChainBroken
  return `${stream} ${version}`
}

/** Found by reading the stream that was hurt, and by the check of everything. */
async function faultIn({ store }: Log, stream: string) {
  const at = await brokenAt(store.read(stream))
  const { broken } = await verifyLog(store)
  expect(broken.map((b) => `${b.stream} ${b.version}`)).toContain(at)
  return at
}

test('an untouched log is sound', async () => {
  const { store } = await log()
  expect(await verifyLog(store)).toEqual({
    streams: 2,
    events: 6,
    broken: [],
    missingPlaces: 0,
    releases: [],
  })
})

describe('[ES7] any changed byte is found', () => {
  const rows = fc.integer({ min: 1, max: 6 })
  const bytes = fc.record({ at: fc.nat(), to: fc.integer({ min: 0, max: 255 }) })

  for (const column of ['body', 'hash', 'stream'] as const) {
    test(`in the ${column} of an event`, async () => {
      const written = await log()
      const taken = (stream: string, version: unknown) =>
        column === 'stream' &&
        written.sql.prepare('select 1 from event where stream = ? and version = ?').get(stream, version) !==
          undefined
      await fc.assert(
        fc.asyncProperty(rows, bytes, async (seq, { at, to }) => {
          const before = written.sql.prepare('select * from event where seq = ?').get(seq) as Record<
            string,
            string
          >
          const changed = Buffer.from(String(before[column]), 'utf8')
          fc.pre(changed[at % changed.length] !== to)
          changed[at % changed.length] = to
          const put = written.sql.prepare(`update event set ${column} = cast(? as text) where seq = ?`)
          // Into the other stream at a version it has: the table itself lets nobody write that.
          fc.pre(!taken(changed.toString(), before.version))
          put.run(changed, seq)
          await faultIn(written, String(before.stream))
          await brokenAt(written.store.readAll(0, 100))
          put.run(Buffer.from(String(before[column]), 'utf8'), seq)
        }),
        { numRuns: 300 },
      )
      expect((await verifyLog(written.store)).broken).toEqual([])
    })
  }

  for (const column of ['version', 'seq'] as const) {
    test(`in the ${column} of an event`, async () => {
      const written = await log()
      const numbers = fc.oneof(fc.integer({ min: -2, max: 12 }), fc.maxSafeInteger())
      await fc.assert(
        fc.asyncProperty(rows, numbers, async (seq, to) => {
          const before = written.sql.prepare('select * from event where seq = ?').get(seq) as Record<
            string,
            number
          >
          const taken = written.sql
            .prepare(`select 1 from event where ${column} = ? ${column === 'seq' ? '' : 'and stream = ?'}`)
            .get(...(column === 'seq' ? [to] : [to, before.stream]))
          fc.pre(taken === undefined)
          written.sql.prepare(`update event set ${column} = ? where seq = ?`).run(to, seq)
          await faultIn(written, String(before.stream))
          written.sql
            .prepare(`update event set ${column} = ? where seq = ?`)
            .run(before[column], column === 'seq' ? to : seq)
        }),
        { numRuns: 200 },
      )
      expect((await verifyLog(written.store)).broken).toEqual([])
    })
  }

  test('in the record of where a stream ends', async () => {
    const written = await log()
    const head = written.sql.prepare("select * from stream_head where stream = 'job:a'").get() as {
      hash: string
    }
    const put = written.sql.prepare("update stream_head set hash = ?, version = ? where stream = 'job:a'")
    await fc.assert(
      fc.asyncProperty(bytes, fc.integer({ min: -1, max: 9 }), async ({ at, to }, version) => {
        const changed = Buffer.from(head.hash)
        changed[at % 64] = to
        fc.pre(version !== 4 || changed.toString('latin1') !== head.hash)
        put.run(changed.toString('latin1'), version)
        await faultIn(written, 'job:a')
        put.run(head.hash, 4)
      }),
      { numRuns: 200 },
    )
    expect((await verifyLog(written.store)).broken).toEqual([])
  })
})

describe('[ES7] what is moved or missing is found, at its place', () => {
  const logAfter = async (statements: string) => {
    const made = await log()
    made.sql.exec(statements)
    return made
  }
  const a = (version: number) => `stream = 'job:a' and version = ${version}`

  test('an entry taken out of the middle', async () => {
    const made = await logAfter(`delete from event where ${a(2)}`)
    expect(await faultIn(made, 'job:a')).toBe('job:a 2')
    expect(await brokenAt(made.store.read('job:a', 2))).toBe('job:a 2')
    await brokenAt(made.store.readAll(0, 100))
  })

  test('the first entry', async () => {
    const made = await logAfter(`delete from event where ${a(1)}`)
    expect(await faultIn(made, 'job:a')).toBe('job:a 1')
    await brokenAt(made.store.readAll(0, 100))
  })

  test('the last entry, however little is read', async () => {
    const made = await logAfter(`delete from event where ${a(4)}`)
    expect(await faultIn(made, 'job:a')).toBe('job:a 4')
    for (const from of [1, 2, 3, 4]) expect(await brokenAt(made.store.read('job:a', from))).toBe('job:a 4')
  })

  test('all entries of a stream', async () => {
    expect(await faultIn(await logAfter("delete from event where stream = 'job:a'"), 'job:a')).toBe('job:a 1')
  })

  test('a whole stream, with the record of its end: its places in the log are missing', async () => {
    const made = await logAfter(
      "delete from event where stream = 'job:b'; delete from stream_head where stream = 'job:b'",
    )
    expect(await verifyLog(made.store)).toMatchObject({ broken: [], events: 4, missingPlaces: 2 })
    await brokenAt(made.store.readAll(0, 100))
  })

  test('the record of the end', async () => {
    const made = await logAfter("delete from stream_head where stream = 'job:a'")
    expect(await faultIn(made, 'job:a')).toBe('job:a 1')
    await expect(opened(made.store, [append('job:a', 0, 1)])).rejects.toThrow(ChainBroken)
  })

  test('two entries that changed places: bodies, hashes, or whole rows', async () => {
    const swap = (columns: string[]) =>
      `create temp table two as select * from event where ${a(2)} or ${a(3)};` +
      columns
        .map(
          (c) =>
            `update event set ${c} = (select ${c} from two where version = 5 - event.version)
             where ${a(2)} or ${a(3)};`,
        )
        .join('')
    for (const columns of [['body'], ['hash'], ['body', 'hash']]) {
      expect(await faultIn(await logAfter(swap(columns)), 'job:a')).toBe('job:a 2')
    }
  })

  test('an entry put at the end by hand, also with a hash that fits', async () => {
    const made = await logAfter(
      `insert into event select 7, stream, 5, replace(body, '"version":4', '"version":5'), hash
       from event where ${a(4)}`,
    )
    expect(await faultIn(made, 'job:a')).toBe('job:a 5')
    expect(await brokenAt(made.store.read('job:a', 4))).toBe('job:a 5')
  })

  test('an entry moved to another stream', async () => {
    const made = await logAfter(`update event set stream = 'job:c', version = 1 where ${a(4)}`)
    expect(await faultIn(made, 'job:a')).toBe('job:a 4')
    expect(await faultIn(made, 'job:c')).toBe('job:c 1')
  })

  test('a body that is no longer text', async () => {
    expect(await faultIn(await logAfter(`update event set body = 12 where ${a(2)}`), 'job:a')).toBe('job:a 2')
  })

  test('the other stream reads on, and the error says what to do', async () => {
    const made = await logAfter(`update event set body = replace(body, 'same', 'some') where ${a(2)}`)
    expect(await made.store.read('job:b')).toHaveLength(2)
    await expect(made.store.read('job:a')).rejects.toThrow(
      /Stream "job:a" is damaged at version 2: its hash does not fit.*npm run verify.*backup/,
    )
  })
})

describe('[ES14] a stream written anew, with hashes that fit', () => {
  /** Three entries, a release on them, one after it. */
  async function releasedLog() {
    const database = openDatabase({ file: ':memory:', migrationsFolder })
    const store = sqliteEventStore(database)
    const rows = await opened(store, [
      append(
        'job:a',
        0,
        ['read 61 N·m', 'two', 'three'].map((text) => ({ type: 'Noted', text })),
      ),
    ])
    const head = rows[2]?.hash ?? ''
    await opened(store, [append('job:a', 3, [{ type: 'Released', number: 'E-1-R1', head }])])
    await opened(store, [append('job:a', 4, [{ type: 'Noted', text: 'after' }])])
    return { store, sql: database.$client, head }
  }
  type Body = { version: number; event: { type: string; text?: string; head?: string } }

  /** As somebody with the whole file could: other content, every hash and the record of the end made to fit. */
  function writeAnew(
    { sql }: Awaited<ReturnType<typeof releasedLog>>,
    change: (body: Body, previous: string) => void,
  ) {
    const rows = sql.prepare('select seq, body from event order by version').all() as {
      seq: number
      body: string
    }[]
    let hash = BEFORE_THE_FIRST
    for (const { seq, body } of rows) {
      const entry = JSON.parse(body) as Body
      change(entry, hash)
      const text = canonical(entry)
      hash = sha256Hex(hash, text)
      sql.prepare('update event set body = ?, hash = ? where seq = ?').run(text, hash, seq)
    }
    sql.prepare('update stream_head set hash = ?').run(hash)
  }
  const otherReading = ({ event }: Body) => {
    if (event.text === 'read 61 N·m') event.text = 'read 65 N·m'
  }

  test('before a release that was kept to the byte: found at the release, by verify and by every read', async () => {
    const made = await releasedLog()
    const release = made.sql.prepare('select body from event where version = 4').get()
    writeAnew(made, otherReading)
    expect(made.sql.prepare('select body from event where version = 4').get()).toEqual(release)
    expect(await brokenAt(made.store.read('job:a'))).toBe('job:a 4')
    expect(await brokenAt(made.store.read('job:a', 3))).toBe('job:a 4')
    await brokenAt(made.store.readAll(0, 100))
    const { broken } = await verifyLog(made.store)
    expect(broken.map(({ message }) => message)).toEqual([
      expect.stringMatching(
        /^Stream "job:a" is damaged at version 4: release E-1-R1 was given on other entries/,
      ),
    ])
  })

  test('with the release too: not found within the log, but by the head on its paper', async () => {
    const made = await releasedLog()
    writeAnew(made, (body, previous) => {
      otherReading(body)
      if (body.event.type === 'Released') body.event.head = previous
    })
    const { broken, releases } = await verifyLog(made.store)
    expect(broken).toEqual([])
    expect(releases).toMatchObject([{ stream: 'job:a', number: 'E-1-R1', version: 3 }])
    expect(releases[0]?.head).not.toBe(made.head)
    const chain = { stream: 'job:a', rows: await made.store.chain('job:a') }
    expect(await walkChain(chain, 3, made.head, hashText)).toMatchObject({ whole: false, version: 3 })
  })

  test('after its last release: not found within the log, and the release stands', async () => {
    const made = await releasedLog()
    writeAnew(made, ({ event }) => {
      if (event.text === 'after') event.text = 'other'
    })
    expect(await verifyLog(made.store)).toMatchObject({
      broken: [],
      releases: [{ number: 'E-1-R1', version: 3, head: made.head }],
    })
  })
})
