/**
 * Everything that can happen to one engine in the shop.
 *
 * A command asks; an event is a fact: past tense, never edited, never deleted. A mistyped reading is
 * struck by a later `ReadingStruck`, so the first number stays in the trail. Changing a stored shape?
 * Lift old rows in `upcast.ts`. What may happen is decided in `decide.ts`, in the order of RULES.md.
 */
import type { Instant } from '../log'
import type { AdoptedPlan, Band } from '../plan/types'
import type { Done, Wrench } from '../shop/types'
import type { TorqueUnit } from '../units'

export interface Engine {
  model: string
  serial: string
  /** What it drives, in the owner's words: `work boat Pale Heron`. */
  drives?: string
}

export type JobCommand =
  | { type: 'OpenJob'; number: string; engine: Engine; owner: string; agreed: string }
  | { type: 'AdoptPlan'; planId: string; edition: number }
  | { type: 'ClaimStep'; stepId: string }
  | { type: 'PutDownStep'; stepId: string }
  | EnterScale
  | TakeReading
  | { type: 'StrikeReading'; readingId: string; reason: string }
  | {
      type: 'TakeMeasurement'
      stepId: string
      measurementId: string
      place: string
      value: number
      instrument: string
    }
  | { type: 'StrikeMeasurement'; entryId: string; reason: string }
  | { type: 'AnswerGate'; stepId: string; gateId: string; count?: number }
  | { type: 'SignStep'; stepId: string; setId?: string }
  | { type: 'SecondSignStep'; stepId: string; setId?: string }

export interface EnterScale {
  type: 'EnterScale'
  jointId: string
  /** 1 for the first. */
  pass: number
  wrenchId: string
  /** The number on the wrench's scale, in the wrench's own unit. */
  value: number
  adapter?: Adapter
}

/** A crowfoot or extension that changes the lever; lengths as in `wrenchSetting`. */
export interface Adapter {
  wrenchMm: number
  adapterMm: number
  angleDeg: number
}

export interface TakeReading {
  type: 'TakeReading'
  jointId: string
  position: number
  pass: number
  how: ReadingHow
  wrenchId?: string
  /** What an indicating wrench or an angle gauge showed, in its own unit; a click shows nothing. */
  value?: number
  /** The person was asked whether it is a slip of unit and says that the scale really reads so. */
  readsSo?: boolean
}

/** Slackened outside a slacken pass takes the fastener back: its readings so far are superseded. */
export type ReadingHow = 'clicked' | 'indicated' | 'turned' | 'slackened'

/** What is odd about a fact. Each stops a signature while it stands; none stops the record. */
export type Flag =
  | 'not_claimed'
  | 'out_of_order'
  | 'pass_skipped'
  | 'too_early'
  | 'out_of_band'
  | 'no_published_value'
  | 'unit_held_up'
  | 'scale_not_entered'
  | 'wrench_unknown'
  | 'other_than_asked'
  | 'wrench_out_of_range'
  | 'wrench_out_of_date'
  | 'wrench_failed'
  | 'turned_again'
  | 'not_slackened'

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

export interface ScaleEntry {
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
  by: string
  doneAt: Instant
}

export interface Reading {
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
  by: string
  doneAt: Instant
  struck?: { by: string; doneAt: Instant; reason: string }
  /** Made void by a later slackening of the same fastener, or retaken. */
  superseded?: { by: string; doneAt: Instant; because: 'slackened' | 'retaken' }
}

export interface MeasurementEntry {
  id: string
  stepId: string
  measurementId: string
  place: string
  value: number
  instrument: string
  inBand: boolean
  by: string
  doneAt: Instant
  struck?: { by: string; doneAt: Instant; reason: string }
  superseded?: { by: string; doneAt: Instant; because: 'retaken' }
}

export type JobEvent = Done &
  (
    | { type: 'JobOpened'; number: string; engine: Engine; owner: string; agreed: string }
    | { type: 'PlanAdopted'; plan: AdoptedPlan }
    | { type: 'StepClaimed'; stepId: string }
    | { type: 'StepPutDown'; stepId: string }
    | ({ type: 'ScaleEntered' } & Omit<ScaleEntry, 'by' | 'doneAt'>)
    | ({ type: 'ReadingTaken' } & Omit<Reading, 'by' | 'doneAt' | 'struck' | 'superseded'>)
    | { type: 'ReadingStruck'; jointId: string; readingId: string; reason: string }
    | ({ type: 'MeasurementTaken' } & Omit<MeasurementEntry, 'by' | 'doneAt' | 'struck' | 'superseded'>)
    | { type: 'MeasurementStruck'; stepId: string; entryId: string; reason: string }
    | { type: 'GateAnswered'; stepId: string; gateId: string; count?: number }
    | { type: 'StepSigned'; stepId: string; setId: string }
    | { type: 'StepSecondSigned'; stepId: string; setId: string; through: 'sign_in' | 'grant'; late?: true }
    | {
        type: 'SignaturesLapsed'
        stepId: string
        setId: string
        because: 'reading' | 'strike' | 'measurement' | 'gate'
      }
  )

export interface Signature {
  by: string
  doneAt: Instant
}

export interface SetState {
  first?: Signature
  second?: Signature & { through: 'sign_in' | 'grant'; late?: true }
}

export interface StepState {
  claim?: { by: string; doneAt: Instant }
  /** By set id; see `signatureSets`. */
  sets: Record<string, SetState>
  measurements: MeasurementEntry[]
  gates: Record<string, { by: string; doneAt: Instant; count?: number }>
  /** The job's version when anything on this step last changed: what a second signer looked at. */
  touchedAt: number
}

/** One job as folded from its events. Plain data: it travels as JSON and is the replica's confirmed state. */
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
  /** The last number entered for each wrench on this job; gone when its step is put down. */
  scales: Record<string, ScaleEntry>
  /** Every scale entry, for the record. */
  scaleLog: ScaleEntry[]
}
