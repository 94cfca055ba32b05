/**
 * What can be asked of a job. A command is a request: `decide.ts` answers it with events or a refusal.
 *
 * Facts (what happened at the bench) are recorded whatever they say; words (what a person declares) may be
 * refused. Which is which stands in RULES.md.
 */
import type { Instant } from '../log'
import type { ReleaseKind } from '../plan/kinds'
import type { FastenerCondition, HoldKind, ReadingHow, RestartHow } from './kinds'
import type { Adapter, Deferred, Engine, HoleEntry, NewPhoto, ValueBasis, Waived } from './types'

export type JobCommand =
  | { type: 'OpenJob'; number: string; engine: Engine; owner: string; agreed: string }
  | { type: 'AdoptPlan'; planId: string; edition: number }
  | StepCommand
  | BenchCommand
  | WordCommand
  | OfficeCommand

/** Taking, leaving and passing on a step. */
export type StepCommand =
  | {
      type: 'ClaimStep'
      stepId: string
      /** Asked and answered yes: it will hide class B and C joints that are not proven. */
      hidesKnowingly?: boolean
    }
  | { type: 'PutDownStep'; stepId: string; note?: string }
  | { type: 'HandOverStep'; stepId: string; to: string; note?: string }

/** Facts of the bench. */
export type BenchCommand =
  | EnterScale
  | TakeReading
  /** `position`: the round it belongs to, where a joint has several; without it one's own step's, or the first open. */
  | {
      type: 'CountRound'
      jointId: string
      pass: number
      wrenchId?: string
      count: number
      position?: number
    }
  | { type: 'RestartRound'; jointId: string; position: number; how: RestartHow }
  | { type: 'StrikeReading'; readingId: string; reason: string }
  | {
      type: 'PlaceFasteners'
      jointId: string
      positions: number[]
      condition: FastenerCondition
      cycle?: number
      /** Where it is another length than the plan's, mm. */
      lengthMm?: number
    }
  | RecordHole
  | {
      type: 'TakeMeasurement'
      stepId: string
      measurementId: string
      place: string
      value: number
      instrument: string
    }
  | { type: 'StrikeMeasurement'; entryId: string; reason: string }
  | { type: 'StartSealant'; stepId: string }
  | { type: 'CloseSealant'; stepId: string }
  | { type: 'AnswerGate'; stepId: string; gateId: string; count?: number }
  /** A cover without fasteners of its own is off again. */
  | { type: 'TakeOff'; stepId: string }
  | { type: 'NoteLook'; stepId: string; setId?: string; personId: string }
  | { type: 'AddNote'; text: string; stepId?: string }
  | { type: 'AddPhoto'; photo: NewPhoto }
  | { type: 'ConfirmPhoto'; photoId: string }

/** What a hole is found to be, or was made: worn, stripped, renewed with an insert. */
export type RecordHole = { type: 'RecordHole' } & Omit<HoleEntry, 'id' | 'by' | 'doneAt' | 'curesUntil'> & {
    /** From now, for a bonded insert. */
    cureMinutes?: number
  }

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

/** What a person declares. */
export type WordCommand =
  | { type: 'SignStep'; stepId: string; setId?: string }
  /** `look`: by somebody else's PIN, which comes sealed beside the command; `digest` names what they looked at. */
  | { type: 'SecondSignStep'; stepId: string; setId?: string; look?: { personId: string; digest: string } }
  | { type: 'RecheckOwnWork'; stepId: string; setId?: string }
  | { type: 'Defer'; what: Deferred; dueStepId: string; reason: string }
  | { type: 'WithdrawDeferral'; deferralId: string; reason: string }
  | {
      type: 'SettleValue'
      jointId: string
      pass: number
      torqueNm: number
      minNm: number
      maxNm: number
      basis: ValueBasis
      reason: string
    }
  | { type: 'Waive'; what: Waived; reason: string }
  | { type: 'Release'; kind: ReleaseKind }
  | { type: 'OpenWarranty'; complaint: string }
  | { type: 'CloseWarranty'; finding: string }

/** What the office and the bench tell each other. */
export type OfficeCommand =
  | { type: 'RaiseHold'; kind: HoldKind; stepIds: string[]; what: string; expectedAt?: Instant }
  /** `null` takes an expected date back. */
  | { type: 'ChangeHold'; holdId: string; what?: string; expectedAt?: Instant | null }
  | { type: 'ClearHold'; holdId: string; how: string }
  | { type: 'PromiseDate'; date: string; reason: string }

/** The command of one name. */
export type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>
