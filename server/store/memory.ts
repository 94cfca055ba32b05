/**
 * The log in memory: for tests and simulations. It keeps text, as a database would, and goes through the
 * same chain, so that nothing passes here and fails on disk.
 */
import { plainJson } from './canonical'
import { BEFORE_THE_FIRST, type SealedRow, seal, textsOf, unsealLog, unsealStream } from './chain'
import { AnsweredTwice, JobNumberTaken, StoreClosed } from './errors'
import type { AnswerRow, Batch, EventStore, ReadingRow, StreamHead, SummaryRow, Views } from './port'

interface MemoryLog {
  log: SealedRow[]
  streams: Map<string, { head: StreamHead; rows: SealedRow[] }>
  answers: Map<string, string>
  summaries: Map<string, string>
  jobByNumber: Map<string, string>
  readings: Map<string, string>
  pins: Map<string, string>
}

export function memoryEventStore(): EventStore {
  const state: MemoryLog = {
    log: [],
    streams: new Map(),
    answers: new Map(),
    summaries: new Map(),
    jobByNumber: new Map(),
    readings: new Map(),
    pins: new Map(),
  }
  let closed = false
  const whileOpen = async <T>(work: () => T | Promise<T>): Promise<T> => {
    if (closed) throw new StoreClosed()
    return work()
  }

  const summaryRows = (which: (row: SummaryRow) => boolean): SummaryRow[] =>
    [...state.summaries.values()]
      .map((text) => JSON.parse(text) as SummaryRow)
      .filter(which)
      .sort((a, b) => (a.number < b.number ? -1 : 1))

  return {
    read: (stream, afterVersion = 0) =>
      whileOpen(() => {
        const { rows = [], head } = state.streams.get(stream) ?? {}
        return unsealStream(stream, afterVersion, rows.slice(Math.max(afterVersion - 1, 0)), head)
      }),
    chain: (stream) =>
      whileOpen(() => {
        const { rows = [], head } = state.streams.get(stream) ?? {}
        return textsOf(stream, rows, head)
      }),
    readAll: (afterSeq, limit) =>
      whileOpen(() => {
        const page = state.log.slice(afterSeq, afterSeq + limit)
        const previousHash = (row: SealedRow) =>
          state.streams.get(row.stream)?.rows[row.version - 2]?.hash ?? null
        return unsealLog(
          afterSeq,
          page.map((row) => ({ ...row, previousHash: previousHash(row) })),
        )
      }),
    head: (stream) =>
      whileOpen(() => {
        const head = state.streams.get(stream)?.head
        return head && { ...head }
      }),
    streams: () => whileOpen(() => [...state.streams.values()].map(({ head }) => ({ ...head }))),
    answers: (commandIds) =>
      whileOpen(() => {
        const answers = new Map<string, AnswerRow>()
        for (const id of commandIds) {
          const text = state.answers.get(id)
          if (text !== undefined) answers.set(id, JSON.parse(text))
        }
        return answers
      }),
    counted: (deviceId, from) =>
      whileOpen(() =>
        [...state.answers.values()]
          .map((text) => JSON.parse(text) as AnswerRow)
          .flatMap(({ deviceId: of, entryNumber, answeredAt }) =>
            of === deviceId && entryNumber !== undefined && entryNumber >= from
              ? [{ entryNumber, answeredAt }]
              : [],
          )
          .sort((a, b) => a.entryNumber - b.entryNumber),
      ),
    summaries: (finishedSince = Number.NEGATIVE_INFINITY) =>
      whileOpen(() =>
        summaryRows(({ finishedAt }) => finishedAt === undefined || finishedAt >= finishedSince),
      ),
    finished: (question) =>
      whileOpen(() =>
        summaryRows(
          ({ number, finishedAt }) =>
            finishedAt !== undefined &&
            ('number' in question
              ? number === question.number
              : finishedAt >= question.from && finishedAt < question.until),
        ),
      ),
    numbers: () => whileOpen(() => [...state.jobByNumber.keys()].sort()),
    jobOfNumber: (number) => whileOpen(() => state.jobByNumber.get(number)),
    readings: ({ jobId, wrenchId, from = Number.NEGATIVE_INFINITY, until = Number.POSITIVE_INFINITY }) =>
      whileOpen(() =>
        [...state.readings.values()]
          .map((text) => JSON.parse(text) as ReadingRow)
          .filter(
            (r) =>
              (jobId === undefined || r.jobId === jobId) &&
              (wrenchId === undefined || r.wrenchId === wrenchId),
          )
          .filter((r) => r.doneAt >= from && r.doneAt < until)
          .sort((a, b) => a.doneAt - b.doneAt || (a.readingId < b.readingId ? -1 : 1)),
      ),
    commit: (batch) => whileOpen(() => commit(state, batch)),
    replaceViews: (parts) =>
      whileOpen(async () => {
        const next = { summaries: new Map(), jobByNumber: new Map(), readings: new Map() }
        for await (const views of parts) putViews(next, views)
        Object.assign(state, next)
      }),
    close: async () => {
      closed = true
    },
  }
}

/** Prepares everything that may throw, then puts it in place: all or nothing. */
function commit(state: MemoryLog, batch: Batch) {
  const heads = new Map<string, StreamHead>()
  const headOf = (stream: string) =>
    heads.get(stream) ?? state.streams.get(stream)?.head ?? { stream, version: 0, hash: BEFORE_THE_FIRST }
  const rows: SealedRow[] = []
  const stale = new Set<string>()
  for (const append of batch.appends) {
    if (stale.has(append.stream)) continue
    if (headOf(append.stream).version !== append.expectedVersion) {
      stale.add(append.stream)
      continue
    }
    const sealed = seal(append, headOf(append.stream), state.log.length + rows.length)
    if (sealed.rows.length > 0) heads.set(append.stream, sealed.head)
    rows.push(...sealed.rows)
  }
  if (stale.size > 0) return { stale: [...stale] }

  const answers = new Map<string, string>()
  for (const answer of batch.answers) {
    if (state.answers.has(answer.commandId) || answers.has(answer.commandId)) {
      throw new AnsweredTwice(answer.commandId)
    }
    answers.set(answer.commandId, plainJson(answer))
  }
  const views = {
    summaries: new Map(state.summaries),
    jobByNumber: new Map(state.jobByNumber),
    readings: new Map(state.readings),
  }
  putViews(views, batch)

  for (const row of rows) {
    state.log.push(row)
    const stream = state.streams.get(row.stream)
    const head = { stream: row.stream, version: row.version, hash: row.hash }
    if (stream) {
      stream.rows.push(row)
      stream.head = head
    } else state.streams.set(row.stream, { head, rows: [row] })
  }
  for (const [id, text] of answers) state.answers.set(id, text)
  Object.assign(state, views)
  if (batch.pin && 'gone' in batch.pin) state.pins.delete(batch.pin.gone)
  else if (batch.pin) state.pins.set(batch.pin.row.personId, plainJson(batch.pin))
  return { committed: [...heads.values()], lastSeq: state.log.length }
}

function putViews(into: Pick<MemoryLog, 'summaries' | 'jobByNumber' | 'readings'>, views: Views) {
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
