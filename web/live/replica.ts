/**
 * One job on this device: what the server confirmed, and on top of it what waits in the outbox for its answer.
 *
 * Plain values and functions, no framework. What is pending is derived from the outbox (`withQueue`), whenever it was
 * entered, and decided again on every new confirmed state with the rules the server runs. An answer acknowledges it
 * by command id, never by recognising events in the stream. Events that come too early lie in `buffered` until what
 * is missing arrives: a replica with something buffered asks again and never guesses.
 */
import type { JobCommand } from '../../shared/job/commands'
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { evolve, evolveAll, isKnownEvent, newJob } from '../../shared/job/evolve'
import type { Job } from '../../shared/job/types'
import { type Instant, isRefusal, type Refusal, type StreamEvent } from '../../shared/log'
import type { Answer, CommandHead } from '../../shared/protocol'
import type { Shop } from '../../shared/shop/types'
import { sameData } from '../ui/same'
import type { QueuedJobCommand } from './outbox'

export type JobStreamEvent = StreamEvent<JobEvent>

/** A command on its way: queued, or answered and its events not all here. */
export interface Pending extends QueuedJobCommand {
  /** The answer came; its events have not all arrived. */
  confirmedAt?: number
  /** The rules refuse it on the newest state; the server's answer will say. */
  doubted?: Refusal
  /** What it was last decided on and came to: while that stands below it, nothing is decided again. */
  prediction?: { on: Job; events: readonly JobEvent[]; after: Job }
}

export interface Replica {
  /** What a page shows. */
  job: Job
  confirmed: Job
  /** Whether the server has told us this job at all. */
  known: boolean
  /** What is pending is decided by it. */
  shop: Shop
  pending: readonly Pending[]
  /** Events whose predecessors are missing, by version. */
  buffered: ReadonlyMap<number, JobStreamEvent>
}

export type Confirmation = Extract<Answer, { ok: true }>

export function newReplica(jobId: string, shop: Shop): Replica {
  const empty = newJob(jobId)
  return { job: empty, confirmed: empty, known: false, shop, pending: [], buffered: new Map() }
}

/** The version from which on the server is to tell; none where only the state helps: unknown yet, or a newer build's event is next. */
export const haveOf = ({ known, buffered, confirmed }: Replica): number | undefined =>
  known && !buffered.has(confirmed.version + 1) ? confirmed.version : undefined

/** Something came, or was confirmed, before what precedes it: ask again with `confirmed.version`. */
export const hasGap = ({ buffered, pending, confirmed }: Replica): boolean =>
  buffered.size > 0 ||
  pending.some(({ confirmedAt }) => confirmedAt !== undefined && confirmedAt > confirmed.version)

/**
 * What this device cannot reckon is waited for: it has neither the bodies of a new job and of a plan, nor the hash
 * of the log that a release covers, nor a look at the server's photos.
 */
const UNPREDICTABLE: ReadonlySet<JobCommand['type']> = new Set([
  'OpenJob',
  'AdoptPlan',
  'Release',
  'ConfirmPhoto',
])

/** Of what was entered, all but the command’s own fields. */
type Entered = Pick<QueuedJobCommand, 'by' | 'sawVersion'> & { command: CommandHead & { doneAt: Instant } }

/** What a command is decided by, queued or only asked about: the person and the time it was entered under, and the shop of now. */
export function contextOf({ command, by, sawVersion }: Entered, shop: Shop): Context {
  const { commandId, doneAt, clockOffsetMs, grantId } = command
  return {
    shop,
    by,
    doneAt,
    ...(clockOffsetMs === undefined ? {} : { clockOffsetMs }),
    commandId,
    through: grantId === undefined ? 'sign_in' : 'grant',
    ...(sawVersion === undefined ? {} : { sawVersion }),
  }
}

/** The whole state, sent when that is shorter than what came after. */
export function receiveState(replica: Replica, state: Job): Replica {
  if (replica.known && state.version < replica.confirmed.version) return replica
  const { plan } = replica.confirmed
  // A job keeps the plan it adopted: the same object spares every drawing that hangs on it.
  const samePlan = plan && state.plan?.id === plan.id && state.plan.edition === plan.edition
  return advance({ ...replica, known: true }, samePlan ? { ...state, plan } : state, replica.buffered)
}

