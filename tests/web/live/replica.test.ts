/** A replica shows what was entered at once, believes only the server, and loses nothing in between. */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import type { Context } from '../../../shared/job/context'
import type { Job } from '../../../shared/job/types'
import type { Answer, Fault } from '../../../shared/protocol'
import {
  acknowledge,
  contextOf,
  hasGap,
  haveOf,
  newReplica,
  type Replica,
  receiveEvents,
  receiveState,
  withQueue,
  withShop,
} from '../../../web/live/replica'
import { testShop } from '../../shop/shop'
import { claim, openServer, queued, reading } from './one-job'

function openBench() {
  const server = openServer()
  const replica = receiveState(newReplica('j1', testShop), server.job())
  return { server, replica }
}

type Server = ReturnType<typeof openServer>

const add = (replica: Replica, command: JobCommand, context: Context): Replica =>
  withQueue(replica, [...replica.pending, queued(command, context)])

/** Enters a command here; answers with what the server would say to it, and when. */
function enter(replica: Replica, server: Server, by: string, command: JobCommand) {
  const context = server.context(by)
  return {
    replica: add(replica, command, context),
    id: context.commandId,
    reach: () => server.submit(command, context),
  }
}

/** What the outbox does with an answer: it acknowledges, then the entry leaves the queue. */
function deliver(replica: Replica, commandId: string, answer: Answer | Fault): Replica {
  const now = answer.ok ? acknowledge(replica, commandId, answer) : replica
  return withQueue(
    now,
    now.pending.filter((entry) => entry.command.commandId !== commandId && entry.confirmedAt === undefined),
  )
}

describe('what is pending lies on top', () => {
  test('a claim shows at once and the confirmed job does not know it', () => {
    const { server, replica } = openBench()
    const { replica: now } = enter(replica, server, 'ana', claim())
    expect(now.job.steps.caps?.claim?.by).toBe('ana')
    expect(now.confirmed.steps.caps?.claim).toBeUndefined()
    expect(now.pending).toHaveLength(1)
  })

  test('entries lie in their order, each decided on those before it', () => {
    const { server, replica } = openBench()
    let now = enter(replica, server, 'ana', claim()).replica
    for (const position of [2, 1]) now = enter(now, server, 'ana', reading(position)).replica
    expect(now.job.readings.JC?.map(({ position }) => position)).toEqual([2, 1])
    expect(now.job.readings.JC?.every(({ flags }) => !flags.includes('not_claimed'))).toBe(true)
  })

  test('they are decided again when somebody else was first', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', claim())
    server.submit(claim(), server.context('bo'))
    const now = receiveEvents(mine.replica, server.after(2))
    expect(now.job.steps.caps?.claim?.by).toBe('bo')
    expect(now.pending[0]?.doubted?.refused).toBe('already_claimed')
  })

  test('adopting a plan is not shown before the server has said it', () => {
    const server = openServer()
    const opened = receiveEvents(newReplica('j1', testShop), server.after(0).slice(0, 1))
    const now = add(opened, { type: 'AdoptPlan', planId: 'test-engine', edition: 1 }, server.context('dee'))
    expect(now.job.plan).toBeUndefined()
    expect(now.pending).toHaveLength(1)
  })

  test('a second entry leaves the first as the very same object, and its confirmation too', () => {
    const { server, replica } = openBench()
    const first = enter(replica, server, 'ana', reading(2))
    const shown = first.replica.job.readings.JC?.[0]
    const second = enter(first.replica, server, 'ana', reading(1))
    expect(second.replica.job.readings.JC?.[0]).toBe(shown)
    // The store has its own order of keys; the answer travels as JSON.
    const answer = JSON.parse(JSON.stringify(first.reach()), (_, value) =>
      value && typeof value === 'object' && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).toReversed())
        : value,
    ) as Answer
    const now = deliver(second.replica, first.id, answer)
    expect(now.confirmed).toEqual(server.job())
    expect(now.job.readings.JC?.[0]).toBe(shown)
    expect(now.job.readings.JC).toHaveLength(2)
    expect(now.pending).toHaveLength(1)
  })

  test('an answer other than foreseen is the one that counts', () => {
    const { server, replica } = openBench()
    server.submit(claim(), server.context('ana'))
    const mine = enter(replica, server, 'ana', reading(2))
    expect(mine.replica.job.readings.JC?.[0]?.flags).toContain('not_claimed')
    const answered = receiveEvents(deliver(mine.replica, mine.id, mine.reach()), server.after(2))
    expect(answered.job.readings.JC?.[0]?.flags).not.toContain('not_claimed')
    expect(answered.job).toEqual(server.job())
  })
})

