/** What a device counted as entered and the shop never got: the gaps in its count, each between what did come. */
import { expect, test } from 'vitest'
import { missingIn } from '../../server/desk/missing'
import { browser, command, makeHouse } from './house'

const came = (...numbers: number[]) =>
  numbers.map((entryNumber) => ({ entryNumber, answeredAt: entryNumber * 100 }))

test('all came: nothing is missing', () => {
  expect(missingIn(came(1, 2, 3), { upTo: 3, waiting: [], since: 0 })).toEqual([])
  expect(missingIn([], { upTo: 0, waiting: [], since: 0 })).toEqual([])
})

test('each gap stands between the entry before it and the one after', () => {
  expect(missingIn(came(2, 5), { upTo: 7, waiting: [], since: 0 })).toEqual([
    { first: 1, last: 1, count: 1, before: 200 },
    { first: 3, last: 4, count: 2, after: 200, before: 500 },
    { first: 6, last: 7, count: 2, after: 500 },
  ])
})

test('what still waits on the device is not missing, also within a gap', () => {
  expect(missingIn(came(1), { upTo: 5, waiting: [2, 4, 5], since: 0 })).toEqual([
    { first: 3, last: 3, count: 1, after: 100 },
  ])
  expect(missingIn(came(1), { upTo: 4, waiting: [3], since: 0 })).toEqual([
    { first: 2, last: 4, count: 2, after: 100 },
  ])
})

test('what was looked into is not told again, and what came since the count was read does not matter', () => {
  expect(missingIn(came(3, 6, 9), { upTo: 6, waiting: [], since: 3 })).toEqual([
    { first: 4, last: 5, count: 2, after: 300, before: 600 },
  ])
})

test('a count of any size is answered at once', () => {
  expect(missingIn([], { upTo: Number.MAX_SAFE_INTEGER, waiting: [1], since: 0 })).toEqual([
    { first: 2, last: Number.MAX_SAFE_INTEGER, count: Number.MAX_SAFE_INTEGER - 1 },
  ])
})

test('asked over HTTP: of this device alone, refused entries are there too', async () => {
  const house = await makeHouse()
  const [ana, bo] = [browser(house.app), browser(house.app)]
  await ana.signIn('ana')
  await bo.signIn('bo')
  const claim = (entryNumber: number) => command({ type: 'ClaimStep', stepId: 'S1', entryNumber })
  expect((await ana.post('/api/jobs/j1/commands', claim(1))).status).toBe(201)
  expect((await ana.post('/api/jobs/j1/commands', claim(4))).status).toBe(201)
  expect((await bo.post('/api/jobs/j1/commands', claim(2))).status).toBe(409)
  const asked = { upTo: 4, waiting: [3], since: 0 }
  expect((await ana.post('/api/entries/missing', asked)).json).toEqual({
    missing: [{ first: 2, last: 2, count: 1, after: expect.any(Number), before: expect.any(Number) }],
  })
  expect((await bo.post('/api/entries/missing', { ...asked, waiting: [1, 3, 4] })).json).toEqual({
    missing: [],
  })
  expect((await bo.post('/api/entries/missing', { upTo: -1, waiting: [], since: 0 })).status).toBe(400)
  expect((await browser(house.app).post('/api/entries/missing', asked)).status).toBe(401)
  await house.close()
})
