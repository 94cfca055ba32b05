/** Backups and restores, BX3 to BX8, in one process; the built programs with kills are in `tests/process/box.test.ts`. */
import { createHash, scryptSync } from 'node:crypto'
import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import Client from 'better-sqlite3'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { makeBackupKeeper } from '../../server/backups/keeper'
import { tooMany } from '../../server/backups/kept'
import { headsDigest, type Manifest } from '../../server/backups/manifest'
import { restoreBackup } from '../../server/backups/restore'
import { seal, unseal } from '../../server/backups/secrets'
import { stateIn } from '../../server/backups/state'
import { type Taken, takeBackup } from '../../server/backups/take'
import { publicKeyIn } from '../../server/marks'
import { migrations, openShop } from '../../server/open-shop'
import { schemaHashes, verifyLog } from '../../server/store'
import { silent } from '../shop/silent'
import { browser, command, type House, makeHouse, PINS } from './house'
import { byHand } from './rig'

const NOW = Date.UTC(2026, 5, 2, 12)
const HOUR = 3_600_000
const DAY = 24 * HOUR
const PASSPHRASE = 'four plain words here'

const cleanups: (() => void | Promise<void>)[] = []
afterEach(async () => {
  for (const clean of cleanups.splice(0).reverse()) await clean()
})
function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-backups-'))
  cleanups.push(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}
const known = new Set(schemaHashes(migrations()))

async function aShop(): Promise<{ house: House; dataFolder: string }> {
  const house = await makeHouse()
  cleanups.push(() => house.close())
  return { house, dataFolder: dirname(house.rooms.web.folder) }
}
function backup(
  dataFolder: string,
  into: string,
  more: Partial<Parameters<typeof takeBackup>[0]> = {},
): Promise<Taken> {
  return takeBackup({ dataFolder, into, kind: 'by_hand', program: '9.9.9', now: NOW, ...more })
}
const restore = (from: string, dataFolder: string, more: Partial<Parameters<typeof restoreBackup>[0]> = {}) =>
  restoreBackup({ backup: from, dataFolder, secrets: undefined, knownSchema: known, now: NOW + DAY, ...more })

const JPEG = (n: number) =>
  Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xda, 0, 2]),
    Buffer.from(`picture ${n}`),
    Buffer.from([0xff, 0xd9]),
  ])
const hashOf = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex')
const placeOf = (folder: string, sha256: string) => join(folder, 'photos', sha256.slice(0, 2), sha256)
const filesUnder = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name))
const prints = (folder: string) =>
  filesUnder(folder)
    .sort()
    .map((file) => [file, hashOf(readFileSync(file))])

