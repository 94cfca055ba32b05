/** PINs, devices, sign-ins and grants, PE1 to PE7; the promises stand in `server/people/people.ts`. */
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { personMeant } from '../../server/box/person'
import { makeSlowing } from '../../server/people/slowing'
import { digestOf } from '../shop/acts'
import { stepOne } from '../shop/yard'
import { browser, command, type House, makeHouse, PINS } from './house'

let house: House
beforeAll(async () => {
  house = await makeHouse()
})
afterAll(() => house.close())

const claim = (stepId: string) => command({ type: 'ClaimStep', stepId })

describe('PINs', () => {
  test('[PE1] a PIN is nowhere in the data folder, and the pepper is its owner’s alone', async () => {
    await browser(house.app).signIn('bo')
    const folder = dirname(house.rooms.web.folder)
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      statSync(join(folder, name)).isFile(),
    )
    for (const name of files) {
      const bytes = readFileSync(join(folder, name))
      expect([name, bytes.includes(PINS.bo)]).toEqual([name, false])
    }
    expect(statSync(join(folder, 'marks.key')).mode & 0o777).toBe(0o600)
    expect(statSync(join(folder, 'pepper')).mode & 0o777).toBe(0o600)
    expect(readFileSync(join(folder, 'paintmark.db-wal')).includes('$argon2id$')).toBe(true)
  })

  test('[PE2] a wrong PIN and an unknown person are told alike', async () => {
    const wrong = await browser(house.app).post('/api/sign-in', { personId: 'ana', pin: '0000' })
    const unknown = await browser(house.app).post('/api/sign-in', { personId: 'nobody', pin: '0000' })
    expect(wrong.status).toBe(401)
    expect([unknown.status, unknown.json]).toEqual([wrong.status, wrong.json])
    house.pass(10 * 60_000)
    await browser(house.app).signIn('ana')
  })

  test('[PE3] after three wrong tries the wait doubles up to five minutes, right or wrong, and a right one ends it', () => {
    const slowing = makeSlowing()
    const keys = ['person ana', 'from d1']
    let now = 0
    expect([1, 2, 3].map(() => slowing.begin(keys, now))).toEqual([0, 0, 0])
    const waits: number[] = []
    for (let n = 0; n < 10; n++) {
      const wait = slowing.begin(keys, now)
      waits.push(wait)
      now += wait
      expect(slowing.begin(keys, now)).toBe(0)
    }
    expect(waits.slice(0, 4)).toEqual([2000, 4000, 8000, 16_000])
    expect(waits.at(-1)).toBe(300_000)
    slowing.succeed(keys)
    expect(slowing.begin(keys, now)).toBe(0)
  })

  test('[PE3] the person waits at every device, the device with every person', () => {
    const slowing = makeSlowing()
    for (let n = 0; n < 3; n++) slowing.begin(['person ana', `from d${n}`], 0)
    expect(slowing.begin(['person ana', 'from d9'], 0)).toBe(2000)
    expect(slowing.begin(['person bo', 'from d9'], 0)).toBe(0)
    for (let n = 0; n < 3; n++) slowing.begin([`person p${n}`, 'from d8'], 0)
    expect(slowing.begin(['person bo', 'from d8'], 0)).toBe(2000)
  })

  test('[PE3] many tries at once gain nothing; HTTP says 429 and how long', async () => {
    const page = browser(house.app)
    const tries = await Promise.all(
      Array.from({ length: 8 }, () => page.post('/api/sign-in', { personId: 'bo', pin: '0000' })),
    )
    expect(tries.filter(({ status }) => status === 401)).toHaveLength(3)
    const slowed = tries.filter(({ status }) => status === 429)
    expect(slowed).toHaveLength(5)
    expect(slowed[0]?.json).toMatchObject({ code: 'too_many', sentence: expect.stringMatching(/Wait \d+ s/) })
    expect((await page.post('/api/sign-in', { personId: 'bo', pin: PINS.bo })).status).toBe(429)
    house.pass(10 * 60_000)
    await page.signIn('bo')
  })
})

