/** The doer's word, and the second person's. A signature covers one set; every check names what is open. */
import { isRefusal, type Refusal } from '../../log'
import { lookUp } from '../../look-up'
import { indexPlan, type SignatureSetView, signatureSets } from '../../plan/read'
import type { AdoptedStep } from '../../plan/types'
import { mayDo, maySecondSign } from '../../shop/entitlement'
import type { CommandOf } from '../commands'
import { type Context, done, no, type Outcome, personOf } from '../context'
import type { LookFlag } from '../kinds'
import { lookedAt } from '../looked-at'
import type { RefusalCode } from '../refusals'
import type { PlannedJob, Signature } from '../types'
import {
  classAsked,
  hiddenBy,
  lastSetId,
  openHolds,
  type SetView,
  setView,
  standingReading,
  stands,
  stepState,
} from '../verdicts'
import { deferralsDue, fastenersOpen, gatesOpen, measurementsOpen, sealantOpen } from './open-ends'

type SigningTarget = { step: AdoptedStep; set: SignatureSetView }

/** [SG1–SG17] */
export function signStep(job: PlannedJob, command: CommandOf<'SignStep'>, context: Context): Outcome {
  const target = find(job, command)
  if ('refused' in target) return target
  const { step, set } = target
  const view = setView(job, step, set)
  const { first } = view.state
  if (first?.by === context.by) return []
  if (first) return no('step_already_signed', { stepId: step.id, by: first.by })
  const { claim } = stepState(job, step.id)
  if (claim?.by !== context.by) return no('not_your_step', { stepId: step.id, by: claim?.by })
  const person = personOf(context)
  const cls = classAsked(job, step)
  if (!person || !mayDo(person, cls, job.plan.family))
    return no('not_entitled', { stepId: step.id, class: cls, family: job.plan.family })
  const [hold] = openHolds(job, step.id)
  if (hold)
    return no('on_hold', { stepId: step.id, kind: hold.kind, what: hold.what, expectedAt: hold.expectedAt })
  const last = lastSetId(step) === set.id
  return (
    namedSetsFirst(job, step, set) ??
    fastenersOpen(job, view) ??
    (set.remainder
      ? (measurementsOpen(job, step) ??
        sealantOpen(job, step, context.doneAt) ??
        gatesOpen(job, step, context.doneAt))
      : undefined) ??
    (last ? deferralsDue(job, step) : undefined) ?? [
      { type: 'StepSigned', ...done(context), stepId: step.id, setId: set.id },
    ]
  )
}

/** [SS1–SS11] Another person, entitled, after the first, having looked at what stands now; [SS20–SS23] by a sealed PIN. */
export function secondSignStep(
  job: PlannedJob,
  command: CommandOf<'SecondSignStep'>,
  context: Context,
): Outcome {
  const { look } = command
  return look ? bySealedPin(job, command, look, context) : secondSigned(job, command, context)
}

function secondSigned(job: PlannedJob, command: CommandOf<'SecondSignStep'>, context: Context): Outcome {
  const owed = secondOwed(job, command, context)
  if (!('first' in owed)) return owed
  const { step, set, view, first } = owed
  if (first.by === context.by || workedOn(job, step, view, context.by))
    return no('own_work', { stepId: step.id, by: context.by })
  const person = personOf(context)
  const cls = classAsked(job, step)
  if (!person || !maySecondSign(person, cls, job.plan.family))
    return no('not_entitled_to_second', {
      stepId: step.id,
      by: context.by,
      class: cls,
      family: job.plan.family,
    })
  const open = fastenersOpen(job, view)
  if (open) return open
  if (changedSinceLook(job, owed, context)) return no('changed_since_look', { stepId: step.id })
  const { through } = context
  const late = isLate(job, view) ? { late: true as const } : {}
  return [{ type: 'StepSecondSigned', ...done(context), stepId: step.id, setId: set.id, through, ...late }]
}

/** By the digest of what was looked at; a page of an older build says the version. */
function changedSinceLook(
  job: PlannedJob,
  { step, set }: SigningTarget,
  { sawDigest, sawVersion, sha256 }: Context,
): boolean {
  if (sawDigest !== undefined) return sha256 !== undefined && sha256(lookedAt(job, step, set)) !== sawDigest
  return sawVersion !== undefined && sawVersion < stepState(job, step.id).touchedAt
}

