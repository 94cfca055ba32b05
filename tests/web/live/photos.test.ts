/**
 * Photos on their way: kept under their hash through a reload, sent when they can be, let go only when server and
 * log both have them; a refusal and a device that keeps nothing are told.
 */
import 'fake-indexeddb/auto'
import { IDBFactory, IDBObjectStore } from 'fake-indexeddb'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { linkWords } from '../../../web/frame/link-words'
import { openDeviceStore } from '../../../web/live/device-store'
import { hashText } from '../../../web/live/hash'
import { makeOutbox, type QueuedCommand } from '../../../web/live/outbox'
import {
  makePhotoQueue,
  memoryPhotoShelf,
  type PhotoFact,
  type PhotoShelf,
  type QueuedPhoto,
  type SendOutcome,
} from '../../../web/live/photo-queue'
import { openPhotoShelf } from '../../../web/live/photo-shelf'
import { outcomeOf } from '../../../web/live/photos'
import { sizeWithin } from '../../../web/live/take-photo'
import { unheldWords } from '../../../web/live/unheld'

const said = (photoId: string): QueuedCommand => ({
  stream: 'job:j',
  command: { type: 'ConfirmPhoto', photoId, commandId: `said-${photoId}`, doneAt: 0 },
  by: 'ana',
})
const photo = (photoId: string, more: Partial<QueuedPhoto> = {}): QueuedPhoto => ({
  sha256: photoId.repeat(4),
  bytes: new Blob([`bytes of ${photoId}`], { type: 'image/jpeg' }),
  facts: [{ jobId: 'j', photoId, said: said(photoId) }],
  ...more,
})
/** Until it is so; a machine under load only takes longer. */
const until = (so: () => unknown) => vi.waitFor(so, { timeout: 10_000, interval: 5 })
/** Everything that can happen by itself has: for what must not happen. */
async function quiet(): Promise<void> {
  await openPhotoShelf('nobody’s').then((shelf) => shelf.load())
  for (let n = 0; n < 50; n++) await new Promise((resolve) => setImmediate(resolve))
}
const onShelf = async (key: string) => hashes(await (await openPhotoShelf(key)).load())
const hashes = (kept: readonly QueuedPhoto[]) => kept.map(({ sha256 }) => sha256)

interface Answers {
  sends?: (SendOutcome | Error)[]
  confirms?: (string | undefined | Promise<undefined>)[]
}

function queueWith({ sends = [], confirms = [] }: Answers, shelf: PhotoShelf | Promise<PhotoShelf>) {
  const sent: string[] = []
  const confirmed: string[] = []
  const announced: string[] = []
  const waits: number[] = []
  let go: (() => void) | undefined
  const queue = makePhotoQueue({
    async send({ sha256 }) {
      sent.push(sha256.slice(0, 1))
      const answer = sends.shift() ?? 'stored'
      if (answer instanceof Error) throw answer
      return answer
    },
    announce: ({ command }) => void announced.push(command.commandId),
    async confirm({ photoId }: PhotoFact) {
      confirmed.push(photoId)
      return confirms.shift()
    },
    shelf,
    wait: (ms) => {
      waits.push(ms)
      return new Promise<void>((resolve) => {
        go = resolve
      })
    },
  })
  return { queue, sent, confirmed, announced, waits, go: () => go?.() }
}

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
afterEach(() => {
  vi.unstubAllGlobals()
  vi.restoreAllMocks()
})

