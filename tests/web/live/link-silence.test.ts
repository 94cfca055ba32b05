/** The one socket, with a server that says nothing for a while. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { PROTOCOL_VERSION } from '../../../shared/protocol'
import { makeClock } from '../../../web/live/clock'
import { makeLink, type Watcher } from '../../../web/live/link'

/** Of a socket, what `makeLink` uses; `answers` says what each watch gets, nothing for silence. */
const socket = vi.hoisted(() => ({
  connected: true,
  id: 's1',
  answers: [] as (object | undefined)[],
  asked: [] as object[],
  listeners: new Map<string, (word?: unknown) => void>(),
  on(event: string, listener: (word?: unknown) => void) {
    socket.listeners.set(event, listener)
  },
  emit: () => undefined,
  timeout: () => ({
    async emitWithAck(_event: string, message: object) {
      socket.asked.push(message)
      const answer = socket.answers.shift()
      if (!answer) throw new Error('operation has timed out')
      return answer
    },
  }),
}))
vi.mock('socket.io-client', () => ({ io: () => socket }))

beforeEach(() => {
  vi.useFakeTimers()
  Object.assign(socket, { connected: true, id: 's1', answers: [], asked: [] })
})
afterEach(() => vi.useRealTimers())

const told = { ok: true, room: 'board', summaries: [], now: 0 }

const say = (event: string, word?: unknown) => socket.listeners.get(event)?.(word)

function watching() {
  const link = makeLink(makeClock())
  say('reload', { protocol: PROTOCOL_VERSION })
  const heard: object[] = []
  const watcher: Watcher = {
    room: 'board',
    have: () => undefined,
    watched: (answer) => void heard.push(answer),
  }
  return { link, heard, stop: link.watch(watcher) }
}

test('a watch nobody answered is asked again, longer and longer, until it is', async () => {
  socket.answers = [undefined, undefined, undefined, told]
  const { heard } = watching()
  for (const waitedMs of [1000, 2000, 4000]) {
    const asked = socket.asked.length
    await vi.advanceTimersByTimeAsync(waitedMs - 1)
    expect(socket.asked).toHaveLength(asked)
    await vi.advanceTimersByTimeAsync(1)
    expect(socket.asked).toHaveLength(asked + 1)
  }
  expect(heard).toEqual([told])
  await vi.advanceTimersByTimeAsync(600_000)
  expect(socket.asked).toHaveLength(4)
})

test.each(['no longer watched', 'connected anew'])('and no more where it is %s', async (why) => {
  const { stop } = watching()
  await vi.advanceTimersByTimeAsync(100)
  if (why === 'connected anew') socket.id = 's2'
  else stop()
  await vi.advanceTimersByTimeAsync(600_000)
  expect(socket.asked).toHaveLength(1)
})

test('what is shown is of the moment the server was heard last, until it is heard again', () => {
  const { link } = watching()
  expect(link.lostAt()).toBeUndefined()
  const then = Date.now()
  say('disconnect', 'transport close')
  vi.advanceTimersByTime(60_000)
  expect(link.lostAt()).toBe(then)
  say('reload', { protocol: PROTOCOL_VERSION })
  expect(link.lostAt()).toBeUndefined()
})
