/** The full yard plays through the desk without a refusal, and holds what it is looked at for. */
import { beforeAll, describe, expect, test } from 'vitest'
import { D0, OPENS_AT, shopClock } from '../../seed/clock'
import { EVENT_IDS, seedDemo } from '../../seed/demo'
import { idsFrom } from '../../seed/ids'
import { type Desk, openDesk } from '../../server/desk'
import { repoFolder } from '../../server/repo-folder'
import { memoryEventStore } from '../../server/store'
import { checkPlan } from '../../shared/plan/check'
import { silent } from '../shop/silent'
import { figures } from '../shop/words'
import { LONG, longPlan } from './extremes'
import { fullYard } from './yard'

const COUNT = 24

async function yard() {
  const clock = shopClock(D0)
  const desk = await openDesk({
    store: memoryEventStore(),
    publish: { events() {}, summary() {} },
    now: () => clock.at(0, OPENS_AT),
    newId: idsFrom(EVENT_IDS),
    log: silent,
    bytesHere: () => true,
  })
  await seedDemo({
    desk,
    people: { setPin: async () => {} },
    photos: { put: async () => ({ mime: 'image/png' }) },
    clock,
    repo: repoFolder(),
    yard: fullYard(repoFolder(), COUNT),
  })
  return desk
}

describe('a full yard', () => {
  let desk: Desk
  beforeAll(async () => {
    desk = await yard()
  })

  test('every engine stands on the board, at many places of its build', () => {
    const summaries = desk.summaries()
    expect(summaries).toHaveLength(8 + 1 + COUNT)
    const crowd = summaries.filter(({ id }) => id.startsWith('full-'))
    expect(new Set(crowd.map(({ reason }) => reason.code)).size).toBeGreaterThanOrEqual(5)
    expect(new Set(crowd.map(({ plan }) => plan?.title)).size).toBe(8)
    expect(crowd.filter(({ plan }) => !plan)).toHaveLength(1)
    expect(crowd.filter(({ cells }) => cells.some(({ flagged }) => flagged))).toEqual([])
  })

  test('the large engine is as large as is said of it', async () => {
    const job = await desk.job(LONG.jobId)
    expect(job?.plan?.steps).toHaveLength(500)
    expect(job?.steps[LONG.stepId]?.claim?.by).toBe('bram')
  })
})

describe('the long plan', () => {
  test('is one that a shop would take in', () => {
    expect(checkPlan(longPlan(), figures)).toEqual({ faults: [], cautions: [] })
  })
  test('holds a joint of forty heads, tightened from the middle outward', () => {
    const joint = longPlan()
      .steps.flatMap(({ joints }) => joints)
      .find(({ id }) => id === LONG.jointId)
    expect(joint?.positions).toHaveLength(40)
    expect(new Set(joint?.order)).toEqual(new Set(joint?.positions.map(({ n }) => n)))
    expect(joint?.order?.slice(0, 2)).toEqual([5, 6])
  })
  test('carries names as long as they may be', () => {
    expect(LONG.number).toHaveLength(24)
    expect(LONG.model.length).toBeGreaterThanOrEqual(60)
    expect(LONG.owner.length).toBeGreaterThanOrEqual(60)
  })
})
