/** A replica shows what was entered at once, believes only the server, and loses nothing in between. */
import { describe, expect, test } from 'vitest'
import type { Context } from '../../../shared/job/context'
import { decide } from '../../../shared/job/decide'
import { evolveAll, newJob } from '../../../shared/job/evolve'
import type { Job, JobCommand } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import type { Answer } from '../../../shared/protocol'
import {
  addPending,
  dismiss,
  hasGap,
  type JobStreamEvent,
  newReplica,
  type Replica,
  receiveEvents,
  receiveState,
  settle,
} from '../../../web/live/replica'
import { contextOf, uuid } from '../../shared/job/given'
import { testShop } from '../../shared/job/shop'

const claim = (stepId = 'caps'): JobCommand => ({ type: 'ClaimStep', stepId })
const reading = (position: number): JobCommand => ({
  type: 'TakeReading',
  jointId: 'JC',
  position,
  pass: 1,
  how: 'clicked',
  wrenchId: 'click',
})

/** The server as this replica sees it: one job, one log, every answer kept by command id. */
function openServer() {
  let job: Job = newJob('j1')
  let count = 0
  const log: JobStreamEvent[] = []
  const answers = new Map<string, Answer>()

  const context = (by: string, commandId = uuid(500 + ++count)): Context => ({
    ...contextOf({ by, command: claim() }, 1, testShop),
    commandId,
  })
  function command(asked: JobCommand, asker: Context): Answer {
    const known = answers.get(asker.commandId)
    if (known) return known
    const outcome = decide(job, asked, asker)
    const answer: Answer = isRefusal(outcome)
      ? { ok: false, code: outcome.refused, data: outcome.data, sentence: `No: ${outcome.refused}.` }
      : {
          ok: true,
          version: job.version + outcome.length,
          events: outcome.map((event, i) => ({ version: job.version + i + 1, recordedAt: 0, event })),
        }
    if (answer.ok) {
      log.push(...(answer.events as JobStreamEvent[]))
      job = evolveAll(job, answer.events.map(({ event }) => event) as Parameters<typeof evolveAll>[1])
    }
    answers.set(asker.commandId, answer)
    return answer
  }
  command(
    { type: 'OpenJob', number: 'E-1', engine: { model: 'M', serial: 'S' }, owner: 'O', agreed: 'all' },
    context('wim'),
  )
  command({ type: 'AdoptPlan', planId: 'test-engine', edition: 1 }, context('dee'))
  return { job: () => job, after: (version: number) => log.slice(version), command, context }
}

function openBench() {
  const server = openServer()
  const replica = receiveState(newReplica('j1'), server.job())
  return { server, replica }
}

/** Enters a command here; answers with what the server would say to it, and when. */
function enter(replica: Replica, server: ReturnType<typeof openServer>, by: string, asked: JobCommand) {
  const context = server.context(by)
  return {
    replica: addPending(replica, asked, context),
    id: context.commandId,
    reach: () => server.command(asked, context),
  }
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
    server.command(claim(), server.context('bo'))
    const now = receiveEvents(mine.replica, server.after(2))
    expect(now.job.steps.caps?.claim?.by).toBe('bo')
    expect(now.pending[0]?.doubted?.refused).toBe('already_claimed')
  })

  test('adopting a plan is not shown before the server has said it', () => {
    const server = openServer()
    const opened = receiveEvents(newReplica('j1'), server.after(0).slice(0, 1))
    const now = addPending(
      opened,
      { type: 'AdoptPlan', planId: 'test-engine', edition: 1 },
      server.context('dee'),
    )
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
    const now = settle(second.replica, first.id, answer)
    expect(now.confirmed).toEqual(server.job())
    expect(now.job.readings.JC?.[0]).toBe(shown)
    expect(now.job.readings.JC).toHaveLength(2)
    expect(now.pending).toHaveLength(1)
  })

  test('an answer other than foreseen is the one that counts', () => {
    const { server, replica } = openBench()
    server.command(claim(), server.context('ana'))
    const mine = enter(replica, server, 'ana', reading(2))
    expect(mine.replica.job.readings.JC?.[0]?.flags).toContain('not_claimed')
    const answered = receiveEvents(settle(mine.replica, mine.id, mine.reach()), server.after(2))
    expect(answered.job.readings.JC?.[0]?.flags).not.toContain('not_claimed')
    expect(answered.job).toEqual(server.job())
  })
})

