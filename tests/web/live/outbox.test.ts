/** The outbox keeps what was entered until it is answered, sends it in order, and never changes its id. */
import { describe, expect, test } from 'vitest'
import type { Answer, Fault } from '../../../shared/protocol'
import { type Kept, makeOutbox, memoryShelf } from '../../../web/live/outbox'

const entry = (n: number): Kept => ({
  stream: 'job:j1',
  command: { commandId: `c${n}`, signInId: `s${n}`, type: 'ClaimStep', stepId: 'caps' },
})
const fine: Answer = { ok: true, version: 1, events: [] }
const fault = (code: Fault['code']): Fault => ({ ok: false, code, sentence: `${code}.` })
const refused: Answer = { ok: false, code: 'needs_open', data: {}, sentence: 'First the other.' }

/** A wire that answers as told, in turn; `lost` is no answer at all. */
function wire(...says: (Answer | Fault | 'lost')[]) {
  const sent: Kept[] = []
  const waits: number[] = []
  return {
    sent,
    waits,
    ids: () => sent.map(({ command }) => command.commandId),
    async send(kept: Kept) {
      sent.push(kept)
      const answer = says.shift() ?? fine
      if (answer === 'lost') throw new Error('no link')
      return answer
    },
    async wait(ms: number) {
      waits.push(ms)
    },
  }
}

/** Lets everything that can happen by itself happen. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 5))

describe('sending', () => {
  test('one after another, in the order they were made', async () => {
    const line = wire()
    const outbox = makeOutbox(line)
    const answers = await Promise.all([outbox.add(entry(1)), outbox.add(entry(2)), outbox.add(entry(3))])
    expect(line.ids()).toEqual(['c1', 'c2', 'c3'])
    expect(answers).toEqual([fine, fine, fine])
    expect(outbox.waiting()).toEqual([])
  })

  test('the second is not sent before the first is answered', async () => {
    let answer: (said: Answer) => void = () => undefined
    const sent: string[] = []
    const outbox = makeOutbox({
      send: (kept) => {
        sent.push(kept.command.commandId)
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
    const outbox = makeOutbox(line)
    const first = outbox.add(entry(1))
    await settled()
    expect(outbox.waiting()).toEqual([entry(1)])
    outbox.wake()
    await settled()
    expect(outbox.waiting()).toEqual([entry(1)])
    outbox.wake()
    expect(await first).toEqual(fine)
    expect(line.sent.map((kept) => kept)).toEqual([entry(1), entry(1), entry(1)])
    expect(outbox.waiting()).toEqual([])
  })

  test('entries on the shelf from before are sent first', async () => {
    const shelf = memoryShelf()
    await shelf.put(entry(1))
    const line = wire()
    const outbox = makeOutbox({ ...line, shelf })
    await outbox.add(entry(2))
    expect(line.ids()).toEqual(['c1', 'c2'])
    await settled()
    expect(await shelf.all()).toEqual([])
  })

  test('who listens is told how many wait', async () => {
    const outbox = makeOutbox(wire('lost'))
    const counts: number[] = []
    outbox.onChange((waiting) => counts.push(waiting.length))
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
      outbox.onSettled((kept, answer) => told.push([kept.command.commandId, answer]))
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

  test('nobody signed in: kept until somebody is', async () => {
    const line = wire(fault('signed_out'))
    const outbox = makeOutbox(line)
    const answer = outbox.add(entry(1))
    await settled()
    expect(outbox.waiting()).toEqual([entry(1)])
    outbox.wake()
    expect(await answer).toEqual(fine)
    expect(line.ids()).toEqual(['c1', 'c1'])
  })
})
