/** What was asked before the pages' code had come: taken once, while it is fresh, and never waited for long. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { askedAt, earlyState, takeEarly } from '../../../web/live/asked-early'
import { ask } from '../../../web/live/http'

const PATH = '/api/jobs/j1'
const said = (body: object, status = 200) => Promise.resolve(Response.json(body, { status }))

function asked(answer: Promise<Response>) {
  globalThis.paintmarkEarly = new Map([[PATH, { answer, sentAt: Date.now() }]])
}

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  globalThis.paintmarkEarly = undefined
  vi.unstubAllGlobals()
  vi.useRealTimers()
})

test('whoever asks first is given the answer, with the moment it was asked at; the next asks again', async () => {
  const fetched = vi.fn(() => said({ version: 2 }))
  vi.stubGlobal('fetch', fetched)
  const sentAt = Date.now()
  asked(said({ version: 1 }))
  vi.advanceTimersByTime(400)
  expect(askedAt(PATH)).toBe(sentAt)
  expect(await ask(PATH)).toEqual({ version: 1 })
  expect(fetched).not.toHaveBeenCalled()
  expect(askedAt(PATH)).toBeUndefined()
  expect(await ask(PATH)).toEqual({ version: 2 })
})

test('what was asked long ago is asked again', () => {
  asked(said({ version: 1 }))
  vi.advanceTimersByTime(10_000)
  expect(askedAt(PATH)).toBeUndefined()
  expect(takeEarly(PATH)).toBeUndefined()
})

test('a state that was not asked for, is refused, fails or does not come within a second is none', async () => {
  expect(await earlyState(PATH)).toBeUndefined()
  asked(said({ version: 7 }))
  expect(await earlyState(PATH)).toEqual({ version: 7 })
  asked(said({ code: 'signed_out' }, 401))
  expect(await earlyState(PATH)).toBeUndefined()
  asked(Promise.reject(new TypeError('no signal')))
  expect(await earlyState(PATH)).toBeUndefined()
  asked(new Promise(() => undefined))
  const silent = earlyState(PATH)
  await vi.advanceTimersByTimeAsync(1000)
  expect(await silent).toBeUndefined()
})
