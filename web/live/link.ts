/**
 * The one socket to the shop's server: rooms watched over it, commands sent through it.
 *
 * A watched room is asked for again after every reconnect, with the version already here, so that only what came
 * after travels. Nothing is queued in here: without a link `send` fails at once and the outbox keeps the command.
 */
import { io, type Socket } from 'socket.io-client'
import { createSignal } from 'solid-js'
import {
  type Answer,
  type ClientToServer,
  commandFor,
  type Fault,
  type JobPage,
  type Packed,
  PROTOCOL_VERSION,
  type Refused,
  type Room,
  type ServerToClient,
  understands,
  type Watched,
} from '../../shared/protocol'
import type { Clock } from './clock'
import type { QueuedCommand } from './outbox'

/** `apart`: the server is there, and neither it nor this page understands the other's version. */
export type LinkState = 'connecting' | 'live' | 'lost' | 'apart'

/** Who watches a room: what they have, and what to do with what comes. */
export interface Watcher {
  room: Room
  have(): number | undefined
  watched(answer: Extract<Watched, { ok: true }>): void
  refused?(answer: Fault | Refused): void
}

type Listeners = { [E in keyof ServerToClient]: Set<ServerToClient[E]> }

const ACK_MS = 15_000
/** A server of version 1 does not say what it speaks. */
const GREETED_MS = 5000
/** A watch nobody answered, or that came at a busy moment, is asked again, after twice as long each time. */
const ASK_AGAIN_MS = 1000
const ASK_AGAIN_MOST_MS = 30_000

/** Every current browser; an older one gets its answers plain. */
const CAN_UNPACK = typeof DecompressionStream === 'function'

async function unpack(answer: Watched | Packed | Fault | Refused): Promise<Watched | Fault | Refused> {
  if (!('packed' in answer)) return answer
  const { packed, now } = answer
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))
  const watched = (await new Response(stream).json()) as Watched
  return now === undefined ? watched : { ...watched, now }
}

export type Link = ReturnType<typeof makeLink>

