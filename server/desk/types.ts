/** What goes into the desk, what comes out, and whom it tells. */
import type { ChainRow } from '../../shared/chain'
import type { JobSummary } from '../../shared/job/summary'
import type { Job } from '../../shared/job/types'
import type { Instant, Refusal, StreamEvent } from '../../shared/log'
import type {
  Answer,
  CommandHead,
  EntriesCounted,
  EntriesMissing,
  Fault,
  FinishedJob,
  Room,
  SentJobCommand,
  SentShopCommand,
} from '../../shared/protocol'
import type { PinCommand, Shop } from '../../shared/shop/types'
import type { Words } from '../../shared/words'
import type { FinishedQuestion, PinToWrite, SignOutToWrite, StreamHead } from '../store'
import type { AnyEvent, Fold, StreamName } from './streams'

/** Who asks, as far as the server knows it from a sign-in or a grant. */
export interface Asker {
  person: string
  through: 'sign_in' | 'grant' | 'sealed'
  /** What a grant was given for. */
  sawDigest?: string
  sawVersion?: number
  /** What became of the PIN that came sealed; `person` is the one it is of where it was right. */
  pin?: 'right' | 'wrong' | 'unreadable'
}

export interface Submission {
  stream: StreamName
  /** Checked against its schema already. */
  command: SentJobCommand | SentShopCommand | (CommandHead & PinCommand)
  /** Over the command as it was received; see `bodyHash`. */
  bodyHash: string
  /** A refusal where the grant does not hold; a resend still gets its first answer. */
  asker: Asker | Refusal
  receivedAt: Instant
  /** Whose count of entries its number belongs to. */
  deviceId?: string
  /** Who is told by the answer and need not be told again: a socket's id. */
  sender?: string
  /** A PIN that becomes good with what this command writes, in the same commit. */
  pin?: PinToWrite
  /** Whose sign-ins end with what this command writes, in the same commit. */
  signOut?: SignOutToWrite
  /** Called with the answer before anything of it is published. */
  reply?: (answer: Reply) => void
}

export type Reply = Answer | Fault

/** Everybody who watches. Must not throw. */
export interface Publish {
  /** `from` is the version before the first of `events`. */
  events(room: Room, from: number, events: StreamEvent<AnyEvent>[], sender?: string): void
  summary(summary: JobSummary): void
}

export interface Desk {
  submit(submission: Submission): Promise<Reply>
  shop(): Promise<Shop>
  /** `undefined` when no such job was opened. */
  job(jobId: string): Promise<Job | undefined>
  /** What a stream amounts to as committed now, if it is in memory: to see whether something came between. */
  peek(stream: StreamName): Fold | undefined
  /** Where a stream ends on disk; nothing for one that was never written. */
  head(stream: StreamName): Promise<StreamHead | undefined>
  /** Whether a command of this id has its answer: a resend of it is asked nothing anew. */
  isAnswered(commandId: string): Promise<boolean>
  eventsAfter(stream: StreamName, version: number): Promise<StreamEvent<AnyEvent>[]>
  /** A stream's entries as they are stored, so that somebody else can hash them anew. */
  chain(stream: StreamName): Promise<ChainRow[]>
  /** The board: what is in the shop, and what left it in the last weeks; by job number. */
  summaries(): JobSummary[]
  /** What left the shop, however long ago; by job number, which may be typed as `numbersMeant` reads it. */
  finished(question: FinishedQuestion): Promise<FinishedJob[]>
  /** The jobs somebody means by a number, in the shop or not. */
  jobsOfNumber(number: string): Promise<string[]>
  /** The number to offer a new job. */
  nextNumber(): Promise<string>
  /** What a device counted as entered, and the shop never got. */
  missingEntries(deviceId: string, counted: EntriesCounted): Promise<EntriesMissing[]>
  words(): Promise<Words>
  /** When everything that waits is answered; takes nothing more afterwards. */
  close(): Promise<void>
}

/** The part of a logger the rooms use. */
export interface Log {
  info(data: object, sentence: string): void
  warn(data: object, sentence: string): void
  error(data: object, sentence: string): void
  debug(data: object, sentence: string): void
}
