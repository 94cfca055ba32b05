/** The desk's promises, DK1 to DK14; they stand in `server/desk/desk.ts`. */
import { v7 } from 'uuid'
import { describe, expect, test } from 'vitest'
import { openDesk, type Reply } from '../../server/desk'
import { ChainBroken, type EventStore, memoryEventStore, type SummaryRow } from '../../server/store'
import type { JobCommand } from '../../shared/job/commands'
import { readPlan } from '../../shared/plan/schema'
import { planOf, step } from '../shop/plan'
import { silent } from '../shop/silent'
import { figures } from '../shop/words'
import { openJob, openShop, SEALED, stepOne } from '../shop/yard'
import { makeRig, must, NOON } from './rig'

/** A store that counts its commits and can be told to fail. */
function watched() {
  const store = memoryEventStore()
  const seen = { commits: 0, fail: false, before: undefined as (() => Promise<unknown>) | undefined }
  const wrapped: EventStore = {
    ...store,
    async commit(batch) {
      seen.commits++
      if (seen.fail) throw new Error('disk full')
      const { before } = seen
      seen.before = undefined
      await before?.()
      return store.commit(batch)
    },
  }
  return { store: wrapped, inner: store, seen }
}

const claim = { type: 'ClaimStep', stepId: 'S1' } as const

describe('one turn, one commit', () => {
  test('[DK1] commands that wait together share one commit, for whatever stream, each decided on the ones before', async () => {
    const { store, seen } = watched()
    const rig = await makeRig({ store })
    await rig.opened()
    seen.commits = 0
    const answers = await Promise.all([
      ...stepOne.map((command) => rig.send('job:j1', 'bo', command)),
      ...openJob('E-2').map((command) => rig.send('job:j2', 'ana', command)),
    ])
    expect(answers.map(({ ok }) => ok)).toEqual(answers.map(() => true))
    expect(seen.commits).toBe(1)
    expect((await rig.desk.job('j1'))?.steps.S1?.sets.step?.first?.by).toBe('bo')
  })

  test('[DK1] two claims at once: one wins, the other is told who and since when', async () => {
    const rig = await makeRig()
    await rig.opened()
    const [first, second] = await Promise.all([
      rig.send('job:j1', 'ana', claim),
      rig.send('job:j1', 'bo', claim),
    ])
    expect(first.ok).toBe(true)
    expect(second).toMatchObject({ ok: false, code: 'already_claimed', data: { by: 'ana', since: NOON } })
    expect((second as { sentence: string }).sentence).toMatch(/^Ana claimed S1 at \d\d:\d\d/)
  })

  test('[DK6] the sender is answered before its events are published, and versions come in order', async () => {
    const rig = await makeRig()
    await rig.opened()
    const first = rig.submission('job:j1', 'ana', claim, { sender: 'socket-a' })
    const two = rig.submission('job:j1', 'bo', { type: 'ClaimStep', stepId: 'S2' }, { sender: 'socket-b' })
    await Promise.all([rig.desk.submit(first), rig.desk.submit(two)])
    expect(rig.notices).toEqual([
      { answered: first.command.commandId, ok: true },
      { events: 'job:j1', from: 2, types: ['StepClaimed'], sender: 'socket-a' },
      { answered: two.command.commandId, ok: true },
      { events: 'job:j1', from: 3, types: ['StepClaimed'], sender: 'socket-b' },
      { summary: 'j1', version: 4, reason: 'in_work' },
    ])
  })
})

describe('a release', () => {
  test('[DK12] stores the hash of the last event it covers, also of one sent in the same turn', async () => {
    const rig = await makeRig()
    await rig.opened()
    const plan = {
      ...SEALED,
      id: 'short',
      stages: [{ id: 'A', title: 'All of it', releases: 'to_owner' as const }],
      steps: SEALED.steps.slice(1).map((step) => ({ ...step, needs: [] })),
    }
    await must(rig.send('shop', 'ana', { type: 'AddPlan', plan }))
    const [opening] = openJob('E-9')
    const commands = [
      opening as JobCommand,
      { type: 'AdoptPlan', planId: 'short', edition: 1 },
      { type: 'ClaimStep', stepId: 'S2' },
      { type: 'SignStep', stepId: 'S2' },
      { type: 'Release', kind: 'to_owner' },
    ] as const
    await Promise.all(commands.map((command) => must(rig.send('job:j9', 'ana', command))))
    const rows = await rig.store.read('job:j9')
    expect(rows.map(({ event }) => event.type).slice(-2)).toEqual(['StepSigned', 'Released'])
    expect(rows.at(-1)?.event).toMatchObject({ head: rows.at(-2)?.hash })
  })
})

