/** The sockets, WI3 and WI6 to WI9, with real socket.io clients; the promises stand in `server/gateway/gateway.ts`. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { v7 } from 'uuid'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { MOST_COINS } from '../../server/purse'
import type { JobEvent } from '../../shared/job/events'
import { evolveAll, newJob } from '../../shared/job/evolve'
import type { JobSummary } from '../../shared/job/summary'
import type { Job } from '../../shared/job/types'
import { commandFor, PROTOCOL_VERSION } from '../../shared/protocol'
import { openJob } from '../shop/yard'
import { command } from './house'
import { makeWire, until } from './wire'

let wire: Awaited<ReturnType<typeof makeWire>>
let ana: Awaited<ReturnType<typeof wire.at>>
let bo: Awaited<ReturnType<typeof wire.at>>
let jobs = 1

beforeAll(async () => {
  wire = await makeWire()
  ana = await wire.at('ana')
  bo = await wire.at('bo')
})
afterAll(() => wire.close())

type Reply = { ok: boolean; code?: string; version: number; events: { version: number; event: JobEvent }[] }
type Watched = {
  ok: boolean
  code?: string
  from?: number
  events?: Reply['events']
  state?: Job
  path?: string
}

/** A job of its own for each test. */
async function freshJob(agreed?: string) {
  const stream = `job:j${++jobs}` as const
  for (const opening of openJob(`E-${jobs}`)) {
    const jobCommand = agreed !== undefined && opening.type === 'OpenJob' ? { ...opening, agreed } : opening
    const answer = await ana.ask<Reply>('command', { stream, command: command(jobCommand) })
    if (!answer.ok) throw new Error(JSON.stringify(answer))
  }
  return stream
}
const claim = (stepId: string) => command({ type: 'ClaimStep', stepId })
const putDown = (stepId: string) => command({ type: 'PutDownStep', stepId })
const protocol = PROTOCOL_VERSION

