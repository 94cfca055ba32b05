/**
 * Everything that can have happened to one engine in the shop.
 *
 * An event is a fact: past tense, never edited, never deleted. A mistyped reading is struck by a later
 * `ReadingStruck`, so the first number stays in the trail. Changing a stored shape? Lift old rows in
 * `upcast.ts`.
 */
import type { Instant } from '../log'
import type { ReleaseKind } from '../plan/kinds'
import type { AdoptedPlan } from '../plan/types'
import type { Done } from '../shop/types'
import type { FastenerCondition, FastenerFlag, HoldKind, LookFlag, RestartHow } from './kinds'
import type {
  Deferred,
  Engine,
  HoleEntry,
  MeasurementEntry,
  NewPhoto,
  PersonThen,
  Reading,
  ScaleEntry,
  StoppedAt,
  ValueBasis,
  Waived,
} from './types'

export type JobEvent = Done &
  (
    | { type: 'JobOpened'; number: string; engine: Engine; owner: string; agreed: string }
    | { type: 'PlanAdopted'; plan: AdoptedPlan }
    | { type: 'StepClaimed'; stepId: string; hidesKnowingly?: string[] }
    | { type: 'StepPutDown'; stepId: string; note?: string }
    | { type: 'StepStopped'; stepId: string; at: StoppedAt[]; note?: string }
    | { type: 'StepHandedOver'; stepId: string; from: string; to: string; at: StoppedAt[]; note?: string }
    | ({ type: 'ScaleEntered' } & Omit<ScaleEntry, 'by' | 'doneAt'>)
    | ({ type: 'ReadingTaken' } & Omit<Reading, 'by' | 'doneAt' | 'struck' | 'superseded'>)
    | ({ type: 'RoundCounted'; positions: number[] } & Omit<
        Reading,
        'by' | 'doneAt' | 'position' | 'how' | 'struck' | 'superseded'
      >)
    | { type: 'RoundRestarted'; jointId: string; positions: number[]; fromPass: number; how: RestartHow }
    | { type: 'ReadingStruck'; jointId: string; readingId: string; reason: string }
    | {
        type: 'FastenersPlaced'
        jointId: string
        positions: number[]
        condition: FastenerCondition
        cycle?: number
        lengthMm?: number
        flags: FastenerFlag[]
        /** Positions whose readings were another fastener's, or of one since slackened. */
        voids?: number[]
      }
    | ({ type: 'HoleRecorded' } & Omit<HoleEntry, 'by' | 'doneAt'>)
    | ({ type: 'MeasurementTaken' } & Omit<MeasurementEntry, 'by' | 'doneAt' | 'struck' | 'superseded'>)
    | { type: 'MeasurementStruck'; stepId: string; entryId: string; reason: string }
    | { type: 'SealantStarted'; stepId: string }
    | { type: 'SealantClosed'; stepId: string }
    | { type: 'GateAnswered'; stepId: string; gateId: string; count?: number }
    | { type: 'StepTakenOff'; stepId: string }
    | { type: 'StepSigned'; stepId: string; setId: string }
    | {
        type: 'StepSecondSigned'
        stepId: string
        setId: string
        through: 'sign_in' | 'grant' | 'sealed'
        late?: true
      }
    | { type: 'OwnWorkRechecked'; stepId: string; setId: string; late?: true }
    /** `flag`: why it is no signature, where a PIN came with it. */
    | { type: 'LookNoted'; stepId: string; setId: string; personId: string; flag?: LookFlag }
    | { type: 'SignaturesLapsed'; stepId: string; setId: string; because: LapseCause }
    | {
        type: 'HoldRaised'
        id: string
        kind: HoldKind
        stepIds: string[]
        what: string
        expectedAt?: Instant
      }
    /** `undated`: nobody expects it at a known time any more. */
    | { type: 'HoldChanged'; holdId: string; what?: string; expectedAt?: Instant; undated?: true }
    | { type: 'HoldCleared'; holdId: string; how: string }
    | { type: 'Deferred'; id: string; what: Deferred; dueStepId: string; reason: string }
    | { type: 'DeferralWithdrawn'; deferralId: string; reason: string }
    | {
        type: 'ValueSettled'
        jointId: string
        pass: number
        torqueNm: number
        minNm: number
        maxNm: number
        basis: ValueBasis
        reason: string
      }
    | { type: 'Waived'; id: string; what: Waived; reason: string; ownWork?: true }
    | {
        type: 'Released'
        kind: ReleaseKind
        number: string
        edition: number
        head: string
        ownWork?: true
        /** Not in releases of an older build. */
        people?: Record<string, PersonThen>
      }
    | { type: 'ReleaseWithdrawn'; kind: 'to_fitting'; because: 'rework'; stepId: string }
    | { type: 'WarrantyOpened'; complaint: string }
    | { type: 'WarrantyClosed'; finding: string }
    | { type: 'DatePromised'; date: string; reason: string }
    | { type: 'NoteAdded'; id: string; text: string; stepId?: string }
    | { type: 'PhotoAdded'; photo: NewPhoto }
    | { type: 'PhotoArrived'; photoId: string }
  )

export type LapseCause =
  | 'reading'
  | 'strike'
  | 'measurement'
  | 'gate'
  | 'restart'
  | 'fastener'
  | 'hole'
  | 'sealant'
  | 'value'
  | 'taken_off'

/** The event of one name. */
export type EventOf<T extends JobEvent['type']> = Extract<JobEvent, { type: T }>