describe('a backup', () => {
  test('[BX3] holds the log at one moment, with its counts and heads, and every photo; it opens where nothing can be written', async () => {
    const { house, dataFolder } = await aShop()
    const photo = JPEG(1)
    await house.shop.photos.put(hashOf(photo), photo)
    const into = newFolder()
    const { folder, manifest } = await backup(dataFolder, into)
    expect(folder).toBe(join(into, `2026-06-02T12-00-00Z-${manifest.shop.key.slice(0, 8)}`))
    const heads = await house.shop.store.streams()
    expect(manifest).toMatchObject({
      format: 1,
      madeAt: NOW,
      program: '9.9.9',
      shop: { name: 'Test Yard' },
      heads,
      headsDigest: headsDigest([...heads].reverse()),
      counts: { events: manifest.seq, streams: 2, credentials: 2 },
      schema: [...known],
      photos: 1,
      secrets: false,
      mark: { key: publicKeyIn(dataFolder) },
    })
    expect(manifest.seq).toBe((await house.shop.store.readAll(0, 1000)).length)
    const listed = manifest.files.map(({ path }) => join(folder, path))
    expect([...listed, join(folder, 'manifest.json')].sort()).toEqual(filesUnder(folder).sort())
    for (const { path, bytes, sha256 } of manifest.files)
      expect([path, statSync(join(folder, path)).size, hashOf(readFileSync(join(folder, path)))]).toEqual([
        path,
        bytes,
        sha256,
      ])
    // Journal mode stands in the file's head: 1 is rollback, 2 write-ahead (sqlite.org/fileformat2.html, 1.3.2).
    expect([...readFileSync(join(folder, 'paintmark.db')).subarray(18, 20)]).toEqual([1, 1])
    const before = prints(folder)
    const db = new Client(join(folder, 'paintmark.db'), { readonly: true })
    expect(db.prepare('select count(*) from event').pluck().get()).toBe(manifest.seq)
    db.close()
    expect(prints(folder)).toEqual(before)
  })

  test('[BX3] holds neither pepper nor keys in the open, and what it has of PINs is of no use without them', async () => {
    const { dataFolder } = await aShop()
    mkdirSync(join(dataFolder, 'tls'))
    writeFileSync(join(dataFolder, 'tls', 'authority.key'), 'very private key')
    const pepper = readFileSync(join(dataFolder, 'pepper'))
    const into = newFolder()
    for (const more of [{}, { passphrase: PASSPHRASE, now: NOW + 1000 }]) {
      const { folder } = await backup(dataFolder, into, more)
      for (const file of filesUnder(folder)) {
        const bytes = readFileSync(file)
        expect([
          file,
          bytes.includes(pepper),
          bytes.includes('very private key'),
          bytes.includes(pepper.toString('base64')),
        ]).toEqual([file, false, false, false])
      }
      expect(existsSync(join(folder, 'secrets.json'))).toBe('passphrase' in more)
    }
  })

  test('[BX4] of photos: linked where the last backup has them good, copied again where not, named where nobody has them', async () => {
    const { house, dataFolder } = await aShop()
    const into = newFolder()
    const photos = [1, 2, 3].map(JPEG)
    for (const photo of photos) await house.shop.photos.put(hashOf(photo), photo)
    const [kept = '', spoiltHere = '', spoiltThere = ''] = photos.map(hashOf)
    const first = await backup(dataFolder, into)
    const spoil = (file: string) => {
      const bytes = readFileSync(file)
      rmSync(file)
      writeFileSync(file, bytes.fill(0, 8))
    }
    spoil(placeOf(dataFolder, spoiltHere))
    spoil(placeOf(first.folder, spoiltThere))
    const lost = JPEG(4)
    await house.shop.photos.put(hashOf(lost), lost)
    spoil(placeOf(dataFolder, hashOf(lost)))
    const { folder, manifest } = await backup(dataFolder, into, { now: NOW + HOUR })
    expect(manifest.damagedPhotos).toEqual([hashOf(lost)])
    expect(manifest.photos).toBe(3)
    for (const sha256 of [kept, spoiltHere, spoiltThere])
      expect(hashOf(readFileSync(placeOf(folder, sha256)))).toBe(sha256)
    expect(statSync(placeOf(folder, kept)).ino).toBe(statSync(placeOf(first.folder, kept)).ino)
    expect(existsSync(placeOf(folder, hashOf(lost)))).toBe(false)
  })

  test('[BX5] that fails leaves no folder and says why', async () => {
    const { dataFolder } = await aShop()
    const into = newFolder()
    await expect(backup(dataFolder, join(into, 'not-there'))).rejects.toThrow(
      /^There is no folder .*mount the disk/,
    )
    const inside = join(dataFolder, 'inside')
    mkdirSync(inside)
    await expect(backup(dataFolder, inside)).rejects.toThrow(/lies in the data folder itself/)
    await expect(backup(dataFolder, dataFolder)).rejects.toThrow(/lies in the data folder itself/)
    await expect(backup(dataFolder, into, { passphrase: 'short' })).rejects.toThrow(
      /shorter than 12 characters/,
    )
    const db = new Client(join(dataFolder, 'paintmark.db'))
    const [last] = db.prepare('select * from event order by seq desc limit 1').all() as [
      Record<string, unknown>,
    ]
    db.prepare('delete from event where seq = ?').run(last.seq)
    db.close()
    await expect(backup(dataFolder, into)).rejects.toThrow(
      /^The last entries of .* are missing.*npm run verify/,
    )
    expect(readdirSync(into)).toEqual([])
    const empty = await makeHouse({ open: false })
    cleanups.push(() => empty.close())
    await expect(backup(dirname(empty.rooms.web.folder), into)).rejects.toThrow(/No shop is open here yet/)
  })

  test('[BX5] one that was cut short is removed by the next, and another shop’s stays', async () => {
    const { dataFolder } = await aShop()
    const into = newFolder()
    const { folder, manifest } = await backup(dataFolder, into)
    const left = join(into, `2026-01-01T00-00-00Z-${manifest.shop.key.slice(0, 8)}.partial`)
    const others = join(into, '2026-01-01T00-00-00Z-ffffffff.partial')
    for (const each of [left, others]) mkdirSync(each)
    const second = await backup(dataFolder, into)
    expect(second.folder).toBe(`${folder}-2`)
    expect([existsSync(left), existsSync(others)]).toEqual([false, true])
    await expect(restore(others, newFolder())).rejects.toThrow(/was cut short and is no backup/)
  })
})

