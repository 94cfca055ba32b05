/**
 * Photos' bytes on their way to the server, apart from the outbox: a long picture never holds up a reading.
 *
 * Kept under their hash until the server has said that it holds bytes of that hash and the log says that they
 * arrived; only then are they let go. One at a time, later each time there is no answer, at once when the link is
 * back. What the server will never take stays here with its sentence until somebody decides. A device that cannot
 * keep them through a reload says so (`unheld`), and they are sent all the same.
 */
import type { Kept } from './outbox'

/** What the log knows these bytes as. */
export interface PhotoFact {
  jobId: string
  photoId: string
  /** The entry that told the log, as it was first sent: said again after a reload, it can never count twice. */
  said?: Kept
}

export interface KeptPhoto {
  sha256: string
  bytes: Blob
  /** The same picture may have been added twice. */
  facts: PhotoFact[]
  /** Why the server would not have it. */
  refused?: string
}

export interface PhotoShelf {
  /** Whether what lies here is there after a reload. */
  lasting: boolean
  all(): Promise<KeptPhoto[]>
  /** Rejects where the device has no room, or will not. */
  put(kept: KeptPhoto): Promise<void>
  drop(sha256: string): Promise<void>
}

export function memoryPhotoShelf(): PhotoShelf {
  const kept = new Map<string, KeptPhoto>()
  return {
    lasting: false,
    all: async () => [...kept.values()],
    put: async (one) => void kept.set(one.sha256, one),
    drop: async (sha256) => void kept.delete(sha256),
  }
}

/** `later`: no signal, signed out, or a server that cannot save just now. A sentence: these bytes will never do. */
export type Sent = 'stored' | 'later' | { sentence: string }

/** Why a photo would not outlive a reload. */
export type Unheld = 'no_store' | 'full' | 'failed'

export interface PhotosNow {
  waiting: readonly KeptPhoto[]
  refused: readonly (KeptPhoto & { refused: string })[]
  /** Waiting photos that only this page holds, by why. */
  unheld: readonly Unheld[]
}

export interface PhotoQueue {
  add(kept: KeptPhoto): void
  /** The link is up, or somebody signed in: go on now. */
  wake(): void
  /** Somebody put right what the server had against it. */
  again(sha256: string): void
  /** Gives the bytes up for good; what the log says of the photo stays. */
  giveUp(sha256: string): void
  now(): PhotosNow
  onChange(listener: () => void): () => void
}

interface Options {
  send(kept: KeptPhoto): Promise<Sent>
  /** Tells the log that there is such a photo, in case that was lost with the page. */
  announce?(said: Kept): void
  /** Tells the log that the bytes are there; the sentence when it will not hear of it. */
  confirm(fact: PhotoFact): Promise<string | undefined>
  shelf?: PhotoShelf | Promise<PhotoShelf>
  wait?(ms: number): Promise<void>
}

interface Entry {
  kept: KeptPhoto
  stage: 'to_send' | 'sent'
  unheld?: Unheld
}

const FIRST_WAIT_MS = 1000
const LONGEST_WAIT_MS = 30_000

