/**
 * Every way in which a shop's data folder is damaged or made false behind the server's back is named by verify, with what to
 * do. Each test changes one thing in a copy of a sound folder; taken out of `server/proof/`, its check lets the test fail.
 */
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type Client from 'better-sqlite3'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readBook } from '../../../server/marks'
import { databaseIn } from '../../../server/settings'
import { canonical, sha256Hex } from '../../../server/store'
import { BEFORE_THE_FIRST } from '../../../shared/chain'
import { NOON } from '../rig'
import { changeByte, check, fillShop, kindsIn, makeFolders, openAt, PHOTO, withSql } from './shop'

const folders = makeFolders()
let sound = ''
beforeAll(async () => {
  sound = folders.fresh()
  await fillShop(sound)
})
afterAll(() => folders.remove())
const copy = () => folders.fresh(sound)

/** What verify finds after something was done with SQL alone. */
async function afterSql(statements: string) {
  const folder = copy()
  withSql(folder, (client) => client.exec(statements))
  return check(folder)
}

test('a sound folder has no fault, and nothing in it is written or made', async () => {
  const folder = copy()
  const all = () =>
    readdirSync(folder, { recursive: true, encoding: 'utf8', withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [file, sha256Hex(readFileSync(file))])
  const before = all()
  const report = await check(folder)
  expect(report).toMatchObject({ faults: [], notes: [] })
  expect(report.streams.map(({ stream }) => stream)).toEqual(['job:j1', 'job:j2', 'shop'])
  expect(report.marked?.entries).toBe(report.events)
  expect(all()).toEqual(before)
})

/** A change of one byte of a text column, by SQL. */
function changeIn(
  folder: string,
  table: string,
  column: string,
  rowid: number,
  at: number,
  to: number,
): boolean {
  return withSql(folder, (client) => {
    const value = client.prepare(`select ${column} from ${table} where rowid = ?`).pluck().get(rowid)
    const bytes = Buffer.from(String(value))
    const place = at % bytes.length
    if (bytes[place] === to) return false
    bytes[place] = to
    try {
      client.prepare(`update ${table} set ${column} = cast(? as text) where rowid = ?`).run(bytes, rowid)
      return true
    } catch {
      // Two rows that the table itself holds apart.
      return false
    }
  })
}

const TEXTS: [table: string, column: string, kinds: string[]][] = [
  ['event', 'body', ['chain']],
  ['event', 'hash', ['chain']],
  ['event', 'stream', ['chain']],
  ['stream_head', 'stream', ['chain']],
  ['stream_head', 'hash', ['chain']],
  ['summary', 'summary', ['view']],
  ['summary', 'number', ['view']],
  ['summary', 'job_id', ['view']],
  ['reading', 'job_id', ['view']],
  ['reading', 'reading_id', ['view']],
  ['reading', 'joint_id', ['view']],
  ['reading', 'how', ['view']],
  ['reading', 'wrench_id', ['view']],
  ['reading', 'by_person', ['view']],
  ['reading', 'flags', ['view']],
  ['answer', 'command_id', ['answer']],
  ['answer', 'person_id', ['answer']],
  ['answer', 'body_hash', ['answer']],
  ['answer', 'answer', ['answer']],
  ['answer', 'device_id', ['answer']],
  ['credential', 'pin_hash', ['pin']],
  ['credential', 'person_id', ['pin']],
  ['credential', 'mac', ['pin']],
]

/** All that verify answers for, as it is found going through the tables, and through each of their indexes. */
function rowsInEveryOrder(client: Client.Database): string {
  const tables = ['event', 'stream_head', 'summary', 'reading', 'answer', 'credential']
  const named = client
    .prepare("select name, tbl_name as tableName from sqlite_master where type = 'index' order by name")
    .all() as { name: string; tableName: string }[]
  const rows = (from: string) => client.prepare(`select rowid, * from ${from}`).all()
  return JSON.stringify([
    ...tables.map((name) => rows(`${name} not indexed`)),
    ...named
      .filter(({ name, tableName }) => tables.includes(tableName) && name !== 'answer_counted')
      .map(({ name, tableName }) => rows(`${tableName} indexed by ${name}`)),
  ])
}

const RUNS = 12
const rowsOf = (table: string) =>
  withSql(sound, (client) => client.prepare(`select rowid from ${table}`).pluck().all() as number[])

describe('any byte of what is kept in the database', () => {
  test.each(TEXTS)('[EV7] in %s, %s', async (table, column, kinds) => {
    const folder = copy()
    const pristine = readFileSync(databaseIn(folder))
    const row = fc.constantFrom(...rowsOf(table))
    const byte = fc.integer({ min: 0, max: 255 })
    await fc.assert(
      fc.asyncProperty(row, fc.nat({ max: 5000 }), byte, async (rowid, at, to) => {
        writeFileSync(databaseIn(folder), pristine)
        fc.pre(changeIn(folder, table, column, rowid, at, to))
        const found = kindsIn(await check(folder))
        for (const kind of kinds) expect(found).toContain(kind)
      }),
      { numRuns: RUNS, seed: 12 },
    )
  })

  const NUMBERS: [table: string, column: string, kind: string][] = [
    ['event', 'version', 'chain'],
    ['stream_head', 'version', 'chain'],
    ['summary', 'version', 'view'],
    ['summary', 'finished_at', 'view'],
    ['reading', 'position', 'view'],
    ['reading', 'pass', 'view'],
    ['reading', 'torque_nm', 'view'],
    ['reading', 'angle_deg', 'view'],
    ['reading', 'done_at', 'view'],
    ['reading', 'standing', 'view'],
    ['answer', 'answered_at', 'answer'],
    ['answer', 'entry_number', 'answer'],
    ['credential', 'set_at', 'pin'],
  ]
  test.each(NUMBERS)('[EV7] a number in %s, %s', async (table, column, kind) => {
    for (const rowid of rowsOf(table).slice(-1)) {
      const folder = copy()
      withSql(folder, (client) =>
        client.exec(`update ${table} set ${column} = coalesce(${column}, 0) + 7 where rowid = ${rowid}`),
      )
      expect(kindsIn(await check(folder))).toContain(kind)
    }
  })

  test('[EV6][EV7] any byte of its file is named, or says nothing: every row reads as before, by table and by index', async () => {
    const folder = copy()
    const file = databaseIn(folder)
    const pristine = readFileSync(file)
    const told = () => withSql(folder, rowsInEveryOrder)
    const before = told()
    let named = 0
    await fc.assert(
      fc.asyncProperty(fc.nat(pristine.length - 1), fc.integer({ min: 1, max: 255 }), async (at, flip) => {
        const back = changeByte(file, at, (byte) => byte ^ flip)
        const { faults } = await check(folder)
        if (faults.length > 0) named++
        else expect([at, told()]).toEqual([at, before])
        back()
        for (const ending of ['-wal', '-shm', '-journal']) rmSync(`${file}${ending}`, { force: true })
      }),
      { numRuns: 100, seed: 12 },
    )
    expect(named).toBeGreaterThan(30)
    expect(await check(folder)).toMatchObject({ faults: [] })
  })

  test('[EV7] rows taken out of any table', async () => {
    const kinds: Record<string, string> = {
      event: 'chain',
      stream_head: 'chain',
      summary: 'view',
      reading: 'view',
      answer: 'answer',
      credential: 'pin',
    }
    for (const [table, kind] of Object.entries(kinds)) {
      const last = await afterSql(`delete from ${table} where rowid = (select max(rowid) from ${table})`)
      expect([table, kindsIn(last)]).toEqual([table, expect.arrayContaining([kind])])
      const all = await afterSql(`delete from ${table}`)
      expect([table, all.faults.length > 0]).toEqual([table, true])
    }
  })
})

describe('what is whole in itself and false', () => {
  /** As somebody with the whole file could: other content, with every hash and the record of the end made to fit. */
  function writeAnew(
    folder: string,
    stream: string,
    change: (event: Record<string, unknown>, previous: string) => void,
  ) {
    withSql(folder, (client) => {
      const rows = client
        .prepare('select seq, body from event where stream = ? order by version')
        .all(stream) as {
        seq: number
        body: string
      }[]
      let hash = BEFORE_THE_FIRST
      for (const { seq, body } of rows) {
        const entry = JSON.parse(body) as { event: Record<string, unknown> }
        change(entry.event, hash)
        const text = canonical(entry)
        hash = sha256Hex(hash, text)
        client.prepare('update event set body = ?, hash = ? where seq = ?').run(text, hash, seq)
      }
      client.prepare('update stream_head set hash = ? where stream = ?').run(hash, stream)
    })
  }

  test('[EV2] a released engine written anew, its release too', async () => {
    const folder = copy()
    writeAnew(folder, 'job:j1', (event, previous) => {
      if (event.type === 'JobOpened') event.owner = 'Somebody else'
      if (event.type === 'Released') event.head = previous
    })
    // As the server would make them: so that only the marks can tell.
    const { faults } = await check(folder)
    const altered = faults.filter(({ kind }) => kind === 'altered')
    expect(altered).toHaveLength(1)
    expect(altered[0]?.sentence).toMatch(
      /^Entries 1 to \d+ of the log \(the shop’s own log and E-1\) are not those that were marked on .*wrote one or more of them anew.*restore the last good backup\.$/,
    )
  })

  test('[EV6] entries of a kind nobody knows, with hashes that fit, are a sentence', async () => {
    const folder = copy()
    writeAnew(folder, 'job:j2', (event) => {
      if (event.type === 'PlanAdopted') event.type = 'Unheard'
    })
    const { faults } = await check(folder)
    expect(faults.map(({ sentence }) => sentence)).toContainEqual(
      expect.stringMatching(
        /^The entries of E-2 hang together, but this program cannot read them \(.*"Unheard".*\)\. If a newer version/,
      ),
    )
  })

  test('[EV2] the shop’s own log written anew, so that another one owns it', async () => {
    const folder = copy()
    writeAnew(folder, 'shop', (event) => {
      if (event.type === 'PersonAdded') (event.person as { roles: string[] }).roles = ['owner']
    })
    expect(kindsIn(await check(folder))).toEqual(['altered'])
  })

  test('[EV2] what follows the last release written anew', async () => {
    const folder = copy()
    writeAnew(folder, 'job:j2', (event) => {
      if (event.type === 'NoteAdded') event.text = 'another last word'
    })
    const { faults } = await check(folder)
    expect(faults.map(({ kind }) => kind)).toContain('altered')
    expect(faults.find(({ kind }) => kind === 'altered')?.sentence).toContain('E-2')
  })

  test('[EV8] the last entries gone, with heads, rows and answers set back: how many, and since when', async () => {
    const folder = copy()
    const gone = withSql(folder, (client) => {
      const stream = 'job:j2'
      const version = client
        .prepare('select version from stream_head where stream = ?')
        .pluck()
        .get(stream) as number
      client.prepare('delete from event where stream = ? and version > ?').run(stream, version - 4)
      const last = client
        .prepare('select hash from event where stream = ? and version = ?')
        .pluck()
        .get(stream, version - 4)
      client
        .prepare('update stream_head set version = ?, hash = ? where stream = ?')
        .run(version - 4, last, stream)
      client.exec('delete from answer where rowid > (select max(rowid) - 5 from answer)')
      return 4
    })
    const { faults } = await check(folder)
    const [first] = faults
    expect(first?.kind).toBe('cut')
    expect(first?.sentence).toMatch(
      new RegExp(
        `^The end of the log is missing: it has \\d+ entries, and the mark of 2 Jun 2026, \\d\\d:\\d\\d counts \\d+, so the last ${gone} are gone, all that was entered after 2 Jun 2026, `,
      ),
    )
    expect(kindsIn({ faults } as never)).not.toContain('missing')
  })

  test('[EV8] a whole stream taken out, with all that speaks of it: its places are named', async () => {
    const statements = `delete from answer where command_id in
        (select json_extract(body, '$.commandId') from event where stream = 'job:j1');
      delete from event where stream = 'job:j1'; delete from stream_head where stream = 'job:j1';
      delete from summary where job_id = 'j1'; delete from reading where job_id = 'j1'`
    const folder = copy()
    rmSync(join(folder, 'marks'), { recursive: true })
    rmSync(join(folder, 'marks.key'))
    withSql(folder, (client) => client.exec(statements))
    expect((await check(folder)).faults).toEqual([
      {
        kind: 'missing',
        sentence: expect.stringMatching(
          /^11 entries of the log are missing, places 7 to 17: a whole stream, or the end of one, was taken out/,
        ),
      },
    ])
  })

  test('[EV7] answers that were altered, also where the log knows nothing of them', async () => {
    const refusals = withSql(sound, (client) =>
      client.prepare(`select count(*) from answer where answer like '{"ok":false%'`).pluck().get(),
    )
    expect(refusals).toBe(1)
    const changed = `update answer set answer = replace(answer, '"ok":false', '"ok":false ') where answer like '{"ok":false%'`
    expect(kindsIn(await afterSql(changed))).toEqual(['answer'])
    const otherBody = `update answer set body_hash = '${'ab'.repeat(32)}' where rowid = 5`
    expect(kindsIn(await afterSql(otherBody))).toEqual(['answer'])
    const gone = `delete from answer where answer like '{"ok":false%'`
    expect((await afterSql(gone)).faults.map(({ sentence }) => sentence)[0]).toMatch(
      /^1 kept answer of those counted on .* is missing/,
    )
  })

  test('[EV7] an answer that speaks of entries which are not there', async () => {
    const report = await afterSql(
      `insert into answer (command_id, person_id, body_hash, answered_at, answer) select 'made-up', person_id, body_hash, answered_at, '{"ok":true,"from":3,"version":9}' from answer limit 1`,
    )
    expect(report.faults.map(({ sentence }) => sentence)).toEqual([
      expect.stringMatching(
        /^1 kept answer speaks of entries that the log does not have, .*\(command made-up\)/,
      ),
    ])
  })

  test.each([
    ['another person', "update answer set person_id = 'bo'"],
    ['another time', 'update answer set answered_at = answered_at + 1'],
    ['another place', `update answer set answer = replace(answer, '"from":3', '"from":2')`],
    ['none', 'delete from answer where rowid = 3'],
    ['not to be read', "update answer set answer = 'yes'"],
    ['a refusal not to be read', `update answer set answer = 'no' where answer like '{"ok":false%'`],
  ])(
    '[EV7] without marks too, an answer is held against the entries it was given for: %s',
    async (_, statement) => {
      const folder = copy()
      rmSync(join(folder, 'marks'), { recursive: true })
      rmSync(join(folder, 'marks.key'))
      expect(await check(folder)).toMatchObject({ faults: [] })
      withSql(folder, (client) => client.exec(statement))
      expect(kindsIn(await check(folder))).toEqual(['answer'])
    },
  )

  test('[EV7] rows of an engine that the log does not have', async () => {
    const report = await afterSql(
      `insert into summary (job_id, number, version, summary) values ('ghost', 'E-9', 1, '{}')`,
    )
    expect(report.faults).toEqual([
      expect.objectContaining({
        kind: 'view',
        number: 'E-9',
        sentence: expect.stringContaining('of which the log has no entry'),
      }),
    ])
  })

  test('[EV10] one person’s PIN under another’s name; a row put back; the seal gone', async () => {
    const swapped = await afterSql(
      `update credential set pin_hash = (select pin_hash from credential where person_id = 'bo') where person_id = 'ana'`,
    )
    expect(swapped.faults).toEqual([
      {
        kind: 'pin',
        sentence: expect.stringMatching(/^The PIN of Ana was changed .*signs nobody in.*npm run pin/),
      },
    ])
    const older = withSql(sound, (client) =>
      client.prepare("select * from credential where person_id = 'bo'").get(),
    ) as Record<string, unknown>
    const folder = copy()
    const shop = await openAt(folder)
    await shop.people.setPin('bo', '8174')
    await shop.close()
    expect(await check(folder)).toMatchObject({ faults: [] })
    withSql(folder, (client) =>
      client
        .prepare('update credential set pin_hash = ?, set_at = ?, mac = ? where person_id = ?')
        .run(older.pin_hash, older.set_at, older.mac, 'bo'),
    )
    expect((await check(folder)).faults).toEqual([
      { kind: 'pin', sentence: expect.stringContaining('put back to an earlier one') },
    ])
    expect(kindsIn(await afterSql("delete from state where name = 'pins_seal'"))).toEqual(['pin'])
  })

  test('[EV10] a PIN set by somebody with the pepper, of which no entry tells', async () => {
    const folder = copy()
    const shop = await openAt(folder)
    const set = await shop.access.setPin({ personId: 'bo', pin: '8174', by: 'ana' })
    expect(set).toMatchObject({
      ok: true,
      events: [{ event: { type: 'PinSet', personId: 'bo', by: 'ana' } }],
    })
    await shop.close()
    expect(await check(folder)).toMatchObject({ faults: [] })
    const again = await openAt(folder, { now: NOON + 60_000 })
    await again.people.setPin('bo', '9285')
    await again.close()
    expect((await check(folder)).faults).toEqual([
      {
        kind: 'pin',
        sentence: expect.stringMatching(/^The PIN of Bo is not the one whose setting the log tells of/),
      },
    ])
  })

  test('[EV10] rows without a seal are not sealed anew where they were sealed before', async () => {
    const folder = copy()
    withSql(folder, (client) =>
      client.exec(`update credential set mac = null, pin_hash = (select pin_hash from credential where person_id = 'bo');
        delete from state where name = 'pins_seal'`),
    )
    const shop = await openAt(folder)
    expect(await shop.people.prove('ana', '2222', 'a bench')).toEqual({ ok: false })
    await shop.close()
    expect(kindsIn(await check(folder))).toEqual(['pin'])
  })

  test('[EV10] another pepper', async () => {
    const folder = copy()
    writeFileSync(join(folder, 'pepper'), Buffer.alloc(32, 7))
    expect((await check(folder)).faults).toEqual([
      { kind: 'pin', sentence: expect.stringContaining('No PIN here was set with this pepper') },
    ])
  })
})

test('[EV6] a thousand faults of a kind are not a thousand lines', async () => {
  const report =
    await afterSql(`with recursive n(i) as (select 1 union all select i + 1 from n where i < 1000)
    insert into summary (job_id, number, version, summary) select 'ghost-' || i, 'G-' || i, 1, '{}' from n`)
  expect(report.faults).toHaveLength(21)
  expect(report.faults.at(-1)).toEqual({
    kind: 'view',
    sentence: 'There are 980 more faults like these; what to do about them is the same.',
  })
})

describe('photos', () => {
  test('[EV7] any byte of one', async () => {
    const folder = copy()
    const { length } = readFileSync(join(folder, PHOTO))
    for (let at = 0; at < length; at++) {
      const back = changeByte(join(folder, PHOTO), at, (byte) => byte ^ 1)
      const { faults } = await check(folder)
      expect(faults).toEqual([
        expect.objectContaining({
          kind: 'photo',
          number: 'E-1',
          sentence: expect.stringMatching(/^A photo of E-1 is damaged.*Copy photos\//),
        }),
      ])
      back()
    }
  })
  test('[EV7] all of them gone', async () => {
    const folder = copy()
    rmSync(join(folder, 'photos'), { recursive: true })
    expect((await check(folder)).faults).toEqual([
      expect.objectContaining({
        kind: 'photo',
        sentence: expect.stringContaining('is missing, though the log says that it arrived'),
      }),
    ])
  })
})

describe('marks', () => {
  const marksIn = (folder: string, name: 'kept' | 'recent') => join(folder, 'marks', `${name}.jsonl`)

  test.each([
    ['kept', 1],
    // Its longest parts are the edges: hashes, all alike.
    ['recent', 4],
  ] as const)('[EV5] any byte of marks/%s.jsonl', async (name, every) => {
    const folder = copy()
    const file = marksIn(folder, name)
    const { length } = readFileSync(file)
    expect(length).toBeGreaterThan(500)
    for (let at = 0; at < length; at += every) {
      const back = changeByte(file, at, (byte) => (byte === 0x31 ? 0x32 : byte ^ 1))
      const { faults, torn } = readBook(join(folder, 'marks'))
      expect([at, faults.length + torn.length > 0]).toEqual([at, true])
      back()
    }
    for (const at of [3, length >> 1, length - 1]) {
      const back = changeByte(file, at, (byte) => byte ^ 1)
      expect([at, kindsIn(await check(folder))]).toEqual([at, expect.arrayContaining(['marks'])])
      back()
    }
    expect(await check(folder)).toMatchObject({ faults: [] })
  })

  test('[EV5] the newest ones taken away, all of them, or their key', async () => {
    const cut = copy()
    writeFileSync(marksIn(cut, 'recent'), '')
    expect((await check(cut)).faults[0]?.sentence).toMatch(/^The last \d+ entries carry no mark/)
    const none = copy()
    rmSync(join(none, 'marks'), { recursive: true })
    expect(kindsIn(await check(none))).toEqual(['marks'])
    const other = copy()
    rmSync(join(other, 'marks.key'))
    const shop = await openAt(other)
    await shop.close()
    expect((await check(other)).notes.join()).toContain('The key of the marks was made anew')
  })

  test('[EV5] marks made with another key do not pass for the shop’s', async () => {
    const folder = copy()
    const stranger = folders.fresh()
    await fillShop(stranger)
    const line = readFileSync(marksIn(stranger, 'recent'), 'utf8')
    writeFileSync(marksIn(folder, 'recent'), line)
    expect((await check(folder)).faults[0]?.sentence).toContain('its key is not named before it')
  })
})

describe('files', () => {
  test('[EV9] nothing in the log: a shop’s remnants are an error, an empty folder is told as such', async () => {
    const emptied = await afterSql(
      'delete from event; delete from stream_head; delete from answer; delete from summary; delete from reading',
    )
    expect(emptied.faults.find(({ kind }) => kind === 'empty')?.sentence).toMatch(
      /^The log has no entry, but a shop was here: beside it lie marks that count \d+ entries and 1 photo\./,
    )
    const folder = folders.fresh()
    await (await openAt(folder)).close()
    expect((await check(folder)).faults).toEqual([
      {
        kind: 'empty',
        sentence: expect.stringContaining('lies what a server makes at its first start (pepper)'),
      },
    ])
    rmSync(join(folder, 'pepper'))
    expect((await check(folder)).faults).toEqual([
      { kind: 'empty', sentence: expect.stringContaining('no shop was opened here') },
    ])
  })

  test('[EV6] a bad page is a sentence', async () => {
    const folder = copy()
    const file = databaseIn(folder)
    const size = readFileSync(file).length
    const kinds = new Set<string>()
    for (let page = 1; page * 4096 < size; page++) {
      const whole = readFileSync(file)
      const bad = Buffer.from(whole)
      bad.fill(0xa5, page * 4096, (page + 1) * 4096)
      writeFileSync(file, bad)
      const report = await check(folder)
      expect([page, report.faults.length > 0]).toEqual([page, true])
      for (const { kind, sentence } of report.faults) {
        kinds.add(kind)
        expect(sentence).toMatch(/\.$/)
      }
      writeFileSync(file, whole)
    }
    expect([...kinds]).toContain('page')
    writeFileSync(file, 'order book')
    expect((await check(folder)).faults).toEqual([
      { kind: 'page', sentence: expect.stringMatching(/cannot be read \(file is not a database\)/) },
    ])
  })

  test('[EV1] the database copied without its write-ahead log is torn; the folder of a running server is not', async () => {
    const folder = copy()
    const shop = await openAt(folder)
    await shop.send('job:j2', { type: 'AddNote', text: 'in the log beside it' })
    await shop.marks.mark('backup')
    expect(existsSync(`${databaseIn(folder)}-wal`)).toBe(true)
    expect(await check(folder)).toMatchObject({ faults: [] })
    const alone = folders.fresh(folder)
    for (const ending of ['-wal', '-shm']) rmSync(`${databaseIn(alone)}${ending}`)
    const torn = await check(alone)
    expect(torn.faults[0]).toEqual({
      kind: 'torn',
      sentence: expect.stringMatching(
        /^This is a torn copy: the database was open since 2 Jun 2026, .*so the last one is gone, all that was entered after .* Put that file beside it, or make a copy with "npm run backup"\.$/,
      ),
    })
    expect(kindsIn(torn)).not.toContain('cut')
    const withLog = folders.fresh(folder)
    rmSync(`${databaseIn(withLog)}-shm`)
    expect(await check(withLog)).toMatchObject({ faults: [] })
    expect(existsSync(`${databaseIn(withLog)}-shm`)).toBe(false)
    await shop.close()
    expect(existsSync(`${databaseIn(folder)}-wal`)).toBe(false)
    // In one piece, which opens from a medium that cannot be written to.
    expect([...readFileSync(databaseIn(folder)).subarray(18, 20)]).toEqual([1, 1])
    expect(await check(folder)).toMatchObject({ faults: [] })
  })

  test('[EV8] a write-ahead log with one byte flipped ends there: what is gone is told', async () => {
    const folder = copy()
    const shop = await openAt(folder)
    for (const text of ['one', 'two', 'three']) await shop.send('job:j2', { type: 'AddNote', text })
    await shop.marks.mark('backup')
    const copied = folders.fresh(folder)
    await shop.close()
    const wal = `${databaseIn(copied)}-wal`
    // Within the first frame, after the log's head of 32 and the frame's of 24 bytes.
    changeByte(wal, 32 + 24 + 100, (byte) => byte ^ 1)
    rmSync(`${databaseIn(copied)}-shm`)
    const { faults } = await check(copied)
    expect(faults.find(({ kind }) => kind === 'cut')?.sentence).toMatch(/so the last 3 are gone/)
  })
})
