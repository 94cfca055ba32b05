/** The demo shop's past played into a log in memory, once for all tests of a file. */

import { D0, OPENS_AT, shopClock } from '../../seed/clock'
import { EVENT_IDS, seedDemo } from '../../seed/demo'
import { idsFrom } from '../../seed/ids'
import { type Desk, openDesk } from '../../server/desk'
import { repoFolder } from '../../server/repo-folder'
import { type EventStore, memoryEventStore } from '../../server/store'
import type { PlannedJob } from '../../shared/job/types'
import { silent } from '../shop/silent'

export interface DemoShop {
  desk: Desk
  store: EventStore
  now: number
  job(id: string): Promise<PlannedJob>
}

export async function demoShop(day = D0): Promise<DemoShop> {
  const clock = shopClock(day)
  const now = clock.at(0, OPENS_AT)
  const store = memoryEventStore()
  const shelf = new Set<string>()
  const desk = await openDesk({
    store,
    publish: { events() {}, summary() {} },
    now: () => now,
    newId: idsFrom(EVENT_IDS),
    log: silent,
    bytesHere: (sha256) => shelf.has(sha256),
  })
  await seedDemo({
    desk,
    // PINs are no part of the log; their hashing is tested where it lives.
    people: { setPin: async () => {} },
    photos: {
      put: async (sha256) => {
        shelf.add(sha256)
        return { mime: 'image/png' }
      },
    },
    clock,
    repo: repoFolder(),
  })
  return {
    desk,
    store,
    now,
    async job(id) {
      const job = await desk.job(id)
      if (!job?.plan) throw new Error(`No job ${id} with a plan.`)
      return job as PlannedJob
    },
  }
}
