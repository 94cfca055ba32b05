/** What is pending has one home: pages come and go, also the whole page; nothing entered is dropped without a word. */
import { createRenderEffect, createRoot } from 'solid-js'
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../shared/job/commands'
import type { SentShopCommand } from '../../../shared/protocol'
import { type FeedParts, openFeed } from '../../../web/live/job-feed'
import { commandIdOf, type QueuedCommand, refusedIn, waitingIn } from '../../../web/live/outbox'
import type { JobStreamEvent } from '../../../web/live/replica'
import { testShop } from '../../shop/shop'
import { newShelf, openDevice, quiet } from './device'
import { claim, openServer, queued, reading } from './one-job'

type Server = ReturnType<typeof openServer>

const entry = (server: Server, by: string, command: JobCommand, jobId = 'j1') =>
  queued(command, server.context(by), jobId)

const shopEntry: QueuedCommand = {
  stream: 'shop',
  command: { commandId: 'shop-1', doneAt: 1, type: 'SetSelfRecheck', selfRecheck: {} } as SentShopCommand & {
    doneAt: number
  },
  by: 'ana',
}

async function shelfWith(...entries: QueuedCommand[]) {
  const shelf = newShelf()
  for (const each of entries) await shelf.put(each)
  return shelf
}

describe('entries that lay on the shelf before the page was loaded', () => {
  test('are pending in a replica opened later, under their own person and time', async () => {
    const server = openServer()
    const [claimed, read] = [entry(server, 'ana', claim()), entry(server, 'bo', reading(2))]
    const device = openDevice({ j1: server }, await shelfWith(claimed, read), 'down')
    await quiet()
    const feed = device.open('j1')
    expect(feed.replica().pending.map(commandIdOf)).toEqual([commandIdOf(claimed), commandIdOf(read)])
    expect(feed.replica().known).toBe(false)
    await device.link('lost')
    const { job, confirmed, pending } = feed.replica()
    expect(pending.map(commandIdOf)).toEqual([commandIdOf(claimed), commandIdOf(read)])
    expect(job.steps.caps?.claim).toMatchObject({ by: 'ana', doneAt: claimed.command.doneAt })
    expect(job.readings.JC).toMatchObject([{ by: 'bo', doneAt: read.command.doneAt }])
    expect(confirmed.steps.caps?.claim).toBeUndefined()
  })

  test('are shown as soon as the shelf is read, also on a page that was first, and before they are sent', async () => {
    const server = openServer()
    const [claimed, read] = [entry(server, 'ana', claim()), entry(server, 'bo', reading(2))]
    const shelf = await shelfWith(claimed, read)
    // The link answers the watch; the shelf is read a moment later.
    const device = openDevice({ j1: server }, { ...shelf, load: () => quiet().then(shelf.load) })
    const feed = device.open('j1')
    const shown: (string | undefined)[] = []
    device.outbox.onChange(() => {
      const { steps, readings } = feed.replica().job
      const { claim: held } = steps.caps ?? {}
      shown.push(held && `${held.by} ${held.doneAt === claimed.command.doneAt}`)
      shown.push(readings.JC?.map(({ by, doneAt }) => `${by} ${doneAt === read.command.doneAt}`).join())
    })
    await quiet()
    await quiet()
    expect(shown.slice(0, 2)).toEqual(['ana true', 'bo true'])
    expect(feed.replica().pending).toEqual([])
    expect(feed.replica().job).toEqual(server.job())
    expect(server.job().readings.JC).toHaveLength(1)
    expect(await shelf.load()).toEqual([])
  })

  test('refused with no page of the job open: the next page of it tells, through another reload, until read', async () => {
    const server = openServer()
    server.submit(claim(), server.context('bo'))
    const mine = entry(server, 'ana', claim())
    const shelf = await shelfWith(mine)
    const before = openDevice({ j1: server }, shelf)
    await quiet()
    expect(before.sent).toEqual([commandIdOf(mine)])
    expect(waitingIn(before.outbox.entries(), 'job:j1')).toEqual([])
    expect(await shelf.load()).toHaveLength(1)

    const after = openDevice({ j1: server }, shelf)
    const feed = after.open('j1')
    await quiet()
    after.outbox.wake()
    await quiet()
    expect(after.sent).toEqual([])
    expect(feed.replica().pending).toEqual([])
    const told = refusedIn(after.outbox.entries(), 'job:j1')
    expect(told).toEqual([
      { ...mine, refused: { code: 'already_claimed', sentence: 'No: already_claimed.' } },
    ])
    expect(told[0]?.command).toMatchObject(claim())
    after.outbox.dismiss(commandIdOf(mine))
    expect(refusedIn(after.outbox.entries(), 'job:j1')).toEqual([])
    await quiet()
    expect(await shelf.load()).toEqual([])
  })

  test('an entry for the shop is told likewise', async () => {
    const device = openDevice({}, await shelfWith(shopEntry))
    await quiet()
    expect(refusedIn(device.outbox.entries(), 'shop')).toEqual([
      { ...shopEntry, refused: { code: 'shop_role_needed', sentence: 'Not yours.' } },
    ])
    expect(refusedIn(device.outbox.entries(), 'job:j1')).toEqual([])
  })
})

