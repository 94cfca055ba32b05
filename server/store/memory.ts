/**
 * The log in memory: for tests and simulations. It keeps text, as a database would, and goes through the
 * same chain, so that nothing passes here and fails on disk.
 */
import { plainJson } from './canonical'
import { BEFORE_THE_FIRST, type SealedRow, seal, textsOf, unsealLog, unsealStream } from './chain'
import { AnsweredTwice, JobNumberTaken, StoreClosed } from './errors'
import type {
  Batch,
  EventStore,
  KeptAnswer,
  ReadingRow,
  Recorded,
  StreamHead,
  SummaryRow,
  Views,
} from './port'

interface Kept {
  log: SealedRow[]
  streams: Map<string, { head: StreamHead; rows: SealedRow[] }>
  answers: Map<string, string>
  summaries: Map<string, string>
  jobByNumber: Map<string, string>
  readings: Map<string, string>
}

export function memoryEventStore(): EventStore {
  const kept: Kept = {
    log: [],
    streams: new Map(),
    answers: new Map(),
    summaries: new Map(),
    jobByNumber: new Map(),
    readings: new Map(),
  }
  let closed = false
  const whileOpen = async <T>(work: () => T): Promise<T> => {
    if (closed) throw new StoreClosed()
    return work()
  }

  return {
    read: (stream, afterVersion = 0) =>
      whileOpen(() => {
        const { rows = [], head } = kept.streams.get(stream) ?? {}
        return unsealStream(stream, afterVersion, rows.slice(Math.max(afterVersion - 1, 0)), head)
      }),
    chain: (stream) =>
      whileOpen(() => {
        const { rows = [], head } = kept.streams.get(stream) ?? {}
        return textsOf(stream, rows, head)
      }),
    readAll: (afterSeq, limit) =>
      whileOpen(() => {
        const page = kept.log.slice(afterSeq, afterSeq + limit)
        const previousHash = (row: SealedRow) =>
          kept.streams.get(row.stream)?.rows[row.version - 2]?.hash ?? null
        return unsealLog(
          afterSeq,
          page.map((row) => ({ ...row, previousHash: previousHash(row) })),
        )
      }),
    streams: () => whileOpen(() => [...kept.streams.values()].map(({ head }) => ({ ...head }))),
    answers: (commandIds) =>
      whileOpen(() => {
        const found = new Map<string, KeptAnswer>()
        for (const id of commandIds) {
          const text = kept.answers.get(id)
          if (text !== undefined) found.set(id, JSON.parse(text))
        }
        return found
      }),
    summaries: () =>
      whileOpen(() => [...kept.summaries.values()].map((text) => JSON.parse(text) as SummaryRow)),
    readings: ({ jobId, wrenchId, from = Number.NEGATIVE_INFINITY, until = Number.POSITIVE_INFINITY }) =>
      whileOpen(() =>
        [...kept.readings.values()]
          .map((text) => JSON.parse(text) as ReadingRow)
          .filter(
            (r) =>
              (jobId === undefined || r.jobId === jobId) &&
              (wrenchId === undefined || r.wrenchId === wrenchId),
          )
          .filter((r) => r.doneAt >= from && r.doneAt < until)
          .sort((a, b) => a.doneAt - b.doneAt || (a.readingId < b.readingId ? -1 : 1)),
      ),
    commit: (batch) => whileOpen(() => commit(kept, batch)),
    replaceViews: (views) =>
      whileOpen(() => {
        const next = { summaries: new Map(), jobByNumber: new Map(), readings: new Map() }
        putViews(next, views)
        Object.assign(kept, next)
      }),
    close: async () => {
      closed = true
    },
  }
}

/** Prepares everything that may throw, then puts it in place: all or nothing. */
function commit(kept: Kept, batch: Batch) {
  const heads = new Map<string, StreamHead>()
  const headOf = (stream: string) =>
    heads.get(stream) ?? kept.streams.get(stream)?.head ?? { stream, version: 0, hash: BEFORE_THE_FIRST }
  const rows: SealedRow[] = []
  const committed: Recorded[] = []
  const stale = new Set<string>()
  for (const append of batch.appends) {
    if (stale.has(append.stream)) continue
    if (headOf(append.stream).version !== append.expectedVersion) {
      stale.add(append.stream)
      continue
    }
    const sealed = seal(append, headOf(append.stream), kept.log.length + rows.length)
    if (sealed.rows.length > 0) heads.set(append.stream, sealed.head)
    rows.push(...sealed.rows)
    committed.push(...sealed.recorded)
  }
  if (stale.size > 0) return { stale: [...stale] }

  const answers = new Map<string, string>()
  for (const answer of batch.answers) {
    if (kept.answers.has(answer.commandId) || answers.has(answer.commandId)) {
      throw new AnsweredTwice(answer.commandId)
    }
    answers.set(answer.commandId, plainJson(answer))
  }
  const views = {
    summaries: new Map(kept.summaries),
    jobByNumber: new Map(kept.jobByNumber),
    readings: new Map(kept.readings),
  }
  putViews(views, batch)

  for (const row of rows) {
    kept.log.push(row)
    const stream = kept.streams.get(row.stream)
    const head = { stream: row.stream, version: row.version, hash: row.hash }
    if (stream) {
      stream.rows.push(row)
      stream.head = head
    } else kept.streams.set(row.stream, { head, rows: [row] })
  }
  for (const [id, text] of answers) kept.answers.set(id, text)
  Object.assign(kept, views)
  return { committed }
}

function putViews(into: Pick<Kept, 'summaries' | 'jobByNumber' | 'readings'>, views: Views) {
  for (const row of views.summaries) {
    const owner = into.jobByNumber.get(row.number)
    if (owner !== undefined && owner !== row.jobId) throw new JobNumberTaken(row.number, row.jobId)
    const before = into.summaries.get(row.jobId)
    if (before) into.jobByNumber.delete((JSON.parse(before) as SummaryRow).number)
    into.summaries.set(row.jobId, plainJson(row))
    into.jobByNumber.set(row.number, row.jobId)
  }
  for (const row of views.readings) into.readings.set(`${row.jobId}\n${row.readingId}`, plainJson(row))
}