describe('the answer settles it', () => {
  test('confirmed: the entry leaves the pending ones and stays on the job, once', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const now = settle(mine.replica, mine.id, mine.reach())
    expect(now.pending).toEqual([])
    expect(now.confirmed.readings.JC).toHaveLength(1)
    expect(now.job).toEqual(server.job())
  })

  test('the broadcast after the answer adds nothing', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const answered = settle(mine.replica, mine.id, mine.reach())
    expect(receiveEvents(answered, server.after(2)).job).toBe(answered.job)
  })

  test('a broadcast before the answer adds nothing either', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const answer = mine.reach()
    const now = settle(receiveEvents(mine.replica, server.after(2)), mine.id, answer)
    expect(now.pending).toEqual([])
    expect(now.job).toEqual(server.job())
  })

  test('a resend that gets its first answer again changes nothing', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const once = settle(mine.replica, mine.id, mine.reach())
    const twice = settle(once, mine.id, mine.reach())
    expect(twice.job).toEqual(once.job)
    expect(twice.confirmed.readings.JC).toHaveLength(1)
  })

  test('a second tap that had nothing to do is settled too', () => {
    const { server, replica } = openBench()
    const first = enter(replica, server, 'ana', claim())
    const one = settle(first.replica, first.id, first.reach())
    const second = enter(one, server, 'ana', claim())
    expect(settle(second.replica, second.id, second.reach()).pending).toEqual([])
  })

  test('refused: it comes off the job, with its sentence and what was entered, until dismissed', () => {
    const { server, replica } = openBench()
    server.command(claim(), server.context('bo'))
    const mine = enter(replica, server, 'ana', claim())
    expect(mine.replica.job.steps.caps?.claim?.by).toBe('ana')
    const now = settle(mine.replica, mine.id, mine.reach())
    expect(now.job.steps.caps?.claim).toBeUndefined()
    expect(now.refused).toEqual([
      { id: mine.id, command: claim(), code: 'already_claimed', sentence: 'No: already_claimed.' },
    ])
    expect(dismiss(now, mine.id).refused).toEqual([])
  })

  test('a fault in the message hands it back the same way', () => {
    const { server, replica } = openBench()
    const mine = enter(replica, server, 'ana', reading(2))
    const now = settle(mine.replica, mine.id, { ok: false, code: 'bad_message', sentence: 'Not readable.' })
    expect(now.pending).toEqual([])
    expect(now.refused[0]?.command).toEqual(reading(2))
  })
})

describe('a gap is asked about, never guessed', () => {
  test('an event that comes too early waits and shows as a gap', () => {
    const { server, replica } = openBench()
    server.command(claim(), server.context('ana'))
    server.command(reading(2), server.context('ana'))
    const now = receiveEvents(replica, server.after(3))
    expect(hasGap(now)).toBe(true)
    expect(now.job).toBe(replica.job)
    const healed = receiveEvents(now, server.after(2).slice(0, 1))
    expect(hasGap(healed)).toBe(false)
    expect(healed.job).toEqual(server.job())
  })

  test('an answer ahead of others’ events keeps the entry on top until they have come', () => {
    const { server, replica } = openBench()
    server.command(reading(1), server.context('bo'))
    const mine = enter(replica, server, 'ana', reading(2))
    const answered = settle(mine.replica, mine.id, mine.reach())
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
    server.command(claim(), server.context('ana'))
    server.command(reading(2), server.context('ana'))
    const now = receiveState(receiveEvents(replica, server.after(3)), server.job())
    expect(hasGap(now)).toBe(false)
    expect(now.job).toEqual(server.job())
  })

  test('a state older than what is here is not taken', () => {
    const { server, replica } = openBench()
    const old = server.job()
    server.command(claim(), server.context('ana'))
    const now = receiveEvents(replica, server.after(2))
    expect(receiveState(now, old)).toBe(now)
  })

  test('the plan stays the same object through a new state, so that its drawings stay', () => {
    const { server, replica } = openBench()
    server.command(claim(), server.context('ana'))
    const sent = JSON.parse(JSON.stringify(server.job())) as Job
    expect(receiveState(replica, sent).job.plan).toBe(replica.job.plan)
  })
})

test('a release is not drawn ahead of its answer: only the server has the log’s hash', () => {
  const { replica, server } = openBench()
  const sent = addPending(replica, { type: 'Release', kind: 'to_owner' }, server.context('ana'))
  expect(sent.job).toBe(replica.confirmed)
  expect(sent.pending[0]?.doubted).toBeUndefined()
})
