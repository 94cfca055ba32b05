/** Photos on their way: the fact first, the bytes when they can, confirmed once, a refusal kept with its sentence. */
import { describe, expect, test } from 'vitest'
import {
  hex,
  type KeptPhoto,
  makePhotoQueue,
  memoryPhotoShelf,
  type Sent,
  sentBy,
  shrunk,
} from '../../web/live/photos'

const photo = (photoId: string): KeptPhoto => ({
  jobId: 'j',
  photoId,
  sha256: photoId.repeat(4),
  bytes: new Blob(['x'], { type: 'image/jpeg' }),
})
const soon = () => new Promise((resolve) => setTimeout(resolve, 5))

function queueWith(answers: (Sent | Error)[], shelf = memoryPhotoShelf()) {
  const sent: string[] = []
  const confirmed: string[] = []
  const waits: number[] = []
  let go: (() => void) | undefined
  const queue = makePhotoQueue({
    async send({ photoId }) {
      sent.push(photoId)
      const answer = answers.shift() ?? 'stored'
      if (answer instanceof Error) throw answer
      return answer
    },
    confirm: ({ photoId }) => void confirmed.push(photoId),
    shelf,
    wait: (ms) => {
      waits.push(ms)
      return new Promise<void>((resolve) => {
        go = resolve
      })
    },
  })
  return { queue, sent, confirmed, waits, go: () => go?.(), shelf }
}

describe('the queue of photos', () => {
  test('one after the other, each confirmed once and then gone from the shelf', async () => {
    const at = queueWith([])
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    await soon()
    expect(at.sent).toEqual(['a', 'b'])
    expect(at.confirmed).toEqual(['a', 'b'])
    expect(at.queue.waiting()).toEqual([])
    expect(await at.shelf.all()).toEqual([])
  })

  test('no signal: kept and tried again, later each time; a link that is back hurries it', async () => {
    const at = queueWith([new Error('no link'), 'later', 'stored'])
    at.queue.add(photo('a'))
    await soon()
    expect(at.queue.waiting()).toHaveLength(1)
    expect(at.confirmed).toEqual([])
    at.go()
    await soon()
    expect(at.waits).toEqual([1000, 2000])
    at.queue.wake()
    await soon()
    expect(at.sent).toEqual(['a', 'a', 'a'])
    expect(at.confirmed).toEqual(['a'])
  })

  test('bytes that will never do are kept with the sentence, and do not hold up the next', async () => {
    const at = queueWith([{ sentence: 'This is no picture.' }])
    at.queue.add(photo('a'))
    at.queue.add(photo('b'))
    await soon()
    expect(at.queue.refused()).toMatchObject([{ photoId: 'a', sentence: 'This is no picture.' }])
    expect(at.confirmed).toEqual(['b'])
  })

  test('what lay on the shelf goes out first', async () => {
    const shelf = memoryPhotoShelf()
    await shelf.put(photo('old'))
    const at = queueWith([], shelf)
    at.queue.add(photo('new'))
    await soon()
    expect(at.sent).toEqual(['old', 'new'])
  })
})

test('a status says stored, later, or never', () => {
  expect([201, 401, 429, 503].map((status) => sentBy(status, ''))).toEqual([
    'stored',
    'later',
    'later',
    'later',
  ])
  expect(sentBy(400, 'No.')).toEqual({ sentence: 'No.' })
})

test('the longest side is at most 1600 px, and nothing is enlarged', () => {
  expect(shrunk(4000, 3000)).toEqual({ width: 1600, height: 1200 })
  expect(shrunk(3000, 4000)).toEqual({ width: 1200, height: 1600 })
  expect(shrunk(800, 600)).toEqual({ width: 800, height: 600 })
  expect(shrunk(5000, 1)).toEqual({ width: 1600, height: 1 })
})

test('a hash is 64 hex figures, with its leading noughts', async () => {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode('abc'))
  // FIPS 180-2, example B.1.
  expect(hex(digest)).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
})
