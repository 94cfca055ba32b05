/**
 * The wire between a browser and the shop: what goes up, what comes down, and its version.
 *
 * A client names the version it has and is sent what came after; a client that sees a gap asks again and never
 * guesses. The ack of a command comes before the broadcast of its events on the same socket, so that a
 * pending command is settled by its answer, not by recognising it in the stream.
 */
import type { JobCommand } from './job/commands'
import type { JobEvent } from './job/events'
import type { JobSummary } from './job/summary'
import type { Job } from './job/types'
import type { Instant, StreamEvent } from './log'
import type { Role } from './shop/kinds'
import type { PaintName, Shop, ShopCommand, ShopEvent } from './shop/types'

/**
 * Raised, at most once a release, when a message changes shape or the log has a new kind of event. Two versions get along:
 * a server takes its own and the one before, and a page speaks that of a server one older. Whichever is newer speaks the
 * other's; a page of another version says that it is to be loaded anew.
 */
export const PROTOCOL_VERSION = 2

/** Whether somebody of version `newer` understands `version`. */
export const understands = (newer: number, version: number): boolean =>
  version === newer || version === newer - 1

/** What every command carries beside its own fields. */
export interface CommandHead {
  /** UUIDv7, made where the command was made. A resend keeps it and gets its first answer. */
  commandId: string
  /** The sign-in it was made under; without it, the one open on this device now. */
  signInId?: string
  /** The device's clock, corrected; without it, the server's on arrival. */
  doneAt?: Instant
  clockOffsetMs?: number
  /** A one-use grant: the second signer's PIN, given on somebody else's tablet. */
  grantId?: string
  /** Its place in the device's own count of entries, from 1: what never arrives leaves a gap. */
  entryNumber?: number
}

/** Fields of the head that came later than version 1, by the version that brought them. */
const HEAD_SINCE = { entryNumber: 2 } satisfies Partial<Record<keyof CommandHead, number>>

/** A command as somebody of that version knows it. Its own fields stay: what is not understood is refused, and told. */
export function commandFor<C extends CommandHead>(version: number, command: C): C {
  const unknown = Object.entries(HEAD_SINCE).filter(([field, since]) => since > version && field in command)
  if (unknown.length === 0) return command
  const known = { ...command }
  for (const [field] of unknown) delete known[field as keyof C]
  return known
}

export type SentJobCommand = CommandHead & JobCommand
export type SentShopCommand = CommandHead & ShopCommand

/** An engine that left the shop, as it is looked up: `GET /api/finished?number=…` or `?from=…&until=…` (instants). */
export interface FinishedJob {
  id: string
  number: string
  engine: string
  serial: string
  owner: string
  finishedAt: Instant
  /** Number of the release to its owner. */
  release?: string
}

/** The room a socket watches. `job:<id>` sends events, `board` summaries, `shop` the shop's events. */
export type Room = 'board' | 'shop' | `job:${string}`

export type Answer =
  | {
      ok: true
      version: number
      events: StreamEvent<JobEvent | ShopEvent>[]
      /** Place of the last of `events` in the whole log; absent where there are none. */
      seq?: number
    }
  | Refused

export interface Refused {
  ok: false
  code: string
  data: Record<string, unknown>
  /** What is so, which one, what to do next. */
  sentence: string
}

/** Not a refusal: the message itself was at fault, or nobody is signed in. */
export interface Fault {
  ok: false
  code: 'bad_message' | 'signed_out' | 'not_this_device' | 'not_saved' | 'too_many' | 'pin_waits'
  sentence: string
  /** Where in the message. */
  path?: string
}

export interface ClientToServer {
  watch(message: Watch, ack: (answer: Watched | Packed | Fault | Refused) => void): void
  unwatch(message: { room: Room }, ack?: (answer: { ok: true }) => void): void
  command(
    message:
      | { stream: 'shop'; command: SentShopCommand }
      /** `sealed`: a second signer's PIN, in base64 (`sealed-pin.ts`); beside the command, never in it. */
      | { stream: `job:${string}`; command: SentJobCommand; sealed?: string },
    ack: (answer: Answer | Fault) => void,
  ): void
  /** What this page shows, so that others see who is here. */
  presence(message: { jobId?: string; place?: JobPage }): void
}

export type JobPage = 'engine' | 'bench' | 'audit'

export interface Watch {
  room: Room
  /** For `job:` and `shop`: the version the client has; it gets what came after, or the state when that is shorter. */
  have?: number
  /** Says that this client can unpack gzip: then a long answer comes packed, once, instead of every frame. */
  unpacks?: true
  /** For `board`: that this client asks for what has left the shop by itself, once the rest stands (`GET /api/board?left`). */
  leftLater?: true
  protocol: number
}

/** A long answer: gzip over the JSON of a `Watched`, which may have been packed for somebody before. */
export interface Packed {
  ok: true
  packed: Uint8Array<ArrayBuffer>
  /** The time of this answer, which stands above the one inside; a server of version 1 does not say it. */
  now?: Instant
}

