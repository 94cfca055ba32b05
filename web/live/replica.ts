/**
 * One job on this device: what the server confirmed, and on top of it what is still waiting for its answer.
 *
 * Plain values and functions, no framework. Pending commands are re-decided on every new confirmed state with the
 * rules the server runs; an answer settles them by command id, never by recognising events in the stream. A refused
 * one is kept with its sentence and with what was entered until somebody dismisses it. Events that come too early
 * lie in `ahead` until what is missing arrives: a replica with something ahead asks again and never guesses.
 */
import type { Context } from '../../shared/job/context'
import { decide } from '../../shared/job/decide'
import { evolve, evolveAll, newJob } from '../../shared/job/evolve'
import type { Job, JobCommand, JobEvent } from '../../shared/job/types'
import { isRefusal, type Refusal, type StreamEvent } from '../../shared/log'
import type { Answer, Fault } from '../../shared/protocol'

export type JobStreamEvent = StreamEvent<JobEvent>

/** A command on its way, with what it is decided by here. */
export interface Pending {
  command: JobCommand
  context: Context
  /** The answer came; its events have not all arrived. */
  confirmedAt?: number
  /** The rules refuse it on the newest state; the server's answer will say. */
  doubted?: Refusal
  /** What it was last decided on and came to: while that stands below it, nothing is decided again. */
  drawn?: { on: Job; events: readonly JobEvent[]; after: Job }
}

export interface RefusedEntry {
  id: string
  command: JobCommand
  code: string
  sentence: string
}

export interface Replica {
  /** What a page shows. */
  job: Job
  confirmed: Job
  /** Whether the server has told us this job at all. */
  known: boolean
  pending: readonly Pending[]
  refused: readonly RefusedEntry[]
  /** Events whose predecessors are missing, by version. */
  ahead: ReadonlyMap<number, JobStreamEvent>
}

export function newReplica(jobId: string): Replica {
  const empty = newJob(jobId)
  return { job: empty, confirmed: empty, known: false, pending: [], refused: [], ahead: new Map() }
}

/** Something came, or was confirmed, before what precedes it: ask again with `confirmed.version`. */
export const hasGap = ({ ahead, pending, confirmed }: Replica): boolean =>
  ahead.size > 0 ||
  pending.some(({ confirmedAt }) => confirmedAt !== undefined && confirmedAt > confirmed.version)

/**
 * What this device cannot reckon is waited for: it has neither the bodies of a new job and of a plan, nor the hash
 * of the log that a release covers.
 */
const canPredict = ({ type }: JobCommand): boolean =>
  type !== 'OpenJob' && type !== 'AdoptPlan' && type !== 'Release'

/** The whole state, sent when that is shorter than what came after. */
export function receiveState(replica: Replica, state: Job): Replica {
  if (replica.known && state.version < replica.confirmed.version) return replica
  const { plan } = replica.confirmed
  // A job keeps the plan it adopted: the same object spares every drawing that hangs on it.
  const samePlan = plan && state.plan?.id === plan.id && state.plan.edition === plan.edition
  return advance({ ...replica, known: true }, samePlan ? { ...state, plan } : state, replica.ahead)
}

export function receiveEvents(replica: Replica, events: readonly JobStreamEvent[]): Replica {
  const ahead = new Map(replica.ahead)
  for (const event of events) if (event.version > replica.confirmed.version) ahead.set(event.version, event)
  return advance({ ...replica, known: replica.known || ahead.has(1) }, replica.confirmed, ahead)
}

export function addPending(replica: Replica, command: JobCommand, context: Context): Replica {
  if (replica.pending.some((one) => one.context.commandId === context.commandId)) return replica
  return onTop({ ...replica, pending: [...replica.pending, { command, context }] })
}

/** The answer to a command of this device. Its events may come before those of others that precede them. */
export function settle(replica: Replica, commandId: string, answer: Answer | Fault): Replica {
  const one = replica.pending.find((pending) => pending.context.commandId === commandId)
  if (answer.ok) {
    const foreseen = asForeseen(replica, one, answer.events as JobStreamEvent[])
    if (foreseen) return foreseen
    const pending = replica.pending.map((each) =>
      each === one ? { ...each, confirmedAt: answer.version } : each,
    )
    return receiveEvents({ ...replica, pending }, answer.events as JobStreamEvent[])
  }
  if (!one) return replica
  const { code, sentence } = answer
  return onTop({
    ...replica,
    pending: replica.pending.filter((each) => each !== one),
    refused: [...replica.refused, { id: commandId, command: one.command, code, sentence }],
  })
}

export function dismiss(replica: Replica, commandId: string): Replica {
  return { ...replica, refused: replica.refused.filter((entry) => entry.id !== commandId) }
}

/** The shop changed: what is pending is decided by the new one. */
export function withShop(replica: Replica, shop: Context['shop']): Replica {
  if (replica.pending.length === 0) return replica
  return onTop({
    ...replica,
    pending: replica.pending.map(({ drawn: _, ...one }) => ({ ...one, context: { ...one.context, shop } })),
  })
}

/**
 * The oldest entry was confirmed word for word: what is on the screen becomes the confirmed state, the very same
 * objects, and nothing above it is decided again.
 */
function asForeseen(
  replica: Replica,
  one: Pending | undefined,
  events: readonly JobStreamEvent[],
): Replica | undefined {
  const drawn = one?.drawn
  if (!drawn || one !== replica.pending[0] || drawn.on !== replica.confirmed) return undefined
  const inTurn = events.every(({ version }, index) => version === drawn.on.version + index + 1)
  const alike = sameData(
    events.map(({ event }) => event),
    drawn.events,
  )
  if (!inTurn || !alike) return undefined
  return advance(
    { ...replica, confirmed: drawn.after, pending: replica.pending.slice(1) },
    drawn.after,
    replica.ahead,
  )
}

/** Takes in, one by one, whatever follows the confirmed version. */
function advance(replica: Replica, from: Job, waiting: ReadonlyMap<number, JobStreamEvent>): Replica {
  let confirmed = from
  const ahead = new Map(waiting)
  for (const version of [...ahead.keys()].sort((a, b) => a - b)) {
    const next = ahead.get(version)
    if (version > confirmed.version + 1 || !next) break
    ahead.delete(version)
    if (version === confirmed.version + 1) confirmed = evolve(confirmed, next.event)
  }
  const pending = replica.pending.filter(
    ({ confirmedAt }) => confirmedAt === undefined || confirmedAt > confirmed.version,
  )
  if (confirmed === replica.confirmed && pending.length === replica.pending.length)
    return { ...replica, pending, ahead }
  return onTop({ ...replica, confirmed, pending, ahead })
}

function onTop(replica: Replica): Replica {
  let job = replica.confirmed
  const pending = replica.pending.map((one): Pending => {
    if (!canPredict(one.command)) return one
    if (one.drawn?.on === job) {
      job = one.drawn.after
      return one
    }
    const { doubted: _, drawn: __, ...rest } = one
    const outcome = decide(job, one.command, one.context)
    if (isRefusal(outcome)) return { ...rest, doubted: outcome }
    const drawn = { on: job, events: outcome, after: evolveAll(job, outcome) }
    job = drawn.after
    return { ...rest, drawn }
  })
  return { ...replica, job, pending }
}

/** Equal as plain data, whatever the order of the keys: the store has its own. */
function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b || Array.isArray(a) !== Array.isArray(b))
    return false
  const keys = Object.keys({ ...a, ...b })
  return keys.every((key) =>
    sameData((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  )
}
