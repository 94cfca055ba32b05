/** What a watcher is given first: what came after the version it has, or the state where that is shorter. */
import type { Job } from '../../shared/job/types'
import type { StreamEvent } from '../../shared/log'
import type { Packed, Room, Watched } from '../../shared/protocol'
import type { Shop } from '../../shared/shop/types'
import { type AnyEvent, type Desk, jobStream, type StreamName } from '../desk'
import { eventWithoutPlanBody, withoutPlanBodies } from '../plan-bodies'

/** Below this many events nobody counts bytes. */
const FEW = 20

/** How an answer goes out: as it is, or packed. `of` is the state it is of. */
export interface Packing {
  kept(of: object, answer: { now: number }): Sent | undefined
  make(of: object, answer: Watched, atOnce: boolean): Promise<Sent>
}

export interface Sent {
  answer: Watched | Packed
  /** In coins, see `purse.ts`. */
  cost: number
}

export const PLAIN: Packing = {
  kept: () => undefined,
  make: async (_, answer) => ({ answer, cost: 0 }),
}

/** So often it is packed off the main path, and in vain where something is written meanwhile. */
export const PATIENCE = 3

/**
 * `join` is called without a pause after the state was looked at for the last time, so that no event falls between what is
 * given here and what is broadcast from then on [WI7]. `undefined`: no such job.
 */
export async function initialSync(
  desk: Desk,
  stream: StreamName,
  have: number | undefined,
  given: { now: () => number; epoch: string; join: () => void; packing?: Packing },
): Promise<Sent | undefined> {
  const { now, epoch, join, packing = PLAIN } = given
  for (let turn = 1; ; turn++) {
    const fold = stream === 'shop' ? await desk.shop() : await desk.job(stream.slice('job:'.length))
    if (!fold) return undefined
    const kept = desk.peek(stream) === fold ? packing.kept(fold, { now: now() }) : undefined
    if (kept) {
      join()
      return kept
    }
    const missed =
      have === undefined || have > fold.version ? undefined : await eventsMissed(desk, stream, have, fold)
    const head = await desk.head(stream)
    // Something was written while the log was read: look again.
    if (desk.peek(stream) !== fold) continue
    // Of another version it is not this one's: of an entry that is told in a moment, or damaged on the disk.
    const ofLog = { now: now(), epoch, ...(head?.version === fold.version ? { head: head.hash } : {}) }
    const room = stream as Room
    const answer: Watched =
      missed && have !== undefined
        ? {
            ok: true,
            room,
            from: have,
            events: missed as Extract<Watched, { from: number }>['events'],
            ...ofLog,
          }
        : { ok: true, room, state: stateSent(stream, fold), ...ofLog }
    const sent = await packing.make(fold, answer, turn > PATIENCE)
    // Or while it was packed.
    if (desk.peek(stream) !== fold) continue
    join()
    return sent
  }
}

async function eventsMissed(desk: Desk, stream: StreamName, have: number, fold: Job | Shop) {
  if (have === fold.version) return []
  const events = await desk.eventsAfter(stream, have)
  const thin = stream === 'shop' ? events.map(eventWithoutPlanBody) : events
  if (thin.length <= FEW && !thin.some(({ event }) => event.type === 'PlanAdopted')) return thin
  return sizeOf(thin) <= sizeOf(stateSent(stream, fold)) ? thin : undefined
}

const stateSent = (stream: StreamName, fold: Job | Shop): Job | Shop =>
  stream === 'shop' ? withoutPlanBodies(fold as Shop) : fold

const sizeOf = (message: StreamEvent<AnyEvent>[] | Job | Shop): number => JSON.stringify(message).length

export const streamOf = (room: Exclude<Room, 'board'>): StreamName =>
  room === 'shop' ? 'shop' : jobStream(room.slice('job:'.length))
