/** The outbox keeps what was entered until it is answered, sends it in order, and never changes its id. */
import { describe, expect, test } from 'vitest'
import type { Answer, Fault } from '../../../shared/protocol'
import { commandIdOf, makeOutbox, type QueuedCommand, refusedIn } from '../../../web/live/outbox'
import { memoryShelf } from '../../../web/live/retry-queue'

const entry = (n: number): QueuedCommand => ({
  stream: 'job:j1',
  command: { commandId: `c${n}`, signInId: `s${n}`, doneAt: n, type: 'ClaimStep', stepId: 'caps' },
  by: 'ana',
})
const fine: Answer = { ok: true, version: 1, events: [] }
const fault = (code: Fault['code']): Fault => ({ ok: false, code, sentence: `${code}.` })
const refused: Answer = { ok: false, code: 'needs_open', data: {}, sentence: 'First the other.' }

/** A wire that answers as told, in turn; `lost` is no answer at all. */
function wire(...says: (Answer | Fault | 'lost')[]) {
  const sent: QueuedCommand[] = []
  const waits: number[] = []
  return {
    sent,
    waits,
    ids: () => sent.map(commandIdOf),
    async send(queued: QueuedCommand) {
      sent.push(queued)
      const answer = says.shift() ?? fine
      if (answer === 'lost') throw new Error('no link')
      return answer
    },
    async wait(ms: number) {
      waits.push(ms)
    },
  }
}
/** The same, but no wait ever ends by itself: whatever is sent again was woken. */
const patient = (line: ReturnType<typeof wire>) => ({
  ...line,
  wait: () => new Promise<void>(() => undefined),
})

