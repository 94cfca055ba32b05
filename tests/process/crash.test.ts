/**
 * The built server is killed (SIGKILL) while it writes, and started again: what it acknowledged is there, every
 * chain holds, and a resend of what was never answered happens once.
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { io, type Socket } from 'socket.io-client'
import { v7 } from 'uuid'
import { afterEach, expect, test } from 'vitest'
import { BO, openJob, PLAN, W1 } from '../shop/yard'

const built = (name: string) => fileURLToPath(new URL(`../../dist/server/${name}.js`, import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'paintmark-crash-'))
const env = { ...process.env, PORT: '0', HOST: '127.0.0.1', DATA_DIR: folder, LOG_LEVEL: 'warn' }
let running: ChildProcess | undefined
/** What the server said beside its address. */
let said = ''

afterEach(async () => {
  if (running && running.exitCode === null && running.signalCode === null) await kill(running)
  rmSync(folder, { recursive: true, force: true })
})

const FIRST_RUN_CODE = /to open one: ([\d ]+)$/m

async function start(): Promise<string> {
  const child = spawn(process.execPath, [built('main')], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  child.stderr.on('data', (part) => (said += part))
  running = child
  let output = ''
  for await (const part of child.stdout) {
    output += part
    const address = /runs at (\S+)/.exec(output)?.[1]
    if (address) return address
  }
  throw new Error(`The server ended without an address: ${output}${said}`)
}

async function kill(child: ChildProcess) {
  const gone = once(child, 'exit')
  child.kill('SIGKILL')
  await gone
}

interface Sent {
  stream: `job:${string}`
  command: { commandId: string; type: string }
}
type Reply = { ok: boolean; version: number; events: { version: number; event: object }[]; sentence?: string }

test('[DK2] killed under writes, three times over: every acknowledged entry is there, nothing twice', async () => {
  let address = await start()
  let cookie = ''
  async function post(path: string, body: object) {
    const response = await fetch(`${address}${path}`, {
      method: 'POST',
      headers: { origin: address, ...(cookie ? { cookie } : {}) },
      body: JSON.stringify(body),
    })
    cookie = response.headers.get('set-cookie')?.split(';')[0] ?? cookie
    const answer = (await response.json()) as Reply
    if (response.status >= 300) throw new Error(`${path}: ${answer.sentence}`)
    return answer
  }
  await waitFor(() => FIRST_RUN_CODE.test(said))
  const firstRunCode = FIRST_RUN_CODE.exec(said)?.[1]
  await post('/api/first-run', {
    shopName: 'Crash',
    name: 'Ana',
    initials: 'AN',
    pin: '4711',
    code: firstRunCode,
  })
  for (const command of [
    { type: 'AddPerson', person: BO },
    { type: 'AddWrench', wrench: W1 },
    { type: 'AddPlan', plan: PLAN },
  ])
    await post('/api/shop/commands', { ...command, commandId: v7() })
  const streams = ['a', 'b', 'c'].map((id) => `job:${id}` as const)
  for (const stream of streams)
    for (const command of openJob(stream))
      await post(`/api/jobs/${stream.slice(4)}/commands`, { ...command, commandId: v7() })

  const acknowledged: { sent: Sent; answer: Reply }[] = []
  for (let round = 0; round < 3; round++) {
    const unanswered = new Map<string, Sent>()
    const sockets = await Promise.all(streams.map(() => connect(address, cookie)))
    let writing = true
    // Each socket keeps ten commands in the air at one job, so that the kill falls into a commit.
    const writers = sockets.flatMap((socket, index) =>
      Array.from({ length: 10 }, async (_, n) => {
        for (let turn = 0; writing; turn++) {
          const sent = work(streams[index] as Sent['stream'], n + turn)
          unanswered.set(sent.command.commandId, sent)
          const answer = await ask(socket, sent)
          if (!answer) return
          unanswered.delete(sent.command.commandId)
          acknowledged.push({ sent, answer })
        }
      }),
    )
    const before = acknowledged.length
    await waitFor(() => acknowledged.length > before + 150)
    await kill(running as ChildProcess)
    writing = false
    for (const socket of sockets) socket.disconnect()
    await Promise.all(writers)

    address = await start()
    const [socket] = await Promise.all([connect(address, cookie)])
    for (const sent of unanswered.values()) {
      const answer = await ask(socket, sent)
      if (answer) acknowledged.push({ sent, answer })
    }
    socket.disconnect()
    expect(unanswered.size).toBeGreaterThan(0)
  }

  for (const stream of streams) {
    const response = await fetch(`${address}/api/jobs/${stream.slice(4)}/events`, { headers: { cookie } })
    const { events } = (await response.json()) as Reply
    const own = acknowledged.filter(({ sent, answer }) => sent.stream === stream && answer.ok)
    for (const { answer } of own)
      for (const entry of answer.events) expect(events[entry.version - 1]).toEqual(entry)
    // Everything sent was answered in the end, so each event beyond the two that opened the job has its ack, once.
    const versions = own
      .flatMap(({ answer }) => answer.events.map(({ version }) => version))
      .sort((a, b) => a - b)
    expect(versions).toEqual(events.map(({ version }) => version).slice(2))
  }
  await kill(running as ChildProcess)

  const verify = spawn(process.execPath, [built('verify')], { env, stdio: ['ignore', 'pipe', 'inherit'] })
  let output = ''
  verify.stdout.on('data', (part) => (output += part))
  const [code] = await once(verify, 'exit')
  expect([code, output.split('\n').at(-2)]).toEqual([0, expect.stringMatching(/^OK: 4 streams, \d+ entries/)])
})

/** Claims, put-downs and readings: some are refused, which is kept too. */
function work(stream: Sent['stream'], n: number): Sent {
  const commands = [
    { type: 'ClaimStep', stepId: 'S1' },
    { type: 'EnterScale', jointId: 'J1', pass: 1, wrenchId: 'W1', value: 20 },
    { type: 'TakeReading', jointId: 'J1', position: (n % 3) + 1, pass: 1, how: 'clicked', wrenchId: 'W1' },
    { type: 'PutDownStep', stepId: 'S1' },
    { type: 'SignStep', stepId: 'S1' },
  ]
  return { stream, command: { ...(commands[n % commands.length] as { type: string }), commandId: v7() } }
}

async function connect(address: string, cookie: string): Promise<Socket> {
  const socket = io(address, {
    transports: ['websocket'],
    forceNew: true,
    reconnection: false,
    extraHeaders: { cookie, origin: address },
  })
  await new Promise<void>((resolve, reject) => {
    socket.once('connect', resolve)
    socket.once('connect_error', reject)
  })
  return socket
}

/** `undefined` when the line was cut before the answer. */
function ask(socket: Socket, sent: Sent): Promise<Reply | undefined> {
  return new Promise((resolve) => {
    if (!socket.connected) return resolve(undefined)
    const cut = () => resolve(undefined)
    socket.once('disconnect', cut)
    socket.emit('command', sent, (answer: Reply) => {
      socket.off('disconnect', cut)
      resolve(answer)
    })
  })
}

async function waitFor(holds: () => boolean) {
  const end = Date.now() + 20_000
  while (!holds()) {
    if (Date.now() > end) throw new Error('The server did not take enough in 20 s.')
    await new Promise((resolve) => setTimeout(resolve, 2))
  }
}
