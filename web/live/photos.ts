/**
 * Photos on their way. The picture is shrunk and re-encoded on this device, which drops the camera's own data and
 * with it the place; it is hashed; the fact goes first, like every entry, and the bytes follow in a queue of their
 * own until the server has them on disk.
 *
 * Where the bytes lie is behind `PhotoShelf`: memory here, a store that outlives a reload in a later issue.
 */
import { createSignal } from 'solid-js'
import { v7 as uuid } from 'uuid'
import type { NewPhoto } from '../../shared/job/types'
import { type Live, useLive } from './live'

export interface KeptPhoto {
  jobId: string
  photoId: string
  sha256: string
  bytes: Blob
}

export interface PhotoShelf {
  all(): Promise<KeptPhoto[]>
  put(kept: KeptPhoto): Promise<void>
  drop(photoId: string): Promise<void>
}

export function memoryPhotoShelf(): PhotoShelf {
  const kept = new Map<string, KeptPhoto>()
  return {
    all: async () => [...kept.values()],
    put: async (one) => void kept.set(one.photoId, one),
    drop: async (id) => void kept.delete(id),
  }
}

/** `later`: no signal, signed out, or a server that cannot save just now. A sentence: these bytes will never do. */
export type Sent = 'stored' | 'later' | { sentence: string }

export interface PhotoQueue {
  add(kept: KeptPhoto): void
  /** The link is up, or somebody signed in: go on now. */
  wake(): void
  waiting(): readonly KeptPhoto[]
  refused(): readonly (KeptPhoto & { sentence: string })[]
  onChange(listener: () => void): () => void
}

interface QueueOptions {
  send(kept: KeptPhoto): Promise<Sent>
  /** Tells the log that the bytes are there. */
  confirm(kept: KeptPhoto): void
  shelf?: PhotoShelf
  wait?(ms: number): Promise<void>
}

const FIRST_WAIT_MS = 1000
const LONGEST_WAIT_MS = 30_000

export function makePhotoQueue(options: QueueOptions): PhotoQueue {
  const { send, confirm, shelf = memoryPhotoShelf(), wait = pause } = options
  let queue: KeptPhoto[] = []
  let refused: (KeptPhoto & { sentence: string })[] = []
  let running = false
  let hurry: (() => void) | undefined
  const listeners = new Set<() => void>()
  const tell = () => {
    for (const listener of listeners) listener()
  }
  const loaded = shelf.all().then((kept) => {
    const here = new Set(queue.map(({ photoId }) => photoId))
    queue = [...kept.filter(({ photoId }) => !here.has(photoId)), ...queue]
    if (kept.length > 0) tell()
  })

  async function run(): Promise<void> {
    await loaded
    let waitMs = FIRST_WAIT_MS
    for (let kept = queue[0]; kept; kept = queue[0]) {
      const one = kept
      const sent = await send(one).catch((): Sent => 'later')
      if (sent === 'later') {
        await Promise.race([wait(waitMs), new Promise<void>((resolve) => (hurry = resolve))])
        hurry = undefined
        waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS)
        continue
      }
      waitMs = FIRST_WAIT_MS
      queue = queue.filter((other) => other !== one)
      if (sent === 'stored') confirm(one)
      else refused = [...refused, { ...one, sentence: sent.sentence }]
      tell()
      await shelf.drop(one.photoId)
    }
  }

  function wake(): void {
    hurry?.()
    if (running) return
    running = true
    void run().finally(() => {
      running = false
      if (queue.length > 0) wake()
    })
  }

  return {
    add(kept) {
      queue = [...queue, kept]
      tell()
      void shelf.put(kept)
      wake()
    },
    wake,
    waiting: () => queue,
    refused: () => refused,
    onChange(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/** Faults that pass by themselves: signed out, too many at once, or the server itself. */
export const sentBy = (status: number, sentence: string): Sent =>
  status < 300 ? 'stored' : status === 401 || status === 429 || status >= 500 ? 'later' : { sentence }

async function putBytes({ sha256, bytes }: KeptPhoto): Promise<Sent> {
  const answer = await fetch(`/api/photos/${sha256}`, {
    method: 'PUT',
    credentials: 'same-origin',
    headers: { 'content-type': bytes.type },
    body: bytes,
  })
  const said = (await answer.json().catch(() => ({}))) as { sentence?: unknown }
  return sentBy(
    answer.status,
    typeof said.sentence === 'string' ? said.sentence : `The server answered ${answer.status}.`,
  )
}

const LONGEST_SIDE_PX = 1600
const QUALITY = 0.8

/** The size a picture is shrunk to: never enlarged, its longest side at most 1600 px. */
export function shrunk(width: number, height: number): { width: number; height: number } {
  const factor = Math.min(1, LONGEST_SIDE_PX / Math.max(width, height, 1))
  return { width: Math.max(1, Math.round(width * factor)), height: Math.max(1, Math.round(height * factor)) }
}

export interface Taken {
  photo: Pick<NewPhoto, 'id' | 'sha256' | 'bytes' | 'mime' | 'widthPx' | 'heightPx'>
  bytes: Blob
}

/** Throws when the file is no picture this browser can read. */
export async function takePhoto(file: Blob): Promise<Taken> {
  const picture = await createImageBitmap(file)
  const { width, height } = shrunk(picture.width, picture.height)
  const canvas = document.createElement('canvas')
  canvas.width = width
  canvas.height = height
  canvas.getContext('2d')?.drawImage(picture, 0, 0, width, height)
  picture.close()
  const bytes = await new Promise<Blob>((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/jpeg', QUALITY),
  )
  const sha256 = hex(await crypto.subtle.digest('SHA-256', await bytes.arrayBuffer()))
  return {
    photo: { id: uuid(), sha256, bytes: bytes.size, mime: 'image/jpeg', widthPx: width, heightPx: height },
    bytes,
  }
}

export const hex = (digest: ArrayBuffer): string =>
  [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('')

export interface Photos {
  add(kept: KeptPhoto): void
  waiting(): readonly KeptPhoto[]
  refused(): readonly (KeptPhoto & { sentence: string })[]
}

const made = new WeakMap<Live, Photos>()

/** The one queue of this device, whichever page asks. */
export function usePhotos(): Photos {
  const live = useLive()
  const known = made.get(live)
  if (known) return known
  const queue = makePhotoQueue({
    send: putBytes,
    confirm: ({ jobId, photoId }) => void live.sendAndWait(jobId, { type: 'ConfirmPhoto', photoId }),
  })
  const [waiting, setWaiting] = createSignal(queue.waiting())
  const [refused, setRefused] = createSignal(queue.refused())
  queue.onChange(() => {
    setWaiting(queue.waiting())
    setRefused(queue.refused())
  })
  live.link.onUp(queue.wake)
  const photos = { add: queue.add, waiting, refused }
  made.set(live, photos)
  return photos
}
