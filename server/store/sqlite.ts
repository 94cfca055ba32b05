/**
 * The log in one SQLite file. Promise based outside, synchronous inside: a commit is one transaction that
 * holds the write lock from its first look at a version to its last row, so nothing comes between.
 *
 * The shop's one box runs on this. Its hot path is `commit`: many commands, one flush to the disk.
 */
import { plainJson } from './canonical'
import { BEFORE_THE_FIRST, type SealedRow, seal, textsOf, unsealLog, unsealStream } from './chain'
import { AnsweredTwice, ChainBroken, JobNumberTaken, RowDamaged, StoreClosed } from './errors'
import { closeDatabase, type ShopDatabase } from './open'
import type {
  AnswerRow,
  Batch,
  CommitOutcome,
  EventStore,
  ReadingRow,
  StreamHead,
  SummaryRow,
  Views,
} from './port'
import { prepareStatements, readingsWhere, streamsWithoutEnd } from './statements'
import type { reading, summary as summaryTable } from './tables'

type Statements = ReturnType<typeof prepareStatements>

/** Closing the store closes the database. */
export function sqliteEventStore(database: ShopDatabase): EventStore {
  const client = database.$client
  const statements = prepareStatements(database)
  const commitAtOnce = client.transaction((batch: Batch) => commit(statements, batch))
  // One snapshot for rows and heads: another program may be writing meanwhile.
  const atOneMoment = client.transaction((work: () => unknown) => work())
  let replacing: Promise<void> | undefined
  const whileOpen = async <T>(work: () => T | Promise<T>): Promise<T> => {
    if (!client.open) throw new StoreClosed()
    return work()
  }

  /** A transaction of its own over many turns of the event loop: whoever writes meanwhile waits for its end. */
  async function replaceViews(parts: Iterable<Views> | AsyncIterable<Views>) {
    client.exec('begin immediate')
    try {
      statements.dropSummaries.run()
      statements.dropReadings.run()
      for await (const views of parts) putViews(statements, views)
      client.exec('commit')
    } catch (error) {
      client.exec('rollback')
      throw error
    }
  }

  const rowsFrom = (stream: string, from: number) =>
    atOneMoment(() => [statements.streamRows.all({ stream, from }), statements.head.get({ stream })]) as [
      SealedRow[],
      StreamHead | undefined,
    ]

  return {
    read: (stream, afterVersion = 0) =>
      whileOpen(() => {
        const from = afterVersion > 0 ? afterVersion : Number.MIN_SAFE_INTEGER
        return unsealStream(stream, afterVersion, ...rowsFrom(stream, from))
      }),
    chain: (stream) => whileOpen(() => textsOf(stream, ...rowsFrom(stream, Number.MIN_SAFE_INTEGER))),
    readAll: (afterSeq, limit) =>
      whileOpen(() => unsealLog(afterSeq, statements.logRows.all({ from: afterSeq + 1, limit }))),
    streams: () => whileOpen(() => atOneMoment(() => allHeads(database, statements)) as StreamHead[]),
    answers: (commandIds) =>
      whileOpen(() => {
        const answers = new Map<string, AnswerRow>()
        // One look at the file's lock for all of them.
        atOneMoment(() => {
          for (const commandId of commandIds) {
            const row = statements.answer.get({ commandId })
            if (row) answers.set(commandId, { ...row, answer: readJson(row.answer, 'answer', commandId) })
          }
        })
        return answers
      }),
    counted: (deviceId, from) => whileOpen(() => statements.counted.all({ deviceId, from })),
    head: (stream) => whileOpen(() => statements.head.get({ stream })),
    summaries: (since = Number.MIN_SAFE_INTEGER) =>
      whileOpen(() => statements.summaries.all({ since }).map(fromSummaryRow)),
    finished: (question) =>
      whileOpen(() =>
        ('number' in question ? statements.byNumber.all(question) : statements.finishedIn.all(question))
          .map(fromSummaryRow)
          .filter(({ finishedAt }) => finishedAt !== undefined),
      ),
    numbers: () => whileOpen(() => statements.numbers.all().map(({ number }) => number)),
    jobOfNumber: (number) => whileOpen(() => statements.byNumber.get({ number })?.jobId),
    readings: (question) => whileOpen(() => readingsWhere(database, question).map(fromRow)),
    async commit(batch) {
      while (replacing) await replacing
      return whileOpen(() => commitAtOnce.immediate(batch))
    },
    async replaceViews(parts) {
      while (replacing) await replacing
      const work = whileOpen(() => replaceViews(parts))
      replacing = work
        .catch(() => {})
        .finally(() => {
          replacing = undefined
        })
      return work
    },
    close: async () => closeDatabase(database),
  }
}

