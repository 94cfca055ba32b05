/**
 * A log of any length, written in bulk straight into a database file: a bench tool, and the only place that
 * goes round the desk. The rows are whole and chained as the store would have chained them (a stream is read
 * back through its check at the end); `answer` and `reading` stay empty, because a start looks at neither.
 */
import Client from 'better-sqlite3'
import { migrations } from '../../../server/open-shop'
import { canonical, openDatabase, sha256Hex, sqliteEventStore } from '../../../server/store'
import { BEFORE_THE_FIRST } from '../../../server/store/chain'

const SAY_EVERY = 250_000

/** Copies the job `pattern` of `file` under new ids until the log holds `events` events; gives the jobs' number. */
export async function lengthenLog(
  file: string,
  pattern: string,
  events: number,
  say: (sentence: string) => void,
): Promise<number> {
  const db = new Client(file)
  db.pragma('journal_mode = MEMORY')
  db.pragma('synchronous = OFF')
  const one = db.prepare('select body from event where stream = ? order by version').pluck()
  const bodies = (one.all(`job:${pattern}`) as string[]).map((body) => JSON.parse(body))
  // Its keys in the order of canonical JSON; the event's own text need not be made again for each copy.
  const parts = bodies.map(({ event, recordedAt }) => ({ event: canonical(event), recordedAt }))
  const [summary] = db
    .prepare('select summary from summary where job_id = ?')
    .pluck()
    .all(pattern) as string[]
  const last = db.prepare('select max(seq) from event').pluck()
  const addEvent = db.prepare('insert into event values (?, ?, ?, ?, ?)')
  const addHead = db.prepare('insert into stream_head values (?, ?, ?)')
  const addSummary = db.prepare('insert into summary values (?, ?, ?, ?)')
  let seq = last.get() as number
  let jobs = 0
  const hex = (n: number, digits: number) => n.toString(16).padStart(digits, '0')
  const addJob = db.transaction(() => {
    jobs += 1
    const jobId = `long-${hex(jobs, 6)}`
    const stream = `job:${jobId}`
    const number = `L${String(jobs).padStart(6, '0')}`
    let hash = BEFORE_THE_FIRST
    let version = 0
    for (const { event, recordedAt } of parts) {
      version += 1
      seq += 1
      const id = `01900000-0000-7000-8000-${hex(seq, 12)}`
      const body =
        `{"commandId":"${id}","event":${version === 1 ? event.replace(/"number":"[^"]*"/, `"number":"${number}"`) : event},` +
        `"id":"${id}","recordedAt":${recordedAt},"seq":${seq},"stream":"${stream}","version":${version}}`
      hash = sha256Hex(hash, body)
      addEvent.run(seq, stream, version, body, hash)
      if (seq % SAY_EVERY === 0) say(`${seq.toLocaleString('en')} events written`)
    }
    addHead.run(stream, version, hash)
    const view = { ...JSON.parse(summary ?? '{}'), id: jobId, number }
    addSummary.run(jobId, number, version, JSON.stringify(view))
  })
  while (seq < events) addJob()
  db.pragma('journal_mode = WAL')
  db.close()
  await readBack(file, `job:long-${hex(jobs, 6)}`, parts.length)
  return jobs
}

/** Throws where the store would. */
async function readBack(file: string, stream: string, length: number) {
  const store = sqliteEventStore(openDatabase({ file, migrationsFolder: migrations() }))
  const read = await store.read(stream)
  await store.close()
  if (read.length !== length) throw new Error(`${stream} has ${read.length} events; ${length} were written.`)
}
