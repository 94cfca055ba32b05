/**
 * The reference's store: the same tables in the same mode (WAL, synchronous=FULL), prepared statements, one
 * transaction a command, and no rules, no hashing, no checks.
 */
import Client from 'better-sqlite3'

/** What one reading leaves behind: a row in each of five tables, as lists in the order of the columns. */
export interface RowsOfOne {
  event: unknown[]
  head: unknown[]
  answer: unknown[]
  summary: unknown[]
  reading: unknown[]
}

const TABLES = [
  'create table event (seq integer primary key not null, stream text not null, version integer not null, body text not null, hash text not null)',
  'create unique index event_stream_version on event (stream, version)',
  'create table stream_head (stream text primary key not null, version integer not null, hash text not null)',
  'create table answer (command_id text primary key not null, person_id text not null, body_hash text not null, answered_at integer not null, answer text not null)',
  'create table summary (job_id text primary key not null, number text not null, version integer not null, summary text not null)',
  'create unique index summary_number on summary (number)',
  'create table reading (job_id text not null, reading_id text not null, joint_id text not null, position integer not null, pass integer not null, how text not null, wrench_id text, torque_nm real, angle_deg real, flags text not null, by_person text not null, done_at integer not null, standing integer not null, primary key (job_id, reading_id))',
  'create index reading_wrench_done on reading (wrench_id, done_at)',
  'create index reading_done on reading (done_at)',
]

export function openBareStore(file: string) {
  const db = new Client(file)
  db.pragma('journal_mode = WAL')
  db.pragma('synchronous = FULL')
  for (const table of TABLES) db.exec(table)
  const event = db.prepare('insert into event values (?, ?, ?, ?, ?)')
  const head = db.prepare(
    'insert into stream_head values (?, ?, ?) on conflict (stream) do update set version = excluded.version, hash = excluded.hash',
  )
  const answer = db.prepare('insert into answer values (?, ?, ?, ?, ?)')
  const summary = db.prepare(
    'insert into summary values (?, ?, ?, ?) on conflict (job_id) do update set version = excluded.version, summary = excluded.summary',
  )
  const reading = db.prepare('insert into reading values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)')
  const writeAll = db.transaction((all: readonly RowsOfOne[]) => {
    for (const rows of all) {
      event.run(rows.event)
      head.run(rows.head)
      answer.run(rows.answer)
      summary.run(rows.summary)
      reading.run(rows.reading)
    }
  })
  return {
    /** In one transaction. */
    write: (...all: RowsOfOne[]) => writeAll.immediate(all),
    close: () => db.close(),
  }
}

/** The rows that the readings of these jobs left in our own file, in the order they were written. */
export function rowsOf(file: string, jobs: readonly string[]): RowsOfOne[] {
  const db = new Client(file, { readonly: true })
  try {
    const all = (sql: string) => db.prepare(sql).raw().all() as unknown[][]
    const streams = new Set(jobs.map((job) => `job:${job}`))
    const answers = new Map(
      all('select command_id, person_id, body_hash, answered_at, answer from answer').map((row) => [
        row[0],
        row,
      ]),
    )
    const summaries = new Map(
      all('select job_id, number, version, summary from summary').map((row) => [row[0], row]),
    )
    const readings = new Map(all('select * from reading').map((row) => [`${row[0]}/${row[1]}`, row]))
    return all('select * from event order by seq').flatMap((event) => {
      const [, stream, version, body, hash] = event as [number, string, number, string, string]
      if (!streams.has(stream)) return []
      const { commandId, event: fact } = JSON.parse(body)
      if (fact.type !== 'ReadingTaken') return []
      const job = stream.slice('job:'.length)
      const answer = answers.get(commandId)
      const summary = summaries.get(job)
      const reading = readings.get(`${job}/${fact.id}`)
      if (!answer || !summary || !reading)
        throw new Error(`A row of ${stream} version ${version} is missing.`)
      return [{ event, head: [stream, version, hash], answer, summary, reading }]
    })
  } finally {
    db.close()
  }
}