describe('watching', () => {
  test('[WI7] without a version the state; with one, what came after; with the newest, nothing', async () => {
    const stream = await freshJob()
    const first = await bo.ask<Watched>('watch', { room: stream, protocol })
    expect(first.state?.version).toBe(2)
    await ana.ask('command', { stream, command: claim('S1') })
    const missed = await bo.ask<Watched>('watch', { room: stream, have: 2, protocol })
    expect(missed).toMatchObject({ from: 2, events: [{ version: 3, event: { type: 'StepClaimed' } }] })
    expect(await bo.ask<Watched>('watch', { room: stream, have: 3, protocol })).toMatchObject({
      from: 3,
      events: [],
    })
  })

  test('[WI7] a long answer comes packed to whoever can unpack it, and says the same', async () => {
    const stream = await freshJob('Full rebuild. '.repeat(140))
    const message = { room: stream, protocol }
    const plain = await bo.ask<Watched>('watch', message)
    const { packed } = await bo.ask<{ packed: Uint8Array }>('watch', { ...message, unpacks: true })
    const { state } = JSON.parse(gunzipSync(packed).toString()) as Watched
    expect(state).toEqual(plain.state)
    expect(packed.length).toBeLessThan(JSON.stringify(plain).length / 2)
  })

  test('[WI7] a long answer is packed once a version; its time is of each answer, and a page of version 1 has it inside', async () => {
    const stream = await freshJob('Full rebuild. '.repeat(140))
    const message = { room: stream, protocol, unpacks: true }
    const watched = (more = {}) =>
      bo.ask<{ packed: Uint8Array; now: number }>('watch', { ...message, ...more })
    const first = await watched()
    wire.house.clock.ahead += 60_000
    const second = await watched()
    expect(Buffer.compare(Buffer.from(first.packed), Buffer.from(second.packed))).toBe(0)
    expect(second.now - first.now).toBeGreaterThanOrEqual(60_000)
    const inside = ({ packed }: { packed: Uint8Array }) => JSON.parse(gunzipSync(packed).toString())
    const older = await watched({ protocol: protocol - 1 })
    expect(inside(older).now).toBeGreaterThanOrEqual(second.now)
    await ana.ask('command', { stream, command: claim('S1') })
    expect(inside(await watched()).state.version).toBe(3)
    wire.house.clock.ahead -= 60_000
  })

  test('[WI7] while others enter, what is packed is overtaken by nothing: every event behind the version given comes, once', async () => {
    const stream = await freshJob('Full rebuild. '.repeat(140))
    const steps = ['ClaimStep', 'PutDownStep']
    let going = true
    const entering = (async () => {
      for (let n = 0; going; n++)
        await ana.ask('command', { stream, command: { commandId: v7(), type: steps[n % 2], stepId: 'S1' } })
    })()
    try {
      for (let round = 0; round < 20; round++) {
        const guest = wire.connect(bo.page.jar.cookie)
        await guest.open
        const answer = await guest.ask<{ packed: Uint8Array }>('watch', {
          room: stream,
          protocol,
          unpacks: true,
        })
        const { state } = JSON.parse(gunzipSync(answer.packed).toString()) as Watched
        const events = () => guest.messages.filter(({ name }) => name === 'events')
        await until('three entries more', () => events().length >= 3)
        const versions = events().flatMap(({ message }) =>
          (message.events as { version: number }[]).map((e) => e.version),
        )
        expect(versions).toEqual(versions.map((_, index) => (state?.version ?? 0) + 1 + index))
        expect(guest.messages.findIndex(({ name }) => name === 'ack')).toBeLessThan(
          guest.messages.findIndex(({ name }) => name === 'events'),
        )
        guest.client.disconnect()
      }
    } finally {
      going = false
      await entering
    }
  })

  test('[WI7] a version this server never had is answered with the state', async () => {
    const stream = await freshJob()
    expect((await bo.ask<Watched>('watch', { room: stream, have: 999, protocol })).state?.version).toBe(2)
  })

  test('[WI7] whichever is shorter: after many events the state, folded or not the same job', async () => {
    const stream = await freshJob()
    for (let n = 0; n < 60; n++) {
      await ana.ask('command', { stream, command: claim('S1') })
      await ana.ask('command', { stream, command: putDown('S1') })
    }
    const long = await bo.ask<Watched>('watch', { room: stream, have: 2, protocol })
    expect(long.events).toBeUndefined()
    const job = await wire.house.shop.desk.job(stream.slice(4))
    expect(long.state).toEqual(job)
    const all = (await wire.house.shop.desk.eventsAfter(stream, 0)).map(({ event }) => event as JobEvent)
    expect(evolveAll(newJob(stream.slice(4)), all)).toEqual(job)
  })

  test('[WI7] nothing falls between: whoever watches in the middle of a storm ends with the same job', async () => {
    const stream = await freshJob()
    const storm = Promise.all(
      Array.from({ length: 40 }, (_, n) =>
        ana.ask('command', { stream, command: n % 2 ? putDown('S1') : claim('S1') }),
      ),
    )
    const late = await wire.at('bo')
    const watched = await late.ask<Watched>('watch', { room: stream, have: 0, protocol })
    await storm
    const { version } = (await wire.house.shop.desk.job(stream.slice(4))) as Job
    let job =
      watched.state ?? evolveAll(newJob(stream.slice(4)), watched.events?.map(({ event }) => event) ?? [])
    const cursor = () => job.version
    const news = () =>
      late.messages.filter(({ name, message }) => name === 'events' && message.from === cursor())
    await until('the last event', () => {
      for (let [next] = news(); next; [next] = news())
        job = evolveAll(
          job,
          (next.message.events as Reply['events']).map(({ event }) => event),
        )
      return cursor() === version
    })
    expect(job).toEqual(await wire.house.shop.desk.job(stream.slice(4)))
  })

  test('[BX10] a socket is told the epoch when it opens and when a backup covers more; a watch names epoch and head', async () => {
    const stream = await freshJob()
    const { box, store } = wire.house.shop
    const { id } = box.epoch()
    const line = await wire.at('bo')
    const told = () => line.messages.filter(({ name }) => name === 'epoch').map(({ message }) => message)
    await until('the epoch', () => told().length === 1)
    expect(told()).toEqual([{ id, number: 1, coveredSeq: box.coveredSeq() }])
    const state = await line.ask<Watched & { head: string; epoch: string }>('watch', {
      room: stream,
      protocol,
    })
    const head = await store.head(stream)
    expect([state.epoch, state.head, state.state?.version]).toEqual([id, head?.hash, head?.version])
    await ana.ask('command', { stream, command: claim('S1') })
    const missed = await line.ask<{ head: string }>('watch', {
      room: stream,
      have: head?.version ?? 0,
      protocol,
    })
    expect(missed.head).toBe((await store.head(stream))?.hash)
    expect(missed.head).not.toBe(state.head)
    expect(await line.ask('watch', { room: 'board', protocol })).toMatchObject({ epoch: id })
    const into = mkdtempSync(join(tmpdir(), 'paintmark-gateway-'))
    try {
      const { manifest } = await box.backups.take({ into, kind: 'by_hand' })
      await until('what the backup covers', () => told().length === 2)
      expect(told()[1]).toEqual({ id, number: 1, coveredSeq: manifest.seq })
    } finally {
      rmSync(into, { recursive: true, force: true })
    }
  })

  test('[WI7] whoever asks for it later gets the board without what has left the shop, and that by itself', async () => {
    const stream = await freshJob()
    const { desk } = wire.house.shop
    const all = desk.summaries()
    const [here] = all.filter(({ id }) => id === stream.slice(4)) as [JobSummary]
    const reason = { code: 'released', kind: 'to_owner', number: 'R-1' } as const
    const left: JobSummary = { ...here, id: 'gone', number: 'E-0', reason }
    const told = vi.spyOn(desk, 'summaries').mockReturnValue([left, here])
    try {
      const numbers = ({ summaries }: { summaries: JobSummary[] }) => summaries.map(({ number }) => number)
      const whole = await bo.ask<{ summaries: JobSummary[] }>('watch', { room: 'board', protocol })
      expect(numbers(whole)).toEqual(['E-0', here.number])
      const first = await bo.ask<{ summaries: JobSummary[] }>('watch', {
        room: 'board',
        protocol,
        leftLater: true,
      })
      expect(first).toMatchObject({ ok: true, leftLater: true })
      expect(numbers(first)).toEqual([here.number])
      expect(numbers((await bo.page.get('/api/board?left')).json)).toEqual(['E-0'])
      expect(numbers((await bo.page.get('/api/board')).json)).toEqual(['E-0', here.number])
    } finally {
      told.mockRestore()
      await bo.ask('unwatch', { room: 'board' })
    }
  })

  test('the board gets a summary a turn, the shop its events without plan bodies; unwatch ends it', async () => {
    const stream = await freshJob()
    const board = await wire.at('bo')
    const first = await board.ask<{ summaries: { id: string }[] }>('watch', { room: 'board', protocol })
    expect(first.summaries.map(({ id }) => id)).toContain(stream.slice(4))
    await board.ask('watch', { room: 'shop', protocol })
    await ana.ask('command', { stream, command: claim('S1') })
    await until('the summary', () =>
      board.messages.some(({ name, message }) => name === 'summary' && message.version === 3),
    )
    const plan = { ...(await wire.house.shop.desk.shop()).plans.small?.[1], edition: 2 }
    const answer = await ana.ask<Reply>('command', {
      stream: 'shop',
      command: command({ type: 'AddPlan', plan }),
    })
    expect(answer.ok).toBe(true)
    const ofShop = () =>
      board.messages.find(({ name, message }) => name === 'events' && message.room === 'shop')
    await until('the plan', () => ofShop() !== undefined)
    const added = ofShop()?.message.events?.[0]
    expect(added).toMatchObject({ event: { type: 'PlanAdded', plan: { edition: 2, steps: [] } } })
    await board.ask('unwatch', { room: 'board' })
    board.messages.length = 0
    await ana.ask('command', { stream, command: putDown('S1') })
    await ana.ask('watch', { room: 'board', protocol })
    expect(board.messages).toEqual([])
  })

  test('an unknown job', async () => {
    expect(await bo.ask<Watched>('watch', { room: 'job:nowhere', protocol })).toMatchObject({
      ok: false,
      code: 'job_not_found',
    })
  })
})

