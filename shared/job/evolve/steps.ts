/** What claims, stops, measurements, sealant and signatures do to a step. */
import { indexPlan, signatureSets } from '../../plan/read'
import type { EventOf } from '../events'
import type { Job, MeasurementEntry, SetState } from '../types'
import { addMark, changeSet, changeStep, forgetScales, lapseWaivers, signature } from './parts'

export function claimStep(job: Job, { stepId, by, doneAt, hidesKnowingly }: EventOf<'StepClaimed'>): Job {
  return changeStep(job, stepId, ({ stopped: _, ...step }) => ({
    ...step,
    claim: { by, doneAt, ...(hidesKnowingly ? { hidesKnowingly } : {}) },
  }))
}

/** Left with nothing broken off, so an older marker says nothing any more. */
export const putDownStep = (job: Job, { stepId }: EventOf<'StepPutDown'>): Job =>
  forgetScales(
    changeStep(job, stepId, ({ claim: _, stopped: __, ...step }) => step),
    stepId,
  )

/** Leaves a marker where the step stands; a round broken off mid-pass waits for what its rule asks. */
export function stopStep(job: Job, event: EventOf<'StepStopped' | 'StepHandedOver'>): Job {
  const { stepId, at, note, doneAt } = event
  const stopped = changeStep(job, stepId, ({ claim: _, stopped: __, ...step }) => ({
    ...step,
    ...(event.type === 'StepHandedOver' ? { claim: { by: event.to, doneAt } } : {}),
    stopped: { ...signature(event), at, ...(note ? { note } : {}) },
  }))
  const interrupted = { ...job.interrupted }
  for (const mark of at)
    if (mark.midPass) interrupted[mark.jointId] = addMark(interrupted[mark.jointId] ?? [], mark)
  return forgetScales({ ...stopped, interrupted }, stepId)
}

export function takeMeasurement(job: Job, event: EventOf<'MeasurementTaken'>): Job {
  const { type: _, clockOffsetMs: __, ...entry } = event
  const retaken = { ...signature(entry), because: 'retaken' as const }
  const supersede = (earlier: MeasurementEntry) =>
    earlier.measurementId === entry.measurementId &&
    earlier.place === entry.place &&
    !earlier.struck &&
    !earlier.superseded
      ? { ...earlier, superseded: retaken }
      : earlier
  return changeStep(job, entry.stepId, ({ takenOff: _, ...step }) => ({
    ...step,
    measurements: [...step.measurements.map(supersede), entry],
  }))
}

export const strikeMeasurement = (job: Job, event: EventOf<'MeasurementStruck'>): Job =>
  changeStep(job, event.stepId, (step) => ({
    ...step,
    measurements: step.measurements.map((entry) =>
      entry.id === event.entryId
        ? { ...entry, struck: { ...signature(event), reason: event.reason } }
        : entry,
    ),
  }))

export const startSealant = (job: Job, event: EventOf<'SealantStarted'>): Job =>
  lapseWaivers(
    changeStep(job, event.stepId, ({ takenOff: _, ...step }) => ({
      ...step,
      sealant: [...step.sealant, { started: signature(event) }],
    })),
    [{ kind: 'sealant', stepId: event.stepId }],
    event,
  )

export const closeSealant = (job: Job, event: EventOf<'SealantClosed'>): Job =>
  changeStep(job, event.stepId, (step) => ({
    ...step,
    sealant: step.sealant.map((clock, index) =>
      index === step.sealant.length - 1 ? { ...clock, closed: signature(event) } : clock,
    ),
  }))

/** The counts and looks were of the cover as it was on: when it goes on again they are taken again. */
export function takeOff(job: Job, event: EventOf<'StepTakenOff'>): Job {
  const { stepId } = event
  const gates = (job.plan && indexPlan(job.plan).stepById.get(stepId)?.gates) ?? []
  return lapseWaivers(
    changeStep(job, stepId, (step) => ({ ...step, gates: {}, takenOff: signature(event) })),
    gates.map(({ id }) => ({ kind: 'gate' as const, stepId, gateId: id })),
    event,
  )
}

export const signStep = (job: Job, event: EventOf<'StepSigned'>): Job => {
  const { stepId, setId } = event
  const on = changeStep(job, stepId, ({ takenOff: _, ...step }) => step)
  return endClaimWhenSigned(
    changeSet(on, stepId, setId, (set) => ({ ...lapsedOf(set), first: signature(event) })),
    event,
  )
}

export const secondSign = (
  job: Job,
  stepId: string,
  setId: string,
  second: NonNullable<SetState['second']>,
): Job =>
  changeSet(job, stepId, setId, (set) => ({
    ...lapsedOf(set),
    ...(set.first ? { first: set.first } : {}),
    second,
  }))

const lapsedOf = ({ lapsed }: SetState): Pick<SetState, 'lapsed'> => (lapsed === undefined ? {} : { lapsed })

export const lapseSignatures = (job: Job, event: EventOf<'SignaturesLapsed'>): Job =>
  lapseWaivers(
    changeSet(job, event.stepId, event.setId, ({ lapsed = 0 }) => ({ lapsed: lapsed + 1 })),
    [{ kind: 'second', stepId: event.stepId, setId: event.setId }],
    event,
  )

/** The doer is through once every set carries their word; what was waived so that they could begin is used up. */
function endClaimWhenSigned(job: Job, event: EventOf<'StepSigned'>): Job {
  const { stepId } = event
  const step = job.plan && indexPlan(job.plan).stepById.get(stepId)
  const state = job.steps[stepId]
  if (!step || !state || !signatureSets(step).every((set) => state.sets[set.id]?.first)) return job
  const through = changeStep(job, stepId, ({ claim: _, stopped: __, ...rest }) => rest)
  return answerCase(forgetScales(lapseWaivers(through, [{ kind: 'hiding', stepId }], event), stepId), event)
}

/** Work signed through after a complaint answers it. */
function answerCase(job: Job, event: EventOf<'StepSigned'>): Job {
  const last = job.warranties.at(-1)
  if (!last) return job
  const work = { ...signature(event), stepId: event.stepId }
  return { ...job, warranties: [...job.warranties.slice(0, -1), { ...last, work }] }
}
