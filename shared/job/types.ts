/**
 * One job as folded from its events, and the values that its events and its screens speak of.
 *
 * `commands.ts` says what can be asked, `events.ts` what can have happened, `decide.ts` what may happen next.
 * Plain data throughout: a job travels as JSON and is the replica's confirmed state.
 */
import type { Proposal } from '../fastener'
import type { Instant } from '../log'
import type { ReleaseKind } from '../plan/kinds'
import type { AdoptedPlan, Band, Fasteners } from '../plan/types'
import type { Person, Wrench } from '../shop/types'
import type { TorqueUnit } from '../units'
import type {
  FastenerCondition,
  FastenerFlag,
  Flag,
  HoldKind,
  HoleCondition,
  LookFlag,
  ReadingHow,
  RestartHow,
} from './kinds'

export interface Engine {
  model: string
  serial: string
  /** What it drives, in the owner's words: `work boat Pale Heron`. */
  drives?: string
}

/** A crowfoot or extension that changes the lever; lengths as in `wrenchSetting`. */
export interface Adapter {
  wrenchMm: number
  adapterMm: number
  angleDeg: number
}

/** The wrench as it was when the fact was recorded, so that no fold asks what the shop looked like. */
export type WrenchThen = Pick<
  Wrench,
  'id' | 'kind' | 'unit' | 'min' | 'max' | 'state' | 'lastCheckedAt' | 'dueAt'
>

/** The same number read in the unit that would fit: both are shown, nothing is converted silently. */
export interface UnitSlip {
  value: number
  readAs: TorqueUnit
  readNm: number
  fitsAs: TorqueUnit
  fitsNm: number
}

/** Who and when, as the fold keeps it. */
export interface Signature {
  by: string
  doneAt: Instant
}

export type Struck = Signature & { reason: string }

export interface ScaleEntry extends Signature {
  id: string
  jointId: string
  pass: number
  wrench?: WrenchThen
  wrenchId: string
  value: number
  unit: TorqueUnit
  adapter?: Adapter
  /** What this setting applies at the fastener, adapter reckoned in. */
  appliesNm: number
  band: Band | null
  slip?: UnitSlip
}

export interface Reading extends Signature {
  id: string
  jointId: string
  position: number
  pass: number
  how: ReadingHow
  wrenchId?: string
  wrench?: WrenchThen
  /** As read, in the unit it was read in. */
  value?: number
  unit?: TorqueUnit | 'deg'
  /** At the fastener. */
  torqueNm?: number
  angleDeg?: number
  /** The band in force then. */
  band: Band | null
  scaleId?: string
  slip?: UnitSlip
  flags: Flag[]
  struck?: Struck
  /** Made void by a slackening or a change of the fastener, a restarted round, or a later reading of the same pass. */
  superseded?: Signature & {
    because: 'slackened' | 'retaken' | 'restarted' | 'refitted'
    /** What was done when its round was begun again. */
    how?: RestartHow
  }
}

/** Where an interrupted joint stands. Mid-pass, its interruption rule asks for a restart. */
export interface StoppedAt {
  jointId: string
  pass: number
  /** The position that was to come next. */
  position: number
  /** The round that was broken off. */
  positions: number[]
  midPass: boolean
  /** What the joint's own rule asks before anything goes on. */
  asks: RestartHow | 'nothing'
}

/** A thread insert as it was fitted. Lengths in mm, from the face that the stack sits on. */
export interface ThreadInsert {
  kind: 'wire' | 'solid'
  lengthMm: number
  /** How far below the face it begins. */
  setDownMm?: number
  /** The thread a solid insert holds by in the part, as its maker names it: without it nobody knows what it bears. */
  outerThread?: string
}

/** What was found or done at a hole. The last entry of a place is in force, all stay. */
export interface HoleEntry extends Signature {
  id: string
  jointId: string
  position: number
  condition: HoleCondition
  /** As measured: drilled depth and full thread; else the plan's. */
  depthMm?: number
  threadMm?: number
  insert?: ThreadInsert
  /** Who did the repair, where that was somebody else: a machine shop. */
  doneBy?: string
  /** A bonded insert holds nothing before. */
  curesUntil?: Instant
  note?: string
}

export interface FastenerState extends Signature {
  condition: FastenerCondition
  /** Where it is another than the plan's: a shortened stud. */
  lengthMm?: number
  /**
   * How many tightenings this one has had, with this fitting, as was said; one taken out: how many it had had.
   * What the readings add since is reckoned: `fastenerNow`.
   */
  cycle?: number
  flags: FastenerFlag[]
  /** In the joint's list of readings: where this one's begin, and how many there were when it was said. */
  readings?: { from: number; before: number }
}

export interface MeasurementEntry extends Signature {
  id: string
  stepId: string
  measurementId: string
  place: string
  value: number
  instrument: string
  inBand: boolean
  struck?: Struck
  superseded?: Signature & { because: 'retaken' }
}

export interface SetState {
  first?: Signature
  second?: Signature & { through: 'sign_in' | 'grant' | 'sealed' | 'own_recheck'; late?: true }
  /** A second person's look without the server; a signature once their PIN reaches it. */
  look?: Signature & { personId: string; flag?: LookFlag }
  /** How often signatures of it were taken back; absent where never. */
  lapsed?: number
}

/** One bead of sealant: from the first bead to the last fastener. */
export interface SealantClock {
  started: Signature
  closed?: Signature
}

