/** The browser is asked once not to clear what it keeps, with the first entry, and believed only when it has agreed. */
import { afterEach, expect, test, vi } from 'vitest'
import type { QueuedCommand } from '../../../web/live/outbox'
import { makeOutbox } from '../../../web/live/outbox'
import { askToStay } from '../../../web/live/staying'

afterEach(() => void vi.unstubAllGlobals())
const entryOf = (id: string): QueuedCommand => ({
  stream: 'job:j1',
  command: { commandId: id, signInId: 's', doneAt: 1, type: 'ClaimStep', stepId: 'caps' },
  by: 'ana',
})
const settled = () => new Promise((resolve) => setTimeout(resolve, 5))

test.each([
  ['it agrees', async () => true, true],
  ['it does not', async () => false, false],
  ['it will not be asked', () => Promise.reject(new Error('no')), false],
])('%s', async (_, persist, agreed) => {
  const asked = vi.fn(persist)
  vi.stubGlobal('navigator', { storage: { persist: asked } })
  const outbox = makeOutbox({ send: async () => ({ ok: true, version: 1, events: [] }) })
  const stays = askToStay(outbox)
  await settled()
  expect(asked).not.toHaveBeenCalled()
  for (const id of ['c1', 'c2']) await outbox.add(entryOf(id))
  await settled()
  expect([asked.mock.calls.length, stays()]).toEqual([1, agreed])
})

test('a browser that knows no such thing', async () => {
  vi.stubGlobal('navigator', {})
  const outbox = makeOutbox({ send: async () => ({ ok: true, version: 1, events: [] }) })
  const stays = askToStay(outbox)
  await outbox.add(entryOf('c1'))
  expect(stays()).toBe(false)
})
