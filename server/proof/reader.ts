/**
 * What verify asks of a database, in the words of SQL alone: it must read one of an older build as it is, so it names each
 * column itself and does without those that are not there.
 */
import type Client from 'better-sqlite3'
import { readBody } from '../../shared/chain'
import type { StoredAnswer } from '../marks'
import type { PinRow } from '../people/seal'
import type { ReadingRow, Recorded, StreamHead, SummaryRow } from '../store'
import { BEFORE_THE_FIRST, type StoredRow, unsealStream } from '../store/chain'

export interface AnswerPlace extends StoredAnswer {
  /** From 1, in the order they were given. */
  place: number
}

export interface Reader {
  /** Every stream, those too whose end is not on record; as at that moment. */
  heads(): StreamHead[]
  /** Checked against its chain: throws `ChainBroken`. */
  read(stream: string): Promise<Recorded[]>
  entries(afterSeq: number, most: number): { seq: number; stream: string; hash: string }[]
  lastSeq(): number
  /** Nothing where there is no such place, or what is there says no time. */
  recordedAt(seq: number): number | undefined
  answers(after: number, most: number): AnswerPlace[]
  lastAnswer(): number
  answerTo(commandId: string): AnswerPlace | undefined
  summary(jobId: string): SummaryRow | undefined
  readings(jobId: string): ReadingRow[]
  /** Jobs that have rows beside the log. */
  jobsInViews(): string[]
  /** `undefined` from a build without seals. */
  pins(): { rows: PinRow[]; seal: string | undefined } | undefined
  state(name: string): string | undefined
  /** What SQLite itself finds wrong with the file; at most a few. */
  integrity(): string[]
  /** `work` sees one moment. */
  atOnce<T>(work: () => T): T
}