describe('while a page is open', () => {
  test('refused: it comes off the job, with its sentence and what was entered, until dismissed', async () => {
    const server = openServer()
    const device = openDevice({ j1: server })
    const feed = device.open('j1')
    await device.link('down')
    server.submit(claim(), server.context('bo'))
    const mine = entry(server, 'ana', claim())
    void device.outbox.add(mine)
    expect(feed.replica().job.steps.caps?.claim?.by).toBe('ana')
    await device.link('up')
    expect(feed.replica().job.steps.caps?.claim?.by).toBe('bo')
    const refused = refusedIn(device.outbox.entries(), 'job:j1')
    expect(refused.map((each) => [commandIdOf(each), each.command, each.refused])).toEqual([
      [commandIdOf(mine), mine.command, { code: 'already_claimed', sentence: 'No: already_claimed.' }],
    ])
    device.outbox.dismiss(commandIdOf(mine))
    expect(refusedIn(device.outbox.entries(), 'job:j1')).toEqual([])
  })

  test('what waits cannot be dismissed', async () => {
    const server = openServer()
    const device = openDevice({ j1: server }, newShelf(), 'down')
    const mine = entry(server, 'ana', claim())
    void device.outbox.add(mine)
    device.outbox.dismiss(commandIdOf(mine))
    expect(device.outbox.entries()).toEqual([mine])
  })

  test('confirmed as predicted, the screen keeps the very same objects', async () => {
    const server = openServer()
    const device = openDevice({ j1: server })
    const feed = device.open('j1')
    await device.link('down')
    void device.outbox.add(entry(server, 'ana', reading(2)))
    void device.outbox.add(entry(server, 'ana', reading(1)))
    const [first, second] = feed.replica().job.readings.JC ?? []
    await device.link('up')
    expect(feed.replica().pending).toEqual([])
    expect(feed.replica().confirmed.readings.JC?.[0]).toBe(first)
    expect(feed.replica().confirmed.readings.JC?.[1]).toBe(second)
    expect(feed.replica().confirmed).toEqual(server.job())
  })

  test('closed and opened again while pending: it is there again, and is confirmed once', async () => {
    const server = openServer()
    const device = openDevice({ j1: server })
    const before = device.open('j1')
    await device.link('down')
    void device.outbox.add(entry(server, 'ana', reading(2)))
    before.close()
    await device.link('lost')
    await device.link('down')
    const after = device.open('j1')
    expect(after.replica().pending).toHaveLength(1)
    await device.link('up')
    expect(after.replica().pending).toEqual([])
    expect(after.replica().job).toEqual(server.job())
    expect(server.job().readings.JC).toHaveLength(1)
    expect(device.sent).toHaveLength(2)
    expect(new Set(device.sent).size).toBe(1)
  })

  test('two jobs and the shop interleaved: one order, and each page its own', async () => {
    const servers = { j1: openServer('j1'), j2: openServer('j2') }
    const device = openDevice(servers)
    const [one, two] = [device.open('j1'), device.open('j2')]
    await device.link('down')
    const entries = [
      entry(servers.j1, 'ana', claim()),
      entry(servers.j2, 'bo', reading(1), 'j2'),
      shopEntry,
      entry(servers.j1, 'ana', reading(1)),
      entry(servers.j2, 'bo', claim(), 'j2'),
    ]
    for (const each of entries) void device.outbox.add(each)
    expect(one.replica().pending.map(({ command }) => command.type)).toEqual(['ClaimStep', 'TakeReading'])
    expect(two.replica().pending.map(({ command }) => command.type)).toEqual(['TakeReading', 'ClaimStep'])
    const untouched = two.replica().pending
    void device.outbox.add(entry(servers.j1, 'ana', reading(2)))
    expect(two.replica().pending).toBe(untouched)
    await device.link('up')
    expect(device.sent.slice(0, 5)).toEqual(entries.map(commandIdOf))
    expect([one.replica().pending, two.replica().pending]).toEqual([[], []])
    expect(one.replica().job).toEqual(servers.j1.job())
    expect(two.replica().job).toEqual(servers.j2.job())
    expect(one.replica().job.readings.JC).toHaveLength(2)
    expect(two.replica().job.readings.JC).toHaveLength(1)
    expect(device.outbox.entries().map(commandIdOf)).toEqual(['shop-1'])
  })
})

