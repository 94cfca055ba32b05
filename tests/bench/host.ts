/**
 * The server process of the bench: holds the shop as shipped and the bare references side by side, and does
 * what the load process asks over the parent's channel. It ends when that channel closes.
 */

import { databaseIn } from '../../server/settings'
import type { StreamEvent } from '../../shared/log'
import { serveBare } from './host/bare-socket'
import { openBareStore, rowsOf } from './host/bare-store'
import type { HostCalls } from './host/calls'
import { type Ours, openOurs } from './host/ours'
import { type OpenYard, openYard } from './host/yard'

const open = new Map<number, Ours>()
let yard: OpenYard | undefined

function ours(id: number): Ours {
  const found = open.get(id)
  if (!found) throw new Error(`No shop ${id} is open in the server process.`)
  return found
}

function sample(id: number, job: string) {
  const [rows] = rowsOf(databaseIn(ours(id).dataFolder), [job])
  if (!rows) throw new Error(`Job ${job} has no reading to copy.`)
  return { rows, summary: JSON.parse(String(rows.summary[3])) as { version: number } }
}

const calls: HostCalls = {
  async openOurs(dataFolder, jobs) {
    const opened = await openOurs(dataFolder)
    const id = open.size + 1
    open.set(id, opened)
    return {
      id,
      dataFolder,
      origin: opened.serving.address,
      cookie: opened.cookie,
      devices: opened.devices,
      jobs: await opened.add(jobs),
    }
  },
  addJobs: (id, jobs) => ours(id).add(jobs),
  async cpuMs() {
    const { user, system } = process.cpuUsage()
    return (user + system) / 1000
  },
  workInTurn: (id, jobs, untimed, timed) => ours(id).workInTurn(jobs, untimed, timed),
  async openYard(dataFolder, engines) {
    yard = await openYard(dataFolder, engines)
    return yard.opened
  },
  async tellYard(jobs, count, atMostMs) {
    if (!yard) throw new Error('No yard is open in the server process.')
    return yard.tell(jobs, count, atMostMs)
  },
  closeYard: async () => yard?.close(),
  closeOurs: (id) => ours(id).close(),
  async bareLoop(id, jobs, file) {
    const rows = rowsOf(databaseIn(ours(id).dataFolder), jobs)
    const store = openBareStore(file)
    const cpuBefore = process.cpuUsage()
    const begun = performance.now()
    for (const one of rows) store.write(one)
    const ms = performance.now() - begun
    const { user, system } = process.cpuUsage(cpuBefore)
    store.close()
    return { ms, cpuMs: (user + system) / 1000, commands: rows.length }
  },
  async openBare(id, job, file) {
    const { rows, summary } = sample(id, job)
    const { origin } = await serveBare(file, rows, summary)
    return { origin }
  },
  sampleRows: async (id, job) => sample(id, job),
  async plainEvents(id, job, after) {
    const events = await ours(id).shop.desk.eventsAfter(`job:${job}`, after)
    return {
      count: events.length,
      bytes: bytesOf(events),
      fields: fieldsOf(events),
    }
  },
  async plainJob(id, job) {
    const found = await ours(id).shop.desk.job(job)
    if (!found) throw new Error(`No job ${job}.`)
    return { version: found.version, bytes: bytesOf(found) }
  },
}

const bytesOf = (what: unknown) => Buffer.byteLength(JSON.stringify(what))

/** Which fields of the events the bytes go to, names and punctuation included. */
function fieldsOf(events: readonly StreamEvent<object>[]): [string, number][] {
  const sums = new Map<string, number>()
  for (const { event } of events)
    for (const [name, value] of Object.entries(event))
      if (value !== undefined) sums.set(name, (sums.get(name) ?? 0) + bytesOf({ [name]: value }) - 1)
  return [...sums].sort((a, b) => b[1] - a[1])
}

process.on('message', async ({ id, name, args }: { id: number; name: keyof HostCalls; args: never[] }) => {
  try {
    const result = await (calls[name] as (...given: never[]) => Promise<unknown>)(...args)
    process.send?.({ id, result })
  } catch (error) {
    process.send?.({ id, error: error instanceof Error ? (error.stack ?? error.message) : String(error) })
  }
})
process.on('disconnect', () => process.exit(0))
