/** What the fold holds of a step, and which of its entries and waivers count. */
import type { Job, MeasurementEntry, PlannedJob, StepState, Waived } from '../types'

const NOTHING: StepState = { sets: {}, measurements: [], gates: {}, sealant: [], touchedAt: 0 }

export const stepState = (job: PlannedJob, stepId: string): StepState => job.steps[stepId] ?? NOTHING

/** Neither struck nor superseded. */
export const stands = (entry: { struck?: unknown; superseded?: unknown }): boolean =>
  !entry.struck && !entry.superseded

/** A waiver counts until what it accepted is done anew. */
export const isWaived = (job: Job, what: Waived): boolean =>
  job.waivers.some(({ what: waived, lapsed }) => !lapsed && sameWaived(waived, what))

export const sameWaived = (a: Waived, b: Waived): boolean =>
  Object.entries(a).every(([key, value]) => (b as Record<string, unknown>)[key] === value)

/** The entry a place has for a measurement, if one stands. */
export function standingMeasurement(
  state: StepState,
  measurementId: string,
  place: string,
): MeasurementEntry | undefined {
  return state.measurements.findLast(
    (entry) => entry.measurementId === measurementId && entry.place === place && stands(entry),
  )
}