describe('a restore', () => {
  test('[BX6] fills an empty folder with the same log and photos, and opens the next epoch', async () => {
    const { house, dataFolder } = await aShop()
    const photo = JPEG(1)
    await house.shop.photos.put(hashOf(photo), photo)
    const pinKey = await house.shop.people.pinKey()
    const taken = await backup(dataFolder, newFolder(), { passphrase: PASSPHRASE })
    const target = join(newFolder(), 'new')
    mkdirSync(target)
    const { epoch } = await restore(taken.folder, target, { secrets: { passphrase: PASSPHRASE } })
    expect(epoch).toMatchObject({
      number: 2,
      from: { epoch: house.shop.box.epoch().id, seq: taken.manifest.seq, madeAt: NOW },
    })
    expect(readFileSync(join(target, 'pepper'))).toEqual(readFileSync(join(dataFolder, 'pepper')))
    expect(readdirSync(target)).not.toContain('restore.partial')
    expect(readdirSync(target)).not.toContain('secrets.json')
    const again = await openShop({ dataFolder: target, now: Date.now, log: silent })
    cleanups.push(() => again.close())
    expect(await again.people.pinKey()).toBe(pinKey)
    expect(await again.store.streams()).toEqual(await house.shop.store.streams())
    expect((await verifyLog(again.store)).broken).toEqual([])
    expect(await again.photos.get(hashOf(photo))).toMatchObject({ bytes: photo })
    expect(await again.people.prove('ana', PINS.ana, 'd1')).toEqual({ ok: true })
    expect([again.box.epoch(), again.box.coveredSeq()]).toEqual([epoch, taken.manifest.seq])
  })

  test('[BX6] without secrets nobody has a PIN any more, and a new pepper is made; what was entered stays', async () => {
    const { house, dataFolder } = await aShop()
    const { folder } = await backup(dataFolder, newFolder(), { passphrase: PASSPHRASE })
    const target = newFolder()
    await expect(restore(folder, target)).rejects.toThrow(/secrets are encrypted.*--without-secrets/)
    await expect(
      restore(folder, target, { secrets: { passphrase: 'not those four words' } }),
    ).rejects.toThrow(/does not open the backup’s secrets/)
    expect(readdirSync(target)).toEqual([])
    await restore(folder, target, { secrets: 'without' })
    const again = await openShop({ dataFolder: target, now: Date.now, log: silent })
    cleanups.push(() => again.close())
    expect(again.people.hasPin('ana')).toBe(false)
    expect(readFileSync(join(target, 'pepper'))).not.toEqual(readFileSync(join(dataFolder, 'pepper')))
    expect(await again.store.streams()).toEqual(await house.shop.store.streams())
  })

  test('[BX7] nothing is put in place that is not what was written; each fault is named', async () => {
    const { house, dataFolder } = await aShop()
    const photo = JPEG(1)
    await house.shop.photos.put(hashOf(photo), photo)
    const target = newFolder()
    const good = await backup(dataFolder, newFolder(), { passphrase: PASSPHRASE })
    /** Any byte of any file; and what somebody could do to the manifest to cover it up. */
    async function spoilt(spoil: (folder: string, manifest: Manifest) => void): Promise<string> {
      const folder = join(newFolder(), 'copy')
      cpSync(good.folder, folder, { recursive: true })
      const file = join(folder, 'manifest.json')
      const text = readFileSync(file, 'utf8')
      const manifest = JSON.parse(text) as Manifest
      spoil(folder, manifest)
      if (JSON.stringify(manifest) !== JSON.stringify(JSON.parse(text)))
        writeFileSync(file, JSON.stringify(manifest))
      const failed = await restore(folder, target, { secrets: 'without' }).then(
        () => 'restored',
        (error: Error) => error.message.replaceAll(folder, 'IT'),
      )
      expect(readdirSync(target)).toEqual([])
      return failed
    }
    const flip = (file: string, at: number) => {
      const bytes = readFileSync(file)
      bytes[at] = (bytes[at] ?? 0) ^ 1
      writeFileSync(file, bytes)
    }
    const database = (folder: string) => join(folder, 'paintmark.db')
    const rehash = (folder: string, manifest: Manifest) => {
      for (const file of manifest.files) {
        file.bytes = statSync(join(folder, file.path)).size
        file.sha256 = hashOf(readFileSync(join(folder, file.path)))
      }
    }
    expect(await spoilt((folder) => flip(database(folder), 20_000))).toMatch(
      /^paintmark\.db of IT is not what was written/,
    )
    expect(await spoilt((folder) => appendFileSync(database(folder), 'x'))).toMatch(
      /^paintmark\.db of IT does not have the length/,
    )
    expect(await spoilt((folder) => flip(placeOf(folder, hashOf(photo)), 9))).toMatch(
      /^photos\/.* of IT is not what was written/,
    )
    expect(await spoilt((folder) => rmSync(placeOf(folder, hashOf(photo))))).toMatch(
      /^photos\/.* of IT is missing/,
    )
    expect(await spoilt((folder) => flip(join(folder, 'secrets.json'), 150))).toMatch(
      /^secrets\.json of IT is not what was written/,
    )
    expect(await spoilt((folder) => rmSync(join(folder, 'manifest.json')))).toMatch(/^IT is no backup/)
    expect(await spoilt((folder) => writeFileSync(join(folder, 'manifest.json'), '{"format":1}'))).toMatch(
      /manifest\.json does not hold what was written/,
    )
    expect(await spoilt((_, manifest) => Object.assign(manifest, { format: 2 }))).toMatch(
      /another version of Paintmark \(9\.9\.9\)/,
    )
    expect(await spoilt((_, manifest) => manifest.schema.push('0'.repeat(64)))).toMatch(
      /newer version of Paintmark \(9\.9\.9\)/,
    )
    expect(
      await spoilt((_, manifest) => ((manifest.files[0] as { path: string }).path = '../pepper')),
    ).toMatch(/does not hold what was written/)
    expect(await spoilt((_, { counts }) => counts.answers++)).toMatch(
      /not the one its manifest tells of \(counts\)/,
    )
    expect(
      await spoilt((folder, manifest) => {
        const db = new Client(database(folder))
        db.exec(
          'delete from event where seq = (select max(seq) from event); delete from answer where command_id = (select max(command_id) from answer)',
        )
        db.close()
        rehash(folder, manifest)
      }),
    ).toMatch(/^The last entries of .* are missing/)
    expect(
      await spoilt((folder, manifest) => {
        const db = new Client(database(folder))
        db.exec('update event set hash = upper(hash); update stream_head set hash = upper(hash)')
        db.close()
        rehash(folder, manifest)
      }),
    ).toMatch(/not the one its manifest tells of \(headsDigest\)/)
  })

  test('[BX7] not over anything that is there; one that was cut short begins anew', async () => {
    const { dataFolder } = await aShop()
    const { folder } = await backup(dataFolder, newFolder())
    const full = newFolder()
    writeFileSync(join(full, 'holiday.jpg'), 'mine')
    await expect(restore(folder, full)).rejects.toThrow(/is not empty \(holiday\.jpg\)/)
    expect(readdirSync(full)).toEqual(['holiday.jpg'])
    const cut = newFolder()
    mkdirSync(join(cut, 'restore.partial'))
    writeFileSync(join(cut, 'pepper'), 'half')
    await restore(folder, cut)
    expect(readdirSync(cut).sort()).toEqual(['epoch.json', 'marks', 'paintmark.db'])
  })
})