describe('another version', () => {
  const spoken = (line: typeof bo) =>
    line.messages.filter(({ name }) => name === 'reload').map(({ message }) => message.protocol)

  test('[WI10] which one the server speaks is the first it says', async () => {
    const line = await wire.at('bo')
    await line.ask('watch', { room: 'board', protocol })
    expect(line.messages[0]).toEqual({ name: 'reload', message: { protocol } })
    expect(spoken(line)).toEqual([protocol])
  })

  test('[WI10] a page of the version before watches, enters and is told, as one of this', async () => {
    const stream = await freshJob()
    const old = await wire.at('bo')
    expect(await old.ask<Watched>('watch', { room: 'board', protocol: protocol - 1 })).toMatchObject({
      ok: true,
    })
    expect((await old.ask<Watched>('watch', { room: stream, protocol: protocol - 1 })).state?.version).toBe(2)
    const sent = { stream, command: { ...claim('S1'), signInId: old.signInId } }
    expect(await old.ask<Reply>('command', sent)).toMatchObject({ ok: true, version: 3 })
    await ana.ask('command', { stream, command: claim('S2') })
    await until('the event', () =>
      old.messages.some(({ name, message }) => name === 'events' && message.from === 3),
    )
    expect(spoken(old)).toEqual([protocol])
  })

  test('[WI10] sent before an update without what the old server did not know, and after it with: one entry, one answer', async () => {
    const stream = await freshJob()
    const sent = { ...claim('S1'), doneAt: Date.now() }
    const first = await bo.ask<Reply>('command', { stream, command: commandFor(protocol - 1, sent) })
    expect(first).toMatchObject({ ok: true, version: 3 })
    const again = { stream, command: { ...sent, entryNumber: 12 } }
    expect(await bo.ask<Reply>('command', again)).toEqual(first)
    // Another entry under its id is still not it.
    const other = { stream, command: { ...again.command, stepId: 'S2' } }
    expect(await bo.ask<Reply>('command', other)).toMatchObject({ ok: false, code: 'command_id_reused' })
  })

  test.each([protocol - 2, protocol + 1])(
    '[WI10][WI11] one of version %d is told which is spoken',
    async (version) => {
      const line = await wire.at('bo')
      expect(await line.ask<Watched>('watch', { room: 'board', protocol: version })).toMatchObject({
        code: 'bad_message',
        path: '/protocol',
      })
      expect(spoken(line)).toEqual([protocol, protocol])
    },
  )
})

