/** The doer's word, and the second person's. A signature covers one set; every check names what is open. */

import type { Refusal } from '../../log'
import { indexPlan, type SignatureSetView, signatureSets, stepClass } from '../../plan/read'
import type { AdoptedStep } from '../../plan/types'
import { mayDo, maySecondSign } from '../../shop/entitlement'
import { type Context, done, no, type Outcome, type PlannedJob, personOf } from '../context'
import type { RefusalCode } from '../refusals'
import type { JobCommand } from '../types'
import {
  hiddenBy,
  isProven,
  type SetView,
  setView,
  standingMeasurement,
  standingReading,
  stepState,
} from '../verdicts'

type Command<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>
type Found = { step: AdoptedStep; set: SignatureSetView }

/** [SG1–SG13] */
export function signStep(job: PlannedJob, command: Command<'SignStep'>, context: Context): Outcome {
  const found = find(job, command)
  if ('refused' in found) return found
  const { step, set } = found
  const view = setView(job, step, set)
  const { first } = view.state
  if (first?.by === context.by) return []
  if (first) return no('step_already_signed', { stepId: step.id, by: first.by })
  const { claim } = stepState(job, step.id)
  if (claim?.by !== context.by) return no('not_your_step', { stepId: step.id, by: claim?.by })
  const person = personOf(context)
  const cls = stepClass(step)
  if (!person || !mayDo(person, cls, job.plan.family))
    return no('not_entitled', { stepId: step.id, class: cls, family: job.plan.family })
  return (
    namedSetsFirst(job, step, set) ??
    fastenersOpen(step, view) ??
    (set.remainder ? (measurementsOpen(job, step) ?? gatesOpen(job, step)) : undefined) ?? [
      { type: 'StepSigned', ...done(context), stepId: step.id, setId: set.id },
    ]
  )
}

/** [SS1–SS11] Another person, entitled, after the first, having looked at what stands now. */
export function secondSignStep(
  job: PlannedJob,
  command: Command<'SecondSignStep'>,
  context: Context,
): Outcome {
  const found = find(job, command)
  if ('refused' in found) return found
  const { step, set } = found
  if (step.signatures === 1) return no('no_second_asked', { stepId: step.id })
  const view = setView(job, step, set)
  const { first, second } = view.state
  if (second?.by === context.by) return []
  if (second) return no('already_second_signed', { stepId: step.id, by: second.by, at: second.doneAt })
  if (!first) return no('not_signed_yet', { stepId: step.id, setId: set.id })
  if (first.by === context.by || workedOn(job, step, set, context.by))
    return no('own_work', { stepId: step.id, by: context.by })
  const person = personOf(context)
  const cls = stepClass(step)
  if (!person || !maySecondSign(person, cls, job.plan.family))
    return no('not_entitled_to_second', { stepId: step.id, class: cls, family: job.plan.family })
  const open = fastenersOpen(step, view)
  if (open) return open
  if (context.sawVersion !== undefined && context.sawVersion < stepState(job, step.id).touchedAt)
    return no('changed_since_look', { stepId: step.id })
  const late = set.covers.some(({ joint, positions }) => hiddenBy(job, joint, positions).length > 0)
  const { through } = context
  return [
    {
      type: 'StepSecondSigned',
      ...done(context),
      stepId: step.id,
      setId: set.id,
      through,
      ...(late ? { late } : {}),
    },
  ]
}

/** The step and set a signature names; a step with one set need not name it. */
function find(
  job: PlannedJob,
  { stepId, setId }: { stepId: string; setId?: string },
): Found | Refusal<RefusalCode> {
  const step = indexPlan(job.plan).stepById.get(stepId)
  if (!step) return no('step_not_found', { stepId })
  const sets = signatureSets(step)
  const set =
    sets.find(({ id }) => id === (setId ?? 'step')) ?? (sets.length === 1 && !setId ? sets[0] : undefined)
  return set
    ? { step, set }
    : no('set_not_found', { stepId, setId: setId ?? 'step', sets: sets.map(({ id }) => id) })
}

/** The step's own signature says that the whole is done, so the caps are signed before it. */
function namedSetsFirst(
  job: PlannedJob,
  step: AdoptedStep,
  set: SignatureSetView,
): Refusal<RefusalCode> | undefined {
  if (!set.remainder) return undefined
  const { sets } = stepState(job, step.id)
  const unsigned = signatureSets(step).filter((other) => !other.remainder && !sets[other.id]?.first)
  return unsigned.length > 0
    ? no('sets_first', { stepId: step.id, sets: unsigned.map(({ title }) => title) })
    : undefined
}

/** The first joint with passes to go, else the first flag that stands. */
export function fastenersOpen(step: AdoptedStep, view: SetView): Refusal<RefusalCode> | undefined {
  const [firstOpen] = view.open
  if (firstOpen) {
    const joint = step.joints.find(({ id }) => id === firstOpen.joint)
    const same = view.open.filter(
      (open) => open.joint === firstOpen.joint && open.nextPass === firstOpen.nextPass,
    )
    return no('positions_open', {
      joint: firstOpen.joint,
      title: joint?.title ?? firstOpen.joint,
      positions: same.map(({ position }) => position),
      pass: firstOpen.nextPass,
      passes: joint?.passes.length ?? 0,
    })
  }
  const [flagged] = view.flagged
  if (!flagged) return undefined
  const title = step.joints.find(({ id }) => id === flagged.joint)?.title ?? flagged.joint
  return no('flags_stand', { joint: flagged.joint, title, position: flagged.position, flags: flagged.flags })
}

export function measurementsOpen(job: PlannedJob, step: AdoptedStep): Refusal<RefusalCode> | undefined {
  const state = stepState(job, step.id)
  for (const { id, title, places, unit, min, max } of step.measurements) {
    const missing = places.filter((place) => !standingMeasurement(state, id, place))
    if (missing.length > 0) return no('measurement_missing', { title, places: missing })
    for (const place of places) {
      const entry = standingMeasurement(state, id, place)
      if (entry && !entry.inBand)
        return no('measurement_out_of_limits', { title, place, value: entry.value, unit, min, max })
    }
  }
  return undefined
}

/**
 * Gates answered by hand, and those reckoned from signatures. Photos and cures have rules of their own
 * in later rooms and do not stop this signature.
 */
export function gatesOpen(job: PlannedJob, step: AdoptedStep): Refusal<RefusalCode> | undefined {
  const { gates } = stepState(job, step.id)
  for (const gate of step.gates) {
    const { kind, id, text } = gate
    const open =
      (kind === 'look' && !gates[id]) ||
      (kind === 'count' && gates[id]?.count !== gate.expect) ||
      (kind === 'proven' && !gate.covers.every((fasteners) => isProven(job, fasteners)))
    if (open) return no('gate_open', { text })
  }
  return undefined
}

/** Whoever took a standing reading in the set did part of the work and cannot be the one who looked. */
function workedOn(job: PlannedJob, step: AdoptedStep, set: SignatureSetView, by: string): boolean {
  return set.covers.some(({ joint: jointId, positions }) => {
    const joint = step.joints.find(({ id }) => id === jointId)
    return (
      joint?.passes.some((_, index) =>
        positions.some((position) => standingReading(job, joint, position, index + 1)?.by === by),
      ) ?? false
    )
  })
}
