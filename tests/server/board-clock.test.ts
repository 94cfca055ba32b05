/** What changes on the board though nobody touches it [DK13], on a clock that a test drives: the desk, then the sockets. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Budget } from '../../server/desk'
import { summaryRow } from '../../server/desk/views'
import { memoryEventStore } from '../../server/store'
import { type JobSummary, summarise } from '../../shared/job/summary'
import { PROTOCOL_VERSION } from '../../shared/protocol'
import { SEALED, sealedJob } from '../shop/yard'
import { command } from './house'
import { byHand, makeRig, must, NOON } from './rig'
import { makeWire, until } from './wire'

const MINUTE = 60_000
const CURED = NOON + 60 * MINUTE

async function cureRunning(store = memoryEventStore(), budget?: Budget) {
  let time!: ReturnType<typeof byHand>
  const rig = await makeRig({
    store,
    ...(budget ? { budget } : {}),
    after: (clock) => {
      time = byHand(
        () => clock.now,
        (ms) => {
          clock.now += ms
        },
      )
      return time.after
    },
  })
  await rig.opened()
  await must(rig.send('shop', 'ana', { type: 'AddPlan', plan: SEALED }))
  for (const command of sealedJob('E-2')) await must(rig.send('job:j2', 'ana', command))
  rig.notices.length = 0
  return { rig, time, store }
}
const of = (summaries: JobSummary[], id = 'j2') => summaries.find((summary) => summary.id === id)

describe('a cure on the board', () => {
  test('[DK13] a summary goes out again at the moment it ends, once, and nothing before', async () => {
    const { rig, time } = await cureRunning()
    expect(of(rig.desk.summaries())).toMatchObject({ reason: { code: 'curing' }, changesAt: CURED })
    await time.pass(60 * MINUTE - 1)
    expect(rig.notices).toEqual([])
    await time.pass(1)
    expect(rig.notices).toEqual([{ summary: 'j2', version: 6, reason: 'nobody_on_it' }])
    expect(of(rig.desk.summaries())).toMatchObject({ ready: [{ stepId: 'S2' }] })
    await time.pass(24 * 60 * MINUTE)
    expect(rig.notices).toHaveLength(1)
    expect(time.waiting.size).toBe(0)
  })

  test('[DK13] one timer over all jobs: each in its turn', async () => {
    const { rig, time } = await cureRunning()
    await time.pass(20 * MINUTE)
    for (const command of sealedJob('E-3')) await must(rig.send('job:j3', 'ana', command))
    rig.notices.length = 0
    expect(time.waiting.size).toBe(1)
    await time.pass(45 * MINUTE)
    expect(rig.notices).toMatchObject([{ summary: 'j2' }])
    await time.pass(15 * MINUTE)
    expect(rig.notices).toMatchObject([{ summary: 'j2' }, { summary: 'j3' }])
  })

  test('[DK13] a job no longer in memory is read again for it', async () => {
    const { rig, time } = await cureRunning(memoryEventStore(), { live: 1, packed: 0 })
    for (const number of ['E-5', 'E-6', 'E-7'])
      await must(rig.send(`job:${number}`, 'ana', sealedJob(number)[0] as never))
    expect(rig.desk.peek('job:j2')).toBeUndefined()
    rig.notices.length = 0
    await time.pass(60 * MINUTE)
    expect(rig.notices).toEqual([{ summary: 'j2', version: 6, reason: 'nobody_on_it' }])
  })

  test('[DK13] the row stands as of its commit, as a rebuild would make it', async () => {
    const { rig, time, store } = await cureRunning()
    const rows = await store.read('job:j2')
    const job = await rig.desk.job('j2')
    const row = (await store.summaries()).find(({ jobId }) => jobId === 'j2')
    expect(job && summaryRow(summarise(job, rows.at(-1)?.recordedAt))).toEqual(row)
    await time.pass(2 * 60 * MINUTE)
    expect((await store.summaries()).find(({ jobId }) => jobId === 'j2')).toEqual(row)
  })

  test('[DK13] what ran out while nobody served is made again before anything is given', async () => {
    const { rig, store } = await cureRunning()
    await rig.desk.close()
    const later = await makeRig({
      store,
      after: (clock) => {
        clock.now = CURED + 1
        return () => () => {}
      },
    })
    expect(of(later.desk.summaries())).toMatchObject({ reason: { code: 'nobody_on_it' }, version: 6 })
    expect(of(later.desk.summaries())).not.toHaveProperty('changesAt')
  })

  test('[DK13] closed, nothing is set any more', async () => {
    const { rig, time } = await cureRunning()
    expect(time.waiting.size).toBe(1)
    await rig.desk.close()
    expect(time.waiting.size).toBe(0)
    await time.pass(2 * 60 * MINUTE)
    expect(rig.notices).toEqual([])
  })

  test('[DK13] a damaged job stops no other, and is not tried without end', async () => {
    const inner = memoryEventStore()
    const broken = { on: false }
    const store = {
      ...inner,
      read: async (stream: string, ...rest: [number?]) => {
        if (broken.on && stream === 'job:j2') throw new Error('rows missing')
        return inner.read(stream, ...rest)
      },
    }
    const { rig, time } = await cureRunning(store, { live: 1, packed: 0 })
    for (const number of ['E-5', 'E-6', 'E-7'])
      await must(rig.send(`job:${number}`, 'ana', sealedJob(number)[0] as never))
    broken.on = true
    rig.notices.length = 0
    await time.pass(3 * 60 * MINUTE)
    expect(rig.notices).toEqual([])
    expect(rig.errors).toHaveLength(1)
    expect(time.waiting.size).toBe(0)
  })
})

describe('over the sockets', () => {
  let wire: Awaited<ReturnType<typeof makeWire>>
  let time: ReturnType<typeof byHand>
  beforeAll(async () => {
    wire = await makeWire({
      after: (clock) => {
        time = byHand(
          () => Date.now() + clock.ahead,
          (ms) => {
            clock.ahead += ms
          },
        )
        return time.after
      },
    })
  })
  afterAll(() => wire.close())

  test('[DK13] every board is told when the cure ends, without asking', async () => {
    const ana = await wire.at('ana')
    const bo = await wire.at('bo')
    await ana.ask('command', { stream: 'shop', command: command({ type: 'AddPlan', plan: SEALED }) })
    const board = await bo.ask<{ summaries: JobSummary[] }>('watch', {
      room: 'board',
      protocol: PROTOCOL_VERSION,
    })
    expect(board.summaries.map(({ id }) => id)).toEqual(['j1'])
    for (const jobCommand of sealedJob('E-2')) {
      const answer = await ana.ask<{ ok: boolean }>('command', {
        stream: 'job:j2',
        command: command(jobCommand),
      })
      expect(answer).toMatchObject({ ok: true })
    }
    const reasons = () =>
      bo.messages.flatMap(({ name, message }) =>
        name === 'summary' && message.id === 'j2' ? [(message as unknown as JobSummary).reason.code] : [],
      )
    await until('the board to hear of the cure', () => reasons().at(-1) === 'curing')
    await time.pass(60 * MINUTE)
    await until('the board to hear of its end', () => reasons().at(-1) === 'nobody_on_it')
    expect(reasons().filter((code) => code === 'nobody_on_it').length).toBeGreaterThan(0)
  })
})
