/**
 * A job's record as sentences: one for each event, in the order they were recorded.
 *
 * Says what happened and no more; judgement stands in `verdicts.ts`. Old entries are said in the words of
 * today, from the values they carry.
 */
import type { Instant, StreamEvent } from '../log'
import { indexPlan, STEP_SET, signatureSets } from '../plan/read'
import type { Band } from '../plan/types'
import { formatNumber, showTorque } from '../units'
import { listed, type Words } from '../words'
import { flagWords } from './flags'
import type { Job, JobEvent, UnitSlip } from './types'

export interface TrailLine {
  version: number
  doneAt: Instant
  recordedAt: Instant
  by: string
  type: JobEvent['type']
  /** The step it belongs to; an event of the whole job has none. */
  stepId?: string
  sentence: string
}

/** `job` names what the event points at; the plan it follows never changes. */
export function trailLine(
  job: Job,
  { version, recordedAt, event }: StreamEvent<JobEvent>,
  words: Words,
): TrailLine {
  const { doneAt, by, type } = event
  const stepId = stepIdOf(job, event)
  return {
    version,
    doneAt,
    recordedAt,
    by,
    type,
    ...(stepId === undefined ? {} : { stepId }),
    sentence: sentence(job, event, words.person(by)),
  }
}

function stepIdOf(job: Job, event: JobEvent): string | undefined {
  if ('stepId' in event) return event.stepId
  return 'jointId' in event && job.plan ? indexPlan(job.plan).stepOfJoint.get(event.jointId)?.id : undefined
}

function sentence(job: Job, event: JobEvent, who: string): string {
  switch (event.type) {
    case 'JobOpened':
      return `${who} opened job ${event.number}: ${event.engine.model}, serial ${event.engine.serial}, for ${event.owner}. Agreed: ${event.agreed}.`
    case 'PlanAdopted':
      return `${who} adopted the plan ${event.plan.title}, edition ${event.plan.edition}.`
    case 'StepClaimed':
      return `${who} claimed ${stepName(job, event.stepId)}.`
    case 'StepPutDown':
      return `${who} put down ${stepName(job, event.stepId)}.`
    case 'ScaleEntered':
      return `${who} set ${event.wrenchId} to ${formatNumber(event.value)} ${event.unit} for ${jointName(job, event.jointId)}, pass ${event.pass}${applied(event)}${slip(event.slip)}.`
    case 'ReadingTaken':
      return `${place(job, event)}: ${who} ${reached(event)}${withWrench(event)}${band(event.band)}${flags(event)}${slip(event.slip)}.`
    case 'ReadingStruck':
      return `${who} struck a reading${struckPlace(job, event.jointId, event.readingId)}: ${event.reason}.`
    case 'MeasurementTaken':
      return `${measurementName(job, event.stepId, event.measurementId)} at ${event.place}: ${formatNumber(event.value, 6)}${unitOf(job, event)}, ${event.inBand ? 'within limits' : 'out of limits'}, with ${event.instrument}. ${who}.`
    case 'MeasurementStruck':
      return `${who} struck a measurement of ${stepName(job, event.stepId)}: ${event.reason}.`
    case 'GateAnswered':
      return `${who} answered “${gateText(job, event.stepId, event.gateId)}”${event.count === undefined ? '' : `: ${event.count}`}.`
    case 'StepSigned':
      return `${who} signed ${setName(job, event.stepId, event.setId)}.`
    case 'StepSecondSigned':
      return `${who} second-signed ${setName(job, event.stepId, event.setId)}${event.through === 'grant' ? ', by PIN on another’s tablet' : ''}${event.late ? ', late: it was hidden already' : ''}.`
    case 'SignaturesLapsed':
      return `The signatures on ${setName(job, event.stepId, event.setId)} lapsed: ${LAPSED[event.because]}.`
  }
}

const LAPSED: Record<Extract<JobEvent, { type: 'SignaturesLapsed' }>['because'], string> = {
  reading: 'a fastener was turned again',
  strike: 'an entry was struck',
  measurement: 'it was measured again',
  gate: 'an answer was given again',
}