describe('a resend', () => {
  test('[DK3] gets its first answer and changes nothing, also at another desk on the same log', async () => {
    const rig = await makeRig()
    await rig.opened()
    const commandId = v7()
    const first = await rig.send('job:j1', 'ana', claim, { commandId })
    expect(first.ok).toBe(true)
    await must(rig.send('job:j1', 'ana', { type: 'PutDownStep', stepId: 'S1' }))
    expect(await rig.send('job:j1', 'ana', claim, { commandId })).toEqual(first)
    expect((await rig.desk.job('j1'))?.steps.S1?.claim).toBeUndefined()
    const later = await makeRig({ store: rig.store })
    expect(await later.send('job:j1', 'ana', claim, { commandId })).toEqual(first)
    expect(later.notices.filter((note) => 'events' in note)).toEqual([])
  })

  test('[DK3] a refusal is kept too, though the rule would allow it by now', async () => {
    const rig = await makeRig()
    await rig.opened()
    await must(rig.send('job:j1', 'ana', claim))
    const commandId = v7()
    const refused = await rig.send('job:j1', 'bo', claim, { commandId })
    expect(refused.ok).toBe(false)
    await must(rig.send('job:j1', 'ana', { type: 'PutDownStep', stepId: 'S1' }))
    expect(await rig.send('job:j1', 'bo', claim, { commandId })).toEqual(refused)
  })

  test('[DK3] twice in one turn: one answer, one event', async () => {
    const rig = await makeRig()
    await rig.opened()
    const commandId = v7()
    const [first, second] = await Promise.all([
      rig.send('job:j1', 'ana', claim, { commandId }),
      rig.send('job:j1', 'ana', claim, { commandId }),
    ])
    expect(second).toEqual(first)
    expect((await rig.desk.job('j1'))?.version).toBe(3)
  })

  test('[DK4] another body or another person under the same id is refused, and the first answer stays', async () => {
    const rig = await makeRig()
    await rig.opened()
    const commandId = v7()
    const first = await rig.send('job:j1', 'ana', claim, { commandId })
    const reused = { ok: false, code: 'command_id_reused', sentence: expect.stringMatching(/again/) }
    expect(await rig.send('job:j1', 'ana', { type: 'ClaimStep', stepId: 'S2' }, { commandId })).toMatchObject(
      reused,
    )
    expect(await rig.send('job:j1', 'bo', claim, { commandId })).toMatchObject(reused)
    expect(await rig.send('job:j2', 'ana', claim, { commandId })).toMatchObject(reused)
    expect(await rig.send('job:j1', 'ana', claim, { commandId })).toEqual(first)
  })
})

