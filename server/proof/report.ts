/** What a check of a data folder or a backup comes to. */
import type { Instant } from '../../shared/log'

/**
 * - `torn`, `cut`, `missing`: the log is not all there.
 * - `page`, `chain`, `altered`: it is not what was written.
 * - `view`, `answer`, `photo`, `pin`: what lies beside it is not what belongs to it.
 * - `marks`: the marks themselves. `backup`: a backup is not what it says of itself. `empty`: no log at all.
 */
export type FaultKind =
  | 'torn'
  | 'cut'
  | 'missing'
  | 'page'
  | 'chain'
  | 'altered'
  | 'view'
  | 'answer'
  | 'photo'
  | 'pin'
  | 'marks'
  | 'backup'
  | 'empty'

export interface Fault {
  kind: FaultKind
  /** What is so, which one, what to do. */
  sentence: string
  /** The job it is about, where it is about one. */
  jobId?: string
  number?: string
}

export interface Report {
  /** Whose chains hold. */
  streams: { stream: string; events: number }[]
  events: number
  faults: Fault[]
  /** What is no fault, and worth knowing. */
  notes: string[]
  releases: { stream: string; number: string; version: number; head: string }[]
  /** The newest mark that was found true. */
  marked?: { at: Instant; entries: number; key: string }
}

/** What to do where the log is not all there, or is not what was written. */
export const RESTORE = 'Keep a copy of the data folder, then restore the last good backup.'
