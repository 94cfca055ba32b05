/** The shop's server: its rooms as they are, over a log that outlives it, so that it can be killed and opened again. */
import { randomBytes } from 'node:crypto'
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { makeAccess } from '../../server/access'
import type { Manifest } from '../../server/backups/manifest'
import { makeBox } from '../../server/box/box'
import { type Epoch, epochIn, nextEpoch, writeEpoch } from '../../server/box/epoch'
import { makeTally } from '../../server/box/tally'
import { makeDamage } from '../../server/damage'
import { afterMs, bodyHash, openDesk, type Publish } from '../../server/desk'
import { openGateway } from '../../server/gateway/gateway'
import { makeApp } from '../../server/http/app'
import type { Rooms } from '../../server/http/parts'
import { makeIntake } from '../../server/intake'
import { newId } from '../../server/new-id'
import { migrations } from '../../server/open-shop'
import { makePeople, makePinKey } from '../../server/people'
import { type PhotoShelf, photoShelf, photosIn, placeOfPhoto } from '../../server/photos/shelf'
import { makePurses } from '../../server/purse'
import { repoFolder } from '../../server/repo-folder'
import { type EventStore, openDatabase, sqliteEventStore } from '../../server/store'
import type { JobCommand } from '../../shared/job/commands'
import type { ShopCommand } from '../../shared/shop/types'
import { silent } from '../shop/silent'
import { failRequests, network, type ServerLife } from './network'
import { cutLines } from './sockets'
import { act, after, between, clockNow, NOBODY, pass } from './world'

/** In memory where there is such a place: nothing here is to outlive the run, and much of it is asked to be durable. */
const SCRATCH = existsSync('/dev/shm') ? '/dev/shm' : tmpdir()
/** One for all runs: it takes seconds to make. */
const keyFolder = join(repoFolder(), 'dist', 'sim-key')
mkdirSync(keyFolder, { recursive: true })
const pinKey = makePinKey(keyFolder, silent)
await pinKey.public()

/** What can happen once to what a command, or a photo, comes to on the server. */
export const AT_THE_SERVER = [
  'not saved',
  'server killed before the commit',
  'server killed after the commit',
] as const
export type AtTheServer = (typeof AT_THE_SERVER)[number]

/** The shop as it was at one moment: its database as bytes, and the photos that were there. */
export interface Backup {
  manifest: Pick<Manifest, 'seq' | 'madeAt' | 'epoch'>
  database: Buffer
  photos: string[]
}

export interface House {
  store(): EventStore
  /** Oldest first. */
  backups: Backup[]
  backUp(): Promise<void>
  /** Kills the server; what is opened next is the shop as it was then, in its next epoch. */
  restore(backup: Backup): Promise<void>
  rooms(): Rooms
  /** By command id, or a photo's hash. */
  armed: Map<string, AtTheServer>
  /** What always fails. */
  poison: Set<string>
  clock: { aheadMs: number }
  /** Which build of the program it is started as next; pages are of the one that served them. */
  build: number
  /** Who is signed in on the device of this cookie: the id of the sign-in. */
  signInOn(cookie: string): string | undefined
  /** Every sign-in it knows of, by id, with when it was closed. */
  signIns(): ReadonlyMap<string, number | null>
  open(): Promise<void>
  kill(): void
  close(): void
}

