/**
 * The promises of an event store (ES1–ES14, RULES.md), as one suite. Every adapter runs it; what only a
 * store on disk can promise stands in that adapter's own test.
 */
import { expect, test } from 'vitest'
import { AnsweredTwice, type EventStore, JobNumberTaken, NotCanonical, StoreClosed } from '../../server/store'
import { walkChain } from '../../shared/chain'
import { hashText as webSha256 } from '../../web/live/hash'
import { answer, append, batch, opened, reading, summary } from './store-builders'

/** Changes everything that can be changed within a value. */
function scribbleOver(value: unknown): void {
  if (typeof value !== 'object' || value === null) return
  for (const [key, member] of Object.entries(value)) {
    if (typeof member === 'object') scribbleOver(member)
    else Object.assign(value, { [key]: typeof member === 'number' ? member + 1 : 'scribbled' })
  }
  if (Array.isArray(value)) value.push('scribbled')
}

export function eventStoreKeepsItsPromises(name: string, makeStore: () => EventStore | Promise<EventStore>) {
  const promise = (title: string, check: (store: EventStore) => Promise<void>) =>
    test(`${name}: ${title}`, async () => {
      const store = await makeStore()
      try {
        await check(store)
      } finally {
        await store.close()
      }
    })

  /** Everything a store holds, to show that nothing changed. */
  const everything = async (store: EventStore) => ({
    log: await store.readAll(0, 1000),
    heads: await store.streams(),
    summaries: await store.summaries(),
    readings: await store.readings({}),
    answers: [...(await store.answers(['c1', 'c2', 'c3']))],
  })

  promise('[ES1] what is committed is read back as given, versions and places counted', async (store) => {
    const note = {
      type: 'Noted',
      text: 'é € 😀 \u0000 " \\',
      list: [1, null, { deep: 0.1 }],
      absent: undefined,
    }
    const first = await opened(store, [append('job:a', 0, [note, { type: 'Second' }], { causeId: 'why' })])
    const second = await opened(store, [append('job:b', 0, [{ type: 'Third' }])])
    const rows = await store.read('job:a')
    expect(rows).toEqual(first)
    expect(rows.map((r) => [r.stream, r.version, r.seq, r.event])).toEqual([
      ['job:a', 1, 1, { type: 'Noted', text: note.text, list: note.list }],
      ['job:a', 2, 2, { type: 'Second' }],
    ])
    expect(rows[0]).toMatchObject({ commandId: 'command', causeId: 'why', recordedAt: 1_760_000_000_000 })
    expect(rows[0]?.id).toBe('job:a-1')
    expect(await store.readAll(0, 10)).toEqual([...first, ...second])
    expect(second.map((r) => [r.version, r.seq, 'causeId' in r])).toEqual([[1, 3, false]])
    const third = await store.commit(batch({ appends: [append('job:a', 2, 1), append('job:b', 1, 1)] }))
    expect(third).toHaveProperty('lastSeq', 5)
  })

  promise('[ES1] a stale or rejected batch leaves no gap in the places of the log', async (store) => {
    await opened(store, [append('job:a', 0, 1)])
    await store.commit(batch({ appends: [append('job:b', 0, 1), append('job:a', 0, 1)] }))
    const bad = batch({ appends: [append('job:b', 0, 2)], answers: [answer('c1'), answer('c1')] })
    await expect(store.commit(bad)).rejects.toThrow(AnsweredTwice)
    const next = await opened(store, [append('job:b', 0, 1)])
    expect(next.map((r) => r.seq)).toEqual([2])
  })

  promise('[ES2] two batches at the same version: one is committed, one is stale', async (store) => {
    const outcomes = await Promise.all(
      ['ana', 'bo'].map((who) =>
        store.commit(batch({ appends: [append('job:a', 0, [{ type: 'StepClaimed', by: who }])] })),
      ),
    )
    expect(outcomes.filter((o) => 'committed' in o)).toHaveLength(1)
    expect(outcomes.filter((o) => 'stale' in o)).toEqual([{ stale: ['job:a'] }])
    expect(await store.read('job:a')).toHaveLength(1)
  })

  promise(
    '[ES2] each stale stream is named once, behind or ahead, and nothing of the batch is written',
    async (store) => {
      await opened(store, [append('job:a', 0, 2), append('job:b', 0, 1)])
      const before = await everything(store)
      const outcome = await store.commit(
        batch({
          appends: [
            append('job:c', 0, 1),
            append('job:a', 1, 1),
            append('job:a', 2, 1),
            append('job:b', 1, 1),
            append('job:d', 4, 1),
          ],
          answers: [answer('c1')],
          summaries: [summary('j1', '1001')],
          readings: [reading('j1', 'r1')],
        }),
      )
      expect(outcome).toEqual({ stale: ['job:a', 'job:d'] })
      expect(await everything(store)).toEqual(before)
    },
  )

  promise('[ES3] events, answers, summaries and readings of a batch are there together', async (store) => {
    await store.commit(
      batch({
        appends: [append('job:a', 0, 1)],
        answers: [answer('c1')],
        summaries: [summary('j1', '1001')],
        readings: [reading('j1', 'r1')],
      }),
    )
    const before = await everything(store)
    expect(before.log).toHaveLength(1)
    expect(before.answers).toEqual([['c1', answer('c1')]])
    expect(before.summaries).toEqual([summary('j1', '1001')])
    expect(before.readings).toEqual([reading('j1', 'r1')])
  })

  const spoilt = {
    'an answer given before': { answers: [answer('c2'), answer('c1')] },
    'a job number taken': { summaries: [summary('j2', '1002'), summary('j3', '1001')] },
    'an event JSON cannot hold': {
      appends: [append('job:b', 0, 1), append('job:c', 0, [{ type: 'X', n: Number.NaN }])],
    },
  }
  for (const [what, wrong] of Object.entries(spoilt)) {
    promise(
      `[ES3] ${what} rejects the commit, which leaves nothing behind; the store goes on`,
      async (store) => {
        await store.commit(batch({ answers: [answer('c1')], summaries: [summary('j1', '1001')] }))
        const before = await everything(store)
        const good = {
          appends: [append('job:a', 0, 2)],
          answers: [answer('c3')],
          readings: [reading('j1', 'r1')],
        }
        await expect(store.commit(batch({ ...good, ...wrong }))).rejects.toThrow(/nothing/)
        expect(await everything(store)).toEqual(before)
        expect(await store.commit(batch(good))).toHaveProperty('committed.length', 1)
      },
    )
  }

  promise('[ES4] appends to one stream in one batch follow each other', async (store) => {
    const rows = await opened(store, [append('job:a', 0, 2), append('job:b', 0, 1), append('job:a', 2, 1)])
    expect(rows.map((r) => [r.stream, r.version, r.seq])).toEqual([
      ['job:a', 1, 1],
      ['job:a', 2, 2],
      ['job:b', 1, 3],
      ['job:a', 3, 4],
    ])
    expect(await store.read('job:a')).toHaveLength(3)
    const again = await store.commit(batch({ appends: [append('job:a', 3, 1), append('job:a', 3, 1)] }))
    expect(again).toEqual({ stale: ['job:a'] })
  })

  promise('[ES4] an append without events only guards the version', async (store) => {
    await opened(store, [append('shop', 0, 1)])
    const held = await store.commit(batch({ appends: [append('shop', 1, 0), append('job:a', 0, 1)] }))
    expect(held).toHaveProperty('committed.length', 1)
    const moved = await store.commit(batch({ appends: [append('shop', 0, 0), append('job:a', 1, 1)] }))
    expect(moved).toEqual({ stale: ['shop'] })
    expect(await store.commit(batch({ appends: [append('job:none', 0, 0)] }))).toMatchObject({
      committed: [],
    })
    expect((await store.streams()).map((s) => [s.stream, s.version]).sort()).toEqual([
      ['job:a', 1],
      ['shop', 1],
    ])
  })

  promise('[ES4] a batch may hold answers alone, or nothing', async (store) => {
    expect(
      await store.commit(batch({ answers: [answer('c1', { refused: 'step_taken', data: {} })] })),
    ).toMatchObject({ committed: [] })
    expect((await store.answers(['c1'])).get('c1')?.answer).toEqual({ refused: 'step_taken', data: {} })
    expect(await store.commit(batch({}))).toMatchObject({ committed: [] })
  })

  promise('[ES5] an answer comes back as first given; a second one fails the commit', async (store) => {
    await store.commit(batch({ answers: [answer('c1', { version: 1, events: [] }), answer('c2', null)] }))
    const other = batch({ appends: [append('job:a', 0, 1)], answers: [answer('c1', { version: 9 })] })
    await expect(store.commit(other)).rejects.toThrow(AnsweredTwice)
    await expect(store.commit(other)).rejects.toThrow('Command c1 is answered already')
    const answers = await store.answers(['c1', 'c2', 'never'])
    expect([...answers]).toEqual([
      ['c1', answer('c1', { version: 1, events: [] })],
      ['c2', answer('c2', null)],
    ])
    expect(await store.read('job:a')).toEqual([])
  })

  promise('[ES5] a device’s answered entries come in the order of its own count', async (store) => {
    const counted = (id: string, entryNumber: number, deviceId = 'tablet') => ({
      ...answer(id),
      deviceId,
      entryNumber,
    })
    await store.commit(
      batch({ answers: [counted('c3', 3), counted('c1', 1), counted('x2', 2, 'phone'), answer('c0')] }),
    )
    await store.commit(batch({ answers: [counted('c10', 10)] }))
    const numbers = async (from: number) =>
      (await store.counted('tablet', from)).map(({ entryNumber }) => entryNumber)
    expect([await numbers(0), await numbers(3), await store.counted('nobody’s', 0)]).toEqual([
      [1, 3, 10],
      [3, 10],
      [],
    ])
  })

  promise('[ES5] one id answered twice within a batch fails it', async (store) => {
    await expect(store.commit(batch({ answers: [answer('c1'), answer('c1')] }))).rejects.toThrow(
      AnsweredTwice,
    )
    expect((await store.answers(['c1'])).size).toBe(0)
  })

  promise('[ES6] read gives what came after a version; what does not exist reads as empty', async (store) => {
    const rows = await opened(store, [append('job:a', 0, 3), append('job:b', 0, 1)])
    expect(await store.read('job:a', 1)).toEqual(rows.slice(1, 3))
    expect(await store.read('job:a', 3)).toEqual([])
    expect(await store.read('job:a', 9)).toEqual([])
    expect(await store.read('job:none')).toEqual([])
    expect(await store.read('job:none', 2)).toEqual([])
  })

  promise('[ES6] readAll pages through the log without loss or repeat', async (store) => {
    const rows = await opened(store, [append('job:a', 0, 3), append('job:b', 0, 2), append('job:a', 3, 2)])
    const paged = []
    for (let after = 0; ; after = paged.length) {
      const page = await store.readAll(after, 3)
      expect(page.length).toBeLessThanOrEqual(3)
      if (page.length === 0) break
      paged.push(...page)
    }
    expect(paged).toEqual(rows)
    expect(await store.readAll(99, 3)).toEqual([])
  })

  promise('[ES7] each hash builds on the one before, and streams() names where each ends', async (store) => {
    const rows = await opened(store, [
      append('job:a', 0, [{ type: 'Same' }, { type: 'Same' }]),
      append('job:b', 0, 1),
    ])
    expect(new Set(rows.map((r) => r.hash)).size).toBe(3)
    for (const { hash } of rows) expect(hash).toMatch(/^[0-9a-f]{64}$/)
    expect(await store.streams()).toEqual([
      { stream: 'job:a', version: 2, hash: rows[1]?.hash },
      { stream: 'job:b', version: 1, hash: rows[2]?.hash },
    ])
  })

  promise('[ES13] the stored texts, hashed anew elsewhere, come to the same head', async (store) => {
    const rows = await opened(store, [
      append('job:a', 0, [{ type: 'Noted', text: 'första ☂ 😀' }, { type: 'Noted' }]),
      append('job:b', 0, 2),
      append('job:a', 2, 3),
    ])
    const head = rows.at(-1)?.hash ?? ''
    const chain = { stream: 'job:a', rows: await store.chain('job:a') }
    expect(chain.rows.map(({ version }) => version)).toEqual([1, 2, 3, 4, 5])
    expect(await walkChain(chain, 5, head, webSha256)).toEqual({ whole: true, version: 5, head })
    expect(await store.chain('job:none')).toEqual([])
  })

  promise('[ES14] a release stands on the very entries before it', async (store) => {
    const rows = await opened(store, [append('job:a', 0, 2)])
    const released = { type: 'Released', number: 'E-1-F1', head: rows.at(-1)?.hash }
    await opened(store, [append('job:a', 2, [released])])
    await store.commit(batch({ appends: [append('job:b', 0, 2), append('job:b', 2, [released])] }))
    expect(await store.read('job:a')).toHaveLength(3)
    expect(await store.read('job:a', 2)).toHaveLength(1)
    for (const read of [() => store.read('job:b'), () => store.read('job:b', 2), () => store.readAll(0, 9)])
      await expect(read()).rejects.toThrow(
        /"job:b" is damaged at version 3: release E-1-F1 was given on other/,
      )
  })

  promise('[ES8] a later summary or reading takes the place of the earlier one', async (store) => {
    const plain = reading('j1', 'r1', {
      wrenchId: undefined,
      torqueNm: undefined,
      angleDeg: 90.5,
      how: 'turned',
    })
    await store.commit(batch({ summaries: [summary('j1', '1001')], readings: [reading('j1', 'r1'), plain] }))
    expect(await store.readings({})).toEqual([plain])
    const struck = reading('j1', 'r1', { standing: false, flags: ['out_of_band', 'not_claimed'] })
    await store.commit(
      batch({ summaries: [summary('j1', '1001', { open: 3 }, 7)], readings: [struck, reading('j2', 'r1')] }),
    )
    expect(await store.summaries()).toEqual([summary('j1', '1001', { open: 3 }, 7)])
    expect(await store.readings({ jobId: 'j1' })).toEqual([struck])
  })

  promise('[ES8] what is finished is told apart, and looked up by number and time', async (store) => {
    const rows = [
      summary('j1', '1001'),
      { ...summary('j2', '1002'), finishedAt: 100 },
      { ...summary('j3', '1003'), finishedAt: 200 },
    ]
    await store.commit(batch({ summaries: rows }))
    const numbers = async (found: Promise<{ number: string }[]>) => (await found).map(({ number }) => number)
    expect(await store.summaries()).toEqual(rows)
    expect(await numbers(store.summaries(200))).toEqual(['1001', '1003'])
    expect(await numbers(store.finished({ from: 100, until: 200 }))).toEqual(['1002'])
    expect(await store.finished({ number: '1003' })).toEqual(rows.slice(2))
    expect(await store.finished({ number: '1001' })).toEqual([])
    expect(await store.numbers()).toEqual(['1001', '1002', '1003'])
    expect(await store.jobOfNumber('1001')).toBe('j1')
    expect(await store.jobOfNumber('1009')).toBeUndefined()
    await store.commit(batch({ summaries: [summary('j3', '1003', { open: 2 }, 2)] }))
    expect(await numbers(store.finished({ from: 0, until: 1000 }))).toEqual(['1002'])
  })

  promise('[ES6] head gives where a stream ends', async (store) => {
    const rows = await opened(store, [append('job:a', 0, 2)])
    expect(await store.head('job:a')).toEqual({ stream: 'job:a', version: 2, hash: rows[1]?.hash })
    expect(await store.head('job:none')).toBeUndefined()
  })

  promise('[ES8] readings are found by job, wrench and time, in the order they were done', async (store) => {
    const rows = [
      reading('j1', 'r1', { doneAt: 30, wrenchId: 'w1' }),
      reading('j1', 'r2', { doneAt: 10, wrenchId: 'w2' }),
      reading('j2', 'r3', { doneAt: 20, wrenchId: 'w1' }),
      reading('j2', 'r4', { doneAt: 20, wrenchId: 'w1' }),
    ]
    await store.commit(batch({ readings: rows }))
    const idsWhere = async (question: Parameters<EventStore['readings']>[0]) =>
      (await store.readings(question)).map((r) => r.readingId)
    expect(await idsWhere({})).toEqual(['r2', 'r3', 'r4', 'r1'])
    expect(await idsWhere({ wrenchId: 'w1' })).toEqual(['r3', 'r4', 'r1'])
    expect(await idsWhere({ wrenchId: 'w1', until: 30 })).toEqual(['r3', 'r4'])
    expect(await idsWhere({ wrenchId: 'w1', from: 21 })).toEqual(['r1'])
    expect(await idsWhere({ jobId: 'j1', from: 10, until: 11 })).toEqual(['r2'])
  })

  promise(
    '[ES8] a job number belongs to one job, and is free again when that job gives it up',
    async (store) => {
      await store.commit(batch({ summaries: [summary('j1', '1001')] }))
      await expect(store.commit(batch({ summaries: [summary('j2', '1001')] }))).rejects.toThrow(
        JobNumberTaken,
      )
      await store.commit(batch({ summaries: [summary('j1', '1002'), summary('j2', '1001')] }))
      expect((await store.summaries()).map((s) => [s.jobId, s.number]).sort()).toEqual([
        ['j1', '1002'],
        ['j2', '1001'],
      ])
    },
  )

  promise('[ES8] replaceViews puts new views for all old ones, or changes nothing', async (store) => {
    await store.commit(
      batch({
        appends: [append('job:a', 0, 1)],
        answers: [answer('c1')],
        summaries: [summary('j1', '1001'), summary('j2', '1002')],
        readings: [reading('j1', 'r1')],
      }),
    )
    const before = await everything(store)
    const twice = { summaries: [summary('j8', '1008'), summary('j9', '1008')], readings: [] }
    await expect(store.replaceViews([twice])).rejects.toThrow(JobNumberTaken)
    const stopped = async function* () {
      yield { summaries: [summary('j7', '1007')], readings: [] }
      throw new Error('stopped')
    }
    await expect(store.replaceViews(stopped())).rejects.toThrow('stopped')
    expect(await everything(store)).toEqual(before)
    await store.replaceViews([{ summaries: [summary('j3', '1001')], readings: [reading('j3', 'r9')] }])
    expect(await everything(store)).toEqual({
      ...before,
      summaries: [summary('j3', '1001')],
      readings: [reading('j3', 'r9')],
    })
  })

  promise('[ES9] what is handed in or out can be changed without changing the store', async (store) => {
    const input = batch({
      appends: [append('job:a', 0, [{ type: 'Noted', list: [1], deep: { text: 'a' } }])],
      answers: [answer('c1', { events: [1] })],
      summaries: [summary('j1', '1001', { open: [1] })],
      readings: [reading('j1', 'r1', { flags: ['out_of_band'] })],
    })
    const outcome = await store.commit(input)
    const before = structuredClone(await everything(store))
    expect(before.readings).toEqual(structuredClone(input.readings))
    scribbleOver(input)
    scribbleOver(outcome)
    scribbleOver(await everything(store))
    scribbleOver(await store.read('job:a'))
    expect(await everything(store)).toEqual(before)
  })

  const unholdable: [string, unknown][] = [
    ['NaN', Number.NaN],
    ['Infinity', Number.POSITIVE_INFINITY],
    ['undefined in a list', [undefined]],
    ['a function', () => 1],
    ['a bigint', 1n],
    ['half a surrogate pair', '\ud83d'],
    ['a map', new Map()],
  ]
  promise('[ES10] what JSON cannot hold rejects the commit and names the place', async (store) => {
    for (const [, value] of unholdable) {
      const event = { type: 'Noted', deep: { value } }
      await expect(store.commit(batch({ appends: [append('job:a', 0, [event])] }))).rejects.toThrow(
        NotCanonical,
      )
      await expect(store.commit(batch({ answers: [answer('c1', event)] }))).rejects.toThrow('/deep/value')
    }
    expect(await store.readAll(0, 10)).toEqual([])
    expect((await store.answers(['c1'])).size).toBe(0)
  })

  promise('[ES12] a closed store rejects every call; closing twice is closing once', async (store) => {
    await store.close()
    await store.close()
    const calls = [
      () => store.read('job:a'),
      () => store.readAll(0, 1),
      () => store.chain('job:a'),
      () => store.streams(),
      () => store.answers(['c1']),
      () => store.summaries(),
      () => store.head('job:a'),
      () => store.finished({ number: '1001' }),
      () => store.numbers(),
      () => store.jobOfNumber('1001'),
      () => store.readings({}),
      () => store.commit(batch({})),
      () => store.replaceViews([{ summaries: [], readings: [] }]),
    ]
    for (const call of calls) await expect(call()).rejects.toThrow(StoreClosed)
  })
}