export function receiveEvents(replica: Replica, events: readonly JobStreamEvent[]): Replica {
  const buffered = new Map(replica.buffered)
  for (const event of events)
    if (event.version > replica.confirmed.version) buffered.set(event.version, event)
  return advance({ ...replica, known: replica.known || buffered.has(1) }, replica.confirmed, buffered)
}

/** What waits in the outbox for this job now, in its order. Whatever left it unconfirmed comes off the job. */
export function withQueue(replica: Replica, queue: readonly QueuedJobCommand[]): Replica {
  const before = new Map(replica.pending.map((entry) => [entry.command.commandId, entry]))
  const queuedEntries = queue.map((entry): Pending => before.get(entry.command.commandId) ?? entry)
  const confirmedEntries = replica.pending.filter(
    (entry) => entry.confirmedAt !== undefined && !queuedEntries.includes(entry),
  )
  const pending = [...confirmedEntries, ...queuedEntries]
  const same =
    pending.length === replica.pending.length &&
    pending.every((entry, index) => entry === replica.pending[index])
  return same ? replica : rebase({ ...replica, pending })
}

/** The server confirmed a command of this device. Its events may come before those of others that precede them. */
export function acknowledge(replica: Replica, commandId: string, answer: Confirmation): Replica {
  const events = answer.events as JobStreamEvent[]
  const entry = replica.pending.find(({ command }) => command.commandId === commandId)
  const confirmed = confirmPrediction(replica, entry, events)
  if (confirmed) return confirmed
  const pending = replica.pending.map((other) =>
    other === entry ? { ...other, confirmedAt: answer.version } : other,
  )
  return receiveEvents({ ...replica, pending }, events)
}

/** The shop changed: what is pending is decided by the new one. */
export function withShop(replica: Replica, shop: Shop): Replica {
  if (shop === replica.shop) return replica
  const pending = replica.pending.map(({ prediction: _, ...entry }): Pending => entry)
  return rebase({ ...replica, shop, pending })
}

/**
 * The oldest entry was confirmed word for word: what is on the screen becomes the confirmed state, the very same
 * objects, and nothing above it is decided again.
 */
function confirmPrediction(
  replica: Replica,
  entry: Pending | undefined,
  events: readonly JobStreamEvent[],
): Replica | undefined {
  const prediction = entry?.prediction
  if (!prediction || entry !== replica.pending[0] || prediction.on !== replica.confirmed) return undefined
  const inTurn = events.every(({ version }, index) => version === prediction.on.version + index + 1)
  // The store has its own order of keys.
  const alike = sameData(
    events.map(({ event }) => event),
    prediction.events,
  )
  if (!inTurn || !alike) return undefined
  return advance(
    { ...replica, confirmed: prediction.after, pending: replica.pending.slice(1) },
    prediction.after,
    replica.buffered,
  )
}

/** Takes in, one by one, whatever follows the confirmed version. */
function advance(replica: Replica, from: Job, waiting: ReadonlyMap<number, JobStreamEvent>): Replica {
  let confirmed = from
  const buffered = new Map(waiting)
  for (const version of [...buffered.keys()].sort((a, b) => a - b)) {
    const next = buffered.get(version)
    if (version > confirmed.version + 1 || !next) break
    if (version === confirmed.version + 1 && !isKnownEvent(next.event)) break
    buffered.delete(version)
    if (version === confirmed.version + 1) confirmed = evolve(confirmed, next.event)
  }
  const pending = replica.pending.filter(
    ({ confirmedAt }) => confirmedAt === undefined || confirmedAt > confirmed.version,
  )
  if (confirmed === replica.confirmed && pending.length === replica.pending.length)
    return { ...replica, pending, buffered }
  return rebase({ ...replica, confirmed, pending, buffered })
}

function rebase(replica: Replica): Replica {
  // Before the server has told the job there is nothing to decide on.
  if (!replica.known) return { ...replica, job: replica.confirmed }
  let job = replica.confirmed
  const pending = replica.pending.map((entry): Pending => {
    if (UNPREDICTABLE.has(entry.command.type)) return entry
    if (entry.prediction?.on === job) {
      job = entry.prediction.after
      return entry
    }
    const { doubted: _, prediction: __, ...rest } = entry
    const outcome = decide(job, entry.command, contextOf(entry, replica.shop))
    if (isRefusal(outcome)) return { ...rest, doubted: outcome }
    const prediction = { on: job, events: outcome, after: evolveAll(job, outcome) }
    job = prediction.after
    return { ...rest, prediction }
  })
  return { ...replica, job, pending }
}
