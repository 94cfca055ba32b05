/**
 * In place of the packages `socket.io` and `socket.io-client`: as much of both as the shop uses, over the simulated
 * network. As there, what goes over one line arrives in the order it was sent, an answer that comes too late is nobody's,
 * and a client whose line broke connects again by itself, but not where the server turned it away.
 */
import { Encoded } from '../../server/gateway/encoder'
import {
  inBadAir,
  latencyMs,
  type NetworkedPage,
  network,
  onTheWay,
  type ServerLife,
  stallMs,
} from './network'
import { after, between, NOBODY, type Realm, random, realmNow, worldNow } from './world'

type Listener = (...args: never[]) => unknown
type Reply = (answer: unknown) => void

/** What the other side gets: a copy, as from text. */
const copied = (message: unknown): unknown =>
  message === undefined
    ? undefined
    : JSON.parse(message instanceof Encoded ? message.json : JSON.stringify(message))

/** Both are built here from one source: what a build is ahead of the other, so much its protocol is. */
const asOtherBuild = (message: unknown, ahead: number) => ({
  protocol: (message as { protocol: number }).protocol + ahead,
})

class Emitter {
  private readonly listeners = new Map<string, Listener[]>()
  on(event: string, listener: Listener): this {
    this.listeners.set(event, [...(this.listeners.get(event) ?? []), listener])
    return this
  }
  fire(event: string, ...args: unknown[]): void {
    for (const listener of this.listeners.get(event) ?? []) listener(...(args as never[]))
  }
}

/** How long either side may not notice that the other is gone. */
const UNNOTICED_MS = 45_000

/** One connection, from its handshake to its end. */
class Line {
  open = true
  private readonly freeAt = { up: 0, down: 0 }
  readonly server: ServerSocket

  constructor(
    readonly client: ClientSocket,
    readonly life: ServerLife,
  ) {
    this.server = new ServerSocket(this, life.io as Server, client.page.device.cookie)
  }

  /** `lateMs`: overtaken by what is sent after it. */
  carry(way: 'up' | 'down', call: () => void, lateMs?: number): void {
    const whose: Realm = way === 'up' ? this.life : this.client.page
    const earliest = worldNow() + latencyMs() + (lateMs ?? 0)
    const at = lateMs === undefined ? Math.max(earliest, this.freeAt[way]) : earliest
    if (lateMs === undefined) this.freeAt[way] = at
    after(at - worldNow(), whose, () => this.open && this.client.page.device.linkUp && call())
  }

  /** Each side learns of it in its own time. */
  cut(reason: string, clientMs = between(1, 500), serverMs = between(1, UNNOTICED_MS)): void {
    if (!this.open) return
    this.open = false
    after(serverMs, this.life, () => this.server.gone())
    after(clientMs, this.client.page, () => this.client.lost(this, reason))
  }

  /** What was lost on it cannot have been: it breaks, though nobody knows it yet. */
  doom(): void {
    after(between(100, UNNOTICED_MS), NOBODY, () => this.cut('ping timeout'))
  }
}

class ClientSocket extends Emitter {
  connected = false
  /** Whether it tries by itself. */
  active = false
  private line: Line | undefined
  private attempts = 0
  /** Refused once nothing comes back any more. */
  private readonly unanswered = new Set<() => void>()

  constructor(
    readonly page: NetworkedPage,
    private readonly backoff: { reconnectionDelay: number; reconnectionDelayMax: number },
  ) {
    super()
    lines.clients.add(this)
  }

  connect(): this {
    if (this.active) return this
    this.active = true
    this.attempts = 0
    this.attempt()
    return this
  }

  disconnect(): this {
    const { line } = this
    this.active = false
    if (!line) return this
    this.line = undefined
    line.open = false
    after(latencyMs(), line.life, () => line.server.gone())
    this.ended('io client disconnect')
    return this
  }

  private attempt(): void {
    const { page } = this
    after(latencyMs(), page, () => {
      const { life } = network
      if (!this.active || this.line) return
      if (!life?.io || life.dead || !page.device.linkUp) return this.again()
      // The server decides when the handshake is with it.
      after(latencyMs(), life, () => {
        if (!this.active || this.line || page.dead || !page.device.linkUp) return
        const line = new Line(this, life)
        line.server.enter((refusal) => {
          if (refusal)
            return line.carry('down', () => {
              this.active = false
              this.fire('connect_error', refusal)
            })
          this.line = line
          line.carry('down', () => {
            this.connected = true
            this.attempts = 0
            this.fire('connect')
          })
        })
      })
      // Whatever became of it: a handshake without an answer is tried again.
      after(20_000, page, () => this.active && !this.line && this.again())
    })
  }

  private again(): void {
    const { reconnectionDelay, reconnectionDelayMax } = this.backoff
    const waitMs = Math.min(reconnectionDelay * 2 ** this.attempts++, reconnectionDelayMax)
    this.fire('connect_error', new Error('websocket error'))
    after(waitMs * (0.5 + random()), this.page, () => this.active && !this.line && this.attempt())
  }

  lost(line: Line, reason: string): void {
    if (this.line !== line) return
    this.line = undefined
    if (reason === 'io server disconnect') this.active = false
    this.ended(reason)
    if (this.active) this.again()
  }

  private ended(reason: string): void {
    const was = this.connected
    this.connected = false
    for (const refuse of [...this.unanswered]) refuse()
    if (was) this.fire('disconnect', reason)
  }

  cut(reason: string, clientMs?: number): void {
    this.line?.cut(reason, clientMs)
  }

