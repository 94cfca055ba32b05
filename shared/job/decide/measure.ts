/** Measurements and the gates a person answers: facts, judged against their limits, never refused for a number. */
import { indexPlan } from '../../plan/read'
import type { CommandOf } from '../commands'
import { type Context, done, entryId, no, type Outcome } from '../context'
import type { PlannedJob } from '../types'
import { stepState } from '../verdicts'
import { ownSetLapses } from './lapse'
import { mayStrike } from './reading'

/** [ME1–ME5] */
export function takeMeasurement(
  job: PlannedJob,
  command: CommandOf<'TakeMeasurement'>,
  context: Context,
): Outcome {
  const { stepId, measurementId, place, value, instrument } = command
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const measurement = step.measurements.find(({ id }) => id === measurementId)
  if (!measurement) return no('measurement_not_found', { stepId, measurementId })
  if (!measurement.places.includes(place))
    return no('place_not_found', { what: measurement.title, place, places: measurement.places })
  const inBand =
    (measurement.min === undefined || value >= measurement.min) &&
    (measurement.max === undefined || value <= measurement.max)
  const measurements = stepState(job, stepId).measurements
  return [
    {
      type: 'MeasurementTaken',
      ...done(context),
      id: entryId(context.commandId, (id) => measurements.some((entry) => entry.id === id)),
      stepId,
      measurementId,
      place,
      value,
      instrument,
      inBand,
    },
    ...ownSetLapses(job, step, 'measurement', context),
  ]
}

/** [ME6–ME9] */
export function strikeMeasurement(
  job: PlannedJob,
  command: CommandOf<'StrikeMeasurement'>,
  context: Context,
): Outcome {
  const { entryId: id, reason } = command
  const step = job.plan.steps.find(({ id: stepId }) =>
    stepState(job, stepId).measurements.some((entry) => entry.id === id),
  )
  const entry = step && stepState(job, step.id).measurements.find((candidate) => candidate.id === id)
  if (!step || !entry) return no('entry_not_found', { entryId: id })
  if (entry.struck) return []
  if (!mayStrike(context, entry.by)) return no('not_yours_to_strike', { by: entry.by })
  return [
    { type: 'MeasurementStruck', ...done(context), stepId: step.id, entryId: id, reason },
    ...ownSetLapses(job, step, 'strike', context),
  ]
}

/** [GA1–GA5] A count or a look; the other gates are reckoned from the record. */
export function answerGate(job: PlannedJob, command: CommandOf<'AnswerGate'>, context: Context): Outcome {
  const { stepId, gateId, count } = command
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const gate = step.gates.find(({ id }) => id === gateId)
  if (!gate) return no('gate_not_found', { stepId, gateId })
  if (gate.kind !== 'count' && gate.kind !== 'look')
    return no('gate_not_for_answering', { gateId, kind: gate.kind })
  const earlier = stepState(job, stepId).gates[gateId]
  if (earlier?.by === context.by && earlier.count === count) return []
  return [
    { type: 'GateAnswered', ...done(context), stepId, gateId, ...(count === undefined ? {} : { count }) },
    ...ownSetLapses(job, step, 'gate', context),
  ]
}
