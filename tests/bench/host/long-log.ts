/**
 * A log of any length, written in bulk straight into a database file: a bench tool, and the only place that
 * goes round the desk. The rows are whole and chained as the store would have chained them (a stream is read
 * back through its check at the end). The tables that are made from the log are left to the shop's own rebuilding.
 */
import Client from 'better-sqlite3'
import { migrations } from '../../../server/open-shop'
import { canonical, openDatabase, sha256Hex, sqliteEventStore } from '../../../server/store'
import { BEFORE_THE_FIRST } from '../../../server/store/chain'
import type { StoredEvent } from '../../../server/store/port'

const SAY_EVERY = 250_000

export interface Pattern {
  event: StoredEvent
  recordedAt: number
}

export interface Copied {
  /** What its copies are named after. */
  job: string
  /** All of its entries, from the first. */
  entries: readonly Pattern[]
  copies: number
  /** How much earlier than the pattern the nth copy happened, in milliseconds. */
  earlier?: (n: number) => number
}

/** The ids of a job's copies, in the order they are written. */
export const copiesOf = (job: string, copies: number): string[] =>
  Array.from({ length: copies }, (_, n) => `${job}-${(n + 1).toString(16).padStart(6, '0')}`)

/** A job's entries as a data folder holds them. */
export async function entriesOf(file: string, job: string): Promise<Pattern[]> {
  const store = sqliteEventStore(openDatabase({ file, migrationsFolder: migrations() }))
  const entries = await store.read(`job:${job}`)
  await store.close()
  if (entries.length === 0) throw new Error(`Job ${job} has no entries.`)
  return entries
}

/** Copies jobs under new ids and numbers. Gives how many events it wrote. */
export async function lengthenLog(
  file: string,
  patterns: readonly Copied[],
  say: (sentence: string) => void,
): Promise<{ events: number }> {
  const db = new Client(file)
  db.pragma('journal_mode = MEMORY')
  db.pragma('synchronous = OFF')
  const last = db.prepare('select max(seq) from event').pluck()
  const addEvent = db.prepare('insert into event (seq, stream, version, body, hash) values (?, ?, ?, ?, ?)')
  const addHead = db.prepare('insert into stream_head (stream, version, hash) values (?, ?, ?)')
  const first = last.get() as number
  let seq = first
  let made = 0
  const hex = (n: number) => n.toString(16).padStart(12, '0')
  for (const { job, entries, copies, earlier } of patterns) {
    // Its keys in the order of canonical JSON; the event's own text need not be made again for each copy.
    const parts = entries.map(({ event, recordedAt }) => ({
      type: event.type,
      text: canonical(event),
      recordedAt,
    }))
    const addJob = db.transaction((jobId: string, ms: number) => {
      made += 1
      const number = `L${String(made).padStart(6, '0')}`
      const stream = `job:${jobId}`
      const shifted = (text: string) =>
        ms === 0 ? text : text.replace(/("\w+At":)(\d{13})\b/g, (_, name, at) => `${name}${Number(at) - ms}`)
      let hash = BEFORE_THE_FIRST
      let version = 0
      for (const { type, text, recordedAt } of parts) {
        version += 1
        seq += 1
        const id = `01900000-0000-7000-8000-${hex(seq)}`
        let event = shifted(text)
        if (type === 'JobOpened') event = event.replace(/"number":"[^"]*"/, `"number":"${number}"`)
        // A release names the head it was given on.
        if (type === 'Released')
          event = event
            .replace(/"head":"[^"]*"/, `"head":"${hash}"`)
            .replace(/"number":"[^"]*(-[A-Z]\d+)"/, `"number":"${number}$1"`)
        const body = `{"commandId":"${id}","event":${event},"id":"${id}","recordedAt":${recordedAt - ms},"seq":${seq},"stream":"${stream}","version":${version}}`
        hash = sha256Hex(hash, body)
        addEvent.run(seq, stream, version, body, hash)
        if (seq % SAY_EVERY === 0) say(`${seq.toLocaleString('en')} events written`)
      }
      addHead.run(stream, version, hash)
    })
    for (const [n, jobId] of copiesOf(job, copies).entries()) addJob(jobId, earlier?.(n) ?? 0)
  }
  db.pragma('journal_mode = WAL')
  db.close()
  // Read back through the store's check, which throws.
  for (const { job, copies } of patterns) await entriesOf(file, copiesOf(job, copies).at(-1) ?? '')
  return { events: seq - first }
}