export function makeReader(client: Client.Database, pinsSeal: string): Reader {
  const columns = (table: string) =>
    new Set((client.pragma(`table_info(${table})`) as { name: string }[]).map(({ name }) => name))
  const hasFinished = columns('summary').has('finished_at')
  const isCounted = columns('answer').has('entry_number')
  const hasState = columns('state').size > 0
  const hasMac = columns('credential').has('mac')
  const prepare = <Row>(sql: string) => client.prepare<unknown[], Row>(sql)

  const ended = prepare<StreamHead>('select stream, version, hash from stream_head order by stream')
  const endless = prepare<{ stream: string }>(
    `with recursive name(stream) as (
       select min(stream) from event
       union -- not all: a damaged index may lead in a circle
       select (select min(stream) from event where stream > name.stream) from name where stream is not null
     )
     select stream from name where stream is not null and stream not in (select stream from stream_head)`,
  )
  const head = prepare<StreamHead>('select stream, version, hash from stream_head where stream = ?')
  const rows = prepare<StoredRow>(
    'select seq, stream, version, cast(body as blob) as body, hash from event where stream = ? order by version',
  )
  const entries = prepare<{ seq: number; stream: string; hash: string }>(
    'select seq, stream, hash from event where seq > ? order by seq limit ?',
  )
  const body = prepare<{ body: string }>('select cast(body as text) as body from event where seq = ?')
  const answerColumns = `rowid as place, command_id as commandId, person_id as personId, body_hash as bodyHash, answered_at as answeredAt, answer, ${isCounted ? 'device_id' : 'null'} as deviceId, ${isCounted ? 'entry_number' : 'null'} as entryNumber`
  const answers = prepare<AnswerPlace>(
    `select ${answerColumns} from answer where rowid > ? order by rowid limit ?`,
  )
  const answerTo = prepare<AnswerPlace>(`select ${answerColumns} from answer where command_id = ?`)
  const summary = prepare<SummaryRow & { finishedAt: number | null }>(
    `select job_id as jobId, number, version, summary as json, ${hasFinished ? 'finished_at' : 'null'} as finishedAt
     from summary where job_id = ?`,
  )
  const readings = prepare<StoredReading>(
    `select job_id as jobId, reading_id as readingId, joint_id as jointId, position, pass, how, wrench_id as wrenchId,
       torque_nm as torqueNm, angle_deg as angleDeg, flags, by_person as byPerson, done_at as doneAt, standing
     from reading where job_id = ? order by reading_id`,
  )
  const jobsInViews = prepare<{ jobId: string }>(
    'select job_id as jobId from summary union select job_id from reading order by 1',
  )
  const stateRow = hasState ? prepare<{ value: string }>('select value from state where name = ?') : undefined
  const state = (name: string) => stateRow?.get(name)?.value
  const one = (sql: string) => Number(client.prepare(sql).pluck().get() ?? 0)
  const atOnce = <T>(work: () => T): T => client.transaction(work)() as T

  return {
    heads: () =>
      atOnce(() => [
        ...ended.all(),
        ...endless.all().map(({ stream }) => ({ stream, version: 0, hash: BEFORE_THE_FIRST })),
      ]),
    read: async (stream) => atOnce(() => unsealStream(stream, 0, rows.all(stream), head.get(stream))),
    entries: (after, most) => inTurn(entries.all(after, most), after, ({ seq }) => seq),
    lastSeq: () => one('select max(seq) from event'),
    recordedAt: (seq) => {
      const at = readBody(body.get(seq)?.body ?? '')?.recordedAt
      return typeof at === 'number' ? at : undefined
    },
    answers: (after, most) => inTurn(answers.all(after, most), after, ({ place }) => place),
    lastAnswer: () => one('select max(rowid) from answer'),
    answerTo: (commandId) => answerTo.get(commandId),
    summary: (jobId) => {
      const row = summary.get(jobId)
      return row && summaryOf(row)
    },
    readings: (jobId) => readings.all(jobId).map(readingOf),
    jobsInViews: () => jobsInViews.all().map(({ jobId }) => jobId),
    pins: () =>
      hasMac
        ? atOnce(() => ({
            rows: prepare<PinRow>(
              'select person_id as personId, pin_hash as pinHash, set_at as setAt, mac from credential',
            ).all(),
            seal: state(pinsSeal),
          }))
        : undefined,
    state,
    integrity: () =>
      (client.pragma('integrity_check(3)') as { integrity_check: string }[])
        .map(({ integrity_check: found }) => found)
        .filter((found) => found !== 'ok'),
    atOnce,
  }
}

/** Up to the first that is not above the one before it, as in a damaged table: whoever reads on from the last would read in a circle. */
function inTurn<Row>(rows: Row[], after: number, placeOf: (row: Row) => number): Row[] {
  let last = after
  for (const [index, row] of rows.entries()) {
    if (placeOf(row) <= last) return rows.slice(0, index)
    last = placeOf(row)
  }
  return rows
}

type StoredReading = Omit<ReadingRow, 'by' | 'flags' | 'standing' | 'wrenchId' | 'torqueNm' | 'angleDeg'> & {
  byPerson: string
  flags: string
  standing: number
  wrenchId: string | null
  torqueNm: number | null
  angleDeg: number | null
}

function summaryOf({ finishedAt, ...row }: SummaryRow & { finishedAt: number | null }): SummaryRow {
  return finishedAt === null ? row : { ...row, finishedAt }
}

function readingOf({
  byPerson,
  flags,
  standing,
  wrenchId,
  torqueNm,
  angleDeg,
  ...rest
}: StoredReading): ReadingRow {
  return {
    ...rest,
    ...(wrenchId === null ? {} : { wrenchId }),
    ...(torqueNm === null ? {} : { torqueNm }),
    ...(angleDeg === null ? {} : { angleDeg }),
    by: byPerson,
    // As text where it is no JSON: it then differs from what the log amounts to, and is told.
    flags: flagsIn(flags) as ReadingRow['flags'],
    standing: standing === 1 ? true : standing === 0 ? false : (standing as unknown as boolean),
  }
}

function flagsIn(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return text
  }
}
