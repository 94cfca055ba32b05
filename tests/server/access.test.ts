/** Who may come in, changed: PINs with their entries, and the sign-ins that end with them, PE14 and after. */

import { dirname } from 'node:path'
import Client from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { answersOf } from '../../server/box/answers'
import { makeApp } from '../../server/http/app'
import { checkFolder } from '../../server/proof/check'
import { databaseIn } from '../../server/settings'
import { PIN_TOO_EASY } from '../../shared/pin'
import { AT_THE_MACHINE } from '../../shared/shop/types'
import { silent } from '../shop/silent'
import { browser, command, type House, makeHouse, PINS } from './house'

let house: House
beforeEach(async () => {
  house = await makeHouse()
})
afterEach(() => house.close())

const folder = () => dirname(house.rooms.web.folder)
const isIn = async (page: ReturnType<typeof browser>) =>
  (await page.get('/api/me')).json.signIn?.person.id as string | undefined

function onDiskPin(id: string): number | undefined {
  const client = new Client(databaseIn(folder()), { readonly: true })
  try {
    return client.prepare('select set_at from credential where person_id = ?').pluck().get(id) as
      | number
      | undefined
  } finally {
    client.close()
  }
}

describe('a PIN that is set', () => {
  test('[PE14] by another is an entry with the row’s time, and ends the person’s sign-ins everywhere', async () => {
    const [ana, bo, bo2] = [browser(house.app), browser(house.app), browser(house.app)]
    await ana.signIn('ana')
    await bo.signIn('bo')
    await bo2.signIn('bo')
    const told: string[] = []
    house.shop.people.onChange((deviceId) => told.push(deviceId))
    expect((await ana.post('/api/people/bo/pin', { pin: '70635' })).status).toBe(200)
    expect([await isIn(ana), await isIn(bo), await isIn(bo2)]).toEqual(['ana', undefined, undefined])
    // Their sockets are closed by it.
    expect(told).toHaveLength(2)
    const { pins } = await house.shop.desk.shop()
    expect(pins).toMatchObject({ bo: { by: 'ana' } })
    expect(pins?.bo?.at).toBe(onDiskPin('bo'))
    expect((await bo.post('/api/sign-in', { personId: 'bo', pin: PINS.bo })).status).toBe(401)
    expect((await bo.post('/api/sign-in', { personId: 'bo', pin: '70635' })).status).toBe(201)
  })

  test('[PE14] at the server’s machine says so, and ends them too', async () => {
    const ana = browser(house.app)
    await ana.signIn('ana')
    const answer = await house.shop.access.setPin({ personId: 'ana', pin: '70635', by: AT_THE_MACHINE })
    expect(answer).toMatchObject({ ok: true, events: [{ event: { by: AT_THE_MACHINE, personId: 'ana' } }] })
    expect(await isIn(ana)).toBeUndefined()
  })

  test('[PE14] many at once: each has its entry, and each row is good under the seal', async () => {
    const pins = ['70635', '81746', '92857', '13968']
    await Promise.all(
      pins.flatMap((pin) =>
        ['ana', 'bo'].map((personId) => house.shop.access.setPin({ personId, pin, by: 'ana' })),
      ),
    )
    const events = await house.shop.desk.eventsAfter('shop', 0)
    expect(events.filter(({ event }) => event.type === 'PinSet')).toHaveLength(8)
    expect(JSON.stringify(events)).not.toMatch(/70635|81746|92857|13968/)
    const { pins: told } = await house.shop.desk.shop()
    for (const id of ['ana', 'bo']) {
      expect(told?.[id]?.at).toBe(onDiskPin(id))
      expect(await house.shop.people.prove(id, '13968', id)).toEqual({ ok: true })
    }
  })

  test('[PE14] a try begun under the PIN before is wrong', async () => {
    const client = new Client(databaseIn(folder()))
    const tried = house.shop.people.prove('bo', PINS.bo, 'd1')
    client.prepare('delete from credential where person_id = ?').run('bo')
    client.close()
    expect(await tried).toEqual({ ok: false })
  })
})