describe('sign-ins', () => {
  test('[PE4] the cookie is HttpOnly and strict, its value is not kept, and a changed one is nobody’s', async () => {
    const page = browser(house.app)
    const { headers } = await page.post('/api/sign-in', { personId: 'ana', pin: PINS.ana })
    expect(headers.get('set-cookie')).toMatch(/^paintmark=.*; HttpOnly; SameSite=Strict$/i)
    const secret = page.jar.cookie.split('.')[1] ?? ''
    expect(secret.length).toBeGreaterThan(40)
    expect(readFileSync(join(dirname(house.rooms.web.folder), 'paintmark.db-wal')).includes(secret)).toBe(
      false,
    )
    page.jar.cookie = `${page.jar.cookie.slice(0, -2)}AA`
    expect((await page.get('/api/me')).json.signIn).toBeUndefined()
    for (const odd of ['paintmark=', 'paintmark=x', 'paintmark=a.b.c', 'paintmark=%00.%00']) {
      page.jar.cookie = odd
      expect((await page.get('/api/board')).status).toBe(401)
    }
  })

  test('[PE4] another person’s sign-in closes the one before and re-authors nothing', async () => {
    const page = browser(house.app)
    const asAna = await page.signIn('ana')
    const signed = { ...claim('S1'), signInId: asAna, doneAt: house.shop.now() }
    house.pass(60_000)
    await page.signIn('bo')
    expect((await page.get('/api/me')).json.signIn.person.id).toBe('bo')
    const sent = await page.post('/api/jobs/j1/commands', signed)
    expect(sent.status).toBe(201)
    expect(sent.json.events[0].event.by).toBe('ana')
  })

  test('[PE5] not under a sign-in of another device, nor one closed by then', async () => {
    const page = browser(house.app)
    const other = browser(house.app)
    const asAna = await page.signIn('ana')
    const opened = house.shop.now()
    house.pass(60_000)
    await page.post('/api/sign-out', {})
    const closed = house.shop.now()
    await other.signIn('bo')
    const from = async (who: typeof page, doneAt: number) =>
      (await who.post('/api/jobs/j1/commands', { ...claim('S2'), signInId: asAna, doneAt })).status
    expect(await from(other, opened + 1000)).toBe(403)
    expect(await from(page, closed + 20_000)).toBe(403)
    expect(await from(page, opened + 30_000)).toBe(201)
  })

  test('[PE5] stamped by a clock that was set: hers all the same, done when it came or when she left', async () => {
    const page = browser(house.app)
    const signInId = await page.signIn('ana')
    const opened = house.shop.now()
    const doneOf = async (doneAt: number) => {
      const sent = command({ type: 'AddNote', text: 'odd clock', signInId, doneAt, clockOffsetMs: 0 })
      const { status, json } = await page.post('/api/jobs/j1/commands', sent)
      expect([status, json.events[0].event.by]).toEqual([201, 'ana'])
      return json.events[0].event.doneAt
    }
    const HOUR = 3_600_000
    house.pass(HOUR)
    expect(await doneOf(opened - 24 * HOUR)).toBeGreaterThanOrEqual(opened + HOUR)
    expect(await doneOf(opened + 1000)).toBe(opened + 1000)
    await page.signIn('bo')
    const closed = house.shop.now()
    house.pass(HOUR)
    for (const odd of [opened - 24 * HOUR, closed + 30 * HOUR]) {
      const done = await doneOf(odd)
      expect(done).toBeGreaterThanOrEqual(closed - 1000)
      expect(done).toBeLessThanOrEqual(closed)
    }
  })

  test('[PE6] without one named it is the open one’s; signed out, nobody’s', async () => {
    const page = browser(house.app)
    await page.signIn('ana')
    const put = (await page.post('/api/jobs/j1/commands', command({ type: 'PutDownStep', stepId: 'S2' })))
      .json
    expect(put.events[0].event.by).toBe('ana')
    await page.post('/api/sign-out', {})
    expect((await page.post('/api/jobs/j1/commands', claim('S2'))).status).toBe(401)
  })
})

