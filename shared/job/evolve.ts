/**
 * The fold: what a job is after one more event. Total: every event that was once appended folds, for ever.
 *
 * Returns a new job and shares what did not change, so that a screen sees by identity what moved. Nothing is
 * dropped: a struck or superseded reading stays in its list, marked. What an event does to a joint stands in
 * `evolve/readings.ts`, to a step in `evolve/steps.ts`; the rest adds to a list.
 */
import type { EventOf, JobEvent } from './events'
import { recordHole } from './evolve/holes'
import { changeStep, noteOnStep, signature } from './evolve/parts'
import { countRound, placeFasteners, restartRound, strikeReading, takeReading } from './evolve/readings'
import {
  claimStep,
  closeSealant,
  lapseSignatures,
  putDownStep,
  secondSign,
  signStep,
  startSealant,
  stopStep,
  strikeMeasurement,
  takeMeasurement,
  takeOff,
} from './evolve/steps'
import type { Job, SettledValue } from './types'
import { carryMemory } from './verdicts/memory'

export function newJob(id: string): Job {
  return {
    id,
    version: 0,
    number: '',
    engine: { model: '', serial: '' },
    owner: '',
    agreed: '',
    openedAt: 0,
    steps: {},
    readings: {},
    fasteners: {},
    holes: {},
    interrupted: {},
    scales: {},
    scaleLog: [],
    settled: {},
    holds: [],
    deferrals: [],
    waivers: [],
    releases: [],
    warranties: [],
    promises: [],
    notes: [],
    photos: [],
  }
}

export function evolve(job: Job, event: JobEvent): Job {
  return carryMemory(job, fold({ ...job, version: job.version + 1 }, event))
}

export const evolveAll = (job: Job, events: readonly JobEvent[]): Job => events.reduce(evolve, job)

/** A page may be told an event of a newer build. */
export const isKnownEvent = ({ type }: { type: string }): boolean => Object.hasOwn(FOLDS, type)

type Folds = { [T in JobEvent['type']]: (job: Job, event: EventOf<T>) => Job }

const fold = (job: Job, event: JobEvent): Job =>
  (FOLDS[event.type] as (job: Job, event: JobEvent) => Job)(job, event)

