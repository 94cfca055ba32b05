/**
 * Every statement the SQLite store runs, prepared once: building one anew for each event costs more than
 * running it.
 */
import {
  and,
  asc,
  eq,
  gte,
  is,
  isNull,
  lt,
  max,
  ne,
  or,
  Param,
  type Placeholder,
  type SQL,
  sql,
} from 'drizzle-orm'
import { alias } from 'drizzle-orm/sqlite-core'
import type { ShopDatabase } from './open'
import { answer, credential, event, reading, signIn, state, streamHead, summary } from './tables'

/** A placeholder for each column, under the column's name. */
function placeholders<Name extends string>(...names: Name[]): Record<Name, Placeholder> {
  const row = {} as Record<Name, Placeholder>
  for (const name of names) row[name] = sql.placeholder(name)
  return row
}

/**
 * What a commit runs for every row or command goes to the driver directly: the statement is Drizzle's, only its
 * per-call mapping of parameters is left out. A row found comes as SQLite names its columns: nothing is converted.
 */
function direct<Row extends object, Found = never>(
  db: ShopDatabase,
  prepared: { getQuery(): { sql: string; params: unknown[] } },
): { run(row: Row): void; get(row: Row): Found | undefined } {
  const { sql: text, params } = prepared.getQuery()
  const names = params.map((param) => (is(param, Param) ? param.value : param) as Placeholder)
  const statement = db.$client.prepare(text)
  const valuesOf = (row: Row) => names.map(({ name }) => row[name as keyof Row])
  return {
    run: (row) => statement.run(valuesOf(row)),
    get: (row) => statement.get(valuesOf(row)) as Found | undefined,
  }
}

const before = alias(event, 'before')

/** The bytes as they lie on disk: read as text, a broken byte could pass for another one. */
const storedColumns = {
  seq: event.seq,
  stream: event.stream,
  version: event.version,
  body: sql<Uint8Array>`cast(${event.body} as blob)`,
  hash: event.hash,
}

