/** The shop's server: its rooms as they are, over a log that outlives it, so that it can be killed and opened again. */
import { randomBytes } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { makeAccess } from '../../server/access'
import type { Box } from '../../server/box/box'
import type { Epoch } from '../../server/box/epoch'
import { makeTally } from '../../server/box/tally'
import { makeDamage } from '../../server/damage'
import { bodyHash, openDesk, type Publish } from '../../server/desk'
import { openGateway } from '../../server/gateway/gateway'
import { makeApp } from '../../server/http/app'
import type { Rooms } from '../../server/http/parts'
import { makeIntake } from '../../server/intake'
import { newId } from '../../server/new-id'
import { migrations } from '../../server/open-shop'
import { makePeople } from '../../server/people'
import { photoShelf } from '../../server/photos/shelf'
import { makePurses } from '../../server/purse'
import { type EventStore, openDatabase, sqliteEventStore } from '../../server/store'
import type { JobCommand } from '../../shared/job/commands'
import type { ShopCommand } from '../../shared/shop/types'
import { silent } from '../shop/silent'
import { failRequests, network, type ServerLife } from './network'
import { cutLines } from './sockets'
import { act, after, between, clockNow, MORNING, NOBODY, pass } from './world'

/** What can happen once to what a command, or a photo, comes to on the server. */
export const AT_THE_SERVER = [
  'not saved',
  'server killed before the commit',
  'server killed after the commit',
] as const
export type AtTheServer = (typeof AT_THE_SERVER)[number]

export interface House {
  store: EventStore
  rooms(): Rooms
  /** By command id, or a photo's hash. */
  armed: Map<string, AtTheServer>
  /** What always fails. */
  poison: Set<string>
  clock: { aheadMs: number }
  /** Who is signed in on the device of this cookie: the id of the sign-in. */
  signInOn(cookie: string): string | undefined
  open(): Promise<void>
  kill(): void
  close(): void
}

export async function openHouse(hit: (what: AtTheServer | 'poisoned', key: string) => void): Promise<House> {
  const folder = mkdtempSync(join(tmpdir(), 'paintmark-sim-'))
  const db = openDatabase({ file: ':memory:', migrationsFolder: migrations(), now: clockNow })
  const store = sqliteEventStore(db)
  const shelf = photoShelf(join(folder, 'photos'))
  const pepper = randomBytes(32)
  const armed = new Map<string, AtTheServer>()
  const poison = new Set<string>()
  const clock = { aheadMs: 0 }
  const epoch: Epoch = { id: newId(), number: 1, since: MORNING }
  const box = {
    epoch: () => epoch,
    coveredSeq: () => 0,
    backups: { onGood: () => undefined },
  } as unknown as Box
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

  const photosOf: typeof shelf.put = async (sha256, bytes) => {
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
      ahead: () => clock.aheadMs,
    }
    await act(life, () => begin(life))
  }

  async function begin(life: ServerLife): Promise<void> {
    const publishers: Publish[] = []
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
    const people = makePeople({ db, pepper, sealPins: true, now: clockNow, monotonic, newId })
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
      photos: { ...shelf, put: photosOf },
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

  return {
    store,
    rooms: () => rooms as Rooms,
    armed,
    poison,
    clock,
    signInOn(cookie) {
      const people = rooms?.people
      const deviceId = people?.deviceOf(cookie.slice(cookie.indexOf('=') + 1))
      return deviceId === undefined ? undefined : people?.current(deviceId)?.id
    },
    open,
    kill,
    close() {
      if (network.life) network.life.dead = true
      db.$client.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
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