const FOLDS: Folds = {
  JobOpened: (job, { number, engine, owner, agreed, doneAt }) => ({
    ...job,
    number,
    engine,
    owner,
    agreed,
    openedAt: doneAt,
  }),
  PlanAdopted: (job, { plan }) => ({ ...job, plan }),
  StepClaimed: claimStep,
  StepPutDown: putDownStep,
  StepStopped: stopStep,
  StepHandedOver: stopStep,
  ScaleEntered: (job, { type: _, clockOffsetMs: __, ...entry }) => ({
    ...job,
    scales: { ...job.scales, [entry.wrenchId]: entry },
    scaleLog: [...job.scaleLog, entry],
  }),
  ReadingTaken: (job, { type: _, clockOffsetMs: __, ...reading }) => takeReading(job, reading),
  RoundCounted: countRound,
  RoundRestarted: restartRound,
  ReadingStruck: strikeReading,
  FastenersPlaced: placeFasteners,
  HoleRecorded: recordHole,
  MeasurementTaken: takeMeasurement,
  MeasurementStruck: strikeMeasurement,
  SealantStarted: startSealant,
  SealantClosed: closeSealant,
  GateAnswered: (job, { stepId, gateId, count, ...who }) =>
    changeStep(job, stepId, ({ takenOff: _, ...step }) => ({
      ...step,
      gates: { ...step.gates, [gateId]: { ...signature(who), ...(count === undefined ? {} : { count }) } },
    })),
  StepTakenOff: takeOff,
  StepSigned: signStep,
  StepSecondSigned: (job, { stepId, setId, through, late, ...who }) =>
    secondSign(job, stepId, setId, { ...signature(who), through, ...(late ? { late } : {}) }),
  OwnWorkRechecked: (job, { stepId, setId, late, ...who }) =>
    secondSign(job, stepId, setId, { ...signature(who), through: 'own_recheck', ...(late ? { late } : {}) }),
  // A look changes nothing that a second signer looks at, so a PIN given for the step still counts after it.
  LookNoted: (job, { stepId, setId, personId, flag, ...who }) =>
    noteOnStep(job, stepId, (step) => ({
      ...step,
      sets: {
        ...step.sets,
        [setId]: {
          ...step.sets[setId],
          look: { ...signature(who), personId, ...(flag ? { flag } : {}) },
        },
      },
    })),
  SignaturesLapsed: lapseSignatures,
  HoldRaised: (job, { id, kind, stepIds, what, expectedAt, ...who }) => ({
    ...job,
    holds: [
      ...job.holds,
      {
        id,
        kind,
        stepIds,
        what,
        ...(expectedAt === undefined ? {} : { expectedAt }),
        raised: signature(who),
      },
    ],
  }),
  HoldChanged: (job, { holdId, what, expectedAt, undated }) => ({
    ...job,
    holds: job.holds.map((hold) => {
      if (hold.id !== holdId) return hold
      const { expectedAt: before, ...rest } = hold
      const at = undated ? undefined : (expectedAt ?? before)
      return {
        ...rest,
        ...(what === undefined ? {} : { what }),
        ...(at === undefined ? {} : { expectedAt: at }),
      }
    }),
  }),
  HoldCleared: (job, { holdId, how, ...who }) => ({
    ...job,
    holds: job.holds.map((hold) =>
      hold.id === holdId ? { ...hold, cleared: { ...signature(who), how } } : hold,
    ),
  }),
  Deferred: (job, { id, what, dueStepId, reason, ...who }) => ({
    ...job,
    deferrals: [...job.deferrals, { id, what, dueStepId, reason, made: signature(who) }],
  }),
  DeferralWithdrawn: (job, { deferralId, reason, ...who }) => ({
    ...job,
    deferrals: job.deferrals.map((deferral) =>
      deferral.id === deferralId ? { ...deferral, withdrawn: { ...signature(who), reason } } : deferral,
    ),
  }),
  ValueSettled: (job, { jointId, pass, torqueNm, minNm, maxNm, basis, reason, ...who }) => ({
    ...job,
    settled: {
      ...job.settled,
      [jointId]: {
        ...job.settled[jointId],
        [pass]: {
          ...signature(who),
          torqueNm,
          band: { kind: 'torque', minNm, maxNm, from: 'shop' },
          basis,
          reason,
          ...settledBefore(job, jointId, pass),
        },
      },
    },
  }),
  Waived: (job, { id, what, reason, ownWork, ...who }) => ({
    ...job,
    waivers: [...job.waivers, { id, what, reason, ...(ownWork ? { ownWork } : {}), ...signature(who) }],
  }),
  Released: (job, { kind, number, edition, head, ownWork, people, ...who }) => ({
    ...job,
    releases: [
      ...job.releases,
      // The release covers what stood before it, so the version is the one it was decided on.
      {
        kind,
        number,
        edition,
        head,
        version: job.version - 1,
        ...(ownWork ? { ownWork } : {}),
        ...(people ? { people } : {}),
        ...signature(who),
      },
    ],
  }),
  ReleaseWithdrawn: (job, { kind, stepId, ...who }) => ({
    ...job,
    releases: job.releases.map((release) =>
      release.kind === kind && !release.withdrawn
        ? { ...release, withdrawn: { ...signature(who), stepId } }
        : release,
    ),
  }),
  WarrantyOpened: (job, { complaint, ...who }) => ({
    ...job,
    warranties: [...job.warranties, { ...signature(who), complaint, version: job.version }],
  }),
  WarrantyClosed: (job, { finding, ...who }) => ({
    ...job,
    warranties: job.warranties.map((warranty, index) =>
      index === job.warranties.length - 1
        ? { ...warranty, closed: { ...signature(who), finding } }
        : warranty,
    ),
  }),
  DatePromised: (job, { date, reason, ...who }) => ({
    ...job,
    promises: [...job.promises, { ...signature(who), date, reason }],
  }),
  NoteAdded: (job, { id, text, stepId, ...who }) => ({
    ...job,
    notes: [...job.notes, { id, text, ...(stepId ? { stepId } : {}), ...signature(who) }],
  }),
  PhotoAdded: (job, { photo, ...who }) => ({
    ...job,
    photos: [...job.photos, { ...photo, ...signature(who) }],
  }),
  PhotoArrived: (job, { photoId }) => ({
    ...job,
    photos: job.photos.map((photo) => (photo.id === photoId ? { ...photo, arrived: true } : photo)),
  }),
}

/** Nothing settled is forgotten: the value in force carries those before it. */
function settledBefore(job: Job, jointId: string, pass: number): Pick<SettledValue, 'earlier'> {
  const inForce = job.settled[jointId]?.[pass]
  if (!inForce) return {}
  const { earlier = [], ...last } = inForce
  return { earlier: [...earlier, last] }
}