/** Runs inside the write transaction; whatever it throws rolls back. */
function commit(statements: Statements, batch: Batch): CommitOutcome {
  const heads = new Map<string, StreamHead>()
  const changedStreams = new Set<string>()
  const stale = new Set<string>()
  const rows: SealedRow[] = []
  let lastSeq = batch.appends.length > 0 ? (statements.lastSeq.get({})?.seq ?? 0) : 0
  for (const append of batch.appends) {
    const { stream } = append
    if (stale.has(stream)) continue
    const head = heads.get(stream) ??
      statements.head.get({ stream }) ?? { stream, version: 0, hash: BEFORE_THE_FIRST }
    if (head.version !== append.expectedVersion) {
      stale.add(stream)
      continue
    }
    const sealed = seal(append, head, lastSeq)
    heads.set(stream, sealed.head)
    if (sealed.rows.length > 0) changedStreams.add(stream)
    lastSeq += sealed.rows.length
    rows.push(...sealed.rows)
  }
  if (stale.size > 0) return { stale: [...stale] }
  for (const row of rows) addEvent(statements, row)
  const committed = [...heads.values()].filter(({ stream }) => changedStreams.has(stream))
  for (const head of committed) statements.putHead.run(head)
  for (const answer of batch.answers) putAnswer(statements, answer)
  if (batch.pin) {
    if ('gone' in batch.pin) statements.dropCredential.run({ personId: batch.pin.gone })
    else statements.putCredential.run(batch.pin.row)
    statements.putState.run(batch.pin.seal)
  }
  for (const { personId, at, except = '' } of batch.signOuts ?? [])
    statements.signOut.run({ personId, at, except })
  putViews(statements, batch)
  return { committed, lastSeq }
}

function addEvent(statements: Statements, row: SealedRow) {
  try {
    statements.addEvent.run(row)
  } catch (error) {
    // The head said this place is free: the head, or the row in its place, is not what was written.
    const isTaken = String(codeOf(error)).startsWith('SQLITE_CONSTRAINT')
    throw isTaken ? new ChainBroken(row.stream, row.version, 'another entry is in this place already') : error
  }
}

function putAnswer(statements: Statements, answer: AnswerRow) {
  const { deviceId = null, entryNumber = null } = answer
  const row = { ...answer, answer: plainJson(answer.answer), deviceId, entryNumber }
  try {
    statements.addAnswer.run(row)
  } catch (error) {
    throw codeOf(error) === 'SQLITE_CONSTRAINT_PRIMARYKEY' ? new AnsweredTwice(answer.commandId) : error
  }
}

function putViews(statements: Statements, views: Views) {
  for (const summary of views.summaries) {
    try {
      statements.putSummary.run({ ...summary, finishedAt: summary.finishedAt ?? null })
    } catch (error) {
      throw codeOf(error) === 'SQLITE_CONSTRAINT_UNIQUE'
        ? new JobNumberTaken(summary.number, summary.jobId)
        : error
    }
  }
  for (const row of views.readings) statements.putReading.run(toRow(row))
}

/** Also streams whose end is not on record: `read` says what is wrong with them. */
function allHeads(database: ShopDatabase, statements: Statements): StreamHead[] {
  const lost = streamsWithoutEnd(database).map((stream) => ({ stream, version: 0, hash: BEFORE_THE_FIRST }))
  return [...statements.heads.all(), ...lost]
}

/** Named one by one: spreading the rest of a row costs more than writing it. */
const toRow = (row: ReadingRow) => ({
  jobId: row.jobId,
  readingId: row.readingId,
  jointId: row.jointId,
  position: row.position,
  pass: row.pass,
  how: row.how,
  wrenchId: row.wrenchId ?? null,
  torqueNm: row.torqueNm ?? null,
  angleDeg: row.angleDeg ?? null,
  flags: row.flags.length === 0 ? '[]' : plainJson(row.flags),
  byPerson: row.by,
  doneAt: row.doneAt,
  standing: row.standing ? (1 as const) : (0 as const),
})

function fromSummaryRow({ finishedAt, ...row }: typeof summaryTable.$inferSelect): SummaryRow {
  return finishedAt === null ? row : { ...row, finishedAt }
}

function fromRow({
  byPerson,
  flags,
  how,
  wrenchId,
  torqueNm,
  angleDeg,
  ...rest
}: typeof reading.$inferSelect) {
  const row: ReadingRow = {
    ...rest,
    how: how as ReadingRow['how'],
    by: byPerson,
    flags: readJson(flags, 'reading', rest.readingId) as ReadingRow['flags'],
  }
  if (wrenchId !== null) row.wrenchId = wrenchId
  if (torqueNm !== null) row.torqueNm = torqueNm
  if (angleDeg !== null) row.angleDeg = angleDeg
  return row
}

function readJson(text: string, table: 'answer' | 'reading', key: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    throw new RowDamaged(table, key)
  }
}

function codeOf(error: unknown): unknown {
  return (error as { code?: unknown }).code
}
