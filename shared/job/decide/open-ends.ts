/** What still stands open before a signature: fasteners, measurements, sealant, gates, deferrals due. */
import type { Instant, Refusal } from '../../log'
import { indexPlan } from '../../plan/read'
import type { AdoptedStep, Gate } from '../../plan/types'
import { allCured, sealantState } from '../clocks'
import { no } from '../context'
import type { RefusalCode } from '../refusals'
import { deferralOpen, deferralTitle } from '../release'
import type { PlannedJob } from '../types'
import {
  deferralsOf,
  isAccepted,
  isWaived,
  type SetView,
  setViews,
  standingMeasurement,
  stepState,
} from '../verdicts'

type Open = Refusal<RefusalCode> | undefined

/** The first joint with passes to go, else the first standing flag, else the first fastener that is not right. */
export function fastenersOpen(job: PlannedJob, view: SetView): Open {
  const { jointById } = indexPlan(job.plan)
  const named = (jointId: string) => {
    const { title = jointId, fastener = 'bolt' } = jointById.get(jointId) ?? {}
    return { joint: jointId, title, fastener }
  }
  const [open] = view.open
  if (open) {
    const { joint, nextPass } = open
    const same = view.open.filter((other) => other.joint === joint && other.nextPass === nextPass)
    return no('positions_open', {
      ...named(joint),
      positions: same.map(({ position }) => position),
      pass: nextPass,
      passes: jointById.get(joint)?.passes.length ?? 0,
    })
  }
  const [flagged] = view.flagged
  if (flagged) return no('flags_stand', { ...flagged, ...named(flagged.joint) })
  const [faulty] = view.faulty
  return faulty && no('fastener_not_right', { ...faulty, ...named(faulty.joint) })
}

export function measurementsOpen(job: PlannedJob, step: AdoptedStep): Open {
  const state = stepState(job, step.id)
  for (const { id, title, places, unit, min, max } of step.measurements) {
    const missing = places.filter((place) => !standingMeasurement(state, id, place))
    if (missing.length > 0) return no('measurement_missing', { title, places: missing })
    for (const place of places) {
      const entry = standingMeasurement(state, id, place)
      if (entry && !entry.inBand && !isWaived(job, { kind: 'measurement', entryId: entry.id }))
        return no('measurement_out_of_limits', { title, place, value: entry.value, unit, min, max })
    }
  }
  return undefined
}

/** A bead is laid, and closed within its window; it cures after the signature. */
export function sealantOpen(job: PlannedJob, step: AdoptedStep, now: Instant): Open {
  const { sealant } = step
  if (!sealant || isWaived(job, { kind: 'sealant', stepId: step.id })) return undefined
  const { state } = sealantState(job, step, now)
  const clock = stepState(job, step.id).sealant.at(-1)
  // A bead still open past its window may have been closed in time and not recorded; the last fastener says.
  const stands = state === 'late' && !clock?.closed ? 'open' : state
  if (stands !== 'not_started' && stands !== 'open' && stands !== 'late') return undefined
  return no('sealant_open', {
    stepId: step.id,
    state: stands,
    product: sealant.product,
    minutes: sealant.closeWithinMinutes,
  })
}

/** Photos do not stop a signature: their bytes may be slow. They stop the release. */
export function gatesOpen(job: PlannedJob, step: AdoptedStep, now: Instant): Open {
  const open = step.gates.find(
    (gate) =>
      !isWaived(job, { kind: 'gate', stepId: step.id, gateId: gate.id }) && !gateMet(job, step, gate, now),
  )
  return open && no('gate_open', { text: open.text })
}

export function gateMet(job: PlannedJob, step: AdoptedStep, gate: Gate, now: Instant): boolean {
  const answer = stepState(job, step.id).gates[gate.id]
  switch (gate.kind) {
    case 'look':
      return answer !== undefined
    case 'count':
      return answer?.count === gate.expect
    case 'proven':
      return gate.covers.every((fasteners) => isAccepted(job, fasteners))
    case 'cured':
      return allCured(job, gate.steps, now)
    case 'no_open_class_a':
      return noOpenClassA(job, step)
    case 'photo':
      return true
  }
}

/** Every class A joint of the steps before this one is proven or accepted. */
function noOpenClassA(job: PlannedJob, step: AdoptedStep): boolean {
  const { steps } = job.plan
  const before = steps.slice(
    0,
    steps.findIndex(({ id }) => id === step.id),
  )
  return before
    .filter((earlier) => earlier.joints.some((joint) => joint.class === 'A'))
    .every((earlier) => setViews(job, earlier).every((view) => view.accepted))
}

/** Left out elsewhere and due here. */
export function deferralsDue(job: PlannedJob, step: AdoptedStep): Open {
  const due = deferralsOf(job).filter(
    (deferral) =>
      deferral.dueStepId === step.id && deferral.what.kind === 'step' && deferralOpen(job, deferral),
  )
  return due.length > 0
    ? no('deferrals_due', { stepId: step.id, what: due.map((deferral) => deferralTitle(job, deferral)) })
    : undefined
}