describe('the answer acknowledges it', () => {
  test('confirmed: the entry leaves the pending ones and stays on the job, once', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const now = deliver(mine.replica, mine.id, mine.reach())
    expect(now.pending).toEqual([])
    expect(now.confirmed.readings.JC).toHaveLength(1)
    expect(now.job).toEqual(server.job())
  })

  test('the broadcast after the answer adds nothing', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const answered = deliver(mine.replica, mine.id, mine.reach())
    expect(receiveEvents(answered, server.after(2)).job).toBe(answered.job)
  })

  test('a broadcast before the answer adds nothing either', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const answer = mine.reach()
    const now = deliver(receiveEvents(mine.replica, server.after(2)), mine.id, answer)
    expect(now.pending).toEqual([])
    expect(now.job).toEqual(server.job())
  })

  test('a resend that gets its first answer again changes nothing', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const once = deliver(mine.replica, mine.id, mine.reach())
    const twice = deliver(once, mine.id, mine.reach())
    expect(twice.job).toEqual(once.job)
    expect(twice.confirmed.readings.JC).toHaveLength(1)
  })

  test('a second tap that had nothing to do is acknowledged too', () => {
    const { server, replica } = openBench()
    const first = enter(replica, server, 'ana', claim())
    const one = deliver(first.replica, first.id, first.reach())
    const second = enter(one, server, 'ana', claim())
    expect(deliver(second.replica, second.id, second.reach()).pending).toEqual([])
  })

  test('refused: it comes off the job, and what lay on it is decided without it', () => {
    const { server, replica } = openBench()
    server.submit(claim(), server.context('bo'))
    const mine = enter(replica, server, 'ana', claim())
    const after = enter(mine.replica, server, 'ana', reading(2))
    expect(after.replica.job.steps.caps?.claim?.by).toBe('ana')
    expect(after.replica.job.readings.JC?.[0]?.flags).not.toContain('not_claimed')
    const now = deliver(after.replica, mine.id, mine.reach())
    expect(now.job.steps.caps?.claim).toBeUndefined()
    expect(now.pending.map(({ command }) => command.commandId)).toEqual([after.id])
    expect(now.job.readings.JC?.[0]?.flags).toContain('not_claimed')
  })

  test('a fault in the message takes it off the same way', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const now = deliver(mine.replica, mine.id, { ok: false, code: 'bad_message', sentence: 'Not readable.' })
    expect(now.pending).toEqual([])
    expect(now.job).toBe(replica.confirmed)
  })
})

describe('a gap is asked about, never guessed', () => {
  test('an event that comes too early waits and shows as a gap', () => {
    const { server, replica } = openBench()
    server.submit(claim(), server.context('ana'))
    server.submit(reading(2), server.context('ana'))
    const now = receiveEvents(replica, server.after(3))
    expect(hasGap(now)).toBe(true)
    expect(now.job).toBe(replica.job)
    const healed = receiveEvents(now, server.after(2).slice(0, 1))
    expect(hasGap(healed)).toBe(false)
    expect(healed.job).toEqual(server.job())
  })

  test('an answer ahead of others’ events keeps the entry on top until they have come', () => {
    const { server, replica } = openBench()
    server.submit(reading(1), server.context('bo'))
    const mine = enter(replica, server, 'ana', reading(2))
    const answered = deliver(mine.replica, mine.id, mine.reach())
    expect(hasGap(answered)).toBe(true)
    expect(answered.confirmed.version).toBe(2)
    expect(answered.job.readings.JC?.map(({ position }) => position)).toEqual([2])
    const healed = receiveEvents(answered, server.after(2).slice(0, 1))
    expect(healed.pending).toEqual([])
    expect(hasGap(healed)).toBe(false)
    expect(healed.job).toEqual(server.job())
  })

  test('the whole state heals it as well, and makes what waited superfluous', () => {
    const { server, replica } = openBench()
    server.submit(claim(), server.context('ana'))
    server.submit(reading(2), server.context('ana'))
    const now = receiveState(receiveEvents(replica, server.after(3)), server.job())
    expect(hasGap(now)).toBe(false)
    expect(now.job).toEqual(server.job())
  })

  test('a state older than what is here is not taken', () => {
    const { server, replica } = openBench()
    const old = server.job()
    server.submit(claim(), server.context('ana'))
    const now = receiveEvents(replica, server.after(2))
    expect(receiveState(now, old)).toBe(now)
  })

  test('the plan stays the same object through a new state, so that its drawings stay', () => {
    const { server, replica } = openBench()
    server.submit(claim(), server.context('ana'))
    const sent = JSON.parse(JSON.stringify(server.job())) as Job
    expect(receiveState(replica, sent).job.plan).toBe(replica.job.plan)
  })
})

