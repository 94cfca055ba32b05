/**
 * Old shapes of a job's events, lifted to today's when they are read; what is stored never changes.
 *
 * One line an event type, so that a new type without a line does not compile. `asStored` means that every
 * row ever written has today's shape. A lift runs after the hash was checked and must not fail.
 */
import { saysPlated } from '../plan/fasteners'
import type { Plan } from '../plan/types'
import type { JobEvent } from './events'

export type Lift = (stored: Record<string, unknown>) => Record<string, unknown>

export const asStored: Lift = (stored) => stored

/**
 * Older builds called zinc plating without a lubricant `plated`. Today that word asks what it is plated with, and no plan is
 * added with it (PC8): where it is stored, it means what it meant.
 */
export const liftPlan: Lift = (stored) => {
  const { plan } = stored as { plan?: Plan }
  if (!plan?.steps.some(({ joints }) => joints.some(saysPlated))) return stored
  const steps = plan.steps.map((step) => ({
    ...step,
    joints: step.joints.map((joint) =>
      saysPlated(joint) ? { ...joint, lubrication: 'zinc plated' } : joint,
    ),
  }))
  return { ...stored, plan: { ...plan, steps } }
}

const LIFTS: Record<JobEvent['type'], Lift> = {
  JobOpened: asStored,
  PlanAdopted: liftPlan,
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
