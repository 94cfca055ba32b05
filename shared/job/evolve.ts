/**
 * The fold: what a job is after one more event. Total: every event that was once appended folds, for ever.
 *
 * Returns a new job and shares what did not change, so that a screen sees by identity what moved. Nothing is
 * dropped: a struck or superseded reading stays in its list, marked.
 */
import { indexPlan, signatureSets } from '../plan/read'
import type {
  EventOf,
  FastenerState,
  Job,
  JobEvent,
  MeasurementEntry,
  Reading,
  RestartHow,
  SetState,
  Signature,
  StepState,
} from './types'

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
  return fold({ ...job, version: job.version + 1 }, event)
}

export const evolveAll = (job: Job, events: readonly JobEvent[]): Job => events.reduce(evolve, job)

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
  StepPutDown: (job, { stepId }) =>
    forgetScales(
      changeStep(job, stepId, ({ claim: _, ...step }) => step),
      stepId,
    ),
  StepStopped: (job, event) => stop(job, event, undefined),
  StepHandedOver: (job, event) => stop(job, event, event.to),
  ScaleEntered: (job, { type: _, clockOffsetMs: __, ...entry }) => ({
    ...job,
    scales: { ...job.scales, [entry.wrenchId]: entry },
    scaleLog: [...job.scaleLog, entry],
  }),
  ReadingTaken: (job, { type: _, clockOffsetMs: __, ...reading }) => takeReading(job, reading),
  RoundCounted: (job, { type: _, clockOffsetMs: __, positions, ...round }) =>
    positions.reduce(
      (counted, position) =>
        takeReading(counted, { ...round, id: `${round.id}.${position}`, how: 'counted', position }),
      job,
    ),
  RoundRestarted: restartRound,
  ReadingStruck: (job, { jointId, readingId, reason, ...who }) =>
    changeReadings(job, jointId, (list) =>
      list.map((reading) =>
        reading.id === readingId ? { ...reading, struck: { ...signature(who), reason } } : reading,
      ),
    ),
  FastenersPlaced: (job, { jointId, positions, condition, cycle, flags, ...who }) =>
    placeFasteners(job, jointId, positions, {
      ...signature(who),
      condition,
      flags,
      ...(cycle === undefined ? {} : { cycle }),
    }),
  MeasurementTaken: (job, { type: _, clockOffsetMs: __, ...entry }) =>
    changeStep(job, entry.stepId, (step) => ({
      ...step,
      measurements: [...supersedeMeasurements(step.measurements, entry), entry],
    })),
  MeasurementStruck: (job, { stepId, entryId, reason, ...who }) =>
    changeStep(job, stepId, (step) => ({
      ...step,
      measurements: step.measurements.map((entry) =>
        entry.id === entryId ? { ...entry, struck: { ...signature(who), reason } } : entry,
      ),
    })),
  SealantStarted: (job, { stepId, ...who }) =>
    changeStep(job, stepId, (step) => ({ ...step, sealant: [...step.sealant, { started: signature(who) }] })),
  SealantClosed: (job, { stepId, ...who }) =>
    changeStep(job, stepId, (step) => ({
      ...step,
      sealant: step.sealant.map((clock, index) =>
        index === step.sealant.length - 1 ? { ...clock, closed: signature(who) } : clock,
      ),
    })),
  GateAnswered: (job, { stepId, gateId, count, ...who }) =>
    changeStep(job, stepId, (step) => ({
      ...step,
      gates: { ...step.gates, [gateId]: { ...signature(who), ...(count === undefined ? {} : { count }) } },
    })),
  StepSigned: (job, { stepId, setId, ...who }) =>
    endClaimWhenSigned(
      changeSet(job, stepId, setId, () => ({ first: signature(who) })),
      stepId,
    ),
  StepSecondSigned: (job, { stepId, setId, through, late, ...who }) =>
    secondSign(job, stepId, setId, { ...signature(who), through, ...(late ? { late } : {}) }),
  OwnWorkRechecked: (job, { stepId, setId, late, ...who }) =>
    secondSign(job, stepId, setId, { ...signature(who), through: 'own_recheck', ...(late ? { late } : {}) }),
  LookNoted: (job, { stepId, setId, personId, ...who }) =>
    changeSet(job, stepId, setId, (set) => ({ ...set, look: { ...signature(who), personId } })),
  SignaturesLapsed: (job, { stepId, setId }) => changeSet(job, stepId, setId, () => ({})),
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
  HoldChanged: (job, { holdId, what, expectedAt }) => ({
    ...job,
    holds: job.holds.map((hold) =>
      hold.id === holdId
        ? {
            ...hold,
            ...(what === undefined ? {} : { what }),
            ...(expectedAt === undefined ? {} : { expectedAt }),
          }
        : hold,
    ),
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
        },
      },
    },
  }),
  Waived: (job, { id, what, reason, ownWork, ...who }) => ({
    ...job,
    waivers: [...job.waivers, { id, what, reason, ...(ownWork ? { ownWork } : {}), ...signature(who) }],
  }),
  Released: (job, { kind, number, edition, head, ownWork, ...who }) => ({
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
    warranties: [...job.warranties, { ...signature(who), complaint }],
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

const signature = ({ by, doneAt }: Signature): Signature => ({ by, doneAt })

const NEW_STEP: StepState = { sets: {}, measurements: [], gates: {}, sealant: [], touchedAt: 0 }

function changeStep(job: Job, stepId: string, change: (step: StepState) => StepState): Job {
  const step = change(job.steps[stepId] ?? NEW_STEP)
  return { ...job, steps: { ...job.steps, [stepId]: { ...step, touchedAt: job.version } } }
}

const changeSet = (job: Job, stepId: string, setId: string, change: (set: SetState) => SetState): Job =>
  changeStep(job, stepId, (step) => ({
    ...step,
    sets: { ...step.sets, [setId]: change(step.sets[setId] ?? {}) },
  }))

const secondSign = (job: Job, stepId: string, setId: string, second: NonNullable<SetState['second']>): Job =>
  changeSet(job, stepId, setId, (set) => ({ ...(set.first ? { first: set.first } : {}), second }))

function claimStep(job: Job, { stepId, by, doneAt, hidesKnowingly }: EventOf<'StepClaimed'>): Job {
  return changeStep(job, stepId, ({ stopped: _, ...step }) => ({
    ...step,
    claim: { by, doneAt, ...(hidesKnowingly ? { hidesKnowingly } : {}) },
  }))
}

/** Leaves a marker where the step stands; mid-pass, the joint waits for what its rule asks. */
function stop(job: Job, event: EventOf<'StepStopped' | 'StepHandedOver'>, to: string | undefined): Job {
  const { stepId, at, note, doneAt } = event
  const stopped = changeStep(job, stepId, ({ claim: _, stopped: __, ...step }) => ({
    ...step,
    ...(to === undefined ? {} : { claim: { by: to, doneAt } }),
    stopped: { ...signature(event), at, ...(note ? { note } : {}) },
  }))
  const broken = at.filter(({ midPass }) => midPass).map((mark) => [mark.jointId, mark] as const)
  return forgetScales(
    { ...stopped, interrupted: { ...job.interrupted, ...Object.fromEntries(broken) } },
    stepId,
  )
}

/** Also marks the joint's step as touched: a second signer who looked before has seen something else. */
function changeReadings(job: Job, jointId: string, change: (list: Reading[]) => Reading[]): Job {
  const changed = { ...job, readings: { ...job.readings, [jointId]: change(job.readings[jointId] ?? []) } }
  const step = job.plan && indexPlan(job.plan).stepOfJoint.get(jointId)
  return step ? changeStep(changed, step.id, (state) => state) : changed
}

function takeReading(job: Job, reading: Reading): Job {
  const joint = job.plan && indexPlan(job.plan).jointById.get(reading.jointId)
  const takenBack = reading.how === 'slackened' && joint?.passes[reading.pass - 1]?.kind !== 'slacken'
  const because = takenBack ? 'slackened' : 'retaken'
  return changeReadings(job, reading.jointId, (list) => [
    ...supersede(
      list,
      // A slackening that took a fastener back is no reading of a pass; nothing later voids it.
      (earlier) =>
        earlier.position === reading.position &&
        (takenBack || earlier.pass === reading.pass) &&
        (earlier.how !== 'slackened' || joint?.passes[earlier.pass - 1]?.kind === 'slacken'),
      { ...signature(reading), because },
    ),
    reading,
  ])
}

const supersede = (
  list: readonly Reading[],
  which: (reading: Reading) => boolean,
  superseded: NonNullable<Reading['superseded']>,
): Reading[] =>
  list.map((earlier) =>
    which(earlier) && !earlier.struck && !earlier.superseded ? { ...earlier, superseded } : earlier,
  )

/** What was read in this round from that pass on is void; the interruption is over if its rule was followed. */
function restartRound(job: Job, event: EventOf<'RoundRestarted'>): Job {
  const { jointId, positions, fromPass, how } = event
  const restarted = changeReadings(job, jointId, (list) =>
    supersede(list, (reading) => positions.includes(reading.position) && reading.pass >= fromPass, {
      ...signature(event),
      because: 'restarted',
    }),
  )
  const { [jointId]: mark, ...others } = restarted.interrupted
  const followed = !mark || mark.asks === 'nothing' || strength(how) >= strength(mark.asks)
  const settled = followed ? { ...restarted, interrupted: others } : restarted
  if (how !== 'new_fasteners') return settled
  return placeFasteners(settled, jointId, positions, {
    ...signature(event),
    condition: 'new',
    cycle: 1,
    flags: [],
  })
}

/** New fasteners do more than slackening, slackening more than going round again. */
const strength = (how: RestartHow): number => ['again', 'slackened', 'new_fasteners'].indexOf(how)

function placeFasteners(job: Job, jointId: string, positions: readonly number[], state: FastenerState): Job {
  const placed = Object.fromEntries(positions.map((position) => [position, state]))
  const changed = {
    ...job,
    fasteners: { ...job.fasteners, [jointId]: { ...job.fasteners[jointId], ...placed } },
  }
  return changeReadings(changed, jointId, (list) => list)
}

const supersedeMeasurements = (entries: MeasurementEntry[], now: MeasurementEntry): MeasurementEntry[] =>
  entries.map((entry) =>
    entry.measurementId === now.measurementId &&
    entry.place === now.place &&
    !entry.struck &&
    !entry.superseded
      ? { ...entry, superseded: { ...signature(now), because: 'retaken' as const } }
      : entry,
  )

/** The doer is through once every set carries their word. */
function endClaimWhenSigned(job: Job, stepId: string): Job {
  const step = job.plan && indexPlan(job.plan).stepById.get(stepId)
  const state = job.steps[stepId]
  if (!step || !state || !signatureSets(step).every((set) => state.sets[set.id]?.first)) return job
  return forgetScales(
    changeStep(job, stepId, ({ claim: _, stopped: __, ...rest }) => rest),
    stepId,
  )
}

/** After a stop the number on a scale is entered again: nobody knows who turned it meanwhile. */
function forgetScales(job: Job, stepId: string): Job {
  const { plan } = job
  if (!plan) return job
  const stepOf = indexPlan(plan).stepOfJoint
  const kept = Object.entries(job.scales).filter(([, entry]) => stepOf.get(entry.jointId)?.id !== stepId)
  return { ...job, scales: Object.fromEntries(kept) }
}