test('a release is not drawn ahead of its answer: only the server has the log’s hash', () => {
  const { replica, server } = openBench()
  const sent = add(replica, { type: 'Release', kind: 'to_owner' }, server.context('ana'))
  expect(sent.job).toBe(replica.confirmed)
  expect(sent.pending[0]?.doubted).toBeUndefined()
})

describe('decided by what is queued', () => {
  test('before the server has told the job nothing is decided; then everything that waits', () => {
    const { server } = openBench()
    const context = server.context('ana')
    const unknown = add(newReplica('j1', testShop), claim(), context)
    expect(unknown.job).toBe(unknown.confirmed)
    expect(unknown.pending[0]?.doubted).toBeUndefined()
    const known = receiveState(unknown, server.job())
    expect(known.job.steps.caps?.claim?.by).toBe('ana')
    expect(known.job.steps.caps?.claim?.doneAt).toBe(context.doneAt)
  })

  test('a second signature by grant: its signer, what they looked at, the clock of the device', () => {
    const { server } = openBench()
    const context = server.context('bo')
    const entry = queued(claim(), context)
    const command = { ...entry.command, grantId: 'g1', clockOffsetMs: -40 }
    expect(contextOf({ ...entry, command, sawVersion: 7 }, testShop)).toEqual({
      shop: testShop,
      by: 'bo',
      doneAt: context.doneAt,
      clockOffsetMs: -40,
      commandId: context.commandId,
      through: 'grant',
      sawVersion: 7,
    })
    expect(contextOf(entry, testShop)).toMatchObject({ by: 'bo', through: 'sign_in' })
  })

  test('the same queue again is the same replica, and so is the same shop', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2)).replica
    expect(withQueue(mine, [...mine.pending])).toBe(mine)
    expect(withShop(mine, testShop)).toBe(mine)
  })

  test('another shop decides it anew', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', claim()).replica
    const { ana: _, ...people } = testShop.people
    const without = withShop(mine, { ...testShop, people })
    expect(without.pending[0]?.doubted?.refused).toBe('person_unknown')
    expect(without.job.steps.caps?.claim).toBeUndefined()
    const again = withShop(without, testShop)
    expect(again.pending[0]?.doubted).toBeUndefined()
    expect(again.job.steps.caps?.claim?.by).toBe('ana')
  })
})

test('[WI11] an event of a newer build is not guessed at: the state is asked for, and what is pending lies on it', () => {
  const { server, replica } = openBench()
  const { replica: mine } = enter(replica, server, 'ana', claim())
  const { version } = replica.confirmed
  const unknown = {
    version: version + 1,
    recordedAt: 0,
    event: { type: 'EngineWashed', by: 'bo', doneAt: 0 },
  }
  const next = { version: version + 2, recordedAt: 0, event: { type: 'EngineDried', by: 'bo', doneAt: 0 } }
  expect(haveOf(mine)).toBe(version)
  const told = receiveEvents(mine, [unknown, next] as never)
  expect([hasGap(told), haveOf(told), told.confirmed]).toEqual([true, undefined, replica.confirmed])
  expect(told.job.steps.caps?.claim?.by).toBe('ana')
  const stated = receiveState(told, { ...server.job(), version: version + 2 })
  expect([hasGap(stated), haveOf(stated), stated.confirmed.version]).toEqual([
    false,
    version + 2,
    version + 2,
  ])
  expect(stated.job.steps.caps?.claim?.by).toBe('ana')
})
