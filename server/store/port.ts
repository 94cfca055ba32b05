/**
 * Where the log lives: streams of events, the answers given to commands, and two views of both.
 *
 * Promise based, so that a network database can serve it; one `commit` is one transaction, so that none
 * leaks out. Every adapter passes `tests/contracts/event-store.ts`. It promises:
 *
 * - ES1  What is committed is read back as it was given (equal as JSON), in order: versions count 1, 2,
 *        3… within a stream, `seq` counts 1, 2, 3… over the whole log, without gaps.
 * - ES2  An append that expects another version than its stream has makes the whole batch stale: nothing
 *        is written, and each such stream is named.
 * - ES3  Events, answers, summaries and readings of a batch are written together or not at all. A commit
 *        that rejects leaves nothing behind, and the store goes on.
 * - ES4  Appends to one stream in one batch follow each other, each expecting the version the one before
 *        left. An append without events only guards the version. A batch may hold answers alone.
 * - ES5  A command id is answered once. The answer comes back as first given; another one under the same
 *        id rejects the whole commit with `AnsweredTwice`, also within one batch.
 * - ES6  `read(stream, v)` gives what came after version v, `readAll(s, n)` the next n after seq s; what
 *        does not exist reads as empty.
 * - ES7  Every read checks the hash chain of what it gives. Changed, moved or missing rows, the last ones
 *        too, throw `ChainBroken` with the stream and the version. Nothing is repaired or left out.
 * - ES8  A later summary replaces the one of its job, a later reading the one of its job and id. A job
 *        number belongs to one job: a second one rejects the commit. `replaceViews` puts new views in
 *        place of all old ones, at once or not at all, and touches no event and no answer.
 * - ES9  Nothing is shared: changing what was handed in or out later changes nothing in the store.
 * - ES10 What JSON cannot hold (NaN, a function, half a surrogate pair…) rejects the commit with
 *        `NotCanonical` before anything is written.
 * - ES11 What a resolved commit wrote is there after closing and opening again (stores on disk).
 * - ES12 A closed store rejects every call.
 * - ES13 `chain(stream)` gives the stored texts themselves with their hashes, from the first, checked as a read is;
 *        whoever hashes them anew by `shared/chain.ts` comes to the same head.
 * - ES14 A release names the hash of the entry before it. Every read checks that it still is: entries written anew
 *        before a release that was kept throw `ChainBroken` at the release.
 */
import type { ChainRow } from '../../shared/chain'
import type { Flag } from '../../shared/job/kinds'
import type { ReadingHow } from '../../shared/job/types'
import type { Instant } from '../../shared/log'

/** As stored: older shapes are upcast (`upcast.ts`) after reading, so only the type's name is certain. */
export interface StoredEvent {
  type: string
}

/** What the hash covers, beside the event before it. */
export interface Envelope {
  stream: string
  version: number
  seq: number
  /** UUIDv7. */
  id: string
  commandId: string
  /** Shared by the events of several jobs that one decision touched. */
  causeId?: string
  recordedAt: Instant
  event: StoredEvent
}

export interface Recorded extends Envelope {
  /** SHA-256 in hex over the hash before it and this envelope; see `chain.ts`. */
  hash: string
}

export interface Append {
  stream: string
  expectedVersion: number
  commandId: string
  causeId?: string
  recordedAt: Instant
  events: { id: string; event: StoredEvent }[]
}

/** What a command was answered, refusals too: a resend gets this again. */
export interface AnswerRow {
  commandId: string
  personId: string
  bodyHash: string
  answeredAt: Instant
  /** JSON: version and events, or a refusal. */
  answer: unknown
}

/** A job as the board shows it. */
export interface SummaryRow {
  jobId: string
  number: string
  version: number
  summary: unknown
}

/** One reading, for questions across jobs: which bolts did this wrench touch between two days? */
export interface ReadingRow {
  jobId: string
  readingId: string
  jointId: string
  position: number
  pass: number
  how: ReadingHow
  wrenchId?: string
  torqueNm?: number
  angleDeg?: number
  flags: Flag[]
  by: string
  doneAt: Instant
  /** Neither struck nor superseded. */
  standing: boolean
}

export interface Views {
  summaries: SummaryRow[]
  readings: ReadingRow[]
}

export interface Batch extends Views {
  appends: Append[]
  answers: AnswerRow[]
}

export interface StreamHead {
  stream: string
  version: number
  hash: string
}

export type CommitOutcome = { committed: Recorded[] } | { stale: string[] }

/** All given must hold; `from` is inside, `until` outside. */
export interface ReadingQuestion {
  jobId?: string
  wrenchId?: string
  from?: Instant
  until?: Instant
}

export interface EventStore {
  read(stream: string, afterVersion?: number): Promise<Recorded[]>
  readAll(afterSeq: number, limit: number): Promise<Recorded[]>
  chain(stream: string): Promise<ChainRow[]>
  /** Every stream and where it should end; a stream whose end is not on record shows version 0. */
  streams(): Promise<StreamHead[]>
  answers(commandIds: string[]): Promise<Map<string, AnswerRow>>
  summaries(): Promise<SummaryRow[]>
  /** In the order they were done. */
  readings(question: ReadingQuestion): Promise<ReadingRow[]>
  commit(batch: Batch): Promise<CommitOutcome>
  replaceViews(views: Views): Promise<void>
  close(): Promise<void>
}
