/**
 * What stands against a release, all of it, each with its way out; and which release is in force.
 *
 * Pure views of the job and the moment. `decide/release.ts` refuses while one reason stands; the audit shows the
 * same list before anybody asks.
 */
import type { Instant } from '../log'
import type { ReleaseKind } from '../plan/kinds'
import { indexPlan, signatureSets, stepClass } from '../plan/read'
import type { AdoptedStep } from '../plan/types'
import { fastenersInWords } from '../words'
import { sealantState } from './clocks'
import type { PlannedJob, Release, WarrantyCase } from './types'
import {
  deferralsOf,
  type HoleFault,
  isAccepted,
  isDeferredStep,
  isHoleFault,
  isSigned,
  isWaived,
  positionState,
  setView,
  setViews,
} from './verdicts'

export type Against =
  | { code: 'not_signed'; stepId: string; title: string }
  | { code: 'second_missing'; stepId: string; title: string; set: string; setId: string; signedBy: string }
  | {
      code: 'not_final'
      stepId: string
      title: string
      joint: string
      jointTitle: string
      fastener: string
      class: string
      positions: number[]
    }
  | { code: 'hold_open'; holdId: string; what: string; stepIds: string[] }
  | { code: 'deferral_open'; deferralId: string; what: string; dueStepId: string; since: Instant }
  | { code: 'photo_missing'; stepId: string; gateId: string; place: string; waiting: boolean }
  | { code: 'no_value'; joint: string; jointTitle: string; pass: number }
  | {
      code: 'hole_wrong'
      stepId: string
      joint: string
      jointTitle: string
      position: number
      fault: HoleFault
    }
  | { code: 'curing'; stepId: string; title: string; until: Instant }
  | { code: 'not_released_to_fitting' }
  | { code: 'warranty_open'; complaint: string; since: Instant }

/** The release of a kind that stands: not withdrawn, and for the owner's no warranty case opened since. */
export function releaseInForce(job: PlannedJob, kind: ReleaseKind): Release | undefined {
  const last = job.releases.findLast((release) => release.kind === kind && !release.withdrawn)
  if (!last || kind === 'to_fitting') return last
  return job.warranties.some(({ version }) => version > last.version) ? undefined : last
}

/** The warranty case the engine is in the shop for: the last one, while no release to the owner follows it. */
export function caseOpen(job: PlannedJob): WarrantyCase | undefined {
  const last = job.warranties.at(-1)
  const lastRelease = job.releases.findLast(({ kind }) => kind === 'to_owner')
  return last && last.version > (lastRelease?.version ?? -1) ? last : undefined
}

/** The case that nobody has answered: no step was signed through since, and no finding is recorded. */
export function caseUnanswered(job: PlannedJob): WarrantyCase | undefined {
  const open = caseOpen(job)
  return open?.work || open?.closed ? undefined : open
}

/** The steps a release answers for: those of its stage and of every stage before it. */
export function stepsOf(job: PlannedJob, kind: ReleaseKind): AdoptedStep[] {
  const last = job.plan.stages.findIndex((stage) => stage.releases === kind)
  const stages = new Set(job.plan.stages.slice(0, last + 1).map(({ id }) => id))
  return job.plan.steps.filter((step) => stages.has(step.stage))
}

/** Every reason against a release, in the order a supervisor would clear them. */
export function againstRelease(job: PlannedJob, kind: ReleaseKind, now: Instant): Against[] {
  const steps = stepsOf(job, kind)
  const inScope = new Set(steps.map(({ id }) => id))
  const toFitting = job.plan.stages.some((stage) => stage.releases === 'to_fitting')
  const unansweredCase = kind === 'to_owner' ? caseUnanswered(job) : undefined
  return [
    ...(unansweredCase
      ? [
          {
            code: 'warranty_open' as const,
            complaint: unansweredCase.complaint,
            since: unansweredCase.doneAt,
          },
        ]
      : []),
    ...(kind === 'to_owner' && toFitting && !releaseInForce(job, 'to_fitting')
      ? [{ code: 'not_released_to_fitting' as const }]
      : []),
    ...steps.flatMap((step) => againstStep(job, step, now)),
    ...job.holds
      .filter((hold) => !hold.cleared && hold.stepIds.some((id) => inScope.has(id)))
      .map(({ id, what, stepIds }) => ({ code: 'hold_open' as const, holdId: id, what, stepIds })),
    ...deferralsOf(job)
      .filter((deferral) => standsAgainst(job, deferral, inScope))
      .map((deferral) => ({
        code: 'deferral_open' as const,
        deferralId: deferral.id,
        what: deferralTitle(job, deferral),
        dueStepId: deferral.dueStepId,
        since: deferral.made.doneAt,
      })),
  ]
}

