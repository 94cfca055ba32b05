/** The sockets: one a page, for commands up and events down, as the rules WI3 and WI5 to WI11 say. */
import type { Server as HttpServer } from 'node:http'
import { Server, type Socket } from 'socket.io'
import { isFinished } from '../../shared/job/reason'
import type { Fault, Packed, Watched } from '../../shared/protocol'
import {
  type ClientToServer,
  PROTOCOL_VERSION,
  type Room,
  type ServerToClient,
  understands,
} from '../../shared/protocol'
import { commandMessageSchema, presenceSchema, unwatchSchema, watchSchema } from '../../shared/schema'
import { epochTold } from '../box/told'
import { badMessage, check } from '../check'
import type { Publish, Reply } from '../desk'
import { jsonOf, notSaved } from '../desk'
import { mayCall, wrongOrigin } from '../http/guard'
import type { Rooms } from '../http/parts'
import { SIGNED_OUT } from '../people'
import { eventWithoutPlanBody } from '../plan-bodies'
import { hard, REFUSED, WATCH } from '../purse'
import { cookieNamed } from './cookie'
import { Encoded, parser } from './encoder'
import { makePacker, PACKED_ONCE } from './pack'
import { makePresence } from './presence'
import { initialSync, PATIENCE, PLAIN, type Sent, streamOf } from './watch'

interface SocketData {
  deviceId: string
  person: string
}
type Line = Socket<ClientToServer, ServerToClient, Record<never, never>, SocketData>

export interface Gateway {
  publish: Publish
  close(): Promise<void>
}

