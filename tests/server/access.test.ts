/** Who may come in, changed: PINs with their entries, and the sign-ins that end with them, PE14 and after. */

import { dirname } from 'node:path'
import Client from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { databaseIn } from '../../server/settings'
import { AT_THE_MACHINE } from '../../shared/shop/types'
import { browser, type House, makeHouse, PINS } from './house'

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