type Deferral = PlannedJob['deferrals'][number]

/**
 * What is due within the release must be closed. What is due later may wait, but never a class A joint of a step
 * that the release answers for: that one is proven or accepted first.
 */
function standsAgainst(job: PlannedJob, deferral: Deferral, inScope: ReadonlySet<string>): boolean {
  const { stepById, stepOfJoint, jointById } = indexPlan(job.plan)
  const { what, dueStepId } = deferral
  if (inScope.has(dueStepId)) return deferralOpen(job, deferral)
  if (what.kind === 'step') {
    const step = stepById.get(what.stepId)
    return (
      step !== undefined &&
      inScope.has(step.id) &&
      stepClass(step) === 'A' &&
      setViews(job, step).some((view) => !view.accepted)
    )
  }
  return (
    inScope.has(stepOfJoint.get(what.joint)?.id ?? '') &&
    jointById.get(what.joint)?.class === 'A' &&
    !isAccepted(job, what)
  )
}

/** Open until what was left out is final, or its step is done. */
export function deferralOpen(job: PlannedJob, { what }: Deferral): boolean {
  const { jointById, stepById } = indexPlan(job.plan)
  if (what.kind === 'step') {
    const step = stepById.get(what.stepId)
    return step !== undefined && !isSigned(job, step)
  }
  const joint = jointById.get(what.joint)
  return joint !== undefined && what.positions.some((n) => !positionState(job, joint, n).final)
}

export function deferralTitle(job: PlannedJob, { what }: Deferral): string {
  const { jointById, stepById } = indexPlan(job.plan)
  if (what.kind === 'step') return `${what.stepId} ${stepById.get(what.stepId)?.title ?? ''}`.trim()
  const { title = what.joint, fastener = 'bolt' } = jointById.get(what.joint) ?? {}
  return `${title}, ${fastenersInWords(fastener, what.positions)}`
}

function againstStep(job: PlannedJob, step: AdoptedStep, now: Instant): Against[] {
  const { id: stepId, title } = step
  const against: Against[] = []
  if (isDeferredStep(job, stepId) && !isSigned(job, step)) return against
  for (const joint of step.joints)
    joint.passes.forEach((pass, index) => {
      if (pass.kind === 'torque' && pass.torqueNm === null && !job.settled[joint.id]?.[index + 1])
        against.push({ code: 'no_value', joint: joint.id, jointTitle: joint.title, pass: index + 1 })
    })
  for (const { faulty } of setViews(job, step))
    for (const { joint, position, fault } of faulty)
      if (isHoleFault(fault)) {
        const jointTitle = indexPlan(job.plan).jointById.get(joint)?.title ?? joint
        against.push({ code: 'hole_wrong', stepId, joint, jointTitle, position, fault })
      }
  if (!isSigned(job, step)) against.push({ code: 'not_signed', stepId, title })
  for (const set of signatureSets(step)) {
    const view = setView(job, step, set)
    const { first } = view.state
    if (!first) continue
    const wrong = new Map<string, number[]>()
    for (const { joint, position } of [
      ...view.open,
      ...view.flagged,
      ...view.faulty.filter(({ fault }) => !isHoleFault(fault)),
    ])
      wrong.set(joint, [...(wrong.get(joint) ?? []), position])
    for (const [joint, positions] of wrong) {
      const adopted = indexPlan(job.plan).jointById.get(joint)
      against.push({
        code: 'not_final',
        stepId,
        title,
        joint,
        jointTitle: adopted?.title ?? joint,
        fastener: adopted?.fastener ?? 'bolt',
        class: adopted?.class ?? 'C',
        positions: [...new Set(positions)],
      })
    }
    if (view.asks === 2 && !view.state.second && !isWaived(job, { kind: 'second', stepId, setId: set.id }))
      against.push({
        code: 'second_missing',
        stepId,
        title,
        set: set.title,
        setId: set.id,
        signedBy: first.by,
      })
  }
  const sealant = sealantState(job, step, now)
  if (sealant.state === 'curing') against.push({ code: 'curing', stepId, title, until: sealant.until })
  for (const gate of step.gates) {
    if (gate.kind !== 'photo' || isWaived(job, { kind: 'gate', stepId, gateId: gate.id })) continue
    for (const place of gate.places) {
      const photos = job.photos.filter(
        (photo) => photo.gateId === gate.id && photo.stepId === stepId && photo.place === place,
      )
      if (!photos.some(({ arrived }) => arrived))
        against.push({ code: 'photo_missing', stepId, gateId: gate.id, place, waiting: photos.length > 0 })
    }
  }
  return against
}
