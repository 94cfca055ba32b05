/** Batches for store tests: everything defaulted, a test states only what matters. */
import { expect } from 'vitest'
import type {
  AnswerRow,
  Append,
  Batch,
  EventStore,
  ReadingRow,
  Recorded,
  StoredEvent,
  SummaryRow,
} from '../../server/store'

type LooseEvent = StoredEvent & Record<string, unknown>

/** `events` as a number: so many plain ones. */
export function append(
  stream: string,
  expectedVersion: number,
  events: number | LooseEvent[],
  rest: Partial<Append> = {},
): Append {
  const list: LooseEvent[] =
    typeof events === 'number' ? Array.from({ length: events }, (_, n) => ({ type: 'Noted', n })) : events
  return {
    stream,
    expectedVersion,
    commandId: 'command',
    recordedAt: 1_760_000_000_000,
    events: list.map((event, i) => ({ id: `${stream}-${expectedVersion + i + 1}`, event })),
    ...rest,
  }
}

export function batch(parts: Partial<Batch>): Batch {
  return { appends: [], answers: [], summaries: [], readings: [], ...parts }
}

export function answer(commandId: string, stored: unknown = { version: 1, events: [] }): AnswerRow {
  return {
    commandId,
    personId: 'ana',
    bodyHash: 'ab'.repeat(32),
    answeredAt: 1_760_000_000_001,
    answer: stored,
  }
}

export function summary(jobId: string, number: string, what: unknown = { open: 1 }, version = 1): SummaryRow {
  return { jobId, number, version, json: JSON.stringify(what) }
}

export function reading(jobId: string, readingId: string, rest: Partial<ReadingRow> = {}): ReadingRow {
  const row: ReadingRow = {
    jobId,
    readingId,
    jointId: 'head-bolts',
    position: 3,
    pass: 1,
    how: 'clicked',
    wrenchId: 'w1',
    torqueNm: 65.3,
    flags: [],
    by: 'ana',
    doneAt: 1_760_000_000_000,
    standing: true,
    ...rest,
  }
  for (const key of ['wrenchId', 'torqueNm', 'angleDeg'] as const) if (row[key] === undefined) delete row[key]
  return row
}

/** Commits, expects it to hold and to name where its streams end, and gives what was written, in its order. */
export async function opened(store: EventStore, appends: Append[]): Promise<Recorded[]> {
  const outcome = await store.commit(batch({ appends }))
  if (!('committed' in outcome)) throw new Error(`stale: ${outcome.stale.join(', ')}`)
  const written: Recorded[] = []
  for (const { stream, expectedVersion, events } of appends)
    written.push(...(await store.read(stream, expectedVersion)).slice(0, events.length))
  expect(written).toHaveLength(appends.reduce((n, { events }) => n + events.length, 0))
  const ends = new Map(written.map(({ stream, version, hash }) => [stream, { stream, version, hash }]))
  expect(outcome.committed).toEqual([...ends.values()])
  return written
}