describe('the queue of photos', () => {
  test('one after the other, each confirmed once and then gone from the shelf', async () => {
    const shelf = memoryPhotoShelf()
    const at = queueWith({}, shelf)
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    expect(at.queue.now().waiting).toHaveLength(2)
    await quiet()
    expect(at.sent).toEqual(['a', 'b'])
    expect(at.confirmed).toEqual(['a', 'b'])
    expect(at.queue.now()).toEqual({ waiting: [], refused: [], unheld: [] })
    expect(await shelf.load()).toEqual([])
  })

  test('no signal: kept and tried again, later each time; a link that is back hurries it', async () => {
    const at = queueWith({ sends: [new Error('no link'), 'later', 'stored'] }, memoryPhotoShelf())
    at.queue.add(photo('a'))
    await quiet()
    expect(at.queue.now().waiting).toHaveLength(1)
    expect(at.confirmed).toEqual([])
    at.go()
    await quiet()
    expect(at.waits).toEqual([1000, 2000])
    at.queue.wake()
    await quiet()
    expect(at.sent).toEqual(['a', 'a', 'a'])
    expect(at.confirmed).toEqual(['a'])
  })

  test('one that the server cannot store again and again stops no other', async () => {
    const at = queueWith({ sends: ['stuck', 'stuck', 'stuck', 'stored'] }, memoryPhotoShelf())
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    for (let n = 0; n < 3; n++) {
      await quiet()
      at.go()
    }
    await quiet()
    expect(at.sent).toEqual(['a', 'a', 'a', 'b', 'a'])
    expect(at.queue.now().waiting).toEqual([])
  })

  test('sent but not yet in the log: it is not let go, and the next goes on', async () => {
    const shelf = memoryPhotoShelf()
    let hear: (() => void) | undefined
    const heard = new Promise<undefined>((resolve) => {
      hear = () => resolve(undefined)
    })
    const at = queueWith({ confirms: [heard] }, shelf)
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    await quiet()
    expect(at.sent).toEqual(['a', 'b'])
    expect(hashes(at.queue.now().waiting)).toEqual(['aaaa'])
    expect(hashes(await shelf.load())).toEqual(['aaaa'])
    hear?.()
    await quiet()
    expect(await shelf.load()).toEqual([])
  })

  test('bytes that will never do are kept with the sentence, and do not hold up the next', async () => {
    const shelf = memoryPhotoShelf()
    const at = queueWith({ sends: [{ sentence: 'This is no picture.' }] }, shelf)
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    await quiet()
    expect(at.queue.now().refused).toMatchObject([{ sha256: 'aaaa', refused: 'This is no picture.' }])
    expect(at.confirmed).toEqual(['b'])
    expect(await shelf.load()).toMatchObject([{ sha256: 'aaaa', refused: 'This is no picture.' }])
  })

  test('a log that will not hear of it is a refusal too', async () => {
    const at = queueWith({ confirms: ['No such photo.'] }, memoryPhotoShelf())
    at.queue.add(photo('a'))
    await quiet()
    expect(at.queue.now().refused).toMatchObject([{ refused: 'No such photo.' }])
    expect(at.queue.now().waiting).toEqual([])
  })

  test('refused, it is sent again on a word, or given up; what waits cannot be given up', async () => {
    const shelf = memoryPhotoShelf()
    const at = queueWith({ sends: [{ sentence: 'No.' }, { sentence: 'No.' }, 'later'] }, shelf)
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    await quiet()
    at.queue.giveUp('aaaa')
    await quiet()
    expect(hashes(await shelf.load())).toEqual(['bbbb'])
    at.queue.retry('bbbb')
    await quiet()
    expect(at.queue.now()).toMatchObject({ refused: [], waiting: [{ sha256: 'bbbb' }] })
    at.queue.giveUp('bbbb')
    expect(at.queue.now().waiting).toHaveLength(1)
    at.go()
    await quiet()
    expect(at.confirmed).toEqual(['b'])
  })

  test('the same picture for two places goes once and is confirmed for both', async () => {
    const at = queueWith({ sends: ['later'] }, memoryPhotoShelf())
    at.queue.add(photo('a'))
    at.queue.add(photo('a', { facts: [{ jobId: 'j', photoId: 'second' }] }))
    await quiet()
    expect(at.queue.now().waiting).toHaveLength(1)
    at.go()
    await quiet()
    expect(at.sent).toEqual(['a', 'a'])
    expect(at.confirmed).toEqual(['a', 'second'])
  })
})

test('a photo that never gets through holds up no command', async () => {
  const outbox = makeOutbox({ send: async () => ({ ok: true, version: 1, events: [] }) })
  const at = queueWith({ sends: Array.from({ length: 20 }, () => new Error('poison')) }, memoryPhotoShelf())
  at.queue.add(photo('a'))
  await quiet()
  const answer = await outbox.add(said('b'))
  expect(answer.ok).toBe(true)
  expect(outbox.entries()).toEqual([])
  expect(hashes(at.queue.now().waiting)).toEqual(['aaaa'])
})