/** [SS20–SS23] Never refused once it names what is there: what is no signature was still a look, and says why it is none. */
function bySealedPin(
  job: PlannedJob,
  command: CommandOf<'SecondSignStep'>,
  { personId, digest }: { personId: string; digest: string },
  context: Context,
): Outcome {
  const target = find(job, command)
  if ('refused' in target) return target
  const { step, set } = target
  if (!lookUp(context.shop.people, personId)) return no('person_unknown', { by: personId })
  const noted = (flag?: LookFlag): Outcome => [
    {
      type: 'LookNoted',
      ...done(context),
      stepId: step.id,
      setId: set.id,
      personId,
      ...(flag ? { flag } : {}),
    },
  ]
  const { pin } = context
  if (pin === undefined) return noted()
  if (pin !== 'right') return noted(pin === 'wrong' ? 'wrong_pin' : 'pin_unreadable')
  if (changedSinceLook(job, target, { ...context, sawDigest: digest })) return noted('changed')
  const outcome = secondSigned(job, command, context)
  if (!isRefusal(outcome)) return outcome
  return noted(outcome.refused === 'already_second_signed' ? 'second_stands' : 'not_allowed')
}

/** [SS12–SS15] The same hand looking again, later, where the shop allows it; never class A; recorded as such. */
export function recheckOwnWork(
  job: PlannedJob,
  command: CommandOf<'RecheckOwnWork'>,
  context: Context,
): Outcome {
  const owed = secondOwed(job, command, context)
  if (!('first' in owed)) return owed
  const { step, set, view, first } = owed
  const { selfRecheck } = context.shop
  if (!selfRecheck.allowed) return no('recheck_not_allowed', { stepId: step.id, why: 'off' })
  if (classAsked(job, step) === 'A') return no('recheck_not_allowed', { stepId: step.id, why: 'class_a' })
  if (first.by !== context.by) return no('recheck_not_allowed', { stepId: step.id, why: 'not_the_doer' })
  const from = first.doneAt + selfRecheck.afterMinutes * 60_000
  if (context.doneAt < from) return no('recheck_too_soon', { stepId: step.id, from })
  const late = isLate(job, view) ? { late: true as const } : {}
  return (
    fastenersOpen(job, view) ?? [
      { type: 'OwnWorkRechecked', ...done(context), stepId: step.id, setId: set.id, ...late },
    ]
  )
}

/** What both ways to a second signature ask first: one is owed on this set, and its doer has signed. */
function secondOwed(
  job: PlannedJob,
  command: { stepId: string; setId?: string },
  context: Context,
): (SigningTarget & { view: SetView; first: Signature }) | Outcome {
  const target = find(job, command)
  if ('refused' in target) return target
  const { step, set } = target
  const view = setView(job, step, set)
  if (view.asks === 1) return no('no_second_asked', { stepId: step.id })
  const { first, second } = view.state
  if (second?.by === context.by) return []
  if (second) return no('already_second_signed', { stepId: step.id, by: second.by, at: second.doneAt })
  if (!first) return no('not_signed_yet', { stepId: step.id, setId: set.id })
  return { step, set, view, first }
}

/** [SS16–SS19] Somebody looked while the server was out of reach: noted, and a signature only once their PIN is here. */
export function noteLook(job: PlannedJob, command: CommandOf<'NoteLook'>, context: Context): Outcome {
  const target = find(job, command)
  if ('refused' in target) return target
  const { step, set } = target
  const { personId } = command
  if (!lookUp(context.shop.people, personId)) return no('person_unknown', { by: personId })
  const noted = stepState(job, step.id).sets[set.id]?.look
  if (noted?.personId === personId && !noted.flag) return []
  return [{ type: 'LookNoted', ...done(context), stepId: step.id, setId: set.id, personId }]
}

/** The step and set a signature names; a step with one set need not name it. */
function find(
  job: PlannedJob,
  { stepId, setId }: { stepId: string; setId?: string },
): SigningTarget | Refusal<RefusalCode> {
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

/**
 * Whoever did part of the work cannot be the one who looked: a reading that stands, a fastener put in, and for the
 * step's own set its measurements, answers and beads.
 */
function workedOn(job: PlannedJob, step: AdoptedStep, { set, covers }: SetView, by: string): boolean {
  const { jointById } = indexPlan(job.plan)
  const tightened = covers.some(({ joint: jointId, positions }) => {
    const joint = jointById.get(jointId)
    return positions.some(
      (position) =>
        job.fasteners[jointId]?.[position]?.by === by ||
        joint?.passes.some((_, index) => standingReading(job, joint, position, index + 1)?.by === by),
    )
  })
  if (tightened || !set.remainder) return tightened
  const { measurements, gates, sealant } = stepState(job, step.id)
  const bead = sealant.at(-1)
  return (
    measurements.some((entry) => stands(entry) && entry.by === by) ||
    Object.values(gates).some((answer) => answer.by === by) ||
    bead?.started.by === by ||
    bead?.closed?.by === by
  )
}

/** Signed after a later step had covered it: it counts, and says so. */
const isLate = (job: PlannedJob, view: SetView): boolean =>
  view.covers.some(({ joint, positions }) => hiddenBy(job, joint, positions).length > 0)