describe('a form that tells the answer itself', () => {
  test('is there: nothing else tells; gone meanwhile: the refusal is kept', async () => {
    const server = openServer()
    server.submit(claim(), server.context('bo'))
    const device = openDevice({ j1: server })
    const there = await device.outbox.add(entry(server, 'ana', claim()), () => true)
    expect(there).toMatchObject({ ok: false, code: 'already_claimed' })
    expect(device.outbox.entries()).toEqual([])
    const late = entry(server, 'ana', claim())
    const gone = await device.outbox.add(late, () => false)
    expect(gone).toMatchObject({ ok: false, code: 'already_claimed' })
    expect(refusedIn(device.outbox.entries(), 'job:j1').map(commandIdOf)).toEqual([commandIdOf(late)])
  })
})

/** Mulberry32: the same numbers from the same seed. */
function dice(seed: number) {
  let state = seed
  return (sides: number): number => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) % sides
  }
}

test.each(Array.from({ length: 25 }, (_, n) => n + 1))(
  'whatever comes in between, nothing entered is lost, doubled or out of order (seed %i)',
  async (seed) => {
    const roll = dice(seed)
    const servers = { j1: openServer('j1'), j2: openServer('j2') }
    const jobs = ['j1', 'j2'] as const
    const shelf = newShelf()
    const entered: QueuedCommand[] = []
    const sent: string[] = []
    let device = openDevice(servers, shelf)
    let feeds = jobs.map((jobId) => device.open(jobId))

    const some = (): JobCommand => (roll(4) === 0 ? claim() : reading(1 + roll(4)))
    const acts: (() => unknown)[] = [
      () => {
        const jobId = jobs[roll(2)] ?? 'j1'
        const each = entry(servers[jobId], roll(2) ? 'ana' : 'bo', some(), jobId)
        entered.push(each)
        void device.outbox.add(each)
      },
      () => {
        const server = servers[jobs[roll(2)] ?? 'j1']
        server.submit(some(), server.context(roll(2) ? 'ana' : 'bo'))
      },
      () => device.link((['up', 'down', 'lost'] as const)[roll(3)] ?? 'up'),
      () => {
        const at = roll(2)
        feeds[at]?.close()
        feeds[at] = device.open(jobs[at] ?? 'j1')
      },
      async () => {
        // The page is loaded again: memory is gone, the shelf is there.
        await device.link('down')
        sent.push(...device.sent)
        device = openDevice(servers, shelf, 'down')
        await quiet()
        feeds = jobs.map((jobId) => device.open(jobId))
      },
    ]
    for (let n = 0; n < 60; n++) await acts[[0, 0, 0, 0, 1, 2, 2, 3, 4][roll(9)] ?? 0]?.()
    await device.link('up')
    await device.link('up')

    sent.push(...device.sent)
    expect([...new Set(sent)]).toEqual(entered.map(commandIdOf))
    for (const [at, jobId] of jobs.entries()) {
      const { pending, job, confirmed } = feeds[at]?.replica() ?? {}
      expect(pending).toEqual([])
      expect(confirmed).toEqual(servers[jobId].job())
      expect(job).toBe(confirmed)
    }
    // What is left here is exactly what the server refused.
    const refused = entered.filter(
      (each) => !servers[each.stream === 'job:j1' ? 'j1' : 'j2'].accepted(commandIdOf(each)),
    )
    expect(device.outbox.entries().map(commandIdOf)).toEqual(refused.map(commandIdOf))
    expect(device.outbox.entries().every((each) => each.refused)).toBe(true)
    expect(await shelf.load()).toEqual(device.outbox.entries())
  },
)