export async function openHouse(hit: (what: AtTheServer | 'poisoned', key: string) => void): Promise<House> {
  const folder = mkdtempSync(join(SCRATCH, 'paintmark-sim-'))
  const pepper = randomBytes(32)
  const armed = new Map<string, AtTheServer>()
  const poison = new Set<string>()
  const clock = { aheadMs: 0 }
  const backups: Backup[] = []
  const stop: (() => void)[] = []
  let folders = 0
  let disk = begun(':memory:')

  /** What outlives the server. A database in memory may also be given as its bytes. */
  function begun(database: string | Buffer) {
    const dataFolder = join(folder, `data-${++folders}`)
    mkdirSync(dataFolder)
    const db = openDatabase({ file: database as string, migrationsFolder: migrations(), now: clockNow })
    stop.push(() => db.$client.close())
    const photoFolder = join(dataFolder, 'photos')
    return { db, store: sqliteEventStore(db), dataFolder, photoFolder, shelf: photoShelf(photoFolder) }
  }

  let lives = 0
  let rooms: Rooms | undefined

  function take(keys: readonly string[]): AtTheServer | undefined {
    const key = keys.find((one) => armed.has(one))
    const what = key === undefined ? undefined : armed.get(key)
    if (key === undefined || what === undefined) return undefined
    armed.delete(key)
    hit(what, key)
    return what
  }

  function kill(): void {
    const { life } = network
    if (!life || life.dead) return
    life.dead = true
    cutLines(() => true, 'transport close', 2000)
    failRequests((pending) => pending.life === life)
    after(between(200, 9000), NOBODY, () => void open())
  }

  /** The store as one life of the server has it. */
  function storeOf(life: ServerLife): EventStore {
    const { store } = disk
    const never = () => new Promise<never>(() => undefined)
    return {
      ...store,
      async commit(batch) {
        if (life.dead) return never()
        const what = take(batch.answers.map(({ commandId }) => commandId))
        if (what === 'not saved') throw new Error('The disk is full.')
        if (what === 'server killed before the commit') {
          kill()
          return never()
        }
        const outcome = await store.commit(batch)
        if (what !== 'server killed after the commit') return outcome
        kill()
        return never()
      },
    }
  }

  const photosOf =
    (shelf: PhotoShelf): PhotoShelf['put'] =>
    async (sha256, bytes) => {
      if (poison.has(sha256)) {
        hit('poisoned', sha256)
        throw new Error('This picture breaks the server.')
      }
      const what = take([sha256])
      if (what === 'not saved' || what === 'server killed before the commit') {
        if (what !== 'not saved') kill()
        throw new Error('The disk is full.')
      }
      const outcome = await shelf.put(sha256, bytes)
      if (what === 'server killed after the commit') kill()
      return outcome
    }

  async function open(): Promise<void> {
    const life: ServerLife = {
      name: `server ${++lives}`,
      dead: false,
      isServer: true,
      build: house.build,
      ahead: () => clock.aheadMs,
    }
    await act(life, () => begin(life))
  }

  async function begin(life: ServerLife): Promise<void> {
    const { db, shelf, dataFolder } = disk
    const publishers: Publish[] = []
    const box = makeBox({
      dataFolder,
      program: 'sim',
      epoch: epochIn(dataFolder, clockNow()),
      now: clockNow,
      log: silent,
      after: afterMs,
      take: async ({ now }) => ({ folder: dataFolder, manifest: taken(now, box.epoch()) }),
    })
    const desk = await openDesk({
      store: storeOf(life),
      publish: {
        events: (...news) => {
          for (const publisher of publishers) publisher.events(...news)
        },
        summary: (summary) => {
          for (const publisher of publishers) publisher.summary(summary)
        },
      },
      now: clockNow,
      newId,
      log: silent,
      bytesHere: shelf.has,
    })
    const people = makePeople({ db, pepper, pinKey, sealPins: true, now: clockNow, monotonic, newId })
    const access = makeAccess({ desk, people, now: clockNow, newId })
    const intake = makeIntake({ desk, people, access, now: clockNow, log: silent })
    const began: Rooms = {
      desk,
      access,
      box,
      damage: makeDamage(),
      people,
      now: clockNow,
      monotonic,
      newId,
      log: silent,
      tally: makeTally(),
      purses: makePurses(monotonic),
      photos: { ...shelf, put: photosOf(shelf) },
      intake: async (received) => {
        const { commandId } = received.body as { commandId: string }
        if (!poison.has(commandId)) return intake(received)
        hit('poisoned', commandId)
        throw new Error('This entry breaks the server.')
      },
      web: { cookieName: 'paintmark', secure: false, loopbackOnly: true, folder: join(folder, 'web') },
    }
    rooms = began
    life.app = makeApp(began)
    publishers.push(openGateway(undefined as never, began).publish)
    network.life = life
  }

  /** As a backup's manifest tells of it, as far as anybody here asks. */
  function taken(madeAt: number, { id, number }: Epoch): Manifest {
    const { db, photoFolder } = disk
    const seq = db.$client.prepare('select max(seq) from event').pluck().get() as number
    const manifest = {
      seq,
      madeAt,
      epoch: { id, number },
      shop: { key: '' },
      secrets: true,
      damagedPhotos: [],
    }
    backups.push({ manifest, database: db.$client.serialize(), photos: photosIn(photoFolder) })
    return manifest as unknown as Manifest
  }

  async function backUp(): Promise<void> {
    const { life } = network
    if (life && !life.dead)
      await act(life, () => void rooms?.box.backups.take({ into: folder, kind: 'hourly' }))
  }

  async function restore({ manifest, database, photos }: Backup): Promise<void> {
    kill()
    const { photoFolder } = disk
    disk = begun(database)
    for (const sha256 of photos)
      cpSync(join(photoFolder, placeOfPhoto(sha256)), join(disk.photoFolder, placeOfPhoto(sha256)))
    writeEpoch(disk.dataFolder, nextEpoch(manifest.epoch, manifest, clockNow()))
  }

  const house: House = {
    store: () => disk.store,
    backups,
    backUp,
    restore,
    rooms: () => rooms as Rooms,
    armed,
    poison,
    clock,
    build: 0,
    signIns: () =>
      new Map(
        disk.db.$client.prepare('select id, closed_at from sign_in').raw().all() as [string, number | null][],
      ),
    signInOn(cookie) {
      const people = rooms?.people
      const deviceId = people?.deviceOf(cookie.slice(cookie.indexOf('=') + 1))
      return deviceId === undefined ? undefined : people?.current(deviceId)?.id
    },
    open,
    kill,
    close() {
      if (network.life) network.life.dead = true
      for (const close of stop) close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
  return house
}

const monotonic = () => performance.now()

/** Straight to the desk, as somebody who may. */
export async function enter(
  { rooms }: House,
  by: string,
  stream: 'shop' | `job:${string}`,
  command: JobCommand | ShopCommand,
): Promise<void> {
  const { desk, newId: id, now } = rooms()
  const sent = { ...command, commandId: id() }
  const life = network.life as ServerLife
  let answer: Awaited<ReturnType<typeof desk.submit>> | undefined
  await act(life, () => {
    void desk
      .submit({
        stream,
        command: sent,
        bodyHash: bodyHash(stream, sent),
        asker: { person: by, through: 'sign_in' },
        receivedAt: now(),
      })
      .then((given) => {
        answer = given
      })
  })
  await pass(1)
  if (!answer?.ok) throw new Error(`${command.type}: ${answer?.sentence ?? 'no answer'}`)
}