export function prepareStatements(db: ShopDatabase) {
  const newSummary: Record<string, SQL> = {
    number: sql`excluded.number`,
    version: sql`excluded.version`,
    json: sql`excluded.summary`,
    finishedAt: sql`excluded.finished_at`,
  }
  return {
    streamRows: db
      .select(storedColumns)
      .from(event)
      .where(and(eq(event.stream, sql.placeholder('stream')), gte(event.version, sql.placeholder('from'))))
      .orderBy(asc(event.version))
      .prepare(),
    logRows: db
      .select({ ...storedColumns, previousHash: before.hash })
      .from(event)
      .leftJoin(before, and(eq(before.stream, event.stream), eq(before.version, sql`${event.version} - 1`)))
      .where(gte(event.seq, sql.placeholder('from')))
      .orderBy(asc(event.seq))
      .limit(sql.placeholder('limit'))
      .prepare(),
    head: direct<{ stream: string }, typeof streamHead.$inferSelect>(
      db,
      db
        .select()
        .from(streamHead)
        .where(eq(streamHead.stream, sql.placeholder('stream')))
        .prepare(),
    ),
    heads: db.select().from(streamHead).orderBy(asc(streamHead.stream)).prepare(),
    lastSeq: direct<object, { seq: number | null }>(
      db,
      db
        .select({ seq: max(event.seq).as('seq') })
        .from(event)
        .prepare(),
    ),
    addEvent: direct<typeof event.$inferInsert>(
      db,
      db
        .insert(event)
        .values(placeholders('seq', 'stream', 'version', 'body', 'hash'))
        .prepare(),
    ),
    putHead: direct<typeof streamHead.$inferInsert>(
      db,
      db
        .insert(streamHead)
        .values(placeholders('stream', 'version', 'hash'))
        .onConflictDoUpdate({
          target: streamHead.stream,
          set: { version: sql`excluded.version`, hash: sql`excluded.hash` },
        })
        .prepare(),
    ),
    answer: direct<{ commandId: string }, Omit<typeof answer.$inferSelect, 'deviceId' | 'entryNumber'>>(
      db,
      db
        .select({
          commandId: sql<string>`${answer.commandId}`.as('commandId'),
          personId: sql<string>`${answer.personId}`.as('personId'),
          bodyHash: sql<string>`${answer.bodyHash}`.as('bodyHash'),
          answeredAt: sql<number>`${answer.answeredAt}`.as('answeredAt'),
          answer: answer.answer,
        })
        .from(answer)
        .where(eq(answer.commandId, sql.placeholder('commandId')))
        .prepare(),
    ),
    addAnswer: direct<typeof answer.$inferInsert>(
      db,
      db
        .insert(answer)
        .values(
          placeholders(
            'commandId',
            'personId',
            'bodyHash',
            'answeredAt',
            'answer',
            'deviceId',
            'entryNumber',
          ),
        )
        .prepare(),
    ),
    counted: db
      .select({ entryNumber: sql<number>`${answer.entryNumber}`, answeredAt: answer.answeredAt })
      .from(answer)
      .where(
        and(
          eq(answer.deviceId, sql.placeholder('deviceId')),
          gte(answer.entryNumber, sql.placeholder('from')),
        ),
      )
      .orderBy(asc(answer.entryNumber))
      .prepare(),
    summaries: db
      .select()
      .from(summary)
      .where(or(isNull(summary.finishedAt), gte(summary.finishedAt, sql.placeholder('since'))))
      .orderBy(asc(summary.number))
      .prepare(),
    finishedIn: db
      .select()
      .from(summary)
      .where(
        and(
          gte(summary.finishedAt, sql.placeholder('from')),
          lt(summary.finishedAt, sql.placeholder('until')),
        ),
      )
      .orderBy(asc(summary.number))
      .prepare(),
    // From the index alone: the summaries themselves are not read.
    numbers: db.select({ number: summary.number }).from(summary).orderBy(asc(summary.number)).prepare(),
    byNumber: db
      .select()
      .from(summary)
      .where(eq(summary.number, sql.placeholder('number')))
      .prepare(),
    putSummary: direct<typeof summary.$inferInsert>(
      db,
      db
        .insert(summary)
        .values(placeholders('jobId', 'number', 'version', 'json', 'finishedAt'))
        .onConflictDoUpdate({ target: summary.jobId, set: newSummary })
        .prepare(),
    ),
    putReading: direct<Omit<typeof reading.$inferInsert, 'standing'> & { standing: 0 | 1 }>(
      db,
      db
        .insert(reading)
        .values(placeholders(...READING_COLUMNS))
        .onConflictDoUpdate({
          target: [reading.jobId, reading.readingId],
          set: Object.fromEntries(
            READING_COLUMNS.map((name) => [name, sql.raw(`excluded.${reading[name].name}`)]),
          ),
        })
        .prepare(),
    ),
    putState: direct<typeof state.$inferInsert>(
      db,
      db
        .insert(state)
        .values(placeholders('name', 'value'))
        .onConflictDoUpdate({ target: state.name, set: { value: sql`excluded.value` } })
        .prepare(),
    ),
    putCredential: direct<typeof credential.$inferInsert>(
      db,
      db
        .insert(credential)
        .values(placeholders('personId', 'pinHash', 'setAt', 'mac'))
        .onConflictDoUpdate({
          target: credential.personId,
          set: { pinHash: sql`excluded.pin_hash`, setAt: sql`excluded.set_at`, mac: sql`excluded.mac` },
        })
        .prepare(),
    ),
    dropCredential: direct<{ personId: string }>(
      db,
      db
        .delete(credential)
        .where(eq(credential.personId, sql.placeholder('personId')))
        .prepare(),
    ),
    signOut: direct<{ personId: string; at: number; except: string }>(
      db,
      db
        .update(signIn)
        .set({ closedAt: sql`${sql.placeholder('at')}` })
        .where(
          and(
            eq(signIn.personId, sql.placeholder('personId')),
            isNull(signIn.closedAt),
            ne(signIn.deviceId, sql.placeholder('except')),
          ),
        )
        .prepare(),
    ),
    dropSummaries: db.delete(summary).prepare(),
    dropReadings: db.delete(reading).prepare(),
  }
}

const READING_COLUMNS = [
  'jobId',
  'readingId',
  'jointId',
  'position',
  'pass',
  'how',
  'wrenchId',
  'torqueNm',
  'angleDeg',
  'flags',
  'byPerson',
  'doneAt',
  'standing',
] as const

/**
 * Streams that have entries but no record of their end. Hops from name to name over the index, so that it
 * costs a look per stream and not per event; all in SQL, where a name is compared by its bytes.
 */
export function streamsWithoutEnd(db: ShopDatabase): string[] {
  const streams = db.all<{ stream: string }>(sql`
    with recursive name(stream) as (
      select min(${event.stream}) from ${event}
      union -- not all: a damaged index may lead in a circle
      select (select min(stream) from ${event} where stream > name.stream) from name where stream is not null
    )
    select stream from name
    where stream is not null and stream not in (select ${streamHead.stream} from ${streamHead})`)
  return streams.map(({ stream }) => stream)
}

/** Asked seldom and in many shapes, so not prepared. */
export function readingsWhere(
  db: ShopDatabase,
  question: { jobId?: string; wrenchId?: string; from?: number; until?: number },
) {
  const { jobId, wrenchId, from, until } = question
  return db
    .select()
    .from(reading)
    .where(
      and(
        jobId === undefined ? undefined : eq(reading.jobId, jobId),
        wrenchId === undefined ? undefined : eq(reading.wrenchId, wrenchId),
        from === undefined ? undefined : gte(reading.doneAt, from),
        until === undefined ? undefined : lt(reading.doneAt, until),
      ),
    )
    .orderBy(asc(reading.doneAt), asc(reading.readingId))
    .all()
}
