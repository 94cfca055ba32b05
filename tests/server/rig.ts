/** A desk over the yard of `tests/shop`, on a clock that stands still, with all that it told. */
import { v7 } from 'uuid'
import {
  type After,
  type Budget,
  bodyHash,
  openDesk,
  type Reply,
  type StreamName,
  type Submission,
} from '../../server/desk'
import { type EventStore, memoryEventStore } from '../../server/store'
import type { JobCommand } from '../../shared/job/commands'
import type { JobSummary } from '../../shared/job/summary'
import type { ShopCommand } from '../../shared/shop/types'
import { silent } from '../shop/silent'
import { openJob, openShop } from '../shop/yard'

export const NOON = Date.UTC(2026, 5, 2, 12)

/** Time that passes only when a test says so: whatever is set for then is called, moment by moment. */
export function byHand(now: () => number, ahead: (ms: number) => void) {
  const waiting = new Set<{ at: number; call: () => void }>()
  const after: After = (ms, call) => {
    const timer = { at: now() + ms, call }
    waiting.add(timer)
    return () => waiting.delete(timer)
  }
  return {
    after,
    waiting,
    async pass(ms: number) {
      const end = now() + ms
      for (;;) {
        const [next] = [...waiting].filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)
        if (!next) break
        waiting.delete(next)
        ahead(Math.max(0, next.at - now()))
        next.call()
        // What it sets going reads from a store: a turn of the event loop or two.
        for (let turns = 0; turns < 3; turns++) await new Promise((resolve) => setImmediate(resolve))
      }
      ahead(Math.max(0, end - now()))
    },
  }
}

export type Notice =
  | { events: string; from: number; types: string[]; sender?: string }
  | { summary: string; version: number; reason: string }
  | { answered: string; ok: boolean }

export async function makeRig({
  store = memoryEventStore(),
  budget,
  after,
}: {
  store?: EventStore
  budget?: Budget
  after?: (clock: { now: number }) => After
} = {}) {
  const notices: Notice[] = []
  const errors: object[] = []
  const clock = { now: NOON }
  const desk = await openDesk({
    store,
    now: () => clock.now,
    newId: () => v7(),
    log: { ...silent, error: (data) => errors.push(data) },
    ...(budget ? { budget } : {}),
    ...(after ? { after: after(clock) } : {}),
    publish: {
      events: (room, from, events, sender) =>
        notices.push({ events: room, from, types: events.map(({ event }) => event.type), sender }),
      summary: (summary: JobSummary) =>
        notices.push({ summary: summary.id, version: summary.version, reason: summary.reason.code }),
    },
  })

  /** As it stands on the wire: what is given here is hashed. */
  function submission(
    stream: StreamName,
    by: string,
    command: JobCommand | ShopCommand,
    rest: { commandId?: string; doneAt?: number; clockOffsetMs?: number; sender?: string; saw?: number } = {},
  ): Submission {
    const { commandId = v7(), doneAt, clockOffsetMs, sender, saw } = rest
    const sent = {
      ...command,
      commandId,
      ...(doneAt === undefined ? {} : { doneAt }),
      ...(clockOffsetMs === undefined ? {} : { clockOffsetMs }),
    }
    return {
      stream,
      command: sent,
      bodyHash: bodyHash(stream, sent),
      asker: {
        person: by,
        through: saw === undefined ? 'sign_in' : 'grant',
        ...(saw === undefined ? {} : { sawVersion: saw }),
      },
      receivedAt: clock.now,
      sender,
      reply: (answer) => notices.push({ answered: commandId, ok: answer.ok }),
    }
  }
  const send = (...sent: Parameters<typeof submission>): Promise<Reply> => desk.submit(submission(...sent))

  async function opened() {
    for (const command of openShop) await must(send('shop', 'ana', command))
    for (const command of openJob()) await must(send('job:j1', 'ana', command))
    notices.length = 0
  }
  return { desk, store, notices, errors, clock, send, submission, opened }
}

export async function must(reply: Promise<Reply>): Promise<Extract<Reply, { ok: true }>> {
  const answer = await reply
  if (!answer.ok) throw new Error(answer.sentence)
  return answer
}