export function openGateway(server: HttpServer, rooms: Rooms): Gateway {
  const { desk, people, damage, intake, now, log, web, demo, box, tally, purses } = rooms
  const io = new Server<ClientToServer, ServerToClient, Record<never, never>, SocketData>(server, {
    transports: ['websocket'],
    serveClient: false,
    parser,
    maxHttpBufferSize: 4.5 * 1024 * 1024,
    // Not frame by frame: that costs each of two hundred boards a compressor of its own and every broadcast its
    // shared frame. What is long is the first answer to a watch, and that is packed by `pack`.
    perMessageDeflate: false,
    allowRequest: ({ headers }, allow) => {
      const fetchSite = headers['sec-fetch-site']
      const ask = {
        origin: headers.origin,
        host: headers.host,
        fetchSite: fetchSite ? `${fetchSite}` : undefined,
      }
      const may = mayCall(ask, web.loopbackOnly)
      allow(may ? null : wrongOrigin(ask, web.behindProxy === true), may)
    },
  })
  const presence = makePresence((jobId, here) => io.to(`job:${jobId}`).emit('presence', { jobId, here }))
  const isWatched = (room: Room) => io.sockets.adapter.rooms.has(room)
  const deviceRoom = (deviceId: string) => `device:${deviceId}`

  io.use((socket, next) => {
    const deviceId = people.deviceOf(cookieNamed(web.cookieName, socket.request.headers.cookie))
    const signIn = deviceId === undefined ? undefined : people.current(deviceId)
    if (!signIn) {
      const { code, sentence } = SIGNED_OUT
      return next(Object.assign(new Error(sentence), { data: { code, sentence } }))
    }
    socket.data = { deviceId: signIn.deviceId, person: signIn.personId }
    next()
  })

  people.onChange((deviceId) => {
    const person = people.current(deviceId)?.personId
    for (const id of io.sockets.adapter.rooms.get(deviceRoom(deviceId)) ?? []) {
      const socket = io.sockets.sockets.get(id)
      if (!socket) continue
      if (!person) socket.disconnect(true)
      else {
        socket.data.person = person
        presence.rename(id, person)
      }
    }
  })

  const packer = makePacker()
  /** Another object with each change of the board. */
  let board = {}

  damage.onChange((notices) => {
    board = {}
    io.to('board').emit('damage', { notices })
  })

  demo?.onChange((state, anew) => {
    io.emit('demo', state)
    board = {}
    // Its sign-ins are gone with the shop they were of.
    if (anew) io.disconnectSockets(true)
  })

  box.backups.onGood(() => io.emit('epoch', epochTold(box)))

  io.on('connection', (socket) => {
    tally.sockets += 1
    socket.on('disconnect', () => {
      tally.sockets -= 1
    })
    void socket.join(deviceRoom(socket.data.deviceId))
    socket.conn.on('packet', ({ data }: { data?: unknown }) => {
      if (typeof data === 'string' && data.length > LONG_MESSAGE)
        purses.pay(socket.data.deviceId, hard(data.length))
    })
    socket.emit('reload', { protocol: PROTOCOL_VERSION })
    if (demo) socket.emit('demo', demo.state())
    socket.emit('epoch', epochTold(box))
    socket.on('watch', (message, ack) => guarded(socket, ack, () => watch(socket, message), WATCH))
    socket.on('unwatch', (message, ack) =>
      guarded(socket, ack as Ack, async () => {
        const checked = check(unwatchSchema, message)
        if ('fault' in checked) return checked.fault
        void socket.leave(checked.value.room)
        return { ok: true }
      }),
    )
    socket.on('command', (message, ack) =>
      guarded(socket, ack as Ack, (reply) => command(socket, message, reply)),
    )
    socket.on('presence', (message) =>
      guarded(socket, undefined, async () => {
        const checked = check(presenceSchema, message)
        if ('fault' in checked) return checked.fault
        const { jobId, place } = checked.value
        if (jobId && place) presence.enter(socket.id, socket.data.person, jobId, place)
        else presence.leave(socket.id)
        return { ok: true }
      }),
    )
    socket.on('disconnect', () => presence.leave(socket.id))
    socket.on('error', (err) => log.debug({ err }, 'A socket failed.'))
  })

  type Ack = (answer: unknown) => void

  /** Answers once, whatever happens inside; a sender that wants no answer gets none. */
  function guarded(socket: Line, ack: unknown, work: (reply: Ack) => Promise<unknown>, price = 1) {
    let answered = typeof ack !== 'function'
    const reply: Ack = (answer) => {
      if (answered) return
      answered = true
      ;(ack as Ack)(answer)
    }
    if (purses.ask(socket.data.deviceId, price) > 0) {
      tally.heldBack += 1
      return reply(TOO_MANY)
    }
    work(reply).then(reply, (err) => {
      log.error({ err }, 'A message broke.')
      reply(notSaved(err))
    })
  }

  async function command(socket: Line, message: unknown, reply: Ack): Promise<Reply> {
    const checked = check(commandMessageSchema, message)
    if ('fault' in checked) {
      purses.pay(socket.data.deviceId, REFUSED)
      return checked.fault
    }
    const { stream, command: body, sealed } = checked.value
    const withoutBodies = (answer: Reply): Reply =>
      answer.ok && stream === 'shop' ? { ...answer, events: answer.events.map(eventWithoutPlanBody) } : answer
    const answer = await intake({
      stream: streamOf(stream as 'shop' | `job:${string}`),
      body,
      sealed,
      deviceId: socket.data.deviceId,
      sender: socket.id,
      // Before the desk publishes: an ack after its own broadcast would look like somebody else's work.
      reply: (answer) => reply(Encoded.of(withoutBodies(answer))),
    })
    if (!answer.ok) purses.pay(socket.data.deviceId, REFUSED)
    return withoutBodies(answer)
  }

  async function watch(socket: Line, message: unknown): Promise<Watched | Packed | Fault | object> {
    const checked = check(watchSchema, message)
    if ('fault' in checked) return checked.fault
    const { room, have, protocol, unpacks, leftLater } = checked.value
    if (!understands(PROTOCOL_VERSION, protocol)) {
      socket.emit('reload', { protocol: PROTOCOL_VERSION })
      return badMessage('/protocol', 'This page is older or newer than the server. Reload it.').fault
    }
    const key = `${room} ${have ?? ''} ${leftLater ?? ''}`
    const packing = !unpacks ? PLAIN : protocol < 2 ? PACKED_ONCE : packer.packing(key)
    const paid = ({ answer, cost }: Sent) => {
      purses.pay(socket.data.deviceId, cost)
      return answer
    }
    if (room === 'board') return paid(await watchBoard())
    const stream = streamOf(room as Exclude<Room, 'board'>)
    const join = () => void socket.join(room)
    const sent = await initialSync(desk, stream, have, { now, epoch: box.epoch().id, join, packing })
    if (!sent) return NO_JOB
    if (stream !== 'shop') {
      const jobId = stream.slice('job:'.length)
      socket.emit('presence', { jobId, here: presence.here(jobId) })
    }
    return paid(sent)

    /** As `initialSync` does: nothing falls between what is given and what is broadcast from then on. */
    async function watchBoard(): Promise<Sent> {
      for (let turn = 1; ; turn++) {
        const of = board
        const known = damage.now()
        const made = async () => {
          const answer: Watched = {
            ok: true,
            room: 'board',
            ...(leftLater
              ? { summaries: desk.summaries().filter((summary) => !isFinished(summary)), leftLater }
              : { summaries: desk.summaries() }),
            now: now(),
            epoch: box.epoch().id,
            ...(known.length > 0 ? { damage: known } : {}),
          }
          return packing.make(of, answer, turn > PATIENCE)
        }
        const sent = packing.kept(of, { now: now() }) ?? (await made())
        if (board !== of) continue
        void socket.join('board')
        return sent
      }
    }
  }

  return {
    publish: {
      events(room, from, events, sender) {
        if (!isWatched(room)) return
        const outgoing = room === 'shop' ? events.map(eventWithoutPlanBody) : events
        const others = sender === undefined ? io.to(room) : io.to(room).except(sender)
        others.emit('events', Encoded.of({ room, from, events: outgoing }) as never)
      },
      summary(summary) {
        board = {}
        if (isWatched('board')) io.to('board').emit('summary', new Encoded(jsonOf(summary)) as never)
      },
    },
    close: () => new Promise((resolve) => void io.close(() => resolve())),
  }
}

/** As long as most entries are not; a plan is. */
const LONG_MESSAGE = 4096

const TOO_MANY: Fault = {
  ok: false,
  code: 'too_many',
  sentence: 'Too much was asked from this device at once. Wait a moment; it asks again.',
}

const NO_JOB = {
  ok: false,
  code: 'job_not_found',
  data: {},
  sentence: 'No job is open under this id. Look it up on the board.',
}