describe('a commit that does not come about', () => {
  test('[DK2] failed: not_saved, nothing shown or told, and the same command may come again', async () => {
    const { store, seen } = watched()
    const rig = await makeRig({ store })
    await rig.opened()
    seen.fail = true
    const commandId = v7()
    const [failed, refused, twin] = await Promise.all([
      rig.send('job:j1', 'ana', claim, { commandId }),
      rig.send('job:j1', 'bo', claim),
      rig.send('job:j1', 'ana', claim, { commandId }),
    ])
    for (const answer of [failed, refused, twin])
      expect(answer).toMatchObject({ ok: false, code: 'not_saved' })
    expect(rig.notices.filter((note) => !('answered' in note))).toEqual([])
    expect((await rig.desk.job('j1'))?.version).toBe(2)
    expect(rig.desk.summaries()[0]?.version).toBe(2)
    expect(rig.errors).toHaveLength(1)
    seen.fail = false
    expect(await rig.send('job:j1', 'ana', claim, { commandId })).toMatchObject({ ok: true, version: 3 })
  })

  test('[DK2] a first answer of before stands, whatever happens to its neighbours', async () => {
    const { store, seen } = watched()
    const rig = await makeRig({ store })
    await rig.opened()
    const commandId = v7()
    const first = await rig.send('job:j1', 'ana', claim, { commandId })
    seen.fail = true
    const [again, failed] = await Promise.all([
      rig.send('job:j1', 'ana', claim, { commandId }),
      rig.send('job:j1', 'bo', { type: 'ClaimStep', stepId: 'S2' }),
    ])
    expect(again).toEqual(first)
    expect(failed).toMatchObject({ code: 'not_saved' })
  })

  test('[DK5] stale: read again and decided again, on what the other writer left', async () => {
    const { store, inner, seen } = watched()
    const rig = await makeRig({ store })
    await rig.opened()
    const other = await makeRig({ store: inner })
    seen.before = () => must(other.send('job:j1', 'bo', claim))
    expect(await rig.send('job:j1', 'ana', claim)).toMatchObject({
      code: 'already_claimed',
      data: { by: 'bo' },
    })
    expect((await rig.desk.job('j1'))?.version).toBe(3)
  })

  test('[DK5] a writer that never rests: given up after three times, saved nothing', async () => {
    const { store, inner, seen } = watched()
    const rig = await makeRig({ store })
    await rig.opened()
    const other = await makeRig({ store: inner })
    let odd = false
    seen.commits = 0
    const meddle = async () => {
      odd = !odd
      await must(other.send('job:j1', 'bo', { type: odd ? 'ClaimStep' : 'PutDownStep', stepId: 'S1' }))
      seen.before = meddle
    }
    seen.before = meddle
    const answer = await rig.send('job:j1', 'ana', { type: 'ClaimStep', stepId: 'S2' })
    expect(answer).toMatchObject({ ok: false, code: 'not_saved' })
    expect(seen.commits).toBe(3)
  })
})