describe('secrets', () => {
  test('[BX3] are sealed as they say: scrypt and AES-256-GCM by the figures in the file, bound to their shop', () => {
    const sealed = seal({ pepper: 'cGVwcGVy' }, PASSPHRASE, 'shop-1')
    expect(unseal(sealed, PASSPHRASE, 'shop-1')).toEqual({ pepper: 'cGVwcGVy' })
    expect(() => unseal(sealed, PASSPHRASE, 'shop-2')).toThrow(/does not open/)
    const parts = JSON.parse(sealed)
    for (const name of ['tag', 'data']) {
      const bytes = Buffer.from(parts[name], 'base64')
      bytes[0] = (bytes[0] ?? 0) ^ 1
      expect(() =>
        unseal(JSON.stringify({ ...parts, [name]: bytes.toString('base64') }), PASSPHRASE, 'shop-1'),
      ).toThrow(/does not open/)
    }
    expect(parts.kdf).toMatchObject({ logN: 16, r: 8, p: 1 })
  })

  test('the scrypt they stand on gives the vector of RFC 7914, section 12', () => {
    // scrypt (P="password", S="NaCl", N=1024, r=8, p=16, dkLen=64), first 16 bytes.
    const key = scryptSync('password', 'NaCl', 64, { N: 1024, r: 8, p: 16 })
    expect(key.toString('hex').slice(0, 32)).toBe('fdbabe1c9d3472007856e7190d01e9fe')
  })
})