describe('through a reload', () => {
  test('what waited is there again with its bytes, said to the log again, sent and let go', async () => {
    const noLink = [new Error('no link'), new Error('no link')]
    const before = queueWith({ sends: noLink }, openPhotoShelf('shop'))
    before.queue.add(photo('b'))
    await until(async () => expect(await onShelf('shop')).toEqual(['bbbb']))
    before.queue.add(photo('a'))
    await until(async () => expect(await onShelf('shop')).toEqual(['bbbb', 'aaaa']))
    expect(before.queue.now().unheld).toEqual([])
    // The page is gone; another one opens the same shelf.
    const after = queueWith({}, openPhotoShelf('shop'))
    after.queue.add(photo('c'))
    await until(() => expect(after.confirmed).toEqual(['b', 'a', 'c']))
    expect(after.announced).toEqual(['said-b', 'said-a'])
    expect(after.sent).toEqual(['b', 'a', 'c'])
    await until(async () => expect(await onShelf('shop')).toEqual([]))
  })

  test('one kept before pages had names is there too', async () => {
    await (await openPhotoShelf('shop')).load()
    const { bytes, ...rest } = photo('a')
    const old = { ...rest, bytes: await bytes.arrayBuffer(), mime: bytes.type, keptAt: 1_790_000_000_000 }
    await (await openDeviceStore('paintmark-photos-shop', 'waiting')).put('aaaa', old)
    const after = queueWith({}, openPhotoShelf('shop'))
    await until(() => expect(after.confirmed).toEqual(['a']))
    await until(async () => expect(await onShelf('shop')).toEqual([]))
  })

  test('the bytes are the same to the last one', async () => {
    const bytes = new Uint8Array(70_000).map((_, n) => n % 251)
    const shelf = await openPhotoShelf('shop')
    await shelf.put(photo('a', { bytes: new Blob([bytes], { type: 'image/png' }) }))
    const [kept] = await (await openPhotoShelf('shop')).load()
    expect(kept?.bytes.type).toBe('image/png')
    expect(new Uint8Array((await kept?.bytes.arrayBuffer()) ?? new ArrayBuffer())).toEqual(bytes)
  })

  test('a refusal is still there with its sentence, and is not sent again by itself', async () => {
    const before = queueWith({ sends: [{ sentence: 'Too long.' }] }, openPhotoShelf('shop'))
    before.queue.add(photo('a'))
    await until(async () =>
      expect((await (await openPhotoShelf('shop')).load())[0]?.refused).toBe('Too long.'),
    )
    const after = queueWith({}, openPhotoShelf('shop'))
    after.queue.wake()
    await until(() => expect(after.queue.now().refused).toHaveLength(1))
    await quiet()
    expect(after.sent).toEqual([])
    expect(after.queue.now().refused).toMatchObject([{ sha256: 'aaaa', refused: 'Too long.' }])
  })

  test('two shops at one address never see each other’s', async () => {
    const demo = queueWith({ sends: ['later'] }, openPhotoShelf('demo'))
    demo.queue.add(photo('a'))
    await until(async () => expect(await onShelf('demo')).toEqual(['aaaa']))
    const real = queueWith({}, openPhotoShelf('real'))
    real.queue.wake()
    await quiet()
    expect(real.queue.now().waiting).toEqual([])
    expect(real.sent).toEqual([])
    expect(await onShelf('demo')).toEqual(['aaaa'])
  })
})

