/**
 * Clients of the load process: real socket.io clients, with one change. What a board receives is noted when
 * its frame arrives and not parsed: two hundred boards are two hundred machines in the shop, and here they
 * would take turns on one core and hide the server behind their own work.
 */
import { gunzipSync } from 'node:zlib'
import { io, type Socket } from 'socket.io-client'
import { PROTOCOL_VERSION } from '../../../shared/protocol'
import type { Ending } from './ending'

export interface At {
  origin: string
  cookie: string
  /** Of devices of their own; each socket takes the next. */
  devices?: readonly string[]
}

const ANSWER_MS = 20_000

export async function connect({ origin, cookie }: At, ending: Ending): Promise<Socket> {
  const socket = io(origin, {
    transports: ['websocket'],
    forceNew: true,
    reconnection: false,
    extraHeaders: cookie ? { cookie } : {},
  })
  ending.add(() => socket.disconnect())
  await new Promise<void>((resolve, reject) => {
    socket.once('connect', resolve)
    socket.once('connect_error', reject)
  })
  return socket
}

export async function connectMany(count: number, at: At, ending: Ending): Promise<Socket[]> {
  const sockets: Socket[] = []
  while (sockets.length < count) {
    const some = Math.min(25, count - sockets.length)
    const cookieOf = (n: number) => at.devices?.[(sockets.length + n) % at.devices.length] ?? at.cookie
    sockets.push(
      ...(await Promise.all(
        Array.from({ length: some }, (_, n) => connect({ origin: at.origin, cookie: cookieOf(n) }, ending)),
      )),
    )
  }
  return sockets
}

export interface Ok {
  ok: boolean
  [more: string]: unknown
}

/** Emits and waits for the answer; anything but a yes is an error of the bench. What came too fast is sent again, as pages do. */
export async function asked(socket: Socket, event: string, message: unknown): Promise<Ok> {
  const answer = (await socket.timeout(ANSWER_MS).emitWithAck(event, message)) as Ok
  if (answer.code === 'too_many') {
    await new Promise((resolve) => setTimeout(resolve, 50))
    return asked(socket, event, message)
  }
  if (!answer.ok) throw new Error(`The server answered ${event} with ${JSON.stringify(answer).slice(0, 300)}`)
  return answer
}

/** As the pages ask: a long answer comes packed, a board without what has left the shop. */
export async function watchRoom(socket: Socket, room: string, have?: number): Promise<Ok> {
  const message = {
    room,
    protocol: PROTOCOL_VERSION,
    unpacks: true,
    ...(room === 'board' ? { leftLater: true } : {}),
    ...(have === undefined ? {} : { have }),
  }
  const answer = await asked(socket, 'watch', message)
  return answer.packed ? JSON.parse(gunzipSync(answer.packed as Uint8Array).toString()) : answer
}

/** Counts summaries as they arrive at these sockets, unparsed; `all(version)` is when the last one has it. */
export function lookOn(sockets: readonly Socket[]) {
  const have = new Array<number>(sockets.length).fill(0)
  let wanted = Number.POSITIVE_INFINITY
  let missing = 0
  let done: ((at: number) => void) | undefined
  sockets.forEach((socket, index) => {
    const { decoder } = socket.io as unknown as { decoder: { add(data: unknown): void } }
    const add = decoder.add.bind(decoder)
    decoder.add = (data) => {
      if (typeof data !== 'string' || !data.startsWith('2["summary",')) return add(data)
      const version = Number(/"version":(\d+)/.exec(data.slice(0, 200))?.[1])
      const before = have[index] ?? 0
      have[index] = version
      if (version >= wanted && before < wanted) {
        missing -= 1
        if (missing === 0) done?.(performance.now())
      }
    }
  })
  return {
    /** Another job comes, whose versions begin again. */
    forget: () => void have.fill(0),
    /** Resolves with the moment at which the last of them had this version. */
    all(version: number): Promise<number> {
      wanted = version
      missing = have.filter((one) => one < version).length
      if (missing === 0) throw new Error(`Every board has version ${version} already; nothing can be timed.`)
      return new Promise((resolve) => {
        done = resolve
      })
    },
  }
}
