/** A record years later: whether it is still what was released, what people were called, and its pictures. */
import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { seal } from '../../../server/store/chain'
import { BEFORE_THE_FIRST, type Chain } from '../../../shared/chain'
import { hashText } from '../../../web/live/hash'
import { editionOf } from '../../../web/pages/record/edition'
import { pictureRows } from '../../../web/pages/record/edition-rows'
import { shopThen, todaysNames, wordsThen } from '../../../web/pages/record/people-then'
import { checkWhole, eventsOf, wholeWords } from '../../../web/pages/record/whole'
import { releasable, release, released } from '../../shop/releasing-engine'
import { words } from '../../shop/small-engine'

/** The released engine's log as the server stores it, and the release on it. */
function stored() {
  const { job, events } = releasable(...released, release('to_fitting'))
  const { rows } = seal(
    {
      stream: 'job:j1',
      expectedVersion: 0,
      commandId: 'c',
      recordedAt: 5,
      events: events.map(({ event }, n) => ({ id: `e${n}`, event })),
    },
    { stream: 'job:j1', version: 0, hash: BEFORE_THE_FIRST },
    0,
  )
  const chain: Chain = {
    stream: 'job:j1',
    rows: rows.map(({ version, body, hash }) => ({ version, body, hash })),
  }
  const { version } = job.releases[0] ?? expect.fail('not released')
  return { chain, job, events, covered: { version, head: chain.rows[version - 1]?.hash ?? '' } }
}

describe('whole or not', () => {
  test('the stored entries, hashed anew, come to the head; the page reads these very entries', async () => {
    const { chain, covered, events } = stored()
    expect(await checkWhole(chain, covered, hashText)).toEqual({ state: 'whole', version: covered.version })
    expect(eventsOf(chain)).toEqual(events.map((one) => ({ ...one, recordedAt: 5 })))
    expect(editionOf('j1', eventsOf(chain) ?? [], 'E-1-F1')).toHaveProperty('edition')
  })
  test('one changed figure is found, and its entry named', async () => {
    const { chain, covered } = stored()
    const at = chain.rows.findIndex(({ body }) => body.includes('"ReadingTaken"'))
    const row = chain.rows[at] ?? expect.fail('no reading')
    row.body = row.body.replace('"value":50', '"value":51')
    const whole = await checkWhole(chain, covered, hashText)
    expect(whole).toMatchObject({ state: 'differs', version: at + 1 })
    expect(wholeWords(whole)).toMatch(new RegExp(`^This is not what was released. Entry ${at + 1}: its hash`))
  })
  test('also when every hash was made to fit: then the head differs', async () => {
    const { chain, covered } = stored()
    let hash = BEFORE_THE_FIRST
    for (const row of chain.rows) {
      row.body = row.body.replace('"value":50', '"value":51')
      hash = createHash('sha256').update(hash).update(row.body).digest('hex')
      row.hash = hash
    }
    expect(await checkWhole(chain, covered, hashText)).toMatchObject({
      state: 'differs',
      version: covered.version,
      found: expect.stringMatching(/head recomputed here/),
    })
  })
  test('it says plainly when it cannot', async () => {
    const { chain, covered } = stored()
    const whole = await checkWhole(chain, covered, undefined)
    expect(wholeWords(whole)).toMatch(/^The check number was not computed: .*https address\.$/)
    const broken = await checkWhole(chain, covered, () => Promise.reject(new Error('no')))
    expect(broken.state).toBe('cannot')
  })
  test('an entry that is none, or of a kind this page does not know, is not shown around', () => {
    const { chain } = stored()
    const odd = (body: string) => eventsOf({ ...chain, rows: [{ version: 1, body, hash: '' }] })
    expect(odd('nothing')).toBeUndefined()
    expect(odd('{"recordedAt":1,"event":{"type":"Unheard"}}')).toBeUndefined()
  })
})

describe('names of that day', () => {
  const { job } = stored()
  const [word] = job.releases
  test('what the release carries stands, whatever the shop calls them today', () => {
    const renamed = { ...words, person: (id: string) => `New ${id}` }
    const then = wordsThen(word ?? {}, renamed)
    expect([then.person('suvi'), then.person('bram')]).toEqual(['Suvi', 'Bram'])
    expect(then.person('kofi')).toBe('New kofi')
    expect(todaysNames(word ?? {}, ['suvi', 'bram'], renamed)).toBeUndefined()
    expect(todaysNames(word ?? {}, ['suvi', 'kofi'], renamed)).toBe('Called by today’s name: New kofi.')
  })
  test('an older release says that its names are today’s', () => {
    expect(wordsThen({}, words).person('suvi')).toBe('Suvi')
    expect(todaysNames({}, ['suvi'], words)).toMatch(/^Names and initials are today’s/)
  })
  test('initials on the bolt maps too; paint and roles stay the shop’s', () => {
    const suvi = { id: 'suvi', name: 'Other', initials: 'OT', paint: 'green' as const }
    const shop = { people: { suvi } } as unknown as Parameters<typeof shopThen>[1]
    const { people } = shopThen({ people: { suvi: { name: 'Suvi', initials: 'SU' } } }, shop)
    expect(people.suvi).toEqual({ ...suvi, name: 'Suvi', initials: 'SU' })
    expect(shopThen({}, shop)).toEqual(shop)
  })
})

test('pictures of the covered steps and of the engine, oldest first; here when their bytes came, also later', () => {
  const { job } = stored()
  const photo = (id: string, more: object) => ({
    id,
    sha256: id.repeat(64),
    bytes: 1,
    mime: 'image/jpeg' as const,
    widthPx: 4,
    heightPx: 3,
    by: 'suvi',
    doneAt: 1,
    ...more,
  })
  const [first] = job.plan.steps
  const then = {
    ...job,
    photos: [
      photo('b', { doneAt: 2, stepId: first?.id, place: 'port 1', caption: 'Port 1, clear' }),
      photo('a', { stepId: first?.id, place: 'port 2', caption: 'a rag left' }),
      photo('c', { doneAt: 3 }),
      photo('d', { stepId: 'elsewhere' }),
    ],
  }
  const now = {
    ...then,
    photos: then.photos.map((one) => (one.id === 'a' ? { ...one, arrived: true as const } : one)),
  }
  const rows = pictureRows(then, first ? [first] : [], now)
  expect(rows.map(({ title, here }) => [title, here])).toEqual([
    [`port 2, a rag left, on ${first?.id}`, true],
    [`Port 1, clear, on ${first?.id}`, false],
    ['Photo of the engine', false],
  ])
})
