/**
 * One shop's rooms put together on one data folder: log, desk, people. Without a network: the server, the
 * seed and the tests all begin here.
 */
import { join } from 'node:path'
import { type After, afterMs, type Desk, type Log, openDesk, type Publish } from './desk'
import { makeViewsAgain, VIEWS, VIEWS_EDITION } from './desk/views-of'
import { makeFolder } from './folder'
import { type Intake, makeIntake } from './intake'
import { hasMarks, type Marks, openMarks } from './marks'
import { newId as newIdFromPool } from './new-id'
import { makePeople, type People, pepperIn } from './people'
import { type PhotoShelf, photoShelf } from './photos/shelf'
import { repoFolder } from './repo-folder'
import { databaseIn } from './settings'
import { type EventStore, openDatabase, setState, sqliteEventStore, stateOf } from './store'

export interface OpenShop {
  store: EventStore
  desk: Desk
  people: People
  intake: Intake
  photos: PhotoShelf
  marks: Marks
  now: () => number
  /** Milliseconds that only go forward, for rates and waits. */
  monotonic: () => number
  newId: () => string
  /** Whoever is added here is told of everything from then on. */
  subscribe(publish: Publish): void
  close(): Promise<void>
}

export interface ShopParts {
  dataFolder: string
  now: () => number
  monotonic?: () => number
  log: Log
  /** Ids that are not from chance: for a past that must come out the same. */
  newId?: () => string
  /** Waits; a test may wait by hand. */
  after?: After
}

const FIRST_EPOCH = '1'

export const migrations = (): string => join(repoFolder(), 'drizzle')

export async function openShop({
  dataFolder,
  now,
  monotonic = () => performance.now(),
  log,
  newId = newIdFromPool,
  after,
}: ShopParts): Promise<OpenShop> {
  makeFolder(dataFolder)
  const pepper = pepperIn(dataFolder)
  const wasMarked = hasMarks(dataFolder)
  const db = openDatabase({ file: databaseIn(dataFolder), migrationsFolder: migrations(), now })
  const store = sqliteEventStore(db)
  if (stateOf(db, VIEWS) !== VIEWS_EDITION) {
    await makeViewsAgain(store, log)
    setState(db, VIEWS, VIEWS_EDITION)
  }
  const publishers: Publish[] = []
  const publish: Publish = {
    events: (...news) => {
      for (const publisher of publishers) publisher.events(...news)
    },
    summary: (summary) => {
      for (const publisher of publishers) publisher.summary(summary)
    },
  }
  const photos = photoShelf(join(dataFolder, 'photos'))
  const desk = await openDesk({
    store,
    publish,
    now,
    newId,
    log,
    bytesHere: photos.has,
    ...(after ? { after } : {}),
  })
  const people = makePeople({ db, pepper, sealPins: !wasMarked, now, monotonic, newId })
  const marks = openMarks({ db, dataFolder, epoch: FIRST_EPOCH, now, log, after: afterMs })
  publishers.push({
    events: (_room, _from, events) => marks.written(events.some(({ event }) => event.type === 'Released')),
    summary() {},
  })
  return {
    store,
    desk,
    people,
    photos,
    marks,
    intake: makeIntake({ desk, people, now }),
    now,
    monotonic,
    newId,
    subscribe: (publish) => publishers.push(publish),
    async close() {
      await desk.close()
      await marks.close()
      await store.close()
    },
  }
}
