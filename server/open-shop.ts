/**
 * One shop's rooms put together on one data folder: log, desk, people. Without a network: the server, the
 * seed and the tests all begin here.
 */
import { join } from 'node:path'
import { type After, type Desk, type Log, openDesk, type Publish } from './desk'
import { makeFolder } from './folder'
import { type Intake, makeIntake } from './intake'
import { newId as newIdFromPool } from './new-id'
import { makePeople, type People, pepperIn } from './people'
import { type PhotoShelf, photoShelf } from './photos/shelf'
import { repoFolder } from './repo-folder'
import { databaseIn } from './settings'
import { type EventStore, openDatabase, sqliteEventStore } from './store'

export interface OpenShop {
  store: EventStore
  desk: Desk
  people: People
  intake: Intake
  photos: PhotoShelf
  now: () => number
  newId: () => string
  /** Whoever is added here is told of everything from then on. */
  subscribe(publish: Publish): void
  close(): Promise<void>
}

export interface ShopParts {
  dataFolder: string
  now: () => number
  log: Log
  /** Ids that are not from chance: for a past that must come out the same. */
  newId?: () => string
  /** Waits; a test may wait by hand. */
  after?: After
}

export const migrations = (): string => join(repoFolder(), 'drizzle')

export async function openShop({
  dataFolder,
  now,
  log,
  newId = newIdFromPool,
  after,
}: ShopParts): Promise<OpenShop> {
  makeFolder(dataFolder)
  const pepper = pepperIn(dataFolder)
  const db = openDatabase({ file: databaseIn(dataFolder), migrationsFolder: migrations() })
  const store = sqliteEventStore(db)
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
  const people = makePeople({ db, pepper, now, newId })
  return {
    store,
    desk,
    people,
    photos,
    intake: makeIntake({ desk, people, now }),
    now,
    newId,
    subscribe: (publish) => publishers.push(publish),
    async close() {
      await desk.close()
      await store.close()
    },
  }
}
