/**
 * Photos' bytes on their way to the server, in a queue apart from the commands.
 *
 * Kept under their hash until the server has said that it holds bytes of that hash and the log says that they
 * arrived; only then are they let go. What the server will never take stays here with its sentence until somebody
 * decides. A device that cannot keep them through a reload says so (`unheld`), and they are sent all the same.
 */
import type { QueuedCommand } from './outbox'
import { makeRetryQueue, memoryShelf, type Shelf, type Unheld } from './retry-queue'

/** What the log knows these bytes as. */
export interface PhotoFact {
  jobId: string
  photoId: string
  /** The entry that told the log, as it was first sent: said again after a reload, it can never count twice. */
  said?: QueuedCommand
}

export interface QueuedPhoto {
  sha256: string
  bytes: Blob
  /** The same picture may have been added twice. */
  facts: PhotoFact[]
  /** Why the server would not have it. */
  refused?: string
}

export type PhotoShelf = Shelf<QueuedPhoto>

const hashOf = ({ sha256 }: QueuedPhoto): string => sha256

export const memoryPhotoShelf = (): PhotoShelf => memoryShelf(hashOf)

/**
 * `later`: no signal, or signed out. `stuck`: the server is there and did not store them, which may be so for these bytes
 * alone. A sentence: these will never do.
 */
export type SendOutcome = 'stored' | 'later' | 'stuck' | { sentence: string }

export interface PhotosNow {
  waiting: readonly QueuedPhoto[]
  refused: readonly (QueuedPhoto & { refused: string })[]
  /** Photos that only this page holds, by why. */
  unheld: readonly Unheld[]
}

export interface PhotoQueue {
  add(photo: QueuedPhoto): void
  /** The link is up, or somebody signed in: go on now. */
  wake(): void
  /** Somebody put right what the server had against it. */
  retry(sha256: string): void
  /** Gives the bytes up for good; what the log says of the photo stays. */
  giveUp(sha256: string): void
  now(): PhotosNow
  onChange(listener: () => void): () => void
}

interface Options {
  send(photo: QueuedPhoto): Promise<SendOutcome>
  /** Tells the log that there is such a photo, in case that was lost with the page. */
  announce?(entry: QueuedCommand): void
  /** Tells the log that the bytes are there; the sentence when it will not hear of it. */
  confirm(fact: PhotoFact): Promise<string | undefined>
  shelf?: PhotoShelf | Promise<PhotoShelf>
  wait?(ms: number): Promise<void>
}

export function makePhotoQueue({ send, announce, confirm, shelf, wait }: Options): PhotoQueue {
  /** The server has the bytes; the log has yet to say so. */
  const stored = new Set<string>()

  const queue = makeRetryQueue<QueuedPhoto>({
    keyOf: hashOf,
    isDue: ({ sha256, refused }) => refused === undefined && !stored.has(sha256),
    async attempt(photo) {
      const outcome = await send(photo)
      if (outcome === 'later' || outcome === 'stuck') return outcome
      if (outcome !== 'stored') refuse(photo.sha256, outcome.sentence)
      else {
        stored.add(photo.sha256)
        void confirmAll(photo.sha256)
      }
      return 'done'
    },
    // The same picture taken again is the word to try it again.
    merge: ({ refused: _, ...earlier }, later) => ({ ...earlier, facts: [...earlier.facts, ...later.facts] }),
    onLoad(photos) {
      for (const { said } of photos.flatMap(({ facts }) => facts)) if (said) announce?.(said)
    },
    shelf: shelf ?? memoryPhotoShelf(),
    firstWaitMs: 1000,
    longestWaitMs: 30_000,
    wait,
  })

  function refuse(sha256: string, sentence: string): void {
    stored.delete(sha256)
    const photo = queue.get(sha256)
    if (photo) queue.replace({ ...photo, refused: sentence })
  }

  /** Not waited for by the next picture: the log may be out of reach while the bytes are not. */
  async function confirmAll(sha256: string): Promise<void> {
    for (let fact = queue.get(sha256)?.facts[0]; fact; ) {
      const { photoId } = fact
      const refusal = await confirm(fact)
      if (refusal !== undefined) return refuse(sha256, refusal)
      const photo = queue.get(sha256)
      const facts = photo?.facts.filter((other) => other.photoId !== photoId) ?? []
      if (photo && facts.length > 0) queue.replace({ ...photo, facts })
      fact = facts[0]
    }
    stored.delete(sha256)
    queue.remove(sha256)
  }

  return {
    add: queue.add,
    wake: queue.wake,
    retry(sha256) {
      const photo = queue.get(sha256)
      if (photo?.refused !== undefined) {
        const { refused: _, ...rest } = photo
        queue.replace(rest)
      }
      queue.wake()
    },
    giveUp(sha256) {
      if (queue.get(sha256)?.refused !== undefined) queue.remove(sha256)
    },
    now() {
      const photos = queue.entries()
      return {
        waiting: photos.filter(({ refused }) => refused === undefined),
        refused: photos.filter(
          (photo): photo is QueuedPhoto & { refused: string } => photo.refused !== undefined,
        ),
        unheld: queue.unheld(),
      }
    },
    onChange: queue.onChange,
  }
}
