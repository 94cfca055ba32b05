/**
 * The two kinds of stream behind one face, so that the desk treats a job and the shop alike.
 *
 * A stream is called `shop` or `job:<id>`; so is its room on the wire.
 */

import type { JobCommand } from '../../shared/job/commands'
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolve, newJob } from '../../shared/job/evolve'
import { sentenceFor } from '../../shared/job/refusals'
import type { Job } from '../../shared/job/types'
import { liftJobEvent } from '../../shared/job/upcast'
import type { Refusal, StreamEvent } from '../../shared/log'
import type { Refused } from '../../shared/protocol'
import { decideShop } from '../../shared/shop/decide'
import { evolveShop, newShop } from '../../shared/shop/evolve'
import { shopSentenceFor } from '../../shared/shop/refusals'
import type { PinCommand, Shop, ShopCommand, ShopEvent } from '../../shared/shop/types'
import { liftShopEvent } from '../../shared/shop/upcast'
import type { Words } from '../../shared/words'
import { format } from '../format'
import type { Recorded } from '../store'

export type JobStream = `job:${string}`
export type StreamName = 'shop' | JobStream
export type AnyEvent = JobEvent | ShopEvent
export type Fold = Job | Shop

/** Ids are chosen where a job is opened; these travel in addresses and file names unharmed. */
export const JOB_ID = /^[A-Za-z0-9_-]{1,64}$/

export const jobStream = (jobId: string): JobStream => `job:${jobId}`
export const jobIdOf = (stream: JobStream): string => stream.slice('job:'.length)

export function asStreamName(name: string): StreamName | undefined {
  if (name === 'shop') return 'shop'
  return name.startsWith('job:') && JOB_ID.test(name.slice('job:'.length)) ? (name as JobStream) : undefined
}

export const emptyFold = (stream: StreamName): Fold =>
  stream === 'shop' ? newShop() : newJob(jobIdOf(stream))

export function foldOn(stream: StreamName, fold: Fold, events: readonly AnyEvent[]): Fold {
  return stream === 'shop'
    ? (events as ShopEvent[]).reduce(evolveShop, fold as Shop)
    : (events as JobEvent[]).reduce(evolve, fold as Job)
}

export function decideOn(
  stream: StreamName,
  fold: Fold,
  command: JobCommand | ShopCommand | PinCommand,
  context: Context,
): AnyEvent[] | Refusal {
  if (stream !== 'shop') return decide(fold as Job, command as JobCommand, context)
  const { by, doneAt, clockOffsetMs, bytesHere, withPin } = context
  return decideShop(fold as Shop, command as ShopCommand | PinCommand, {
    by,
    doneAt,
    clockOffsetMs,
    bytesHere,
    withPin,
    figures: format,
  })
}

/** A row of the log as everybody beyond the store sees it, in today's shape. */
export function upcast({ stream, version, recordedAt, event }: Recorded): StreamEvent<AnyEvent> {
  const now = stream === 'shop' ? liftShopEvent(event) : liftJobEvent(event)
  if (now) return { version, recordedAt, event: now }
  throw new Error(
    `Stream "${stream}" holds "${event.type}" at version ${version}, which this program does not know. ` +
      'The log was written by a newer version of Paintmark; start that one.',
  )
}

/** Refusals that only a server can give: they are about the asking, not about the engine. */
const OWN_SENTENCES: Record<string, string> = {
  grant_not_valid:
    'This PIN was given for another step, was used already, or is more than three minutes old. ' +
    'Ask the second person to look and give it again.',
  command_id_reused:
    'Another entry was made under this id before. Make the entry again, so that it gets an id of its own.',
}

/** A refusal with its sentence, as it travels and is kept. */
export function inWords(refusal: Refusal, words: Words): Refused {
  const { refused: code, data } = refusal
  const sentence = OWN_SENTENCES[code] ?? shopSentenceFor(refusal) ?? sentenceFor(refusal, words)
  return { ok: false, code, data, sentence }
}
