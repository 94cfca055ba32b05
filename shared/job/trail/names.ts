/** What the trail calls the steps, joints, sets, measurements and gates that events point at. */
import { indexPlan, STEP_SET, signatureSets } from '../../plan/read'
import { unitAfter } from '../../units'
import { fastenersInWords, listed, unended } from '../../words'
import type { Deferred, Job, Waived } from '../types'
import { readingById } from '../verdicts/reading-index'

export const stepOf = (job: Job, stepId: string) => job.plan && indexPlan(job.plan).stepById.get(stepId)
export const jointOf = (job: Job, jointId: string) => job.plan && indexPlan(job.plan).jointById.get(jointId)

export function stepName(job: Job, stepId: string): string {
  const step = stepOf(job, stepId)
  return step ? `${stepId} ${unended(step.title)}` : stepId
}

export function jointName(job: Job, jointId: string): string {
  return jointOf(job, jointId)?.title ?? jointId
}

/** `Rocker box stud nuts, nuts 3, 5`. */
export const fastenersName = (job: Job, jointId: string, positions: readonly number[]): string =>
  `${jointName(job, jointId)}, ${fastenersInWords(jointOf(job, jointId)?.fastener ?? 'bolt', positions)}`

export function setName(job: Job, stepId: string, setId: string): string {
  const step = stepOf(job, stepId)
  const set = step && setId !== STEP_SET ? signatureSets(step).find(({ id }) => id === setId) : undefined
  return set ? `${set.title} of ${stepName(job, stepId)}` : stepName(job, stepId)
}

export function struckPlace(job: Job, jointId: string, readingId: string): string {
  const reading = readingById(job, readingId)
  return ` of ${reading ? `${fastenersName(job, jointId, [reading.position])}, pass ${reading.pass}` : jointName(job, jointId)}`
}

export function measurementName(job: Job, stepId: string, measurementId: string): string {
  return stepOf(job, stepId)?.measurements.find(({ id }) => id === measurementId)?.title ?? measurementId
}

export function unitOf(
  job: Job,
  { stepId, measurementId }: { stepId: string; measurementId: string },
): string {
  const unit = stepOf(job, stepId)?.measurements.find(({ id }) => id === measurementId)?.unit
  return unit ? unitAfter(unit) : ''
}

export const gateText = (job: Job, stepId: string, gateId: string): string =>
  stepOf(job, stepId)?.gates.find(({ id }) => id === gateId)?.text ?? gateId

/** What was left out on purpose. */
export function deferredName(job: Job, what: Deferred): string {
  return what.kind === 'step' ? stepName(job, what.stepId) : fastenersName(job, what.joint, what.positions)
}

/** What was accepted. */
export function waivedName(job: Job, what: Waived): string {
  switch (what.kind) {
    case 'reading': {
      const reading = readingById(job, what.readingId)
      return reading
        ? `the reading of ${fastenersName(job, reading.jointId, [reading.position])}, pass ${reading.pass}`
        : 'a reading'
    }
    case 'fastener':
      return `${fastenersName(job, what.jointId, [what.position])}, as fitted`
    case 'measurement':
      return 'a measurement'
    case 'second':
      return `that ${setName(job, what.stepId, what.setId)} has no second signature`
    case 'hiding':
      return `that ${stepName(job, what.stepId)} covers what is not signed off`
    case 'sealant':
      return `the sealant of ${stepName(job, what.stepId)}`
    case 'gate':
      return `“${gateText(job, what.stepId, what.gateId)}” of ${stepName(job, what.stepId)}`
  }
}

export const stepNames = (job: Job, stepIds: readonly string[]): string =>
  listed(stepIds.map((id) => stepName(job, id)))