describe('a PIN of one’s own', () => {
  test('[PE16] is set with the one until now; wrong ones are tries; other devices are signed out', async () => {
    const [here, there] = [browser(house.app), browser(house.app)]
    await here.signIn('bo')
    await there.signIn('bo')
    const own = (body: object) => here.post('/api/people/bo/pin', body)
    for (const before of [undefined, '', '7063']) {
      const refused = await own({ pin: '70635', before })
      expect([refused.status, refused.json]).toMatchObject([403, { code: 'wrong_pin', path: '/before' }])
    }
    expect((await own({ pin: '70635', before: PINS.bo })).status).toBe(429)
    expect((await house.shop.desk.shop()).pins).toBeUndefined()
    house.pass(10 * 60_000)
    expect((await own({ pin: '70635', before: PINS.bo })).status).toBe(200)
    expect([await isIn(here), await isIn(there)]).toEqual(['bo', undefined])
    expect((await house.shop.desk.shop()).pins).toMatchObject({ bo: { by: 'bo' } })
  })

  test('[PE15] one that is tried first is refused with its sentence; one set before goes on working', async () => {
    const ana = browser(house.app)
    await house.shop.people.setPin('ana', '1234')
    expect((await ana.post('/api/sign-in', { personId: 'ana', pin: '1234' })).status).toBe(201)
    const refused = await ana.post('/api/people/bo/pin', { pin: '2580' })
    expect([refused.status, refused.json.sentence]).toEqual([400, expect.stringContaining('Choose another.')])
    await expect(pinAtTheMachine('1999')).rejects.toThrow(PIN_TOO_EASY)
  })
})

const pinAtTheMachine = (pin: string) => {
  const rooms = { ...house.shop, ...house.rooms }
  return answersOf(rooms, silent, undefined).pin?.(
    { do: 'pin', id: 'bo', pin },
    () => undefined,
  ) as Promise<unknown>
}

test('[PE17] who signs in and out and every wrong PIN is told to the log, never the PIN nor a name nobody has', async () => {
  const told: [string, object, string][] = []
  const tell = (level: string) => (data: object, sentence: string) => void told.push([level, data, sentence])
  const log = { info: tell('info'), warn: tell('warn'), error: tell('error'), debug() {} }
  const page = browser(makeApp({ ...house.rooms, log }))
  await page.signIn('ana')
  const deviceId = (page.jar.cookie.split('=')[1] ?? '').split('.')[0]
  await page.post('/api/sign-in', { personId: 'bo', pin: '70635' })
  await page.post('/api/sign-in', { personId: '90817263', pin: '70635' })
  for (const before of ['81746', '92857']) await page.post('/api/people/ana/pin', { pin: '70635', before })
  await page.post('/api/sign-out', {})
  const by = { deviceId, address: 'unknown' }
  const wrong = 'A PIN was wrong.'
  expect(told).toEqual([
    ['info', { personId: 'ana', ...by }, 'Somebody signed in.'],
    ['warn', { personId: 'bo', ...by, at: '/api/sign-in' }, wrong],
    ['warn', { personId: undefined, ...by, at: '/api/sign-in' }, wrong],
    ['warn', { personId: 'ana', ...by, at: '/api/people/ana/pin' }, wrong],
    [
      'warn',
      { personId: 'ana', ...by, at: '/api/people/ana/pin' },
      'A PIN was not looked at: after wrong ones it has to wait.',
    ],
    ['info', { personId: 'ana', ...by }, 'Somebody signed out.'],
  ])
})