describe('the hourly ones', () => {
  test('[BX8] are thinned by age: all of a day, one a day for a month, one a month after', () => {
    const every = Array.from({ length: 24 * 400 }, (_, hour) => ({
      madeAt: NOW - hour * HOUR,
      kind: 'hourly' as const,
    }))
    const byHand = { madeAt: NOW - 300 * DAY - 5, kind: 'by_hand' as const }
    const gone = new Set(tooMany([...every, byHand], NOW))
    const left = every.filter((each) => !gone.has(each))
    expect(gone.has(byHand as never)).toBe(false)
    const aged = (from: number, to: number) =>
      left.filter(({ madeAt }) => NOW - madeAt > from && NOW - madeAt <= to)
    expect(left.filter(({ madeAt }) => NOW - madeAt <= DAY)).toHaveLength(25)
    expect(aged(DAY, 31 * DAY).map(({ madeAt }) => new Date(madeAt).toISOString().slice(0, 10))).toEqual([
      ...new Set(aged(DAY, 31 * DAY).map(({ madeAt }) => new Date(madeAt).toISOString().slice(0, 10))),
    ])
    expect(aged(DAY, 31 * DAY).length).toBeGreaterThanOrEqual(30)
    const months = aged(31 * DAY, 400 * DAY).map(({ madeAt }) => new Date(madeAt).toISOString().slice(0, 7))
    expect(months).toEqual([...new Set(months)])
    expect(months.length).toBeGreaterThanOrEqual(12)
    // The same again an hour later takes nothing of the old ones but what became too many.
    expect(new Set(tooMany(left, NOW)).size).toBe(0)
    expect(tooMany([{ madeAt: NOW - 900 * DAY, kind: 'hourly' }], NOW)).toEqual([])
  })

  test('[BX8] where no shop is open yet none is made, and that is no failure', async () => {
    const empty = await makeHouse({ open: false })
    cleanups.push(() => empty.close())
    const into = newFolder()
    const time = byHand(
      () => 0,
      () => undefined,
    )
    const keeper = makeBackupKeeper({
      dataFolder: dirname(empty.rooms.web.folder),
      program: '9.9.9',
      now: () => NOW,
      after: time.after,
      log: silent,
      take: takeBackup,
    })
    keeper.start({ into })
    await [...time.waiting][0]?.call()
    expect([keeper.state(), readdirSync(into)]).toEqual([{}, []])
    expect(time.waiting.size).toBe(2)
    await keeper.close()
  })

  test('[BX8] one an hour where something was entered; a failure is told, tried again, and over with the next good one', async () => {
    const { house, dataFolder } = await aShop()
    const clock = { now: Date.now() }
    const time = byHand(
      () => clock.now,
      (ms) => (clock.now += ms),
    )
    const into = newFolder()
    let broken: Error | undefined
    const wasMade = new Set<string>()
    const keeper = makeBackupKeeper({
      dataFolder,
      program: '9.9.9',
      now: () => clock.now,
      after: time.after,
      log: silent,
      take: async (parts) => {
        if (broken) throw broken
        const taken = await takeBackup(parts)
        wasMade.add(taken.folder)
        return taken
      },
    })
    let told = 0
    keeper.onGood(() => told++)
    keeper.start({ into })
    const settle = async () => {
      await keeper.take({ into: newFolder(), kind: 'by_hand' }).catch(() => undefined)
    }
    await time.pass(2 * 60_000)
    await settle()
    expect(wasMade.size).toBe(2)
    expect(keeper.state().last).toMatchObject({ epoch: house.shop.box.epoch().id })
    const seqBefore = keeper.state().last?.seq ?? 0

    const ana = browser(house.app)
    await ana.signIn('ana')
    await ana.post('/api/jobs/j1/commands', command({ type: 'ClaimStep', stepId: 'S1' }))
    broken = new Error('The disk of backups is gone.')
    await time.pass(HOUR)
    await settle()
    expect(stateIn(dataFolder)).toMatchObject({
      last: { seq: seqBefore },
      failing: { sentence: 'The disk of backups is gone.' },
    })
    broken = undefined
    await time.pass(11 * 60_000)
    await settle()
    expect(keeper.state()).not.toHaveProperty('failing')
    expect(keeper.state().last?.seq).toBeGreaterThan(seqBefore)
    expect(told).toBeGreaterThanOrEqual(3)
    await keeper.close()
  })
})

