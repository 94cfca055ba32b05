/**
 * Data folders that older builds wrote, each under the commit that wrote it: opened, verified and folded by this one.
 *
 * `tests/contracts/old-shops/keep.ts` adds a folder. Where a fold has other members since, `SINCE` says what to take
 * out or call by its old name, so that nothing else can slip by.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PINS } from '../../seed/shop'
import { migrations, openShop } from '../../server/open-shop'
import { databaseIn } from '../../server/settings'
import { openDatabase, sqliteEventStore, verifyLog } from '../../server/store'
import type { Job } from '../../shared/job/types'
import { silent } from '../shop/silent'
import { unpack } from './old-shops/pack'
import { fold, foldPrint, type Prints, type Projection, printsOf } from './old-shops/prints'

const fixtures = join(import.meta.dirname, '../fixtures')

/** By the commit of the folder: today's fold as that build knew it. */
const SINCE: Record<string, Projection> = {
  dbcb07a: withoutLapsed,
}

/** How often a set's signatures were taken back was not counted then. */
function withoutLapsed(fold: object): object {
  const { steps } = fold as Partial<Job>
  if (!steps) return fold
  const setsOf = (sets: Job['steps'][string]['sets']) =>
    Object.fromEntries(Object.entries(sets).map(([id, { lapsed: _, ...set }]) => [id, set]))
  const then = Object.entries(steps).map(([id, step]) => [id, { ...step, sets: setsOf(step.sets) }])
  return { ...fold, steps: Object.fromEntries(then) }
}

test('every folder says how its folds compare', () => {
  expect(readdirSync(fixtures).sort()).toEqual(Object.keys(SINCE).sort())
})

describe.each(Object.entries(SINCE))('the shop that %s wrote', (commit, asThen) => {
  const prints = JSON.parse(readFileSync(join(fixtures, commit, 'prints.json'), 'utf8')) as Prints
  const folders: string[] = []
  const dataFolder = () => {
    const folder = mkdtempSync(join(tmpdir(), 'paintmark-old-'))
    folders.push(folder)
    unpack(join(fixtures, commit), folder)
    return folder
  }
  const opened = () => {
    const db = openDatabase({ file: databaseIn(dataFolder()), migrationsFolder: migrations() })
    return { store: sqliteEventStore(db), sql: db.$client }
  }
  let log: ReturnType<typeof opened>
  beforeAll(() => {
    log = opened()
  })
  afterAll(async () => {
    await log.store.close()
    for (const folder of folders) rmSync(folder, { recursive: true })
  })

  test('verifies: every chain holds, no place of the log is missing, releases cover what they name', async () => {
    const { streams, events, broken, missingPlaces, releases } = await verifyLog(log.store)
    expect({ broken, missingPlaces }).toEqual({ broken: [], missingPlaces: 0 })
    expect(streams).toBe(Object.keys(prints).length)
    expect(events).toBe(Object.values(prints).reduce((sum, { version }) => sum + version, 0))
    expect(releases.length).toBeGreaterThan(10)
  })

  test('has the same heads, and folds to the same shop and the same jobs', async () => {
    expect(Object.keys(prints).length).toBeGreaterThan(30)
    expect(await printsOf(log.store, asThen)).toEqual(prints)
  })

  test('opens as a shop, with every engine on its board or among the finished, its photos and its PINs', async () => {
    const shop = await openShop({ dataFolder: dataFolder(), now: () => Date.UTC(2030, 1, 1), log: silent })
    const jobs = Object.keys(prints).filter((stream) => stream.startsWith('job:'))
    const finished = await shop.desk.finished({ from: 0, until: Date.UTC(2030, 1, 1) })
    const board = shop.desk.summaries()
    expect(finished.map(({ number }) => number)).toContain('E-108')
    expect(board.map(({ number }) => number)).not.toContain('E-108')
    const known = new Set([...board, ...finished].map(({ id }) => `job:${id}`))
    expect([...known].sort()).toEqual(jobs.sort())
    const { photos } = (await shop.desk.job('e-101')) as Job
    expect(photos.length).toBeGreaterThan(0)
    for (const { sha256, bytes } of photos)
      expect(await shop.photos.get(sha256)).toMatchObject({ bytes: { length: bytes } })
    expect(await shop.people.prove('bram', PINS.bram as string, 'a bench')).toEqual({ ok: true })
    expect(await shop.people.prove('suvi', PINS.bram as string, 'a bench')).toMatchObject({ ok: false })
    await shop.close()
  })

  test('one byte changed in one event is noticed', async () => {
    const hurt = opened()
    const at = "stream = 'job:e-101' and version = 200"
    const { body } = hurt.sql.prepare(`select body from event where ${at}`).get() as { body: string }
    const byte = body.lastIndexOf('"doneAt":') + '"doneAt":'.length
    const changed = `${body.slice(0, byte)}${body[byte] === '1' ? '2' : '1'}${body.slice(byte + 1)}`
    expect(JSON.parse(changed)).not.toEqual(JSON.parse(body))
    hurt.sql.prepare(`update event set body = ? where ${at}`).run(changed)
    const { broken } = await verifyLog(hurt.store)
    expect(broken.map(({ stream, version }) => `${stream} ${version}`)).toEqual(['job:e-101 200'])
    await expect(printsOf(hurt.store, asThen)).rejects.toThrow('job:e-101')
    await hurt.store.close()
  })

  test('a fold that comes out otherwise is noticed, with the member in which it does', async () => {
    const recorded = await log.store.read('job:e-101')
    const print = foldPrint(asThen(fold('job:e-101', recorded)))
    expect(print.fold).toBe(prints['job:e-101']?.fold)
    const other = foldPrint(asThen(fold('job:e-101', recorded.slice(0, -1))))
    expect(other.fold).not.toBe(print.fold)
    const differing = Object.keys(print.members).filter((name) => other.members[name] !== print.members[name])
    expect(differing).toContain('version')
    expect(differing).not.toContain('plan')
  })
})
