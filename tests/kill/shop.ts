/**
 * One shop whose server is killed again and again: three devices that keep commands in the air, and a ledger of what the
 * server has said to each.
 */
import { isDeepStrictEqual } from 'node:util'
import { io, type Socket } from 'socket.io-client'
import { v7 } from 'uuid'
import type { Program } from '../process/program'
import { codeOf } from '../process/program'
import { BO, openJob, PLAN, W1 } from '../shop/yard'
import { addressOf, type Browser, begin, browserAt, killed, pause } from './program'
import type { Draw } from './random'

interface Sent {
  stream: 'shop' | `job:${string}`
  command: { commandId: string; type: string }
}
interface Entry {
  version: number
  event: object
}
export interface Reply {
  ok: boolean
  code?: string
  version: number
  events: Entry[]
}
/** What a fault of the server says; such an entry is sent again, and is not in the ledger. */
const PASSING = new Set(['not_saved', 'too_many', 'signed_out'])

interface Device {
  browser: Browser
  signInId: string
  entries: number
  socket?: Socket
}

export const FOUNDER = { name: 'Ana', initials: 'AN', pin: '4711' }
const JOBS = ['a', 'b', 'c'] as const
const IN_THE_AIR = 6
/** Longer than any commit, shorter than a person waits for a run that hangs. */
const ANSWER_MS = 30_000