/** Lets everything that can happen by itself happen. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 5))

describe('sending', () => {
  test('one after another, in the order they were made', async () => {
    const line = wire()
    const outbox = makeOutbox(line)
    const answers = await Promise.all([outbox.add(entry(1)), outbox.add(entry(2)), outbox.add(entry(3))])
    expect(line.ids()).toEqual(['c1', 'c2', 'c3'])
    expect(answers).toEqual([fine, fine, fine])
    expect(outbox.entries()).toEqual([])
  })

  test('the second is not sent before the first is answered', async () => {
    let answer: (said: Answer) => void = () => undefined
    const sent: string[] = []
    const outbox = makeOutbox({
      send: (queued) => {
        sent.push(commandIdOf(queued))
        return new Promise((resolve) => {
          answer = resolve
        })
      },
    })
    void outbox.add(entry(1))
    void outbox.add(entry(2))
    await settled()
    expect(sent).toEqual(['c1'])
    answer(fine)
    await settled()
    expect(sent).toEqual(['c1', 'c2'])
  })

  test('each under the sign-in it was made under', async () => {
    const line = wire('lost')
    const outbox = makeOutbox(line)
    void outbox.add(entry(1))
    await settled()
    void outbox.add(entry(2))
    await settled()
    expect(line.sent.map(({ command }) => command.signInId)).toEqual(['s1', 's1', 's2'])
  })
})

describe('without a link', () => {
  test('everything is kept; after the link is back it goes up with the same ids', async () => {
    const line = wire('lost', 'lost')
    const outbox = makeOutbox(patient(line))
    const first = outbox.add(entry(1))
    await settled()
    expect(outbox.entries()).toEqual([entry(1)])
    outbox.wake()
    await settled()
    expect(outbox.entries()).toEqual([entry(1)])
    outbox.wake()
    expect(await first).toEqual(fine)
    expect(line.sent).toEqual([entry(1), entry(1), entry(1)])
    expect(outbox.entries()).toEqual([])
  })

  test('entries on the shelf from before are sent first', async () => {
    const shelf = memoryShelf(commandIdOf)
    await shelf.put(entry(1))
    const line = wire()
    const outbox = makeOutbox({ ...line, shelf })
    await outbox.add(entry(2))
    expect(line.ids()).toEqual(['c1', 'c2'])
    await settled()
    expect(await shelf.load()).toEqual([])
  })

  test('they are sent without a word, and what is entered before the shelf is read comes after them', async () => {
    const shelf = memoryShelf(commandIdOf)
    for (const n of [3, 1, 2]) await shelf.put(entry(n))
    const line = wire()
    const outbox = makeOutbox({ ...line, shelf: { ...shelf, load: () => settled().then(shelf.load) } })
    void outbox.add(entry(4))
    // The same one again, which the shelf had: once is enough.
    void outbox.add(entry(1))
    await settled()
    await settled()
    expect(line.ids()).toEqual(['c3', 'c1', 'c2', 'c4'])
    expect(outbox.entries()).toEqual([])
  })

  test('a shelf that cannot be read or written holds up nothing', async () => {
    const broken = () => Promise.reject(new Error('broken'))
    const line = wire()
    const outbox = makeOutbox({
      ...line,
      shelf: { lasting: true, load: broken, all: broken, put: broken, drop: broken },
    })
    expect(await outbox.add(entry(1))).toEqual(fine)
    expect(outbox.entries()).toEqual([])
  })

  test('who listens is told how many wait', async () => {
    const outbox = makeOutbox(patient(wire('lost')))
    const counts: number[] = []
    outbox.onChange((entries) => counts.push(entries.length))
    void outbox.add(entry(1))
    await settled()
    outbox.wake()
    await settled()
    expect(counts).toEqual([1, 0])
  })
})

describe('what the server says', () => {
  test('not saved: asked again later with the same id, waiting longer each time', async () => {
    const line = wire(fault('not_saved'), fault('not_saved'), fault('too_many'))
    const outbox = makeOutbox(line)
    expect(await outbox.add(entry(1))).toEqual(fine)
    expect(line.ids()).toEqual(['c1', 'c1', 'c1', 'c1'])
    expect(line.waits).toEqual([500, 1000, 2000])
  })

  test.each([refused, fault('bad_message'), fault('not_this_device')])(
    '$code is handed back, never retried',
    async (said) => {
      const line = wire(said)
      const outbox = makeOutbox(line)
      const told: unknown[] = []
      outbox.onAnswer((queued, answer) => told.push([commandIdOf(queued), answer]))
      const [first, second] = await Promise.all([outbox.add(entry(1)), outbox.add(entry(2))])
      expect(first).toEqual(said)
      expect(second).toEqual(fine)
      expect(line.ids()).toEqual(['c1', 'c2'])
      expect(told).toEqual([
        ['c1', said],
        ['c2', fine],
      ])
    },
  )

  test('silence while the link looks up: asked again, waiting longer each time, without a wake', async () => {
    const line = wire('lost', 'lost', 'lost')
    const outbox = makeOutbox(line)
    expect(await outbox.add(entry(1))).toEqual(fine)
    expect(line.ids()).toEqual(['c1', 'c1', 'c1', 'c1'])
    expect(line.waits).toEqual([500, 1000, 2000])
  })

  test('a wait never grows beyond its longest, and is short again after an answer', async () => {
    const line = wire(...Array.from({ length: 8 }, () => 'lost' as const), fine, 'lost')
    const outbox = makeOutbox(line)
    await Promise.all([outbox.add(entry(1)), outbox.add(entry(2))])
    expect(line.waits).toEqual([500, 1000, 2000, 4000, 8000, 16_000, 20_000, 20_000, 500])
  })

  test('refused, it stays with what was entered until dismissed, holds up nobody and is not sent again', async () => {
    const shelf = memoryShelf(commandIdOf)
    const line = wire(refused)
    const outbox = makeOutbox({ ...line, shelf })
    await outbox.add(entry(1))
    await outbox.add(entry(2))
    const kept = [{ ...entry(1), refused: { code: 'needs_open', sentence: 'First the other.' } }]
    expect(outbox.entries()).toEqual(kept)
    expect(refusedIn(outbox.entries(), 'job:j1')).toEqual(kept)
    expect(refusedIn(outbox.entries(), 'job:j2')).toEqual([])
    outbox.wake()
    await settled()
    expect(line.ids()).toEqual(['c1', 'c2'])
    expect(await shelf.load()).toEqual(kept)
    outbox.dismiss('c1')
    await settled()
    expect([outbox.entries(), await shelf.load()]).toEqual([[], []])
  })

  test('nobody signed in: kept until somebody is', async () => {
    const line = wire(fault('signed_out'))
    const outbox = makeOutbox(patient(line))
    const answer = outbox.add(entry(1))
    await settled()
    expect(outbox.entries()).toEqual([entry(1)])
    outbox.wake()
    expect(await answer).toEqual(fine)
    expect(line.ids()).toEqual(['c1', 'c1'])
  })
})

describe('one that never gets through', () => {
  test('steps aside after three tries, is named, and stops no other; then it is tried between', async () => {
    const says: (Answer | Fault)[] = [fault('not_saved'), fault('not_saved'), fault('not_saved')]
    const line = wire(...says, fine, fault('not_saved'), fine)
    const asides: boolean[] = []
    const outbox = makeOutbox({
      ...line,
      async wait(ms) {
        await line.wait(ms)
        asides.push(outbox.isAside('c1'))
      },
    })
    await Promise.all([outbox.add(entry(1)), outbox.add(entry(2))])
    expect(line.ids()).toEqual(['c1', 'c1', 'c1', 'c2', 'c1', 'c1'])
    expect(asides).toEqual([false, false, true, true])
    expect(outbox.isAside('c1')).toBe(false)
  })

  test('a link that is back puts all in their order again', async () => {
    const line = patient(wire(...Array.from({ length: 3 }, () => fault('not_saved'))))
    const outbox = makeOutbox(line)
    void outbox.add(entry(1))
    for (let n = 0; n < 3; n++) {
      await settled()
      if (n < 2) outbox.wake()
    }
    // Each wake is a new beginning, so it never came to three in a row.
    expect(outbox.isAside('c1')).toBe(false)
    void outbox.add(entry(2))
    outbox.wake()
    await settled()
    expect(line.ids()).toEqual(['c1', 'c1', 'c1', 'c1', 'c2'])
  })

  test('without a link nothing steps aside', async () => {
    const line = wire(...Array.from({ length: 6 }, () => 'lost' as const))
    const outbox = makeOutbox({ ...line, linked: () => false })
    await Promise.all([outbox.add(entry(1)), outbox.add(entry(2))])
    expect(line.ids()).toEqual([...Array.from({ length: 7 }, () => 'c1'), 'c2'])
  })
})