export function makePhotoQueue(options: Options): PhotoQueue {
  const { send, announce, confirm, wait = pause } = options
  const shelf = Promise.resolve(options.shelf ?? memoryPhotoShelf())
  const entries = new Map<string, Entry>()
  const listeners = new Set<() => void>()
  let running = false
  let hurry: (() => void) | undefined
  /** One after the other, so that a picture put and taken away at once is away. */
  let shelfWork: Promise<unknown> = shelf

  const tell = () => {
    for (const listener of listeners) listener()
  }

  const onShelf = (work: (shelf: PhotoShelf) => Promise<void>): Promise<void> => {
    const done = shelfWork.then(async () => work(await shelf))
    shelfWork = done.catch(() => undefined)
    return done
  }

  const loaded = shelf
    .then((it) => it.all())
    .then((kept) => {
      const added = [...entries]
      entries.clear()
      for (const one of kept) {
        entries.set(one.sha256, { kept: one, stage: 'to_send' })
        for (const { said } of one.facts) if (said) announce?.(said)
      }
      for (const [sha256, entry] of added) {
        const before = entries.get(sha256)
        if (before) entry.kept = { ...entry.kept, facts: [...before.kept.facts, ...entry.kept.facts] }
        entries.set(sha256, entry)
      }
      if (kept.length > 0) tell()
    })
    // A shelf that cannot be read holds nothing to send; what is added now still goes out.
    .catch(() => undefined)

  async function hold(entry: Entry): Promise<void> {
    const unheld = await onShelf((it) => it.put(entry.kept)).then(
      async (): Promise<Unheld | undefined> => ((await shelf).lasting ? undefined : 'no_store'),
      (error: unknown): Unheld => (nameOf(error) === 'QuotaExceededError' ? 'full' : 'failed'),
    )
    if (unheld === undefined) delete entry.unheld
    else entry.unheld = unheld
    tell()
  }

  function letGo(entry: Entry): void {
    const { sha256 } = entry.kept
    if (entries.get(sha256) === entry) entries.delete(sha256)
    // What cannot be taken off is offered again after a reload, and the server has it already.
    onShelf((it) => it.drop(sha256)).catch(() => undefined)
    tell()
  }

  function refuse(entry: Entry, sentence: string): void {
    entry.kept = { ...entry.kept, refused: sentence }
    void hold(entry)
  }

  function again(entry: Entry): void {
    if (entry.kept.refused === undefined) return
    const { refused: _, ...rest } = entry.kept
    entry.kept = rest
    entry.stage = 'to_send'
    void hold(entry)
    tell()
  }

  /** Not waited for by the next picture: the log may be out of reach while the bytes are not. */
  async function confirmAll(entry: Entry): Promise<void> {
    for (let fact = entry.kept.facts[0]; fact; fact = entry.kept.facts[0]) {
      const { photoId } = fact
      const against = await confirm(fact)
      if (against !== undefined) return refuse(entry, against)
      entry.kept = { ...entry.kept, facts: entry.kept.facts.filter((other) => other.photoId !== photoId) }
    }
    letGo(entry)
  }

  const next = () =>
    [...entries.values()].find(({ kept, stage }) => stage === 'to_send' && kept.refused === undefined)

  async function run(): Promise<void> {
    await loaded
    let waitMs = FIRST_WAIT_MS
    for (let entry = next(); entry; entry = next()) {
      const sent = await send(entry.kept).catch((): Sent => 'later')
      if (sent === 'later') {
        await Promise.race([wait(waitMs), new Promise<void>((resolve) => (hurry = resolve))])
        hurry = undefined
        waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS)
        continue
      }
      waitMs = FIRST_WAIT_MS
      if (sent !== 'stored') refuse(entry, sent.sentence)
      else {
        entry.stage = 'sent'
        void confirmAll(entry)
      }
    }
  }

  function wake(): void {
    hurry?.()
    if (running) return
    running = true
    void run().finally(() => {
      running = false
      if (next()) wake()
    })
  }

  return {
    add(kept) {
      const before = entries.get(kept.sha256)
      const entry: Entry = before ?? { kept, stage: 'to_send' }
      if (before) before.kept = { ...before.kept, facts: [...before.kept.facts, ...kept.facts] }
      entries.set(kept.sha256, entry)
      void hold(entry)
      tell()
      // The same picture taken again is the word to try it again.
      again(entry)
      wake()
    },
    wake,
    again(sha256) {
      const entry = entries.get(sha256)
      if (entry) again(entry)
      wake()
    },
    giveUp(sha256) {
      const entry = entries.get(sha256)
      if (entry?.kept.refused !== undefined) letGo(entry)
    },
    now() {
      const all = [...entries.values()]
      return {
        waiting: all.filter(({ kept }) => kept.refused === undefined).map(({ kept }) => kept),
        refused: all.flatMap(({ kept }) =>
          kept.refused === undefined ? [] : [{ ...kept, refused: kept.refused }],
        ),
        unheld: all.flatMap(({ unheld }) => (unheld ? [unheld] : [])),
      }
    },
    onChange(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}

const nameOf = (error: unknown): unknown => (error as { name?: unknown } | undefined)?.name

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))