type Taken = Extract<JobEvent, { type: 'ReadingTaken' }>
type Scale = Extract<JobEvent, { type: 'ScaleEntered' }>

const stepOf = (job: Job, stepId: string) => job.plan && indexPlan(job.plan).stepById.get(stepId)
const jointOf = (job: Job, jointId: string) => job.plan && indexPlan(job.plan).jointById.get(jointId)

function stepName(job: Job, stepId: string): string {
  const step = stepOf(job, stepId)
  return step ? `${stepId} ${step.title}` : stepId
}

function jointName(job: Job, jointId: string): string {
  const joint = jointOf(job, jointId)
  return joint ? `${joint.title} (${jointId})` : jointId
}

function setName(job: Job, stepId: string, setId: string): string {
  const step = stepOf(job, stepId)
  const set = step && setId !== STEP_SET ? signatureSets(step).find(({ id }) => id === setId) : undefined
  return set ? `${set.title} of ${stepName(job, stepId)}` : stepName(job, stepId)
}

function place(job: Job, { jointId, position, pass }: Taken): string {
  const joint = jointOf(job, jointId)
  const label = joint?.positions.find(({ n }) => n === position)?.label
  const passes = joint ? ` of ${joint.passes.length}` : ''
  return `${jointName(job, jointId)}, position ${position}${label ? ` (${label})` : ''}, pass ${pass}${passes}`
}

function reached({ how, torqueNm, angleDeg, value }: Taken): string {
  const torque = torqueNm === undefined ? undefined : `${showTorque(torqueNm, 'N·m')} N·m`
  if (how === 'slackened') return 'slackened it'
  if (how === 'turned') return `turned it ${formatNumber(angleDeg ?? value ?? 0)}°`
  if (how === 'clicked')
    return torque ? `clicked at ${torque}` : 'clicked, with no number entered for the scale'
  return `read ${torque ?? formatNumber(value ?? 0)}`
}

const withWrench = ({ wrenchId }: Taken): string => (wrenchId === undefined ? '' : ` with ${wrenchId}`)

function band(given: Band | null): string {
  if (!given) return ''
  if (given.kind === 'angle') return ` (band ${formatNumber(given.minDeg)}–${formatNumber(given.maxDeg)}°)`
  const { minNm, maxNm } = given
  return ` (band ${showTorque(minNm, 'N·m', [maxNm])}–${showTorque(maxNm, 'N·m', [minNm])} N·m)`
}

const flags = ({ flags: given }: Taken): string =>
  given.length === 0 ? '' : `; flagged: ${listed(given.map(flagWords))}`

const slip = (given: UnitSlip | undefined): string =>
  given
    ? `; held up: ${formatNumber(given.value)} ${given.readAs} misses the band, ${formatNumber(given.value)} ${given.fitsAs} would meet it`
    : ''

function applied({ adapter, appliesNm, unit, value }: Scale): string {
  if (!adapter && unit === 'N·m') return ''
  const through = adapter ? ' through its adapter' : ''
  return value === appliesNm ? through : `, which applies ${showTorque(appliesNm, 'N·m')} N·m${through}`
}

function struckPlace(job: Job, jointId: string, readingId: string): string {
  const reading = job.readings[jointId]?.find(({ id }) => id === readingId)
  return ` of ${jointName(job, jointId)}${reading ? `, position ${reading.position}, pass ${reading.pass}` : ''}`
}

function measurementName(job: Job, stepId: string, measurementId: string): string {
  return stepOf(job, stepId)?.measurements.find(({ id }) => id === measurementId)?.title ?? measurementId
}

function unitOf(job: Job, { stepId, measurementId }: { stepId: string; measurementId: string }): string {
  const unit = stepOf(job, stepId)?.measurements.find(({ id }) => id === measurementId)?.unit
  return unit ? ` ${unit}` : ''
}

const gateText = (job: Job, stepId: string, gateId: string): string =>
  stepOf(job, stepId)?.gates.find(({ id }) => id === gateId)?.text ?? gateId
