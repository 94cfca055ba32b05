/**
 * The fold: what a job is after one more event. Total: every event that was once appended folds, for ever.
 *
 * Returns a new job and shares what did not change, so that a screen sees by identity what moved. Nothing is
 * dropped: a struck or superseded reading stays in its list, marked.
 */
import type { Instant } from '../log'
import { indexPlan, signatureSets } from '../plan/read'
import type { Job, JobEvent, MeasurementEntry, Reading, StepState } from './types'

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
    scales: {},
    scaleLog: [],
  }
}

export function evolve(job: Job, event: JobEvent): Job {
  return fold({ ...job, version: job.version + 1 }, event)
}

export const evolveAll = (job: Job, events: readonly JobEvent[]): Job => events.reduce(evolve, job)

function fold(job: Job, event: JobEvent): Job {
  switch (event.type) {
    case 'JobOpened': {
      const { number, engine, owner, agreed, doneAt } = event
      return { ...job, number, engine, owner, agreed, openedAt: doneAt }
    }
    case 'PlanAdopted':
      return { ...job, plan: event.plan }
    case 'StepClaimed':
      return changeStep(job, event.stepId, (step) => ({
        ...step,
        claim: { by: event.by, doneAt: event.doneAt },
      }))
    case 'StepPutDown':
      return forgetScales(
        changeStep(job, event.stepId, ({ claim: _, ...step }) => step),
        event.stepId,
      )
    case 'ScaleEntered': {
      const { type: _, clockOffsetMs: __, ...entry } = event
      return {
        ...job,
        scales: { ...job.scales, [entry.wrenchId]: entry },
        scaleLog: [...job.scaleLog, entry],
      }
    }
    case 'ReadingTaken':
      return takeReading(job, event)
    case 'ReadingStruck': {
      const { by, doneAt, reason } = event
      return changeReadings(job, event.jointId, (list) =>
        list.map((reading) =>
          reading.id === event.readingId ? { ...reading, struck: { by, doneAt, reason } } : reading,
        ),
      )
    }
    case 'MeasurementTaken': {
      const { type: _, clockOffsetMs: __, ...entry } = event
      return changeStep(job, entry.stepId, (step) => ({
        ...step,
        measurements: [...supersedeMeasurements(step.measurements, entry), entry],
      }))
    }
    case 'MeasurementStruck': {
      const { by, doneAt, reason } = event
      return changeStep(job, event.stepId, (step) => ({
        ...step,
        measurements: step.measurements.map((entry) =>
          entry.id === event.entryId ? { ...entry, struck: { by, doneAt, reason } } : entry,
        ),
      }))
    }
    case 'GateAnswered': {
      const { by, doneAt, count, gateId } = event
      const answer = count === undefined ? { by, doneAt } : { by, doneAt, count }
      return changeStep(job, event.stepId, (step) => ({
        ...step,
        gates: { ...step.gates, [gateId]: answer },
      }))
    }
    case 'StepSigned':
      return endClaimWhenSigned(
        changeSet(job, event.stepId, event.setId, { first: { by: event.by, doneAt: event.doneAt } }),
        event.stepId,
      )
    case 'StepSecondSigned': {
      const { by, doneAt, through, late, stepId, setId } = event
      const first = job.steps[stepId]?.sets[setId]?.first
      const second = late ? { by, doneAt, through, late } : { by, doneAt, through }
      return changeSet(job, stepId, setId, first ? { first, second } : { second })
    }
    case 'SignaturesLapsed':
      return changeSet(job, event.stepId, event.setId, {})
  }
}

function changeStep(job: Job, stepId: string, change: (step: StepState) => StepState): Job {
  const step = job.steps[stepId] ?? { sets: {}, measurements: [], gates: {}, touchedAt: 0 }
  return { ...job, steps: { ...job.steps, [stepId]: { ...change(step), touchedAt: job.version } } }
}

const changeSet = (job: Job, stepId: string, setId: string, set: StepState['sets'][string]): Job =>
  changeStep(job, stepId, (step) => ({ ...step, sets: { ...step.sets, [setId]: set } }))

/** Also marks the joint's step as touched: a second signer who looked before has seen something else. */
function changeReadings(job: Job, jointId: string, change: (list: Reading[]) => Reading[]): Job {
  const changed = { ...job, readings: { ...job.readings, [jointId]: change(job.readings[jointId] ?? []) } }
  const step = job.plan && indexPlan(job.plan).stepOfJoint.get(jointId)
  return step ? changeStep(changed, step.id, (state) => state) : changed
}

function takeReading(job: Job, event: Extract<JobEvent, { type: 'ReadingTaken' }>): Job {
  const { type: _, clockOffsetMs: __, ...reading } = event
  const joint = job.plan && indexPlan(job.plan).jointById.get(reading.jointId)
  const takenBack = reading.how === 'slackened' && joint?.passes[reading.pass - 1]?.kind !== 'slacken'
  const because = takenBack ? 'slackened' : 'retaken'
  const { by, doneAt } = reading
  return changeReadings(job, reading.jointId, (list) => [
    ...list.map((earlier) =>
      earlier.position === reading.position &&
      (takenBack || earlier.pass === reading.pass) &&
      !earlier.struck &&
      !earlier.superseded
        ? { ...earlier, superseded: { by, doneAt, because } as const }
        : earlier,
    ),
    reading,
  ])
}

const supersedeMeasurements = (entries: MeasurementEntry[], now: MeasurementEntry): MeasurementEntry[] =>
  entries.map((entry) =>
    entry.measurementId === now.measurementId &&
    entry.place === now.place &&
    !entry.struck &&
    !entry.superseded
      ? { ...entry, superseded: { by: now.by, doneAt: now.doneAt as Instant, because: 'retaken' as const } }
      : entry,
  )

/** The doer is through once every set carries their word. */
function endClaimWhenSigned(job: Job, stepId: string): Job {
  const step = job.plan && indexPlan(job.plan).stepById.get(stepId)
  const state = job.steps[stepId]
  if (!step || !state || !signatureSets(step).every((set) => state.sets[set.id]?.first)) return job
  return forgetScales(
    changeStep(job, stepId, ({ claim: _, ...rest }) => rest),
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