describe('somebody who leaves', () => {
  const shopSends = (page: ReturnType<typeof browser>, body: object) =>
    page.post('/api/shop/commands', command(body))

  test('[PE18] has no PIN and no sign-in from that commit on; what was entered before is still taken', async () => {
    const [ana, bo] = [browser(house.app), browser(house.app)]
    await ana.signIn('ana')
    const signInId = await bo.signIn('bo')
    const doneAt = house.shop.now()
    await house.shop.access.setPin({ personId: 'bo', pin: '70635', by: AT_THE_MACHINE })
    await bo.post('/api/sign-in', { personId: 'bo', pin: '70635' })
    house.pass(60_000)
    expect((await shopSends(ana, { type: 'LeaveShop', personId: 'bo' })).status).toBe(201)
    expect([await isIn(ana), await isIn(bo), onDiskPin('bo')]).toEqual(['ana', undefined, undefined])
    const again = await bo.post('/api/sign-in', { personId: 'bo', pin: '70635' })
    expect([again.status, again.json.code]).toEqual([401, 'no_pin'])
    expect((await ana.post('/api/people/bo/pin', { pin: '81746' })).json.code).toBe('person_left')
    expect((await browser(house.app).get('/api/people')).json.map(({ id }: { id: string }) => id)).toEqual([
      'ana',
    ])
    expect((await ana.get('/api/people')).json).toMatchObject([{ id: 'ana' }, { id: 'bo', left: true }])
    const late = { signInId, doneAt }
    const note = await bo.post(
      '/api/jobs/j1/commands',
      command({ ...late, type: 'AddNote', text: 'oil seen' }),
    )
    expect(note.json.events).toMatchObject([{ event: { type: 'NoteAdded', by: 'bo', doneAt } }])
    const word = await bo.post('/api/jobs/j1/commands', command({ ...late, type: 'ClaimStep', stepId: 'S1' }))
    expect([word.status, word.json.code]).toEqual([403, 'not_entitled'])
    // How far the marks have come hangs on the clock, and is not what is asked here.
    const faults = async () =>
      (await checkFolder({ folder: folder() })).faults.filter(({ kind }) => kind !== 'marks')
    expect(await faults()).toEqual([])
    await house.shop.people.setPin('bo', '70635')
    expect(await faults()).toMatchObject([{ kind: 'pin' }])
  })

  test('[PE18] comes back with a new PIN; a resend of their leaving ends nothing then', async () => {
    const [ana, bo] = [browser(house.app), browser(house.app)]
    await ana.signIn('ana')
    const card = (await house.shop.desk.shop()).people.bo
    const leaving = command({ type: 'LeaveShop', personId: 'bo' })
    expect((await ana.post('/api/shop/commands', leaving)).status).toBe(201)
    expect((await shopSends(ana, { type: 'ChangePerson', person: card })).status).toBe(201)
    expect((await ana.post('/api/people/bo/pin', { pin: '70635' })).status).toBe(200)
    expect((await bo.post('/api/sign-in', { personId: 'bo', pin: '70635' })).status).toBe(201)
    expect((await ana.post('/api/shop/commands', leaving)).status).toBe(201)
    expect([await isIn(bo), onDiskPin('bo')]).toEqual(['bo', expect.any(Number)])
  })

  test('[PE18] with the last role go the sign-ins; the PIN stays', async () => {
    const [ana, bo] = [browser(house.app), browser(house.app)]
    await ana.signIn('ana')
    await bo.signIn('bo')
    const card = (await house.shop.desk.shop()).people.bo
    const change = (part: object) => shopSends(ana, { type: 'ChangePerson', person: { ...card, ...part } })
    expect((await change({ name: 'Bo Two' })).status).toBe(201)
    expect(await isIn(bo)).toBe('bo')
    expect((await change({ roles: [] })).status).toBe(201)
    expect(await isIn(bo)).toBeUndefined()
    await bo.signIn('bo')
    expect((await change({ roles: [], name: 'Bo Three' })).status).toBe(201)
    expect(await isIn(bo)).toBe('bo')
  })
})