describe('what is told of it', () => {
  test('[BX9] health answers without names, and 503 when nothing can be written', async () => {
    const { house, dataFolder } = await aShop()
    const page = browser(house.app)
    const well = await page.get('/healthz')
    expect([well.status, well.json]).toEqual([
      200,
      {
        ok: true,
        writable: true,
        diskLeftBytes: expect.any(Number),
        chain: 'not_checked',
        backup: { scheduled: false, failing: false },
        problems: [],
      },
    ])
    house.shop.box.chainIs('damaged')
    const damaged = await page.get('/healthz')
    expect([damaged.status, damaged.json.problems]).toEqual([
      503,
      ['The log is damaged. Run "npm run verify".'],
    ])
    for (const word of ['Ana', 'Test Yard', dataFolder]) expect(damaged.text).not.toContain(word)
    expect(readdirSync(dataFolder)).not.toContain('health.probe')
  })

  test('[BX9] a full disk and a read-only one are told in plain words, at sign-in and for an entry, and pass', async () => {
    // The connection of the server itself: only there does SQLite pretend that its disk is full or read-only.
    const pragma = vi.spyOn(Client.prototype, 'pragma')
    const { house } = await aShop()
    const client = pragma.mock.contexts.find((each) =>
      (each as Client.Database).name.endsWith('paintmark.db'),
    ) as Client.Database
    pragma.mockRestore()
    const ana = browser(house.app)
    await ana.signIn('ana')
    const entry = () => ana.post('/api/jobs/j1/commands', command({ type: 'NoteAdded', text: '' }))
    const note = () => ana.post('/api/jobs/j1/commands', command({ type: 'AddNote', text: 'x'.repeat(400) }))
    const signIn = () => browser(house.app).post('/api/sign-in', { personId: 'bo', pin: PINS.bo })
    client.pragma('query_only = on')
    for (const answer of [await note(), await signIn()])
      expect([answer.status, answer.json.code, answer.json.sentence]).toEqual([
        503,
        'not_saved',
        'The shop’s server cannot write to its data folder; nothing was recorded. Let it write there again, then try again.',
      ])
    client.pragma('query_only = off')
    const full = client.pragma('page_count', { simple: true }) as number
    client.pragma(`max_page_count = ${full}`)
    const full_ =
      'The disk of the shop’s server is full; nothing was recorded. Make room on it, then try again.'
    let answer = await note()
    for (let n = 0; n < 40 && answer.status === 201; n++) answer = await note()
    expect([answer.status, answer.json]).toMatchObject([503, { code: 'not_saved', sentence: full_ }])
    client.pragma('max_page_count = 1073741823')
    expect((await note()).status).toBe(201)
    expect((await signIn()).status).toBe(201)
    expect((await entry()).status).toBe(400)
  })

  test('[BX8] a supervisor is told where the backups lie and what is wrong with them; nobody else', async () => {
    const { house, dataFolder } = await aShop()
    const into = newFolder()
    const [ana, bo, nobody] = [browser(house.app), browser(house.app), browser(house.app)]
    await ana.signIn('ana')
    await bo.signIn('bo')
    expect((await nobody.get('/api/backups')).status).toBe(401)
    expect((await bo.get('/api/backups')).json.code).toBe('role_needed')
    expect((await ana.get('/api/backups')).json).toMatchObject({ problems: [], now: expect.any(Number) })
    const { folder } = await house.shop.box.backups.take({ into, kind: 'by_hand' })
    house.shop.box.backups.start({ into })
    expect((await ana.get('/api/backups')).json).toMatchObject({
      hourly: { into, sameDisk: statSync(into).dev === statSync(dataFolder).dev, secrets: false },
      last: { folder, secrets: false, damagedPhotos: 0 },
    })
  })

  test('[BX10] the answer to an entry says its place in the log, a resend the same, and a backup covers it', async () => {
    const { house } = await aShop()
    const ana = browser(house.app)
    await ana.signIn('ana')
    const { seq: last } = (await house.shop.store.readAll(0, 1000)).at(-1) as { seq: number }
    const claim = command({ type: 'ClaimStep', stepId: 'S1' })
    const [first, second] = await Promise.all([
      ana.post('/api/jobs/j1/commands', claim),
      ana.post('/api/jobs/j1/commands', command({ type: 'AddNote', text: 'twice' })),
    ])
    expect([first.json.seq, second.json.seq]).toEqual([last + 1, last + 2])
    expect((await ana.post('/api/jobs/j1/commands', claim)).json).toEqual(first.json)
    expect(
      (await ana.post('/api/jobs/j1/commands', command({ type: 'ClaimStep', stepId: 'S1' }))).json,
    ).not.toHaveProperty('seq')
    expect((await ana.get('/api/me')).json.epoch.coveredSeq).toBe(0)
    await house.shop.box.backups.take({ into: newFolder(), kind: 'by_hand' })
    expect((await ana.get('/api/me')).json.epoch).toMatchObject({ number: 1, coveredSeq: last + 2 })
  })
})
