/**
 * Bytes on the wire, counted by a relay on loopback, frames and headers included: catching up after 500
 * missed events, and the first load of a job, over the socket as the pages do it and over HTTP.
 */
import { get } from 'node:http'
import { join } from 'node:path'
import { countingProxy } from '../harness/counting-proxy'
import type { Line } from '../harness/line'
import { connect, watchRoom } from '../harness/sockets'
import type { Bench, Figure } from './figure'

const MISSED = 500
const BROWSERS_ACCEPT = 'gzip, deflate, br, zstd'

/** What one watch brought down, and how it was answered. */
async function watched(bench: Bench, at: { origin: string; cookie: string }, job: string, have?: number) {
  const proxy = await countingProxy(at.origin, bench.ending)
  const socket = await connect({ origin: proxy.origin, cookie: at.cookie }, bench.ending)
  const before = proxy.down()
  const answer = await watchRoom(socket, `job:${job}`, have)
  const bytes = proxy.down() - before
  socket.disconnect()
  return { bytes, answer }
}

async function fetched(bench: Bench, at: { origin: string; cookie: string }, job: string): Promise<number> {
  const proxy = await countingProxy(at.origin, bench.ending)
  await new Promise<void>((resolve, reject) => {
    const headers = { cookie: at.cookie, 'accept-encoding': BROWSERS_ACCEPT, connection: 'close' }
    get(`${proxy.origin}/api/jobs/${job}`, { headers }, (answer) => {
      if (answer.statusCode !== 200) reject(new Error(`GET /api/jobs/${job} answered ${answer.statusCode}.`))
      answer.resume().on('end', resolve).on('error', reject)
    }).on('error', reject)
  })
  return proxy.down()
}

const kB = (bytes: number) => bytes / 1000

export const catchUp: Figure = {
  name: 'catch-up',
  what: 'catching up after 500 missed events, on the wire',
  atMostSeconds: 90,
  async run(bench) {
    const link = bench.host()
    const ours = await link.openOurs(join(bench.ending.folder(), 'ours'), [
      { commands: 10_000 },
      { commands: 10_000, retakes: 300 },
      { commands: 0, retakes: MISSED },
    ])
    const lines: Line[] = []
    const [whole = '', busy = '', readings = ''] = ours.jobs
    const cases: [string, string][] = [
      ['whole build', whole],
      ['readings only', readings],
      ['build, then 300 readings retaken', busy],
    ]
    for (const [name, job] of cases) {
      const { version } = await link.plainJob(ours.id, job)
      const have = Math.max(2, version - MISSED)
      const plain = await link.plainEvents(ours.id, job, have)
      const { bytes, answer } = await watched(bench, ours, job, have)
      const top = plain.fields.slice(0, 8).map(([field, size]) => `${field} ${kB(size).toFixed(1)}`)
      lines.push({
        figure: 'catch-up',
        what: `catching up, ${plain.count} missed events (${name})`,
        unit: 'kB',
        ours: kB(bytes),
        reference: kB(plain.bytes),
        beside:
          'the same events as plain JSON; a general CRDT stack took 26 kB for the same work (said in ARCHITECTURE.md, not run here)',
        goal: { by: 'ours', wants: 'at most', goal: 20, stretch: 12 },
        notes: [
          `answered with ${'events' in answer ? 'events' : 'the state'}; plain, by field in kB: ${top.join(', ')}`,
        ],
      })
    }
    await link.closeOurs(ours.id)
    return lines
  },
}

export const jobLoad: Figure = {
  name: 'job-load',
  what: 'first load of a 60 kB job, on the wire',
  atMostSeconds: 60,
  async run(bench) {
    const link = bench.host()
    const ours = await link.openOurs(join(bench.ending.folder(), 'ours'), [
      { commands: 10_000, bytes: 60_000 },
      { commands: 10_000 },
    ])
    const lines: Line[] = []
    const [begun = '', whole = ''] = ours.jobs
    for (const [name, job, judged] of [
      ['begun', begun, true],
      ['whole build', whole, false],
    ] as const) {
      const { bytes: plain } = await link.plainJob(ours.id, job)
      const socket = (await watched(bench, ours, job)).bytes
      const http = await fetched(bench, ours, job)
      const size = `${Math.round(kB(plain))} kB job, ${name}`
      const goal = judged ? ({ by: 'ours', wants: 'at most', goal: 12, stretch: 8 } as const) : undefined
      const line = { figure: 'job-load', unit: 'kB', reference: kB(plain), beside: 'the same as plain JSON' }
      lines.push(
        {
          ...line,
          what: `first load over the socket (${size})`,
          ours: kB(socket),
          goal,
          notes: ['the pages load a job so: `watch` without a version'],
        },
        { ...line, what: `first load over HTTP (${size})`, ours: kB(http), goal },
      )
    }
    await link.closeOurs(ours.id)
    return lines
  },
}