export interface StepState {
  claim?: { by: string; doneAt: Instant; hidesKnowingly?: string[] }
  /** By set id; see `signatureSets`. */
  sets: Record<string, SetState>
  measurements: MeasurementEntry[]
  gates: Record<string, Signature & { count?: number }>
  /** The beads laid, the last one in force. */
  sealant: SealantClock[]
  /** Where it was left, until somebody goes on with it. */
  stopped?: Signature & { at: StoppedAt[]; note?: string }
  /** A cover without fasteners of its own, taken off again; gone with its next fact. */
  takenOff?: Signature
  /** The job's version when anything on this step last changed: what a second signer looked at. */
  touchedAt: number
}

export interface Hold {
  id: string
  kind: HoldKind
  stepIds: string[]
  what: string
  expectedAt?: Instant
  raised: Signature
  cleared?: Signature & { how: string }
}

/** What is left out on purpose: a whole step, or fasteners of a joint. */
export type Deferred = { kind: 'step'; stepId: string } | ({ kind: 'fasteners' } & Required<Fasteners>)

export interface Deferral {
  id: string
  what: Deferred
  dueStepId: string
  reason: string
  made: Signature
  withdrawn?: Struck
}

/** Where a value without a published one comes from. */
export type ValueBasis =
  | { kind: 'source'; title: string; edition: string; page: string }
  /** With `proposal`: what was reckoned, as data; entries of an older build, and those reckoned by hand, have none. */
  | { kind: 'computed'; method: string; inputs: string; proposal?: Proposal }
  | { kind: 'word'; competence: string }

export interface SettledValue extends Signature {
  torqueNm: number
  band: Extract<Band, { kind: 'torque' }>
  basis: ValueBasis
  reason: string
  /** What was settled here before, the oldest first. */
  earlier?: Omit<SettledValue, 'earlier'>[]
}

/** What a supervisor can accept, with the reason. A missing second signature is accepted, not proven. */
export type Waived =
  | { kind: 'reading'; readingId: string }
  | { kind: 'fastener'; jointId: string; position: number }
  | { kind: 'measurement'; entryId: string }
  | { kind: 'second'; stepId: string; setId: string }
  | { kind: 'hiding'; stepId: string }
  | { kind: 'sealant'; stepId: string }
  | { kind: 'gate'; stepId: string; gateId: string }

export interface Waiver extends Signature {
  id: string
  what: Waived
  reason: string
  /** The one who waived had worked on it. */
  ownWork?: true
  /** What it accepted was done anew. */
  lapsed?: Signature
}

/** What a person was called at some moment, kept where a paper must say it years later. */
export type PersonThen = Pick<Person, 'name' | 'initials'>

export interface Release extends Signature {
  kind: ReleaseKind
  number: string
  edition: number
  /** The job's version, and the hash of its last event, that this release covers. */
  version: number
  head: string
  /** The one who released had worked on it. */
  ownWork?: true
  /** Everybody the record names, by id, as they were called then. Releases of an older build have none. */
  people?: Record<string, PersonThen>
  withdrawn?: Signature & { stepId: string }
}

export interface PromisedDate extends Signature {
  /** `YYYY-MM-DD`, a day of the shop's calendar. */
  date: string
  reason: string
}

export interface Note extends Signature {
  id: string
  text: string
  stepId?: string
}

export interface WarrantyCase extends Signature {
  complaint: string
  version: number
  /** The last step that was signed through since. */
  work?: Signature & { stepId: string }
  /** What was found, in a supervisor's words. */
  closed?: Signature & { finding: string }
}

/** A photo as the device made it: shrunk, location data taken out, hashed. Its bytes come on their own. */
export interface NewPhoto {
  id: string
  /** SHA-256 of the bytes, hex. */
  sha256: string
  bytes: number
  mime: 'image/jpeg' | 'image/webp' | 'image/png'
  widthPx: number
  heightPx: number
  caption?: string
  stepId?: string
  /** The gate it answers, and at which of its places. */
  gateId?: string
  place?: string
}

export type Photo = NewPhoto & Signature & { arrived?: true }

export interface Job {
  id: string
  /** How many events it has had. 0: not opened. */
  version: number
  number: string
  engine: Engine
  owner: string
  agreed: string
  openedAt: Instant
  plan?: AdoptedPlan
  steps: Record<string, StepState>
  /** Every reading of a joint, struck and superseded ones too, in the order they were recorded. */
  readings: Record<string, Reading[]>
  /** By joint and position: the fastener there now. */
  fasteners: Record<string, Record<number, FastenerState>>
  /** By joint: what was found and done at its holes, in the order it was recorded. */
  holes: Record<string, HoleEntry[]>
  /** By joint: the rounds broken off mid-pass whose rule has not been followed yet. */
  interrupted: Record<string, StoppedAt[]>
  /** The last number entered for each wrench on this job; gone when its step is put down. */
  scales: Record<string, ScaleEntry>
  /** Every scale entry, for the record. */
  scaleLog: ScaleEntry[]
  /** By joint, then pass: values settled where none is published. */
  settled: Record<string, Record<number, SettledValue>>
  holds: Hold[]
  deferrals: Deferral[]
  waivers: Waiver[]
  releases: Release[]
  /** Complaints that opened the job again under warranty. */
  warranties: WarrantyCase[]
  promises: PromisedDate[]
  notes: Note[]
  photos: Photo[]
}

/** A job with its plan, which every command but the first two needs. */
export type PlannedJob = Job & { plan: AdoptedPlan }
