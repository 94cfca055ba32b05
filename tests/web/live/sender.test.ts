/** What is entered is queued with all that is needed to send and to decide it later, and with nothing secret. */
import { createRoot } from 'solid-js'
import { expect, test } from 'vitest'
import type { Answer } from '../../../shared/protocol'
import { makeClock } from '../../../web/live/clock'
import { useStillThere } from '../../../web/live/live'
import { makeOutbox, refusedIn } from '../../../web/live/outbox'
import { makeSender } from '../../../web/live/sender'
import { claim } from './one-job'

const REFUSAL: Answer = { ok: false, code: 'already_claimed', data: {}, sentence: 'Somebody has it.' }

function senderOf(personId: string | undefined) {
  let device = 1000
  let answer: Promise<Answer> = new Promise(() => undefined)
  const clock = makeClock(() => device)
  clock.learn(1000, 5000)
  const outbox = makeOutbox({ send: () => answer })
  const session = {
    person: () =>
      personId === undefined
        ? undefined
        : { id: personId, name: 'Ana', initials: 'AN', paint: 'blue' as const, roles: [] },
    signInId: () => (personId === undefined ? undefined : `sign-in of ${personId}`),
  }
  let entered = 0
  return {
    sender: makeSender({ clock, session, outbox, count: { next: () => ++entered } }),
    outbox,
    at: (ms: number) => {
      device = ms
    },
    answerWith: (next: Answer) => {
      answer = Promise.resolve(next)
    },
  }
}

test('by whoever is signed in, at this moment of the shop’s clock, under an id of its own', () => {
  const { sender, outbox, at } = senderOf('ana')
  at(2000)
  void sender.sendToJob('j1', claim())
  void sender.sendToShop({ type: 'SetSelfRecheck', selfRecheck: { allowed: false } })
  const [job, shop] = outbox.entries()
  expect(job).toEqual({
    stream: 'job:j1',
    command: {
      ...claim(),
      commandId: expect.stringMatching(/^[0-9a-f-]{36}$/),
      signInId: 'sign-in of ana',
      doneAt: 6000,
      clockOffsetMs: 4000,
      entryNumber: 1,
    },
    by: 'ana',
  })
  expect(shop).toMatchObject({ stream: 'shop', by: 'ana', command: { doneAt: 6000, entryNumber: 2 } })
  expect(shop?.command.commandId).not.toBe(job?.command.commandId)
})

test('by grant: the second signer and what they looked at', () => {
  const { sender, outbox } = senderOf('ana')
  void sender.sendToJob('j1', claim(), { grant: { id: 'g1', by: 'bo', sawVersion: 7 } })
  expect(outbox.entries()).toMatchObject([
    { by: 'bo', sawVersion: 7, command: { grantId: 'g1', signInId: 'sign-in of ana' } },
  ])
})

test('nobody signed in: queued all the same', () => {
  const { sender, outbox } = senderOf(undefined)
  void sender.sendToJob('j1', claim())
  expect(outbox.entries()).toMatchObject([{ by: '' }])
  expect(outbox.entries()[0]?.command).not.toHaveProperty('signInId')
})

test('a form that has gone when the answer comes no longer tells it', async () => {
  for (const gone of [false, true]) {
    const { sender, outbox, answerWith } = senderOf('ana')
    answerWith(REFUSAL)
    await createRoot(async (dispose) => {
      const answer = sender.sendToJob('j1', claim(), { explains: useStillThere() })
      if (gone) dispose()
      expect(await answer).toEqual(REFUSAL)
    })
    expect(refusedIn(outbox.entries(), 'job:j1')).toHaveLength(gone ? 1 : 0)
  }
})