describe('grants', () => {
  test('[PE7] one word, for one step as it was looked at, from one device, within three minutes', async () => {
    const anas = browser(house.app)
    const bos = browser(house.app)
    await anas.signIn('ana')
    await bos.signIn('bo')
    const send = async (page: typeof anas, body: object) => page.post('/api/jobs/j1/commands', command(body))
    const work = stepOne.map((entry) =>
      JSON.parse(JSON.stringify(entry).replaceAll('S1', 'S2').replaceAll('J1', 'J2')),
    )
    for (const entry of work) expect((await send(anas, entry)).status).toBe(201)
    const { version } = (await anas.get('/api/jobs/j1')).json
    const ask = { personId: 'bo', pin: PINS.bo, jobId: 'j1', stepId: 'S2', version }
    expect((await anas.post('/api/grants', { ...ask, pin: '0000' })).status).toBe(401)
    const grant = async (rest: object = {}) =>
      (await anas.post('/api/grants', { ...ask, ...rest })).json.grantId as string
    const second = { type: 'SecondSignStep', stepId: 'S2' }
    const with_ = (page: typeof anas, grantId: string, body: object = second) =>
      send(page, { ...body, grantId })
    const notValid = (answer: { status: number; json: { code: string } }) =>
      expect([answer.status, answer.json.code]).toEqual([403, 'grant_not_valid'])

    notValid(await with_(anas, house.shop.newId()))
    notValid(await with_(bos, await grant()))
    expect((await anas.post('/api/grants', { ...ask, version: undefined })).status).toBe(400)
    notValid(await with_(anas, await grant({ stepId: 'S1' })))
    notValid(await with_(anas, await grant(), { type: 'SignStep', stepId: 'S2' }))
    const old = await grant()
    house.pass(3 * 60_000 + 1)
    notValid(await with_(anas, old))
    expect((await with_(anas, await grant({ version: version - 2 }))).json.code).toBe('changed_since_look')
    const other = { version: undefined, digest: 'a'.repeat(64) }
    expect((await with_(anas, await grant(other))).json.code).toBe('changed_since_look')

    const digest = digestOf((await anas.get('/api/jobs/j1')).json, 'S2', 'step')
    const grantId = await grant({ version: undefined, digest })
    const body = command({ ...second, grantId })
    const signed = await anas.post('/api/jobs/j1/commands', body)
    expect(signed.status).toBe(201)
    expect(signed.json.events[0].event).toMatchObject({
      type: 'StepSecondSigned',
      by: 'bo',
      through: 'grant',
    })
    notValid(await with_(anas, grantId))
    const resent = await anas.post('/api/jobs/j1/commands', body)
    expect([resent.status, resent.json]).toEqual([201, signed.json])
  })
})

test('[PE9] whom somebody means at the machine: by id, initials, name or a part of it; who is not clear is asked for again', async () => {
  const shop = await house.shop.desk.shop()
  for (const asked of ['ana', 'ANA', 'an', ' Ana ']) expect(personMeant(shop, asked).id).toBe('ana')
  expect(() => personMeant(shop, 'Zed')).toThrow(/^Nobody called "Zed" works here\. There are: Ana \(AN\)/)
  const two = {
    ...shop,
    people: { ...shop.people, ann: { ...shop.people.ana, id: 'ann', name: 'Ana Two', initials: 'A2' } },
  }
  expect(personMeant(two as typeof shop, 'two').id).toBe('ann')
  expect(() => personMeant({ ...shop, people: {} }, 'ana')).toThrow(/No shop is open here yet/)
})
