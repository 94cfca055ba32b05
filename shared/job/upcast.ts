/**
 * Old shapes of a job's events, lifted to today's when they are read; what is stored never changes.
 *
 * One line an event type, so that a new type without a line does not compile. `asStored` means that every
 * row ever written has today's shape. A lift runs after the hash was checked and must not fail.
 */
import type { JobEvent } from './events'

export type Lift = (stored: Record<string, unknown>) => Record<string, unknown>

export const asStored: Lift = (stored) => stored

const LIFTS: Record<JobEvent['type'], Lift> = {
  JobOpened: asStored,
  PlanAdopted: asStored,
  StepClaimed: asStored,
  StepPutDown: asStored,
  ScaleEntered: asStored,
  ReadingTaken: asStored,
  ReadingStruck: asStored,
  MeasurementTaken: asStored,
  MeasurementStruck: asStored,
  GateAnswered: asStored,
  StepSigned: asStored,
  StepSecondSigned: asStored,
  StepTakenOff: asStored,
  SignaturesLapsed: asStored,
  StepStopped: asStored,
  StepHandedOver: asStored,
  RoundCounted: asStored,
  RoundRestarted: asStored,
  FastenersPlaced: asStored,
  HoleRecorded: asStored,
  SealantStarted: asStored,
  SealantClosed: asStored,
  OwnWorkRechecked: asStored,
  LookNoted: asStored,
  HoldRaised: asStored,
  HoldChanged: asStored,
  HoldCleared: asStored,
  Deferred: asStored,
  DeferralWithdrawn: asStored,
  ValueSettled: asStored,
  Waived: asStored,
  Released: asStored,
  ReleaseWithdrawn: asStored,
  WarrantyOpened: asStored,
  WarrantyClosed: asStored,
  DatePromised: asStored,
  NoteAdded: asStored,
  PhotoAdded: asStored,
  PhotoArrived: asStored,
}

/** `undefined` for a type this build does not know: the log was written by a newer one. */
export function liftJobEvent(stored: { type: string }): JobEvent | undefined {
  if (!Object.hasOwn(LIFTS, stored.type)) return undefined
  return LIFTS[stored.type as JobEvent['type']]({ ...stored }) as unknown as JobEvent
}