describe('commands', () => {
  test('[WI6] the ack comes first, its events are not told to the sender again, and others get them once', async () => {
    const stream = await freshJob()
    await ana.ask('watch', { room: stream, protocol })
    await bo.ask('watch', { room: stream, protocol })
    ana.messages.length = 0
    bo.messages.length = 0
    const [mine, yours] = await Promise.all([
      ana.ask<Reply>('command', { stream, command: claim('S1') }),
      bo.ask<Reply>('command', { stream, command: claim('S2') }),
    ])
    const ofCommands = (who: typeof ana) =>
      who.messages.filter(({ name }) => name === 'ack' || name === 'events')
    await until('both told', () => ofCommands(ana).length === 2 && ofCommands(bo).length === 2)
    for (const [who, own, other] of [
      [ana, mine, yours],
      [bo, yours, mine],
    ] as const) {
      const came = ofCommands(who).map(({ name, message }) => [
        name,
        (message.events as { version: number }[])[0]?.version,
      ])
      const inOrder = [
        ['ack', own.version],
        ['events', other.version],
      ].sort((a, b) => Number(a[1]) - Number(b[1]))
      expect(came).toEqual(inOrder)
    }
    // A round trip later nothing more has come: the sender's own events were not told to it.
    await ana.ask('watch', { room: stream, have: 4, protocol })
    expect(ana.messages.filter(({ name }) => name === 'events')).toHaveLength(1)
  })

  test('two sockets claim one step at once: one wins, the other is told who and since when', async () => {
    const stream = await freshJob()
    const both = await Promise.all([
      ana.ask<Reply>('command', { stream, command: claim('S1') }),
      bo.ask<Reply>('command', { stream, command: claim('S1') }),
    ])
    const won = both.filter(({ ok }) => ok)
    expect(won).toHaveLength(1)
    const by = won[0]?.events[0]?.event.by
    expect(both.find(({ ok }) => !ok)).toMatchObject({
      code: 'already_claimed',
      data: { by, since: expect.any(Number) },
    })
  })

  test('[WI5] over HTTP it is the same desk: every watcher is told, and the id is known here too', async () => {
    const stream = await freshJob()
    await ana.ask('watch', { room: stream, protocol })
    const body = claim('S1')
    const posted = await ana.page.post(`/api/jobs/${stream.slice(4)}/commands`, body)
    expect(posted.status).toBe(201)
    await until('the event', () =>
      ana.messages.some(({ name, message }) => name === 'events' && message.room === stream),
    )
    expect(await ana.ask<Reply>('command', { stream, command: body })).toMatchObject({ ok: true, version: 3 })
    expect(await ana.ask<Reply>('command', { stream, command: { ...body, stepId: 'S2' } })).toMatchObject({
      code: 'command_id_reused',
    })
  })

  test('presence: who is on a job, until they leave', async () => {
    const stream = await freshJob()
    const jobId = stream.slice(4)
    await ana.ask('watch', { room: stream, protocol })
    const guest = await wire.at('bo')
    guest.client.emit('presence', { jobId, place: 'bench' })
    const here = () =>
      ana.messages.filter(({ name, message }) => name === 'presence' && message.jobId === jobId).at(-1)
        ?.message.here
    await until(
      'bo is here',
      () => JSON.stringify(here()) === JSON.stringify([{ person: 'bo', place: 'bench' }]),
    )
    guest.client.disconnect()
    await until('bo left', () => JSON.stringify(here()) === '[]')
  })
})

