/** The server's clock is set, or a device's is wrong: nothing is lost, nobody is silenced or made to wait for it. */
import { v7 } from 'uuid'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { migrations } from '../../server/open-shop'
import { makeSignIns } from '../../server/people/sign-ins'
import { COINS_A_SECOND, MOST_COINS, makePurses } from '../../server/purse'
import { openDatabase } from '../../server/store'
import { browser, command, type House, makeHouse, PINS } from './house'
import { makeWire } from './wire'

const SECOND = 1000
const HOUR = 3_600_000
const YEAR = 365 * 24 * HOUR
const JUMPS = [-YEAR, -3 * HOUR, -30 * SECOND, 30 * SECOND, 3 * HOUR, YEAR]

let house: House
beforeEach(async () => {
  house = await makeHouse()
})
afterEach(() => house.close())

const note = (text: string) => command({ type: 'AddNote', text })

describe.each(JUMPS)('the server’s clock is set by %i ms', (jump) => {
  test('[WI9] an open socket is answered as before, by as many messages a second', async () => {
    const wire = await makeWire()
    try {
      const line = await wire.at('ana')
      const unwatch = () => line.ask<{ ok: boolean }>('unwatch', { room: 'board' })
      expect((await unwatch()).ok).toBe(true)
      wire.house.clock.ahead += jump
      for (let n = 0; n < 20; n++) expect((await unwatch()).ok).toBe(true)
    } finally {
      await wire.close()
    }
  })

  test('[PE5] what was entered before and after is taken, under the sign-in that was open all the while', async () => {
    const page = browser(house.app)
    const signInId = await page.signIn('ana')
    const before = { ...note('before'), signInId, doneAt: house.shop.now() }
    house.clock.ahead += jump
    const after = { ...note('after'), signInId, doneAt: house.shop.now() }
    const answers = [
      await page.post('/api/jobs/j1/commands', before),
      await page.post('/api/jobs/j1/commands', after),
    ]
    expect(answers.map(({ status }) => status)).toEqual([201, 201])
    expect(answers[1]?.json.events[0].event).toMatchObject({ by: 'ana' })
  })

  test('[PE3] after wrong PINs the wait is as long as it was', async () => {
    const page = browser(house.app)
    for (let n = 0; n < 3; n++) await page.post('/api/sign-in', { personId: 'bo', pin: '0000' })
    house.clock.ahead += jump
    const wait = await page.post('/api/sign-in', { personId: 'bo', pin: PINS.bo })
    expect([wait.status, wait.json.seconds]).toEqual([429, 2])
    house.clock.steady += 2 * SECOND
    expect((await page.post('/api/sign-in', { personId: 'bo', pin: PINS.bo })).status).toBe(201)
  })

  test('[PE7] a grant holds its three minutes', async () => {
    const terms = { personId: 'bo', deviceId: 'd', jobId: 'j1', stepId: 'S2', version: 3 }
    const use = { commandId: 'c', deviceId: 'd', jobId: 'j1', stepId: 'S2' }
    const { people } = house.shop
    const [soon, late] = [people.giveGrant(terms), people.giveGrant(terms)]
    house.clock.ahead += jump
    expect(people.takeGrant(soon.grantId, use)).toMatchObject({ person: 'bo' })
    house.clock.steady += 3 * 60 * SECOND + 1
    expect(people.takeGrant(late.grantId, use)).toMatchObject({ refused: 'grant_not_valid' })
  })
})

test('[PE5] signed in while the clock was a year ahead, then put right: her entries are taken, also those of before', async () => {
  house.clock.ahead += YEAR
  const page = browser(house.app)
  const signInId = await page.signIn('ana')
  const early = { ...note('while it was ahead'), signInId, doneAt: house.shop.now() }
  expect((await page.post('/api/jobs/j1/commands', early)).status).toBe(201)
  house.clock.ahead -= YEAR
  const sent = await page.post('/api/jobs/j1/commands', {
    ...note('since'),
    signInId,
    doneAt: house.shop.now(),
  })
  expect(sent.status).toBe(201)
})

describe('[PE5] the clock is wrong while somebody signs in and leaves, and right again when what they entered comes', () => {
  test.each([-YEAR, -HOUR, HOUR, YEAR])(
    'by %i ms, seen by the server that ran all the while',
    async (jump) => {
      const page = browser(house.app)
      await page.signIn('bo')
      const right = house.shop.now()
      house.clock.ahead += jump
      const signInId = await page.signIn('ana')
      await page.signIn('bo')
      house.clock.ahead -= jump
      house.pass(20 * SECOND)
      const doneAt = right + 10 * SECOND
      const { status, json } = await page.post('/api/jobs/j1/commands', { ...note('hers'), signInId, doneAt })
      expect([status, json.events[0].event.by]).toEqual([201, 'ana'])
      if (jump < 0) expect(json.events[0].event.doneAt).toBe(doneAt)
    },
  )

  test('by a year, and the server was stopped each time it was set', () => {
    const db = openDatabase({ file: ':memory:', migrationsFolder: migrations() })
    try {
      const started = () => makeSignIns(db, v7, () => 0)
      const right = 2_000_000_000_000
      const { deviceId } = started().addDevice(right)
      started().open(deviceId, 'bo', right)
      const wrong = started()
      const ana = wrong.open(deviceId, 'ana', right - YEAR)
      wrong.open(deviceId, 'bo', right - YEAR)
      const again = started()
      expect(again.at(deviceId, ana.id, right + SECOND, right + SECOND)?.personId).toBe('ana')
      // From then on the clock is as it should be: who has left has left.
      const cy = again.open(deviceId, 'cy', right + SECOND)
      again.close(deviceId, right + SECOND)
      expect(started().at(deviceId, cy.id, right + HOUR, right + HOUR)).toBeUndefined()
    } finally {
      db.$client.close()
    }
  })
})

test.each([0, 1_000_000_000_000, 4_000_000_000_000])(
  '[DK9] a device whose clock stands at %i is taken with its offset, and one ahead of time by the arrival',
  async (stands) => {
    const page = browser(house.app)
    await page.signIn('ana')
    const now = house.shop.now()
    const sent = {
      ...note('odd clock'),
      doneAt: Math.max(stands, now),
      clockOffsetMs: Math.round(now - stands),
    }
    const { status, json } = await page.post('/api/jobs/j1/commands', sent)
    expect(status).toBe(201)
    const { event, recordedAt } = json.events[0]
    expect(event.clockOffsetMs).toBe(sent.clockOffsetMs)
    expect(event.doneAt).toBeLessThanOrEqual(recordedAt)
  },
)

test('[WI9] coins come back by the clock that is given, up to a purseful and no further', () => {
  let at = 0
  const purses = makePurses(() => at)
  const taken = (now: number) => {
    at = now
    let count = 0
    while (purses.ask('tablet') === 0) count += 1
    return count
  }
  expect(taken(0)).toBe(MOST_COINS)
  expect(taken(1000)).toBe(COINS_A_SECOND)
  expect(taken(YEAR)).toBe(MOST_COINS)
  // Another's purse is another's.
  expect(purses.ask('phone')).toBe(0)
  // Whoever owes is told how long.
  purses.pay('tablet', 2 * COINS_A_SECOND)
  expect(purses.ask('tablet')).toBe(2004)
  at += 2000
  expect(purses.ask('tablet')).toBe(4)
  at += 4
  expect(purses.ask('tablet')).toBe(0)
})