export async function openShop(dataFolder: string) {
  let program = begin('main', dataFolder)
  let address = await addressOf(program)
  const devices: Device[] = []
  const unanswered = new Map<string, { sent: Sent; device: Device }>()
  const ledger: { sent: Sent; device: Device; answer: Reply }[] = []
  /** Ends of the chains as they were seen last: what was written stays as it was. */
  const seenHashes = new Map<string, { version: number; hash: string }>()

  async function ask(device: Device, sent: Sent): Promise<Reply | undefined> {
    const { socket } = device
    if (!socket?.connected) return undefined
    return new Promise((resolve) => {
      const end = (answer?: Reply) => {
        clearTimeout(late)
        socket.off('disconnect', cut)
        resolve(answer)
      }
      const cut = () => end()
      const late = setTimeout(cut, ANSWER_MS)
      socket.once('disconnect', cut)
      socket.emit('command', sent, end)
    })
  }

  /** Sends it, and writes down what it was told. */
  async function enter(device: Device, sent: Sent): Promise<Reply | undefined> {
    unanswered.set(sent.command.commandId, { sent, device })
    const answer = await ask(device, sent)
    if (!answer || PASSING.has(answer.code ?? '')) return answer
    unanswered.delete(sent.command.commandId)
    ledger.push({ sent, device, answer })
    return answer
  }

  const headed = (device: Device, stream: Sent['stream'], command: { type: string }): Sent => ({
    stream,
    command: {
      ...command,
      commandId: v7(),
      signInId: device.signInId,
      doneAt: Date.now(),
      entryNumber: ++device.entries,
    } as Sent['command'],
  })

  async function connect(): Promise<void> {
    await Promise.all(
      devices.map(async (device) => {
        device.socket?.disconnect()
        const socket = io(address, {
          transports: ['websocket'],
          forceNew: true,
          reconnection: false,
          extraHeaders: { cookie: device.browser.cookie(), origin: address },
        })
        device.socket = socket
        await new Promise<void>((resolve, reject) => {
          socket.once('connect', resolve)
          socket.once('connect_error', reject)
        })
      }),
    )
  }

  async function addDevice(
    signIn: (browser: Browser) => Promise<{ signIn: { id: string } }>,
  ): Promise<Device> {
    const browser = browserAt(() => address)
    const { signIn: opened } = await signIn(browser)
    const device = { browser, signInId: opened.id, entries: 0 }
    devices.push(device)
    return device
  }

  const code = await codeOf(program)
  const ana = await addDevice((browser) =>
    browser.must('/api/first-run', { shopName: 'Kill', ...FOUNDER, code }),
  )
  const [{ id: anaId } = { id: '' }] = await ana.browser.must<{ id: string }[]>('/api/people')
  await connect()
  const opening = [
    ['shop', { type: 'AddPerson', person: BO }],
    ['shop', { type: 'AddWrench', wrench: W1 }],
    ['shop', { type: 'AddPlan', plan: PLAN }],
    ...JOBS.flatMap((id) => openJob(`job:${id}`).map((command) => [`job:${id}` as const, command] as const)),
  ] as const
  for (const [stream, command] of opening) {
    const answer = await enter(ana, headed(ana, stream, command))
    if (!answer?.ok) throw new Error(`The shop was not opened: ${JSON.stringify(answer)}`)
  }
  await ana.browser.must(`/api/people/${BO.id}/pin`, { pin: '8190' })
  await addDevice((browser) => browser.must('/api/sign-in', { personId: BO.id, pin: '8190' }))
  await addDevice((browser) => browser.must('/api/sign-in', { personId: anaId, pin: FOUNDER.pin }))
  await connect()

  /** Claims, put-downs, readings and notes: some are refused, which is kept too. */
  function work(device: Device, draw: Draw): Sent {
    const commands = [
      { type: 'ClaimStep', stepId: 'S1' },
      { type: 'EnterScale', jointId: 'J1', pass: 1, wrenchId: 'W1', value: 20 },
      {
        type: 'TakeReading',
        jointId: 'J1',
        position: draw.below(3) + 1,
        pass: 1,
        how: 'clicked',
        wrenchId: 'W1',
      },
      { type: 'PutDownStep', stepId: 'S1' },
      { type: 'SignStep', stepId: 'S1' },
      { type: 'AddNote', text: `note ${v7()}` },
      { type: 'AddNote', text: `note ${v7()}` },
    ]
    return headed(device, `job:${draw.pick(JOBS)}`, draw.pick(commands))
  }

  /** Every device keeps some commands in the air, so that a kill falls into a commit; until `end`, or until the line is cut. */
  function storm(draw: Draw) {
    let writing = true
    const hands = devices.flatMap((device) =>
      Array.from({ length: IN_THE_AIR }, async () => {
        while (writing && device.socket?.connected) {
          const answer = await enter(device, work(device, draw))
          if (answer?.code === 'too_many') await pause(50)
        }
      }),
    )
    return {
      async end(): Promise<void> {
        writing = false
        await Promise.all(hands)
      },
    }
  }

  /** What the server has now, against all it ever said. Empty where it agrees. */
  async function check(draw: Draw): Promise<string[]> {
    const wrong: string[] = []
    for (const { sent, device } of [...unanswered.values()]) {
      const answer = await enter(device, sent)
      if (!answer || PASSING.has(answer.code ?? ''))
        wrong.push(`${sent.command.type} was sent again and got ${JSON.stringify(answer)}.`)
    }
    for (let n = 0; n < 12 && ledger.length > 0; n++) {
      const { sent, device, answer } = draw.pick(ledger)
      const again = await ask(device, sent)
      if (!isDeepStrictEqual(again, answer))
        wrong.push(
          `Sent again, ${sent.command.type} got another answer: ${JSON.stringify(answer)}, then ${JSON.stringify(again)}.`,
        )
    }
    for (const id of JOBS) {
      const stream = `job:${id}`
      const { events } = await ana.browser.must<{ events: Entry[] }>(`/api/jobs/${id}/events`)
      const told = ledger.filter(({ sent, answer }) => sent.stream === stream && answer.ok)
      for (const { sent, answer } of told)
        for (const entry of answer.events)
          if (!isDeepStrictEqual(events[entry.version - 1], entry))
            wrong.push(
              `Lost: ${stream} ${entry.version}, acknowledged for ${sent.command.type} ${sent.command.commandId}.`,
            )
      // Each entry has its own acknowledgement: nothing is there twice, and nothing that nobody entered.
      const versions = told.flatMap(({ answer }) => answer.events.map(({ version }) => version))
      const sorted = versions.sort((a, b) => a - b)
      if (
        !isDeepStrictEqual(
          sorted,
          events.map(({ version }) => version),
        )
      )
        wrong.push(
          `${stream} has ${events.length} entries, of which ${versions.length} were acknowledged once.`,
        )
      const { rows } = await ana.browser.must<{ rows: { version: number; hash: string }[] }>(
        `/api/jobs/${id}/chain`,
      )
      const before = seenHashes.get(stream)
      if (before && rows[before.version - 1]?.hash !== before.hash)
        wrong.push(`${stream} was rewritten: entry ${before.version} has another hash than before.`)
      const last = rows.at(-1)
      if (last) seenHashes.set(stream, { version: last.version, hash: last.hash })
    }
    return wrong
  }

  return {
    ana: ana.browser,
    anaId,
    acknowledged: () => ledger.length,
    unanswered: () => unanswered.size,
    /** Of each stream, as it was seen at the last check. */
    seenHashes: () => new Map(seenHashes),
    storm,
    check,
    kill: () => killed(program),
    async start(): Promise<void> {
      program = begin('main', dataFolder)
      address = await addressOf(program)
      await connect()
    },
    running: (): Program => program,
    async close(): Promise<void> {
      for (const { socket } of devices) socket?.disconnect()
      await killed(program)
    },
  }
}
export type KilledShop = Awaited<ReturnType<typeof openShop>>