describe('who may come', () => {
  test('[WI8] nobody signed in: told so at the door', async () => {
    for (const cookie of ['', 'paintmark=nonsense', 'paintmark=a.b']) {
      const error = await wire.connect(cookie).open.then(
        () => undefined,
        (reason: Error & { data?: { code: string } }) => reason,
      )
      expect(error?.data?.code).toBe('signed_out')
    }
  })

  test('[WI3] a page of another origin does not get in, cookie or not', async () => {
    const { cookie } = ana.page.jar
    await expect(wire.connect(cookie, { origin: 'https://elsewhere.example' }).open).rejects.toThrow()
    await expect(wire.connect(cookie, { origin: 'null' }).open).rejects.toThrow()
    await expect(
      wire.connect(cookie, { host: 'evil.example', origin: 'http://evil.example' }).open,
    ).rejects.toThrow()
  })

  test('[WI8] another person on the device: the line stays and speaks for them; signed out: it is cut', async () => {
    const stream = await freshJob()
    const tablet = await wire.at('bo')
    await tablet.page.signIn('ana')
    const answer = await tablet.ask<Reply>('command', { stream, command: claim('S1') })
    expect(answer.events[0]?.event.by).toBe('ana')
    const old = await tablet.ask<Reply>('command', {
      stream,
      command: { ...claim('S2'), signInId: tablet.signInId },
    })
    expect(old.ok ? old.events[0]?.event.by : old.code).toBe('bo')
    const cut = new Promise((resolve) => tablet.client.once('disconnect', resolve))
    await tablet.page.post('/api/sign-out', {})
    expect(await cut).toBe('io server disconnect')
  })
})