describe('a device that does not keep it', () => {
  test('without a store it is sent all the same, and the person is told while it waits', async () => {
    vi.stubGlobal('indexedDB', undefined)
    const shelf = await openPhotoShelf('shop')
    expect(shelf.lasting).toBe(false)
    const at = queueWith({ sends: ['later'] }, shelf)
    at.queue.add(photo('a'))
    await until(() => expect(at.queue.now().unheld).toEqual(['no_store']))
    expect(unheldWords(at.queue.now().unheld, 'photo')).toBe(
      'This browser keeps nothing once the page is closed or loaded again. Leave this page open: 1 photo is held only here until sent.',
    )
    at.go()
    await until(() => expect(unheldWords(at.queue.now().unheld, 'photo')).toBeUndefined())
    expect(at.confirmed).toEqual(['a'])
  })

  test('a store that will not open is as none', async () => {
    vi.stubGlobal('indexedDB', {
      open() {
        throw new DOMException('The operation is insecure.', 'SecurityError')
      },
    })
    expect((await openPhotoShelf('shop')).lasting).toBe(false)
  })

  test('a full disk is told, and the photo still goes out', async () => {
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('No room.', 'QuotaExceededError')
    })
    const at = queueWith({ sends: ['later'] }, openPhotoShelf('shop'))
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    await until(() => expect(at.queue.now().unheld).toEqual(['full', 'full']))
    await until(() => expect(at.waits).toHaveLength(1))
    expect(unheldWords(at.queue.now().unheld, 'photo')).toBe(
      'There is no room left on this device. Leave this page open: 2 photos are held only here until sent.',
    )
    at.go()
    await until(() => expect(at.confirmed).toEqual(['a', 'b']))
  })

  test('any other refusal of the store is told too', async () => {
    const shelf = { ...memoryPhotoShelf(), put: () => Promise.reject(new Error('broken')) }
    const at = queueWith({ sends: ['later'] }, shelf)
    at.queue.add(photo('a'))
    await until(() => expect(at.queue.now().unheld).toEqual(['failed']))
  })
})

test('an answer says stored, later, or never; stored only for this very hash', () => {
  const hash = 'ab'.repeat(32)
  expect(outcomeOf(201, hash, { sha256: hash })).toBe('stored')
  // A page of the network in between, friendly to every question.
  expect(outcomeOf(200, hash, {})).toBe('later')
  expect(outcomeOf(201, hash, { sha256: 'cd'.repeat(32) })).toBe('later')
  expect([401, 429, 503].map((status) => outcomeOf(status, hash, {}))).toEqual(['later', 'later', 'stuck'])
  expect(outcomeOf(400, hash, { sentence: 'No.' })).toEqual({ sentence: 'No.' })
  expect(outcomeOf(413, hash, {})).toEqual({ sentence: 'The server answered 413.' })
})

test('the bar counts what waits and what was refused, and says kept only of what is', () => {
  const refused = { entries: 0, photos: 0 }
  const waits = { entries: 0, photos: 0, refused, kept: true, lost: 0 }
  expect(linkWords('live', waits)).toBe('live')
  expect(linkWords('connecting', waits)).toBe('connecting')
  expect(linkWords('lost', waits)).toBe('no signal')
  expect(linkWords('live', { ...waits, entries: 1 })).toBe('sending 1 entry')
  expect(linkWords('live', { ...waits, photos: 2 })).toBe('sending 2 photos')
  expect(linkWords('lost', { ...waits, entries: 2, photos: 1 })).toBe(
    'no signal: 2 entries, 1 photo kept on this device',
  )
  expect(linkWords('lost', { ...waits, entries: 2, kept: false })).toBe('no signal: 2 entries on this page')
  expect(linkWords('live', { ...waits, refused: { entries: 0, photos: 1 } })).toBe(
    'live; 1 photo not taken over',
  )
  expect(linkWords('lost', { ...waits, entries: 1, refused: { entries: 2, photos: 0 } })).toBe(
    'no signal: 1 entry kept on this device; 2 entries not taken over',
  )
  expect(linkWords('live', { ...waits, lost: 3 })).toBe('live; 3 entries never arrived')
})

test('the longest side is at most 1600 px, and nothing is enlarged', () => {
  expect(sizeWithin(4000, 3000)).toEqual({ width: 1600, height: 1200 })
  expect(sizeWithin(3000, 4000)).toEqual({ width: 1200, height: 1600 })
  expect(sizeWithin(800, 600)).toEqual({ width: 800, height: 600 })
  expect(sizeWithin(5000, 1)).toEqual({ width: 1600, height: 1 })
})

test('a hash is 64 hex figures, with its leading noughts', async () => {
  // FIPS 180-2, example B.1.
  expect(await hashText('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
})