test('what comes while a page has long to draw is taken together, and nothing of it is lost', async () => {
  const server = openServer()
  server.submit(claim(), server.context('ana'))
  const before = server.job().version
  for (const position of [1, 2, 3, 4]) server.submit(reading(position), server.context('ana'))
  let tell: (event: JobStreamEvent) => void = () => expect.fail('Nobody listens.')
  const link: FeedParts['link'] = {
    watch({ watched }) {
      watched({ ok: true, room: 'job:j1', from: 0, events: server.after(0).slice(0, before), now: 0 })
      return () => undefined
    },
    resync: () => expect.fail('Nothing is missing.'),
    lostAt: () => undefined,
    on(about, listener) {
      const listens = listener as (message: object) => void
      if (about === 'events') tell = (event) => listens({ room: 'job:j1', events: [event] })
      return () => undefined
    },
  }
  const shop = { shop: () => testShop, watch: () => () => undefined }
  const feed = openFeed({ link, outbox: openDevice({}).outbox, shop }, 'j1')
  const drawn: number[] = []
  const stop = createRoot((stop) => {
    createRenderEffect(() => {
      drawn.push(feed.replica().confirmed.version)
      for (const until = performance.now() + 30; performance.now() < until; );
    })
    return stop
  })
  for (const event of server.after(before)) tell(event)
  expect(drawn).toEqual([before, before + 1])
  await expect.poll(() => feed.replica().confirmed).toEqual(server.job())
  expect(drawn).toEqual([before, before + 1, server.job().version])
  stop()
  feed.close()
})

test('what came since a version is at hand where the link brought all of it, and else must be asked for', async () => {
  const server = openServer()
  server.submit(claim(), server.context('ana'))
  const state = server.job()
  const before = state.version
  for (const position of [1, 2, 3]) server.submit(reading(position), server.context('ana'))
  const [first, second, third] = server.after(before) as [JobStreamEvent, JobStreamEvent, JobStreamEvent]
  let tell: (...events: JobStreamEvent[]) => void = () => expect.fail('Nobody listens.')
  const link: FeedParts['link'] = {
    watch({ watched }) {
      // The state, which says nothing of how it came about.
      watched({ ok: true, room: 'job:j1', state, now: 0 })
      return () => undefined
    },
    lostAt: () => undefined,
    resync: () => undefined,
    on(about, listener) {
      const listens = listener as (message: object) => void
      if (about === 'events') tell = (...events) => listens({ room: 'job:j1', events })
      return () => undefined
    },
  }
  const shop = { shop: () => testShop, watch: () => () => undefined }
  const feed = openFeed({ link, outbox: openDevice({}).outbox, shop }, 'j1')
  expect(feed.since(before)).toBeUndefined()
  tell(first)
  expect(feed.since(before)).toEqual([first])
  expect(feed.since(before - 1)).toBeUndefined()
  tell(third)
  // What is shown ends before the gap.
  expect(feed.since(before)).toBeUndefined()
  tell(second, third)
  await expect.poll(() => feed.replica().job.version).toBe(third.version)
  expect(feed.since(second.version)).toEqual([third])
  feed.close()
})
