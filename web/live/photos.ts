/** The one queue of photos of this device, for the shop it is signed in to; see `photo-queue.ts`. */
import { createSignal } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import type { NewPhoto } from '../../shared/job/types'
import type { Link } from './link'
import type { Outbox } from './outbox'
import { makePhotoQueue, type PhotosNow, type QueuedPhoto, type SendOutcome } from './photo-queue'
import { openPhotoShelf } from './photo-shelf'
import type { Sender } from './sender'
import { isOwnShop, type Session } from './session'
import type { PreparedPhoto } from './take-photo'

/** Where a photo belongs: the step, the gate and place it answers. */
export type PhotoTarget = Pick<NewPhoto, 'stepId' | 'gateId' | 'place'>

export interface Photos {
  now(): PhotosNow
  /** The fact first: the log knows of it even if this device is switched off before the bytes are gone. */
  add(
    jobId: string,
    prepared: PreparedPhoto,
    target: PhotoTarget,
    sendCommand: (command: JobCommand) => void,
  ): void
  retry(sha256: string): void
  giveUp(sha256: string): void
}

interface Parts {
  session: Session
  link: Link
  outbox: Outbox
  sender: Sender
}

const LONGEST_SEND_MS = 120_000

export function makePhotos({ session, link, outbox, sender }: Parts): Photos {
  const queue = makePhotoQueue({
    async send(photo) {
      const there = link.state() === 'live' && session.signInId() !== undefined && (await isOwnShop(session))
      return there ? putBytes(photo).catch(() => (link.state() === 'live' ? 'stuck' : 'later')) : 'later'
    },
    announce: (entry) => {
      if (!outbox.entries().some(({ command }) => command.commandId === entry.command.commandId))
        void outbox.add(entry)
    },
    async confirm({ jobId, photoId }) {
      const answer = await sender.sendToJob(
        jobId,
        { type: 'ConfirmPhoto', photoId },
        { explains: () => true },
      )
      return answer.ok ? undefined : answer.sentence
    },
    shelf: session.shopKnown.then(openPhotoShelf),
  })
  const [now, setNow] = createSignal(queue.now())
  queue.onChange(() => setNow(queue.now()))
  link.onUp(queue.wake)
  return {
    now,
    add(jobId, { photo, bytes }, target, sendCommand) {
      sendCommand({ type: 'AddPhoto', photo: { ...photo, ...target } })
      const entry = outbox
        .entries()
        .find(({ command }) => command.type === 'AddPhoto' && command.photo.id === photo.id)
      queue.add({
        sha256: photo.sha256,
        bytes,
        facts: [{ jobId, photoId: photo.id, ...(entry ? { said: entry } : {}) }],
      })
    },
    retry: queue.retry,
    giveUp: queue.giveUp,
  }
}

/** Faults that pass by themselves: signed out, too many at once, or the server itself. */
export function outcomeOf(
  status: number,
  sha256: string,
  content: { sentence?: unknown; sha256?: unknown },
): SendOutcome {
  // Whatever else answers on this network with a friendly page has not stored the photo.
  if (status < 300) return content.sha256 === sha256 ? 'stored' : 'later'
  if (status >= 500) return 'stuck'
  if (status === 401 || status === 429) return 'later'
  return {
    sentence: typeof content.sentence === 'string' ? content.sentence : `The server answered ${status}.`,
  }
}

async function putBytes({ sha256, bytes }: Pick<QueuedPhoto, 'sha256' | 'bytes'>): Promise<SendOutcome> {
  const answer = await fetch(`/api/photos/${sha256}`, {
    method: 'PUT',
    credentials: 'same-origin',
    headers: { 'content-type': bytes.type },
    body: bytes,
    signal: AbortSignal.timeout(LONGEST_SEND_MS),
  })
  return outcomeOf(answer.status, sha256, await answer.json().catch(() => ({})))
}

/** A picture that belongs to no job: sent at once, with what stands in the way if it does not arrive. */
export async function sendPhoto(sha256: string, bytes: Blob): Promise<string | undefined> {
  try {
    const outcome = await putBytes({ sha256, bytes })
    if (outcome === 'stored') return undefined
    if (outcome === 'stuck') return NOT_STORED
    return outcome === 'later' ? NO_SIGNAL : outcome.sentence
  } catch {
    return NO_SIGNAL
  }
}
const NO_SIGNAL = 'No signal: the photo was not sent. Try again when the connection is back.'
const NOT_STORED =
  'The server could not store the photo. Try again; if it stays so, tell whoever keeps the server.'