export function makeLink(clock: Clock) {
  const [state, setState] = createSignal<LinkState>('connecting')
  const [outdated, setOutdated] = createSignal<'newer' | 'older'>()
  /** What the server speaks, and with it this line: this page's version, or that of a server one older. */
  let heard: number | undefined
  let spoken: number | undefined
  let greeting: ReturnType<typeof setTimeout> | undefined
  const [lostAt, setLostAt] = createSignal<number>()
  /** With how many pages watch through it. */
  const watchers = new Map<Watcher, number>()
  const upListeners = new Set<() => void>()
  const refusalListeners = new Set<(why: string) => void>()
  const listeners: Listeners = {
    events: new Set(),
    summary: new Set(),
    presence: new Set(),
    reload: new Set(),
    demo: new Set(),
    epoch: new Set(),
    damage: new Set(),
  }
  let presence: Parameters<ClientToServer['presence']>[0] = {}

  const socket: Socket<ServerToClient, ClientToServer> = io({
    transports: ['websocket'],
    autoConnect: false,
    reconnectionDelay: 500,
    reconnectionDelayMax: 5000,
  })

  function greeted(server: number): void {
    clearTimeout(greeting)
    if (server === heard) return
    heard = server
    setOutdated(server === PROTOCOL_VERSION ? undefined : server > PROTOCOL_VERSION ? 'newer' : 'older')
    const common = Math.min(server, PROTOCOL_VERSION)
    spoken = understands(Math.max(server, PROTOCOL_VERSION), common) ? common : undefined
    setState(spoken === undefined ? 'apart' : 'live')
    if (spoken === undefined) return
    setLostAt()
    for (const watcher of watchers.keys()) void sync(watcher)
    if (presence.jobId) socket.emit('presence', presence)
    for (const up of upListeners) up()
  }

  socket.on('connect', () => {
    greeting = setTimeout(() => greeted(1), GREETED_MS)
  })
  socket.on('disconnect', (reason) => {
    clearTimeout(greeting)
    heard = undefined
    spoken = undefined
    if (reason !== 'io client disconnect') {
      setState('lost')
      setLostAt(clock.now())
    }
    // The server hung up (a sign-out elsewhere, a restart): socket.io leaves the next try to us.
    if (reason === 'io server disconnect') setTimeout(() => socket.connect(), 1000)
  })
  socket.on('connect_error', ({ message }) => {
    setState('lost')
    // Refused by the server itself, which socket.io does not try again: signed out meanwhile, as a rule.
    if (!socket.active) for (const ask of refusalListeners) ask(message)
  })
  socket.on('events', (message) => {
    for (const listener of listeners.events) listener(message)
  })
  socket.on('summary', (message) => {
    for (const listener of listeners.summary) listener(message)
  })
  socket.on('presence', (message) => {
    for (const listener of listeners.presence) listener(message)
  })
  socket.on('damage', (message) => {
    for (const listener of listeners.damage) listener(message)
  })
  socket.on('demo', (message) => {
    for (const listener of listeners.demo) listener(message)
  })
  socket.on('epoch', (message) => {
    for (const listener of listeners.epoch) listener(message)
  })
  socket.on('reload', ({ protocol }) => greeted(protocol))

  async function sync(watcher: Watcher, againMs = ASK_AGAIN_MS): Promise<void> {
    const { id } = socket
    if (spoken === undefined) return
    const have = watcher.have()
    const sentAt = Date.now()
    const message = {
      room: watcher.room,
      protocol: spoken,
      ...(CAN_UNPACK ? { unpacks: true as const } : {}),
      ...(watcher.room === 'board' ? { leftLater: true as const } : {}),
      ...(have === undefined ? {} : { have }),
    }
    const answer = await socket
      .timeout(ACK_MS)
      .emitWithAck('watch', message)
      .then(unpack)
      .catch(() => undefined)
    if (!watchers.has(watcher)) return
    if (!answer || (!answer.ok && answer.code === 'too_many')) {
      // Another connection asks for itself.
      if (socket.id === id)
        setTimeout(() => {
          if (socket.id === id && watchers.has(watcher))
            void sync(watcher, Math.min(2 * againMs, ASK_AGAIN_MOST_MS))
        }, againMs)
      return
    }
    if (!answer.ok) return watcher.refused?.(answer)
    clock.learn(sentAt, answer.now)
    watcher.watched(answer)
  }

  return {
    state,
    /** When the server was heard last, once it no longer is. */
    lostAt,
    /** Whether the server is of a version newer or older than this page, which is then to be loaded anew. */
    outdated,
    open: () => void socket.connect(),
    close: () => void socket.disconnect(),
    /** After a change of person: the server learns of it with the next handshake. */
    renew() {
      socket.disconnect()
      setState('connecting')
      socket.connect()
    },
    /** Watches until the returned function is called. */
    watch(watcher: Watcher): () => void {
      const users = watchers.get(watcher) ?? 0
      watchers.set(watcher, users + 1)
      if (users === 0) void sync(watcher)
      return () => {
        const left = (watchers.get(watcher) ?? 1) - 1
        if (left > 0) return void watchers.set(watcher, left)
        watchers.delete(watcher)
        if (socket.connected) socket.emit('unwatch', { room: watcher.room }, () => undefined)
      }
    },
    /** Asks again for what came after `have()`: the answer to a gap. */
    resync: (watcher: Watcher) => void sync(watcher),
    on<E extends keyof ServerToClient>(event: E, listener: ServerToClient[E]): () => void {
      listeners[event].add(listener)
      return () => void listeners[event].delete(listener)
    },
    onUp(listener: () => void): () => void {
      upListeners.add(listener)
      return () => void upListeners.delete(listener)
    },
    /** The server refused the handshake: nobody is signed in on this device, as a rule. */
    onTurnedAway(listener: (why: string) => void): () => void {
      refusalListeners.add(listener)
      return () => void refusalListeners.delete(listener)
    },
    /** Fails when there is no link or no answer in time; a resend with the same id is then safe. */
    async send({ stream, command }: QueuedCommand, sealed?: string): Promise<Answer | Fault> {
      if (spoken === undefined) throw new Error('no link')
      const message = {
        stream,
        command: commandFor(spoken, command),
        ...(sealed === undefined ? {} : { sealed }),
      } as Parameters<ClientToServer['command']>[0]
      return socket.timeout(ACK_MS).emitWithAck('command', message)
    },
    /** Tells the others which page of which job is open here. */
    present(jobId?: string, place?: JobPage) {
      presence = { ...(jobId ? { jobId } : {}), ...(place ? { place } : {}) }
      if (socket.connected) socket.emit('presence', presence)
    },
  }
}