describe('times, numbers, bounds', () => {
  test('[DK9] doneAt is the command’s; five minutes ahead and more is taken as the arrival, the offset kept', async () => {
    const rig = await makeRig()
    await rig.opened()
    const at = async (doneAt: number | undefined, stepId: string) => {
      const answer = await must(
        rig.send('job:j1', 'ana', { type: 'ClaimStep', stepId }, { doneAt, clockOffsetMs: 1234 }),
      )
      const [entry] = answer.events
      await must(rig.send('job:j1', 'ana', { type: 'PutDownStep', stepId }))
      return entry?.event
    }
    expect(await at(NOON - 3_600_000, 'S1')).toMatchObject({ doneAt: NOON - 3_600_000, clockOffsetMs: 1234 })
    expect(await at(NOON + 5 * 60_000, 'S1')).toMatchObject({ doneAt: NOON + 5 * 60_000 })
    expect(await at(NOON + 5 * 60_000 + 1, 'S1')).toMatchObject({ doneAt: NOON, clockOffsetMs: 1234 })
    expect(await at(undefined, 'S1')).toMatchObject({ doneAt: NOON })
  })

  test('[DK10] a job number belongs to one job, also within one turn', async () => {
    const rig = await makeRig()
    await rig.opened()
    const open = (jobId: string, number: string) =>
      rig.send(`job:${jobId}`, 'ana', openJob(number)[0] as never)
    // However it is typed: on the board two of these would be told apart by nobody.
    for (const number of ['E-1', 'e-1', 'E 1', 'e1'])
      expect(await open('j2', number)).toMatchObject({ code: 'number_taken', data: { number } })
    const both = await Promise.all([open('j3', 'E-3'), open('j4', 'E-3')])
    expect(both).toMatchObject([{ ok: true }, { code: 'number_taken', data: { number: 'E-3' } }])
    const alike = await Promise.all([open('j5', 'E-5'), open('j6', 'e5')])
    expect(alike).toMatchObject([{ ok: true }, { code: 'number_taken', data: { number: 'e5' } }])
  })

  test.each([
    ['packed in memory', 2 ** 20],
    ['from the log', 0],
  ])('[DK7] a fold that had to make room comes back as it was, %s', async (_, packed) => {
    const store = memoryEventStore()
    const reads: string[] = []
    const rig = await makeRig({ store: readsTold(store, reads), budget: { live: 1, packed } })
    await rig.opened()
    for (const command of stepOne) await must(rig.send('job:j1', 'bo', command))
    const before = await rig.desk.job('j1')
    for (const id of ['j2', 'j3', 'j4']) await must(rig.send(`job:${id}`, 'ana', openJob(id)[0] as never))
    expect(rig.desk.peek('job:j1')).toBeUndefined()
    reads.length = 0
    expect(await rig.desk.job('j1')).toEqual(before)
    expect(reads).toEqual(packed > 0 ? [] : ['job:j1'])
  })

  test('[DK7] what was packed is not believed once the log goes on without this desk', async () => {
    const store = memoryEventStore()
    const rig = await makeRig({ store, budget: { live: 1, packed: 2 ** 20 } })
    await rig.opened()
    await must(rig.send('job:j2', 'ana', openJob('E-2')[0] as never))
    expect(rig.desk.peek('job:j1')).toBeUndefined()
    const other = await makeRig({ store })
    await must(other.send('job:j1', 'bo', claim))
    expect((await rig.desk.job('j1'))?.steps.S1?.claim?.by).toBe('bo')
  })

  test('[DK14] six weeks after it left an engine is no longer on the board, and is looked up', async () => {
    const store = memoryEventStore()
    const rig = await makeRig({ store })
    await rig.opened()
    const [row] = await store.summaries()
    const left = {
      ...JSON.parse(row?.json ?? ''),
      reason: { code: 'released', kind: 'to_owner', number: 'R-1' },
      changedAt: NOON,
    }
    await store.replaceViews([
      { summaries: [{ ...(row as SummaryRow), json: JSON.stringify(left), finishedAt: NOON }], readings: [] },
    ])
    const weeks = 7 * 86_400_000
    const later = async (ms: number) => {
      const { desk, clock } = await makeRig({ store })
      clock.now = NOON + ms
      return { numbers: desk.summaries().map(({ number }) => number), desk }
    }
    expect((await later(6 * weeks)).numbers).toEqual(['E-1'])
    const { numbers, desk } = await later(6 * weeks + 1)
    expect(numbers).toEqual([])
    for (const number of ['E-1', 'e 1', '1'])
      expect(await desk.finished({ number })).toMatchObject([{ id: 'j1', number: 'E-1', finishedAt: NOON }])
    expect(await desk.jobsOfNumber('e1')).toEqual(['j1'])
    // What is offered next is not the number it has.
    expect(await desk.nextNumber()).toBe('E-2')
    // Its number stays its own.
    expect(await rig.send('job:j9', 'ana', openJob('E-1')[0] as never)).toMatchObject({
      code: 'number_taken',
    })
  })

  test('a plan of two thousand steps is taken, adopted and worked on; one more step is refused', async () => {
    const chain = (count: number) =>
      planOf(
        ...Array.from({ length: count }, (_, n) => step(`S${n}`, n === 0 ? {} : { needs: [`S${n - 1}`] })),
      )
    const long = { ...chain(2000), id: 'long' }
    expect(readPlan(long, figures)).toHaveProperty('plan')
    expect(readPlan(chain(2001), figures)).toHaveProperty('faults')
    const rig = await makeRig()
    await rig.opened()
    await must(rig.send('shop', 'ana', { type: 'AddPlan', plan: long }))
    const [open] = openJob('E-9')
    await must(rig.send('job:j9', 'ana', open as never))
    await must(rig.send('job:j9', 'ana', { type: 'AdoptPlan', planId: 'long', edition: 1 }))
    await must(rig.send('job:j9', 'ana', { type: 'ClaimStep', stepId: 'S0' }))
    await must(rig.send('job:j9', 'ana', { type: 'SignStep', stepId: 'S0' }))
    const summary = rig.desk.summaries().find(({ number }) => number === 'E-9')
    expect([summary?.cells.length, summary?.signed, summary?.ready?.map(({ stepId }) => stepId)]).toEqual([
      2000,
      1,
      ['S1'],
    ])
  })

  test('engines built by one plan hold it once', async () => {
    const store = memoryEventStore()
    const rig = await makeRig({ store })
    await rig.opened()
    for (const command of openJob('E-2')) await must(rig.send('job:j2', 'ana', command))
    const [one, two] = [await rig.desk.job('j1'), await rig.desk.job('j2')]
    expect(two?.plan).toBe(one?.plan)
    const later = await makeRig({ store })
    expect((await later.desk.job('j2'))?.plan).toBe((await later.desk.job('j1'))?.plan)
    expect((await later.desk.job('j2'))?.plan).toEqual(one?.plan)
  })
})