  emit(event: string, message: unknown, reply?: Reply): this {
    const { line } = this
    if (!line || !this.connected) return this
    const asked = message as { command?: { commandId?: string }; protocol?: number }
    // Answers come plain: what would unpack them works in other threads.
    const sent =
      event === 'watch'
        ? {
            ...asked,
            unpacks: undefined,
            protocol: (asked.protocol ?? 0) + this.page.build - line.life.build,
          }
        : message
    const what = event === 'command' ? onTheWay(asked.command?.commandId) : undefined
    if (what === 'request lost') return this
    if (what === 'line cut before it arrives') {
      line.cut('transport close')
      return this
    }
    const answer = (given: unknown) => {
      const back = copied(given)
      if (what === 'answer lost') return
      if (what === 'line cut before the answer') return line.cut('transport close')
      line.carry('down', () => reply?.(back), what === 'answer stalled' ? stallMs() : undefined)
    }
    const deliver = () => line.server.fire(event, copied(sent), reply ? answer : undefined)
    const lateMs = what === 'stalled' ? stallMs() : what === 'overtaken' ? between(200, 5000) : undefined
    line.carry('up', deliver, lateMs)
    if (what === 'doubled') line.carry('up', deliver, between(0, 5000))
    return this
  }

  timeout(ms: number) {
    return {
      emitWithAck: (event: string, message: unknown): Promise<unknown> =>
        new Promise((resolve, reject) => {
          const refuse = () => {
            this.unanswered.delete(refuse)
            reject(new Error('operation has timed out'))
          }
          this.unanswered.add(refuse)
          after(ms, this.page, refuse)
          this.emit(event, message, (answer) => {
            this.unanswered.delete(refuse)
            resolve(answer)
          })
        }),
    }
  }

  /** What the server broadcasts. */
  told(line: Line, event: string, body: unknown): void {
    const message =
      event === 'reload' ? asOtherBuild(copied(body), line.life.build - this.page.build) : copied(body)
    const what = event === 'events' || event === 'summary' ? inBadAir(this.page) : undefined
    const take = () => this.line === line && this.fire(event, message)
    if (what === 'lost') {
      line.doom()
      return
    }
    line.carry('down', take, what === 'overtaken' ? between(50, 3000) : undefined)
    if (what === 'doubled') line.carry('down', take, between(0, 3000))
  }
}

export class ServerSocket extends Emitter {
  readonly id = `socket-${++sockets}`
  data: unknown
  readonly request: { headers: { cookie: string } }
  readonly rooms = new Set<string>([this.id])
  /** Says nothing of its packets: none here is long. */
  readonly conn = new Emitter()

  constructor(
    private readonly line: Line,
    private readonly io: Server,
    cookie: string,
  ) {
    super()
    this.request = { headers: { cookie } }
  }

  enter(answer: (refusal?: Error) => void): void {
    this.io.greet(this, (refusal) => {
      answer(refusal)
      if (!refusal) this.io.admit(this)
    })
  }
  join(room: string): void {
    this.rooms.add(room)
    const { rooms } = this.io.sockets.adapter
    rooms.set(room, new Set([...(rooms.get(room) ?? []), this.id]))
  }
  leave(room: string): void {
    this.rooms.delete(room)
    const { rooms } = this.io.sockets.adapter
    const members = rooms.get(room)
    members?.delete(this.id)
    if (members?.size === 0) rooms.delete(room)
  }
  emit(event: string, body: unknown): void {
    this.line.client.told(this.line, event, body)
  }
  disconnect(_: boolean): void {
    this.line.cut('io server disconnect', latencyMs(), 0)
  }
  gone(): void {
    if (!this.io.sockets.sockets.delete(this.id)) return
    for (const room of [...this.rooms]) this.leave(room)
    this.fire('disconnect')
  }
}
let sockets = 0

type Greeting = (socket: ServerSocket, next: (refusal?: Error) => void) => void

export class Server extends Emitter {
  readonly sockets = {
    adapter: { rooms: new Map<string, Set<string>>() },
    sockets: new Map<string, ServerSocket>(),
  }
  private greeting: Greeting = (_, next) => next()

  constructor(_server: unknown, _options: unknown) {
    super()
    ;(realmNow() as ServerLife).io = this
  }
  use(greeting: Greeting): void {
    this.greeting = greeting
  }
  greet(...asked: Parameters<Greeting>): void {
    this.greeting(...asked)
  }
  admit(socket: ServerSocket): void {
    this.sockets.sockets.set(socket.id, socket)
    socket.join(socket.id)
    this.fire('connection', socket)
  }
  to(room: string) {
    const members = () => [...(this.sockets.adapter.rooms.get(room) ?? [])]
    const tell = (ids: string[], event: string, body: unknown) => {
      for (const id of ids) this.sockets.sockets.get(id)?.emit(event, body)
    }
    return {
      emit: (event: string, body: unknown) => tell(members(), event, body),
      except: (not: string) => ({
        emit: (event: string, body: unknown) =>
          tell(
            members().filter((id) => id !== not),
            event,
            body,
          ),
      }),
    }
  }
  emit(event: string, body: unknown): void {
    for (const socket of this.sockets.sockets.values()) socket.emit(event, body)
  }
  disconnectSockets(): void {
    for (const socket of [...this.sockets.sockets.values()]) socket.disconnect(true)
  }
  close(done: () => void): void {
    this.disconnectSockets()
    done()
  }
}

export type Socket = ServerSocket

/** Every client there is, so that links and servers can break under them. */
export const lines = { clients: new Set<ClientSocket>() }

export function cutLines(of: (page: NetworkedPage) => boolean, reason: string, mostMs: number): void {
  for (const client of lines.clients) if (of(client.page)) client.cut(reason, between(1, mostMs))
}

export const io = (options: { reconnectionDelay: number; reconnectionDelayMax: number }): ClientSocket =>
  new ClientSocket(realmNow() as NetworkedPage, options)
