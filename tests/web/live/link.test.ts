/** [WI10][WI11] What a page says to a server of its own version, of one newer or older, and of one it does not understand. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { PROTOCOL_VERSION } from '../../../shared/protocol'
import { makeClock } from '../../../web/live/clock'
import { makeLink, type Watcher } from '../../../web/live/link'
import type { QueuedCommand } from '../../../web/live/outbox'

interface FakeSocket {
  connected: boolean
  sent: { event: string; message: Record<string, unknown> }[]
  fire(event: string, message?: unknown): void
}
const { made } = vi.hoisted(() => ({ made: [] as FakeSocket[] }))

vi.mock('socket.io-client', () => ({
  io() {
    const heard = new Map<string, (message: unknown) => void>()
    const socket = {
      connected: false,
      active: true,
      sent: [] as FakeSocket['sent'],
      on: (event: string, listener: (message: unknown) => void) => void heard.set(event, listener),
      connect: () => undefined,
      disconnect: () => undefined,
      emit: (event: string, message: Record<string, unknown>) => void socket.sent.push({ event, message }),
      timeout: () => ({
        emitWithAck: async (event: string, message: Record<string, unknown>) => {
          socket.emit(event, message)
          return { ok: true, version: 1, events: [] }
        },
      }),
      fire(event: string, message?: unknown) {
        if (event === 'connect') socket.connected = true
        if (event === 'disconnect') socket.connected = false
        heard.get(event)?.(message)
      },
    }
    made.push(socket)
    return socket
  },
}))

const entry = {
  stream: 'job:j1',
  command: { type: 'ClaimStep', stepId: 'S1', commandId: 'c1', doneAt: 1, entryNumber: 4 },
  by: 'ana',
} as QueuedCommand
const { entryNumber: _, ...unnumbered } = entry.command

function openLink() {
  const link = makeLink(makeClock())
  const socket = made.at(-1) as FakeSocket
  const watcher: Watcher = { room: 'job:j1', have: () => 3, watched: () => undefined }
  link.watch(watcher)
  let ups = 0
  link.onUp(() => ups++)
  return {
    link,
    socket,
    ups: () => ups,
    said: (event: string) => socket.sent.filter((each) => each.event === event).map(({ message }) => message),
  }
}

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

test('[WI10] nothing is said before the server has said what it speaks', async () => {
  const { link, socket, ups } = openLink()
  socket.fire('connect')
  expect([link.state(), ups(), socket.sent]).toEqual(['connecting', 0, []])
  await expect(link.send(entry)).rejects.toThrow('no link')
  socket.fire('reload', { protocol: PROTOCOL_VERSION })
  expect([link.state(), link.outdated(), ups()]).toEqual(['live', undefined, 1])
  await link.send(entry)
  expect(socket.sent.map(({ event, message }) => [event, message.protocol ?? message.command])).toEqual([
    ['watch', PROTOCOL_VERSION],
    ['command', entry.command],
  ])
  // The same once more, as a server says it that refused something: nothing is asked twice.
  socket.fire('reload', { protocol: PROTOCOL_VERSION })
  expect([ups(), socket.sent.length]).toEqual([1, 2])
})

test('[WI11] a server one newer: the page speaks its own and goes on, and a reload is due', async () => {
  const { link, socket, said } = openLink()
  socket.fire('connect')
  socket.fire('reload', { protocol: PROTOCOL_VERSION + 1 })
  expect([link.state(), link.outdated()]).toEqual(['live', 'newer'])
  await link.send(entry)
  expect(said('watch')).toMatchObject([{ protocol: PROTOCOL_VERSION }])
  expect(said('command')).toEqual([{ stream: 'job:j1', command: entry.command }])
})

test('[WI10][WI11] a server one older is spoken to as it knows it, without what it does not', async () => {
  const { link, socket, said } = openLink()
  socket.fire('connect')
  socket.fire('reload', { protocol: PROTOCOL_VERSION - 1 })
  expect([link.state(), link.outdated()]).toEqual(['live', 'older'])
  await link.send(entry)
  expect(said('watch')).toMatchObject([{ protocol: PROTOCOL_VERSION - 1 }])
  expect(said('command')).toEqual([{ stream: 'job:j1', command: unnumbered }])
})

test('[WI10] one of version 1 does not say what it speaks, and is taken for that after a moment', async () => {
  const { link, socket, said } = openLink()
  socket.fire('connect')
  vi.advanceTimersByTime(4999)
  expect(link.state()).toBe('connecting')
  vi.advanceTimersByTime(1)
  expect([link.state(), link.outdated()]).toEqual(['live', 'older'])
  expect(said('watch')).toMatchObject([{ protocol: 1 }])
})

test.each([PROTOCOL_VERSION + 2, PROTOCOL_VERSION - 2])(
  '[WI11] a server of version %d is not understood: nothing is asked or sent until one comes that is',
  async (protocol) => {
    const { link, socket, ups } = openLink()
    socket.fire('connect')
    socket.fire('reload', { protocol })
    vi.advanceTimersByTime(60_000)
    expect([link.state(), link.outdated() !== undefined, ups(), socket.sent]).toEqual(['apart', true, 0, []])
    await expect(link.send(entry)).rejects.toThrow('no link')
    socket.fire('disconnect', 'transport close')
    expect(link.state()).toBe('lost')
    socket.fire('connect')
    socket.fire('reload', { protocol: PROTOCOL_VERSION })
    expect([link.state(), link.outdated(), ups()]).toEqual(['live', undefined, 1])
  },
)

test('[WI10] a server that was renewed behind the line is asked anew, in the version it speaks now', () => {
  const { socket, said } = openLink()
  socket.fire('connect')
  socket.fire('reload', { protocol: PROTOCOL_VERSION - 1 })
  socket.fire('disconnect', 'transport close')
  socket.fire('connect')
  socket.fire('reload', { protocol: PROTOCOL_VERSION })
  expect(said('watch').map(({ protocol }) => protocol)).toEqual([PROTOCOL_VERSION - 1, PROTOCOL_VERSION])
})
