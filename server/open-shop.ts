/**
 * One shop's rooms put together on one data folder: log, desk, people. Without a network: the server, the
 * seed and the tests all begin here.
 */
import { join } from 'node:path'
import { type Access, makeAccess } from './access'
import { takeInChild } from './backups/in-child'
import { removeOld } from './backups/kept'
import { shopIn, takeBackup } from './backups/take'
import { type Box, makeBox } from './box/box'
import { epochIn } from './box/epoch'
import { type Damage, makeDamage } from './damage'
import { type After, afterMs, type Desk, type Log, openDesk, type Publish } from './desk'
import { jobIdOf } from './desk/streams'
import { makeViewsAgain, VIEWS, VIEWS_EDITION } from './desk/views-of'
import { makeFolder } from './folder'
import { type Intake, makeIntake } from './intake'
import { hasMarks, type Marks, openMarks } from './marks'
import { newId as newIdFromPool } from './new-id'
import { arePinsSet, makePeople, makePinKey, type People, pepperIn } from './people'
import { type PhotoShelf, photoShelf } from './photos/shelf'
import { programVersion } from './program-version'
import { noticeOf } from './proof/notices'
import { repoFolder } from './repo-folder'
import { databaseIn } from './settings'
import {
  type EventStore,
  needsMigration,
  openDatabase,
  type ShopDatabase,
  setState,
  sqliteEventStore,
  stateOf,
} from './store'

export interface OpenShop {
  store: EventStore
  desk: Desk
  people: People
  access: Access
  intake: Intake
  photos: PhotoShelf
  marks: Marks
  damage: Damage
  now: () => number
  /** Milliseconds that only go forward, for rates and waits. */
  monotonic: () => number
  newId: () => string
  /** Whoever is added here is told of everything from then on. */
  subscribe(publish: Publish): void
  box: Box
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
  /** Makes a backup; in a process of its own unless told. */
  take?: typeof takeInChild
}

export const migrations = (): string => join(repoFolder(), 'drizzle')

/** The folder of a data folder that holds what was there before its tables were changed. */
const BEFORE_MIGRATION = 'before-migration'

/** The database, its tables brought up to date; where that changes them, after a backup beside it. */
export async function openMigrated(dataFolder: string, now: () => number): Promise<ShopDatabase> {
  const database = { file: databaseIn(dataFolder), migrationsFolder: migrations(), now }
  if (needsMigration(database) && shopIn(database.file)) {
    const into = join(dataFolder, BEFORE_MIGRATION)
    makeFolder(into)
    const kind = 'before_migration' as const
    const parts = { dataFolder, into, kind, program: programVersion(), now: now() } as const
    const { manifest } = await takeBackup(parts)
    removeOld(into, manifest.shop.key, now())
  }
  return openDatabase(database)
}

export async function openShop({
  dataFolder,
  now,
  monotonic = () => performance.now(),
  log,
  newId = newIdFromPool,
  after,
  take = takeInChild,
}: ShopParts): Promise<OpenShop> {
  makeFolder(dataFolder)
  const wasMarked = hasMarks(dataFolder)
  const db = await openMigrated(dataFolder, now)
  const store = sqliteEventStore(db)
  try {
    return await openOn()
  } catch (error) {
    await store.close()
    throw error
  }

  async function openOn(): Promise<OpenShop> {
    const pepper = pepperIn(dataFolder, arePinsSet(db))
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
    const damage = makeDamage()
    const photos = photoShelf(join(dataFolder, 'photos'))
    const desk = await openDesk({
      store,
      publish,
      now,
      newId,
      log,
      bytesHere: photos.has,
      damaged: (stream, number) =>
        damage.add(
          noticeOf({
            kind: 'chain',
            sentence: '',
            ...(stream === 'shop' ? {} : { jobId: jobIdOf(stream), number: number ?? jobIdOf(stream) }),
          }),
        ),
      ...(after ? { after } : {}),
    })
    const pinKey = makePinKey(dataFolder, log)
    const people = makePeople({ db, pepper, pinKey, sealPins: !wasMarked, now, monotonic, newId })
    const access = makeAccess({ desk, people, now, newId })
    const epoch = epochIn(dataFolder, now())
    const marks = openMarks({ db, dataFolder, epoch: epoch.id, now, log, after: afterMs })
    publishers.push({
      events: (_room, _from, events) => marks.written(events.some(({ event }) => event.type === 'Released')),
      summary() {},
    })
    const box = makeBox({
      dataFolder,
      program: programVersion(),
      epoch,
      now,
      log,
      after: after ?? afterMs,
      take,
    })
    return {
      store,
      desk,
      people,
      access,
      photos,
      marks,
      damage,
      intake: makeIntake({ desk, people, access, now, log }),
      now,
      monotonic,
      newId,
      subscribe: (publish) => publishers.push(publish),
      box,
      async close() {
        await box.backups.close()
        await desk.close()
        await marks.close()
        await store.close()
      },
    }
  }
}
