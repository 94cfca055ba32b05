/**
 * Where the log lives: streams of events, the answers given to commands, and two views of both.
 *
 * Promise based, so that a network database can serve it; one `commit` is one transaction, so that none leaks out. What
 * an adapter promises are the rules ES1 to ES15; each passes `tests/contracts/event-store.ts`.
 */
import type { ChainRow } from '../../shared/chain'
import type { Flag, ReadingHow } from '../../shared/job/kinds'
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
  /** Which device's entry it answers, and its place in the device's own count. */
  deviceId?: string
  entryNumber?: number
}

/** A place in a device's own count of its entries. */
export interface CountedEntry {
  entryNumber: number
  answeredAt: Instant
}

/** A job as the board shows it. */
export interface SummaryRow {
  jobId: string
  number: string
  version: number
  /** When the engine left the shop for good, so far; absent while there is something to do on it. */
  finishedAt?: Instant
  /** The summary as JSON text, encoded once for whoever keeps or sends it. */
  json: string
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

/** A PIN that becomes good with what else is committed, or is gone with it; and the seal over all of them then. */
export type PinToWrite = {
  seal: { name: string; value: string }
} & ({ row: { personId: string; pinHash: string; setAt: Instant; mac: string | null } } | { gone: string })

/** A person's open sign-ins end with what else is committed, but for one device's where it is named. */
export interface SignOutToWrite {
  personId: string
  at: Instant
  except?: string
}

export interface Views {
  summaries: SummaryRow[]
  readings: ReadingRow[]
}

export interface Batch extends Views {
  appends: Append[]
  answers: AnswerRow[]
  pin?: PinToWrite
  signOuts?: SignOutToWrite[]
}

export interface StreamHead {
  stream: string
  version: number
  hash: string
}

/**
 * Where each stream that was written to ends now, in the order they were first written to, and the last place of the
 * log that was given; or the streams that had moved.
 */
export type CommitOutcome = { committed: StreamHead[]; lastSeq: number } | { stale: string[] }

/** All given must hold; `from` is inside, `until` outside. */
export interface ReadingQuestion {
  jobId?: string
  wrenchId?: string
  from?: Instant
  until?: Instant
}

/** Finished jobs: by their number, or by when they were finished (`from` is inside, `until` outside). */
export type FinishedQuestion = { number: string } | { from: Instant; until: Instant }

export interface EventStore {
  read(stream: string, afterVersion?: number): Promise<Recorded[]>
  readAll(afterSeq: number, limit: number): Promise<Recorded[]>
  chain(stream: string): Promise<ChainRow[]>
  /** Where a stream ends; nothing for one that was never written. */
  head(stream: string): Promise<StreamHead | undefined>
  /** Every stream and where it should end; a stream whose end is not on record shows version 0. */
  streams(): Promise<StreamHead[]>
  answers(commandIds: string[]): Promise<Map<string, AnswerRow>>
  /** A device's answered entries from that number on, in the order of its count. */
  counted(deviceId: string, from: number): Promise<CountedEntry[]>
  /** What is not finished, and what was finished at that moment or since; by job number. */
  summaries(finishedSince?: Instant): Promise<SummaryRow[]>
  /** By job number. */
  finished(question: FinishedQuestion): Promise<SummaryRow[]>
  /** Every job's number, in their order. */
  numbers(): Promise<string[]>
  /** The job that carries a number. */
  jobOfNumber(number: string): Promise<string | undefined>
  /** In the order they were done. */
  readings(question: ReadingQuestion): Promise<ReadingRow[]>
  commit(batch: Batch): Promise<CommitOutcome>
  /**
   * In parts, so that no more than one of them need be in memory. What the iteration throws leaves all as it was. For a
   * program that has the store to itself: what is read meanwhile is half of the one and half of the other.
   */
  replaceViews(parts: Iterable<Views> | AsyncIterable<Views>): Promise<void>
  close(): Promise<void>
}
