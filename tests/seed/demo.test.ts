/** The demonstration's log: what the scenario says of each engine is what the fold says. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type DemoPerson, seedDemo } from '../../seed/demo'
import { repoFolder } from '../../server/repo-folder'
import { verifyLog } from '../../server/store'
import type { Job } from '../../shared/job/types'
import { browser, type House, makeHouse } from '../server/house'

let house: House
let people: DemoPerson[]
const now = Date.now()

beforeAll(async () => {
  house = await makeHouse({ open: false })
  const { desk, people: pins, newId } = house.shop
  people = await seedDemo({ desk, people: pins, newId, now, repo: repoFolder() })
})
afterAll(() => house.close())

const job = async (id: string) => (await house.shop.desk.job(id)) as Job
const standing = (list: Job['readings'][string] = []) =>
  list
    .filter(({ struck, superseded }) => !struck && !superseded)
    .map(({ position, pass }) => [pass, position])

test('E-101 has 31 of 50 steps done, its manifold nuts stopped in pass 2 after nut 3, and nobody on it', async () => {
  const summary = house.shop.desk.summaries().find(({ number }) => number === 'E-101')
  expect([summary?.signed, summary?.cells.length, summary?.on]).toEqual([31, 50, []])
  expect(summary?.cells.filter(({ standing }) => standing === 'done')).toHaveLength(31)
  const { readings, steps } = await job('e-101')
  expect(standing(readings['G-F5'])).toEqual([
    ...[1, 2, 3, 4, 5, 6].map((n) => [1, n]),
    [2, 1],
    [2, 2],
    [2, 3],
  ])
  expect([steps.F5?.claim, steps.E1]).toEqual([undefined, undefined])
})

test('E-105 stopped in pass 3 after nut 4; E-108 has its short block; E-102 has no plan', async () => {
  const { readings } = await job('e-105')
  expect(standing(readings['H-B1']).filter(([pass]) => pass === 3)).toEqual([
    [3, 1],
    [3, 4],
  ])
  const board = Object.fromEntries(
    house.shop.desk.summaries().map(({ number, signed, reason }) => [number, [signed, reason.code]]),
  )
  expect(board).toMatchObject({ 'E-102': [0, 'no_plan'], 'E-108': [10, 'nobody_on_it'] })
})

test('nothing is flagged, nothing was done after now, and every chain holds', async () => {
  for (const row of await house.shop.store.readings({})) {
    expect([row.readingId, row.flags]).toEqual([row.readingId, []])
    expect(row.doneAt).toBeLessThanOrEqual(now)
  }
  expect(await verifyLog(house.shop.store)).toMatchObject({ streams: 5, broken: [], missingPlaces: 0 })
})

test('everybody signs in with the PIN they were told; everything is marked invented', async () => {
  expect(people).toHaveLength(7)
  for (const { id, pin } of people) {
    const { status } = await browser(house.app).post('/api/sign-in', { personId: id, pin })
    expect([id, status]).toEqual([id, 201])
  }
  expect((await house.shop.desk.shop()).invented).toBe(true)
  expect((await job('e-101')).plan?.invented).toBe(true)
})