/** Of which epoch of the log it is, and for a stream the hash of its last entry: a device sees by them whether it is on the same log. */
export type Watched =
  | {
      ok: true
      room: 'board'
      summaries: JobSummary[]
      /** Without the engines that have left the shop. */
      leftLater?: true
      now: Instant
      epoch?: string
      damage?: readonly DamageNotice[]
    }
  | ({ from: number; events: StreamEvent<JobEvent | ShopEvent>[] } & WatchedStream)
  | ({ state: Job | Shop } & WatchedStream)

interface WatchedStream {
  ok: true
  room: Room
  now: Instant
  epoch?: string
  head?: string
}

export interface ServerToClient {
  /** `from` is the version before the first of `events`. */
  events(message: { room: Room; from: number; events: StreamEvent<JobEvent | ShopEvent>[] }): void
  summary(message: JobSummary): void
  presence(message: { jobId: string; here: Here[] }): void
  /** When a socket opens, and whenever a backup covers more. */
  epoch(message: LogEpoch): void
  /** To whoever watches the board: all that is known to be damaged by now. */
  damage(message: { notices: readonly DamageNotice[] }): void
  /** First of all when a socket opens: which version the server speaks; again where it does not understand the page's. */
  reload(message: { protocol: number }): void
  /** Of the demonstration alone: its day goes on, or began anew. */
  demo(message: DemoState): void
}

/** Something on the server's disk is not what was entered. */
export interface DamageNotice {
  /** The job it is about, where it is about one. */
  jobId?: string
  number?: string
  /** What is so, and what it means for whoever reads it. */
  sentence: string
}

export interface Here {
  person: string
  place: JobPage
}

/** A person as anybody signed in may know them; before sign-in only name, initials and paint are shown. */
export interface PersonCard {
  id: string
  name: string
  initials: string
  paint: PaintName
  roles: Role[]
  /** They have left the shop. */
  left?: true
}

/** `GET /api/backups`, for a supervisor or the owner. */
export interface BackupsTold {
  /** Where they are made every hour, and whether that is the disk the data lie on; absent where none are. */
  hourly?: { into: string; sameDisk: boolean; secrets: boolean }
  /** The last good one, made in whatever way. */
  last?: { folder: string; madeAt: Instant; secrets: boolean; damagedPhotos: number }
  failing?: { since: Instant; sentence: string }
  diskLeftBytes: number
  /** What else is not well with the server, each in a sentence. */
  problems: string[]
  now: Instant
}

/** Which life of the log this is, and up to where a good backup holds it. */
export interface LogEpoch {
  /** Another one after a restore: entries after `coveredSeq` of the one before may be gone, and are sent again. */
  id: string
  number: number
  /** The highest place of this epoch's log that a good backup holds. */
  coveredSeq: number
}

/** `GET /api/me` */
export interface Me {
  shop: {
    name: string
    opened: boolean
    invented: boolean
    /** Names this shop's log, from its first entry: what a device keeps for one shop is never another's. */
    key?: string
  }
  signIn?: { id: string; person: PersonCard; openedAt: Instant }
  /** Where somebody is signed in: what this device seals a second signer's PIN to (SPKI in base64). */
  pinKey?: string
  /** The server's clock, to correct the device's. */
  now: Instant
  protocol: number
  epoch?: LogEpoch
  /** Only where the shop is the demonstration's. */
  demo?: DemoState
}

/** Shop seconds for one on the wall; `at_once` goes from command to command without waiting. */
export type DemoSpeed = 1 | 10 | 60 | 'at_once'

export type DemoAct =
  | { do: 'play' | 'pause' | 'step' }
  | { do: 'speed'; speed: DemoSpeed }
  /** Names the run it ends, so that two people who ask at once begin anew once. */
  | { do: 'restart'; run: string }

/**
 * `POST /api/entries/missing`: how far this device has counted its entries, those that still wait on it, and up to which
 * all is known to be here.
 */
export interface EntriesCounted {
  upTo: number
  waiting: number[]
  since: number
}

/** Entries of this device that never came, from one that did to the next that did; without one where there is none. */
export interface EntriesMissing {
  first: number
  last: number
  /** Of those between, what still waits is not among them. */
  count: number
  after?: Instant
  before?: Instant
}

/** How far the demonstration's day has come. */
export interface DemoState {
  /** Another one after a restart: whatever a page shows is then of a shop that is gone. */
  run: string
  /** Counts the changes of a run, so that an older one that comes late is left aside. */
  change: number
  now: Instant
  /** What the shop's clock makes of a second: 0 while it stands. */
  rate: number
  playing: boolean
  speed: DemoSpeed
  /** How many moments have begun, of those `GET /api/demo` names. */
  begun: number
  refused: readonly DemoRefusal[]
}

export interface DemoMoment {
  /** When it happens at the bench. */
  at: Instant
  /** When the server learns of it. */
  due: Instant
  person: string
  jobId: string
  /** What to look at on the screens. */
  shows: string
}

export interface DemoRefusal {
  /** Which moment, by its place in the day. */
  moment: number
  code: string
  sentence: string
  /** The day tells of it: it is what the moment shows. */
  foreseen: boolean
  /** How many more entries of that moment were left out because of it. */
  leftOut: number
}