/** Names every stream that is read from the log. */
const readsTold = (store: EventStore, reads: string[]): EventStore => ({
  ...store,
  read: (stream, after) => {
    reads.push(stream)
    return store.read(stream, after)
  },
})

describe('damage and bugs stay where they are', () => {
  test('[DK7] a damaged stream is neither shown nor written to; others go on', async () => {
    const inner = memoryEventStore()
    const rig = await makeRig({ store: inner })
    await rig.opened()
    await must(rig.send('job:j2', 'ana', openJob('E-2')[0] as never))
    const broken: EventStore = {
      ...inner,
      read: async (stream, after) => {
        if (stream === 'job:j1') throw new ChainBroken(stream, 2, 'its bytes are not what was hashed')
        return inner.read(stream, after)
      },
    }
    const again = await makeRig({ store: broken })
    const [damaged, fine] = await Promise.all([
      again.send('job:j1', 'ana', claim),
      again.send('job:j2', 'ana', { type: 'AdoptPlan', planId: 'small', edition: 1 }),
    ])
    expect(damaged).toMatchObject({
      ok: false,
      code: 'not_saved',
      sentence: expect.stringMatching(/damaged/),
    })
    expect(fine.ok).toBe(true)
    await expect(again.desk.job('j1')).rejects.toThrow(ChainBroken)
  })

  test('[DK11] a listener that throws undoes nothing and stops nobody', async () => {
    const store = memoryEventStore()
    const desk = await openDesk({
      store,
      now: () => NOON,
      newId: () => v7(),
      log: silent,
      publish: {
        events() {
          throw new Error('nobody is there')
        },
        summary() {},
      },
    })
    const rig = await makeRig({ store })
    const answers: Reply[] = await Promise.all(
      openShop.map((command) => desk.submit(rig.submission('shop', 'ana', command))),
    )
    expect(answers.map(({ ok }) => ok)).toEqual([true, true, true, true])
  })

  test('[DK8] reading rows follow the fold: struck and retaken ones no longer stand', async () => {
    const rig = await makeRig()
    await rig.opened()
    for (const command of stepOne.slice(0, 5)) await must(rig.send('job:j1', 'bo', command))
    const retaken = (await rig.desk.job('j1'))?.readings.J1?.[0]?.id
    await must(rig.send('job:j1', 'bo', stepOne[2] as never))
    await must(
      rig.send('job:j1', 'bo', {
        type: 'StrikeReading',
        readingId: (await rig.desk.job('j1'))?.readings.J1?.[1]?.id ?? '',
        reason: 'wrong bolt',
      }),
    )
    const rows = await rig.store.readings({ jobId: 'j1' })
    expect(rows).toHaveLength(4)
    expect(
      rows
        .filter(({ standing }) => standing)
        .map(({ position }) => position)
        .sort(),
    ).toEqual([1, 3])
    expect(rows.find(({ readingId }) => readingId === retaken)?.standing).toBe(false)
    const [row] = await rig.store.summaries()
    expect(row).toMatchObject({ jobId: 'j1', number: 'E-1', version: (await rig.desk.job('j1'))?.version })
  })
})
