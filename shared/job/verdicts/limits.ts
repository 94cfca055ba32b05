/**
 * Measurements outside their limits and counts that are wrong: each stands like a reading's flag until it is done
 * anew, struck or accepted. Views of the entries as they are; nothing is stored for it.
 */
import { type Led, leadsTo } from '../../measure'
import type { AdoptedStep, Gate, Measurement } from '../../plan/types'
import type { Figures } from '../../words'
import type { MeasurementEntry, PlannedJob, Signature, StepState } from '../types'
import { isWaived, standingMeasurement, stepState } from './state'

export type OffLimits =
  | { kind: 'measurement'; measurement: Measurement; entry: MeasurementEntry }
  | { kind: 'count'; gate: Extract<Gate, { kind: 'count' }>; answer: Signature & { count: number } }

/** What the numbers that stand lead to: the gasket, the shim, what to put right. Empty where the plan names nothing. */
export function leadsNow(state: StepState, measurement: Measurement, figures: Figures): Led[] {
  const values = measurement.places.flatMap((place) => {
    const entry = standingMeasurement(state, measurement.id, place)
    return entry ? [[place, entry.value] as const] : []
  })
  return leadsTo(measurement, Object.fromEntries(values), figures)
}

/** What stands against a step by its own numbers, in the plan's order. */
export function offLimits(job: PlannedJob, step: AdoptedStep): OffLimits[] {
  const state = stepState(job, step.id)
  const measurements = step.measurements.flatMap((measurement) =>
    measurement.places.flatMap((place): OffLimits[] => {
      const entry = standingMeasurement(state, measurement.id, place)
      return entry && !entry.inBand && !isWaived(job, { kind: 'measurement', entryId: entry.id })
        ? [{ kind: 'measurement', measurement, entry }]
        : []
    }),
  )
  const counts = step.gates.flatMap((gate): OffLimits[] => {
    const answer = state.gates[gate.id]
    if (gate.kind !== 'count' || answer?.count === undefined || answer.count === gate.expect) return []
    if (isWaived(job, { kind: 'gate', stepId: step.id, gateId: gate.id })) return []
    return [{ kind: 'count', gate, answer: { ...answer, count: answer.count } }]
  })
  return [...measurements, ...counts]
}