describe('whatever comes', () => {
  test('[WI9] malformed messages are answered or ignored, and the server goes on', async () => {
    const line = await wire.at('ana')
    const odd: unknown[] = [
      undefined,
      null,
      0,
      '',
      'x',
      [],
      {},
      { room: 7 },
      { stream: 'job:../x', command: {} },
      { stream: 'shop' },
      { stream: 'job:j1', command: null },
      { stream: 'job:j1', command: { type: '__proto__' } },
      { room: 'job:', protocol },
      { room: 'board', protocol, extra: true },
    ]
    for (const event of ['watch', 'unwatch', 'command'])
      for (const message of odd)
        expect(await line.ask<Reply>(event, message)).toMatchObject({ ok: false, code: 'bad_message' })
    const anything = line.client as unknown as { emit(...args: unknown[]): void }
    for (const event of ['watch', 'unwatch', 'command', 'presence', 'no-such-thing', '__proto__'])
      for (const message of odd) {
        anything.emit(event, message)
        anything.emit(event, message, 'no function')
        anything.emit(event)
      }
    // It was too much at once, too; once all of it was read, time passes.
    await line.ask<Reply>('unwatch', { room: 'board' })
    wire.house.clock.steady += 5000
    expect(
      await line.ask<Reply>('command', { stream: 'job:j1', command: { ...claim('S1'), commandId: v7() } }),
    ).toMatchObject({ ok: true })
  })

  test('[WI9] a message over the bound cuts that line alone', async () => {
    const line = await wire.at('bo')
    const cut = new Promise((resolve) => line.client.once('disconnect', resolve))
    line.client.emit(
      'command',
      { stream: 'shop', command: { text: 'x'.repeat(5 * 1024 * 1024) } } as never,
      () => {},
    )
    await cut
    expect((await ana.ask<{ ok: boolean }>('watch', { room: 'board', protocol })).ok).toBe(true)
  })

  test('[WI9] one device’s sockets and requests are weighed together, by what they cost; another’s are not', async () => {
    const line = await wire.at('bo')
    const { cookie } = line.page.jar
    const get = async (who: string, path: string) => {
      const answer = await fetch(`${wire.address}${path}`, { headers: { cookie: who } })
      return [
        answer.status,
        ((await answer.json()) as { code?: string }).code,
        answer.headers.get('retry-after'),
      ]
    }
    expect((await get(cookie, '/api/board'))[0]).toBe(200)
    const refused = { stream: 'job:j1', command: { commandId: v7(), type: 'ClaimStep', stepId: 'none' } }
    const costly = Math.ceil(MOST_COINS / 5) + 60
    const answers = await Promise.all(
      Array.from({ length: costly }, () =>
        line.ask<Reply>('command', { ...refused, command: { ...refused.command, commandId: v7() } }),
      ),
    )
    expect(answers.some(({ ok, code }) => !ok && code !== 'too_many')).toBe(true)
    expect(await get(cookie, '/api/board')).toEqual([429, 'too_many', expect.stringMatching(/^[1-9]$/)])
    const second = wire.connect(cookie)
    await second.open
    expect(await second.ask('unwatch', { room: 'board' })).toMatchObject({ code: 'too_many' })
    expect((await get(ana.page.jar.cookie, '/api/board'))[0]).toBe(200)
    wire.house.clock.steady += 3000
    expect((await get(cookie, '/api/board'))[0]).toBe(200)
    expect(await second.ask('unwatch', { room: 'board' })).toEqual({ ok: true })
  })

  test('[WI9] too many at once are told to wait, and one’s haste is no other’s', async () => {
    const line = await wire.at('bo')
    const answers = await Promise.all(
      Array.from({ length: MOST_COINS + 200 }, () => line.ask<Reply>('unwatch', { room: 'board' })),
    )
    const faults = answers.filter(({ ok }) => !ok)
    expect(faults.length).toBeGreaterThan(0)
    expect(faults[0]).toMatchObject({ code: 'too_many' })
    expect((await ana.ask<{ ok: boolean }>('unwatch', { room: 'board' })).ok).toBe(true)
  })
})
