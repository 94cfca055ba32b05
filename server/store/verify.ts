/**
 * Reads every stream of a log, one at a time, and says all that is wrong with its chains; what more `npm run verify` asks
 * stands in `server/proof/`.
 *
 * Every place of the log is given once, without gaps, so a stream that was taken out whole, with the
 * record of its end, still leaves its places missing. A release that is sound is told with the head it names: to
 * be compared with the paper, which nobody with the log alone can have written anew.
 */
import { headOfRelease } from '../../shared/chain'
import { ChainBroken } from './errors'
import type { EventStore, Recorded } from './port'

export interface Verified {
  streams: number
  /** Events whose chain holds. */
  events: number
  broken: ChainBroken[]
  /** Places of the log that no sound stream holds; counted only when every stream is sound. */
  missingPlaces: number
  /** Every release of a sound stream; `head` is that of the entries it covers, hashed anew just now. */
  releases: { stream: string; number: string; version: number; head: string }[]
}

/** `sound` is given each stream whose chain holds. */
export async function verifyLog(
  store: Pick<EventStore, 'streams' | 'read'>,
  sound: (stream: string, recorded: Recorded[]) => void = () => {},
): Promise<Verified> {
  const broken: ChainBroken[] = []
  const heads = await store.streams()
  const releases: Verified['releases'] = []
  let events = 0
  let lastSeq = 0
  for (const { stream } of heads) {
    try {
      const recorded = await store.read(stream)
      events += recorded.length
      for (const { version, event } of recorded) {
        const release = headOfRelease(event)
        if (release) releases.push({ stream, version: version - 1, ...release })
      }
      lastSeq = Math.max(lastSeq, recorded.at(-1)?.seq ?? 0)
      sound(stream, recorded)
    } catch (error) {
      if (!(error instanceof ChainBroken)) throw error
      broken.push(error)
    }
  }
  return {
    streams: heads.length,
    events,
    broken,
    missingPlaces: broken.length === 0 ? lastSeq - events : 0,
    releases,
  }
}
