/**
 * Reads every stream of a log and says all that is wrong with it; `npm run verify` prints this.
 *
 * Every place of the log is given once, without gaps, so a stream that was taken out whole, with the
 * record of its end, still leaves its places missing.
 */
import { ChainBroken } from './errors'
import type { EventStore } from './port'

export interface Verified {
  streams: number
  /** Events whose chain holds. */
  events: number
  broken: ChainBroken[]
  /** Places of the log that no sound stream holds; counted only when every stream is sound. */
  missingPlaces: number
}

export async function verifyLog(store: EventStore): Promise<Verified> {
  const broken: ChainBroken[] = []
  const heads = await store.streams()
  let events = 0
  let lastSeq = 0
  for (const { stream } of heads) {
    try {
      const recorded = await store.read(stream)
      events += recorded.length
      lastSeq = Math.max(lastSeq, recorded.at(-1)?.seq ?? 0)
    } catch (error) {
      if (!(error instanceof ChainBroken)) throw error
      broken.push(error)
    }
  }
  return { streams: heads.length, events, broken, missingPlaces: broken.length === 0 ? lastSeq - events : 0 }
}
