/** The example plans as the first run offers them: invented ones only, and readable as any plan file. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readExamples } from '../../server/http/examples'
import { readPlan } from '../../shared/plan/schema'
import { silent } from '../shop/silent'
import { figures } from '../shop/words'
import { PLAN } from '../shop/yard'
import { browser, command, type House, makeHouse } from './house'

let house: House
let ana: ReturnType<typeof browser>
beforeAll(async () => {
  house = await makeHouse()
  ana = browser(house.app)
  await ana.signIn('ana')
})
afterAll(() => house.close())

describe('GET /api/example-plans', () => {
  test('is for those signed in', async () => {
    const nobody = browser(house.app)
    expect((await nobody.get('/api/example-plans')).status).toBe(401)
    expect((await nobody.get('/api/example-plans/orrath-q31')).status).toBe(401)
  })

  test('names each with its counts and without its steps, all marked invented', async () => {
    const { status, json } = await ana.get('/api/example-plans')
    expect(status).toBe(200)
    const orrath = json.find(({ id }: { id: string }) => id === 'orrath-q31')
    expect(orrath).toMatchObject({ title: 'Orrath Q31, full rebuild', family: 'diesel', invented: true })
    expect(orrath.counts.steps).toBeGreaterThan(10)
    expect(orrath).not.toHaveProperty('steps')
    expect(json.every(({ invented }: { invented: boolean }) => invented)).toBe(true)
  })

  test('gives the whole of one; it goes into the library as it is', async () => {
    const { json } = await ana.get('/api/example-plans/orrath-q31')
    expect(readPlan(json, figures)).toHaveProperty('plan')
    const added = await ana.post('/api/shop/commands', command({ type: 'AddPlan', plan: json }))
    expect([added.status, added.json.events.length]).toEqual([201, 1])
    const inLibrary = await ana.get(`/api/plans/${json.id}/${json.edition}`)
    expect(inLibrary.json).toEqual(json)
  })

  test('one that is not there is 404 with a sentence', async () => {
    for (const id of ['none', '..%2f..%2fpackage', 'constructor']) {
      const { status, json } = await ana.get(`/api/example-plans/${id}`)
      expect([id, status, typeof json.sentence]).toEqual([id, 404, 'string'])
    }
  })
})

test('a plan with faults, and one whose values are not marked invented, are no examples', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-examples-'))
  const warned: object[] = []
  try {
    writeFileSync(join(folder, 'good.json'), JSON.stringify(PLAN))
    writeFileSync(join(folder, 'broken.json'), '{"format":')
    writeFileSync(join(folder, 'real.json'), JSON.stringify({ ...PLAN, id: 'real', invented: false }))
    writeFileSync(join(folder, 'note.txt'), 'not a plan')
    const log = { ...silent, warn: (data: object) => void warned.push(data) }
    expect((await readExamples(folder, log)).map(({ id }) => id)).toEqual(['small'])
    expect(warned).toEqual([{ name: 'broken.json', faults: 1 }])
    expect(await readExamples(join(folder, 'missing'), log)).toEqual([])
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})
