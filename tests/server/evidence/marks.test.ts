/** When a mark is made, what it goes on from, and what becomes of it when the log is not what it was. */
import { appendFileSync, readFileSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { copyMarks, hasMarks, type Marks, marksFolderIn, openMarks, readBook } from '../../../server/marks'
import { migrations } from '../../../server/open-shop'
import { databaseIn } from '../../../server/settings'
import { closeDatabase, openDatabase, sqliteEventStore } from '../../../server/store'
import { answer, append, batch } from '../../contracts/store-builders'
import { silent } from '../../shop/silent'
import { byHand, NOON } from '../rig'
import { makeFolders, withSql } from './shop'

const folders = makeFolders()
afterAll(() => folders.remove())

const HOUR = 3_600_000

/** Marks over a bare store, on a clock that a test turns. */
function open(folder = folders.fresh(), start = NOON) {
  const clock = { now: start, steady: 0 }
  const hand = byHand(
    () => clock.steady,
    (ms) => {
      clock.steady += ms
      clock.now += ms
    },
  )
  const errors: string[] = []
  const db = openDatabase({ file: databaseIn(folder), migrationsFolder: migrations() })
  const store = sqliteEventStore(db)
  const marks: Marks = openMarks({
    db,
    dataFolder: folder,
    epoch: '1',
    now: () => clock.now,
    monotonic: () => clock.steady,
    after: hand.after,
    log: { ...silent, error: (_, sentence) => errors.push(sentence) },
  })
  let version = 0
  return {
    folder,
    marks,
    clock,
    errors,
    hand,
    db,
    book: () => readBook(marksFolderIn(folder)),
    whys: () => readBook(marksFolderIn(folder)).marks.map(({ why, entries }) => `${why} ${entries.count}`),
    async enter(count = 1, { released = false } = {}) {
      version = (await store.head('job:a'))?.version ?? 0
      const id = `c${version}`
      await store.commit(
        batch({ appends: [append('job:a', version, count, { commandId: id })], answers: [answer(id)] }),
      )
      marks.written(released)
      await turns()
    },
    close: async () => {
      await marks.close()
      closeDatabase(db)
    },
    kill: () => db.$client.close(),
  }
}

const turns = async () => {
  for (let n = 0; n < 6; n++) await new Promise((resolve) => setImmediate(resolve))
}

describe('[EV3] a mark is made', () => {
  test('at the first start, at once when something is entered, then once a second while more comes', async () => {
    const shop = open()
    await turns()
    expect(shop.whys()).toEqual(['first 0', 'first 0'])
    await shop.hand.pass(1000)
    await shop.enter()
    await shop.hand.pass(0)
    expect(shop.whys()).toEqual(['first 0', 'first 0', 'second 1'])
    for (let n = 0; n < 5; n++) await shop.enter()
    await shop.hand.pass(999)
    expect(shop.whys().at(-1)).toBe('second 1')
    await shop.hand.pass(1)
    expect(shop.whys().at(-1)).toBe('second 6')
    expect(shop.hand.waiting.size).toBe(0)
    await shop.close()
  })

  test('at a release and at a backup, which stay; those of seconds before them go', async () => {
    const shop = open()
    await shop.enter(2)
    await shop.hand.pass(1000)
    await shop.enter(1, { released: true })
    expect(shop.whys()).toEqual(['first 0', 'release 3', 'release 3'])
    await shop.enter()
    const mark = await shop.marks.mark('backup')
    expect(mark).toMatchObject({
      why: 'backup',
      entries: { count: 4 },
      answers: { count: 3 },
      at: shop.clock.now,
    })
    const { marks } = shop.book()
    expect(marks.filter(({ entries }) => entries.edge).map(({ entries }) => entries.count)).toEqual([4])
    await shop.close()
    expect(shop.whys()).toEqual(['first 0', 'release 3', 'backup 4', 'backup 4'])
  })

  test('once an hour in which something is entered, which stays, whatever the clock on the wall does', async () => {
    const shop = open()
    await shop.hand.pass(1000)
    await shop.enter()
    await shop.hand.pass(HOUR - 2000)
    await shop.enter()
    await shop.hand.pass(1000)
    shop.clock.now -= 365 * 24 * HOUR
    await shop.hand.pass(1000)
    await shop.enter()
    await shop.hand.pass(1000)
    expect(shop.whys()).toEqual(['first 0', 'hour 3', 'hour 3'])
    await shop.close()
  })

  test('when the server stops, of what has none yet', async () => {
    const shop = open()
    await shop.enter()
    await shop.hand.pass(1000)
    await shop.enter(3)
    await shop.close()
    expect(shop.whys().at(-1)).toBe('closed 4')
    expect(statSync(join(shop.folder, 'marks.key')).mode & 0o777).toBe(0o600)
  })

  test('seconds beyond four minutes of them leave the newest half, to a whole last line', async () => {
    const shop = open()
    for (let n = 0; n < 250; n++) {
      await shop.enter()
      await shop.hand.pass(1000)
    }
    const { marks, faults } = shop.book()
    expect(faults).toEqual([])
    expect(marks.length).toBeLessThan(241)
    expect(marks.at(-1)).toMatchObject({ entries: { count: 250 } })
    await shop.close()
  })
})

describe('[EV4] a mark goes on from the one before', () => {
  test('also after a kill: what came without a mark is in the next one', async () => {
    const first = open()
    await first.enter()
    await first.hand.pass(1000)
    await first.enter(2)
    first.kill()
    const again = open(first.folder)
    await turns()
    expect(again.whys()).toEqual(['first 0', 'first 0', 'second 1', 'second 3'])
    await again.close()
  })

  test('so no later one vouches for what was altered since', async () => {
    const shop = open()
    await shop.enter(3)
    await shop.close()
    const [before] = shop.book().marks.slice(-1)
    withSql(shop.folder, (client) =>
      client.exec(`update event set hash = '${'ab'.repeat(32)}' where seq = 2`),
    )
    const again = open(shop.folder)
    await turns()
    const mark = await again.marks.mark('backup')
    expect(mark?.entries.root).toBe(before?.entries.root)
    await again.close()
  })

  test('and where the log is shorter than its marks, no more are made and it is said', async () => {
    const shop = open()
    await shop.enter(3)
    await shop.close()
    const whys = shop.whys()
    withSql(shop.folder, (client) => client.exec('delete from event where seq = 3'))
    const again = open(shop.folder)
    await turns()
    expect(again.marks.stopped()).toMatch(
      /^No more marks are made: the log ends before its marks: 1 entry missing at its end\./,
    )
    expect(again.errors).toEqual([again.marks.stopped()])
    expect(await again.marks.mark('backup')).toBeUndefined()
    await again.close()
    expect(again.whys()).toEqual(whys)
  })

  test('without an edge to go on from, the whole log is read again and held against what stayed', async () => {
    const shop = open()
    await shop.enter(3, { released: true })
    await shop.close()
    const recent = join(marksFolderIn(shop.folder), 'recent.jsonl')
    rmSync(recent)
    const sound = open(shop.folder)
    await sound.enter()
    await sound.close()
    expect(sound.whys().at(-1)).toBe('closed 4')
    rmSync(recent)
    withSql(shop.folder, (client) =>
      client.exec(`update event set hash = '${'ab'.repeat(32)}' where seq = 2`),
    )
    const again = open(shop.folder)
    await turns()
    expect(again.marks.stopped()).toContain('entries up to 3 are not those that were marked')
    await again.close()
  })
})

test('[EV5] a last line that was cut short is told, takes nothing from those before it, and is taken off at the next start', async () => {
  const shop = open()
  await shop.enter()
  await shop.close()
  const recent = join(marksFolderIn(shop.folder), 'recent.jsonl')
  const whole = readFileSync(recent, 'utf8')
  const [line = ''] = whole.split('\n')
  appendFileSync(recent, line.slice(0, 100))
  expect(shop.book()).toMatchObject({ torn: ['recent.jsonl'], faults: [] })
  expect(shop.whys()).toEqual(['first 0', 'first 0', 'closed 1'])
  const again = open(shop.folder)
  await again.enter()
  await again.close()
  expect(again.book()).toMatchObject({ torn: [], faults: [] })
  expect(again.whys().slice(-2)).toEqual(['closed 1', 'closed 2'])
})

test('[EV3] a copy of an earlier moment takes only the marks it can bear', async () => {
  const shop = open()
  await shop.enter()
  await shop.marks.mark('backup')
  await shop.enter(2)
  await shop.close()
  const to = folders.fresh()
  copyMarks(marksFolderIn(shop.folder), to, { entries: 1, answers: 1 })
  const { keys, marks, faults } = readBook(to)
  expect([keys.length, marks.map(({ entries }) => entries.count), faults]).toEqual([1, [0, 1, 1], []])
  expect(hasMarks(shop.folder)).toBe(true)
  expect(hasMarks(to)).toBe(false)
})
