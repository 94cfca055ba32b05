/**
 * What stops a release, as the audit shows it: decisions one by one, each with its ways out, then the steps that
 * only want doing, stage by stage. And the releases given, with what became of them.
 *
 * Pure; the list itself is `againstRelease`, the same the server refuses with.
 */
import { type Against, againstRelease, releaseInForce, stepsOf } from '../../../shared/job/release'
import type { PlannedJob, Release, Waived } from '../../../shared/job/types'
import { kindsOf } from '../../../shared/kinds'
import { RELEASES, type ReleaseKind } from '../../../shared/plan/kinds'
import { indexPlan } from '../../../shared/plan/read'

type WayOut =
  | { do: 'bench'; stepId: string }
  | { do: 'look'; stepId: string; setId: string }
  | { do: 'settle'; joint: string; pass: number }
  | { do: 'waive'; what: Waived }
  | { do: 'clear'; holdId: string }
  | { do: 'finding'; complaint: string }

/** What can be done about a reason from here; a cure and a release that comes first are only waited for. */
export function waysOut(against: Against): WayOut[] {
  switch (against.code) {
    case 'not_signed':
    case 'not_final':
      return [{ do: 'bench', stepId: against.stepId }]
    case 'hole_wrong': {
      const { stepId, joint: jointId, position } = against
      return [
        { do: 'bench', stepId },
        { do: 'waive', what: { kind: 'fastener', jointId, position } },
      ]
    }
    case 'second_missing': {
      const { stepId, setId } = against
      return [
        { do: 'look', stepId, setId },
        { do: 'waive', what: { kind: 'second', stepId, setId } },
      ]
    }
    case 'hold_open':
      return [{ do: 'clear', holdId: against.holdId }]
    case 'deferral_open':
      return [{ do: 'bench', stepId: against.dueStepId }]
    case 'photo_missing': {
      const { stepId, gateId } = against
      const waive: WayOut = { do: 'waive', what: { kind: 'gate', stepId, gateId } }
      return against.waiting ? [waive] : [{ do: 'bench', stepId }, waive]
    }
    case 'no_value':
      return [{ do: 'settle', joint: against.joint, pass: against.pass }]
    case 'warranty_open':
      return [{ do: 'finding', complaint: against.complaint }]
    case 'curing':
    case 'not_released_to_fitting':
      return []
    default:
      return []
  }
}

/** What stands at the left of an entry: the step it is about, if it is about one. */
export function stepIdOf(job: PlannedJob, against: Against): string {
  if ('stepId' in against) return against.stepId
  if (against.code === 'deferral_open') return against.dueStepId
  if (against.code === 'hold_open') return against.stepIds[0] ?? ''
  if (against.code === 'no_value') return indexPlan(job.plan).stepOfJoint.get(against.joint)?.id ?? ''
  return ''
}

export interface UnsignedStage {
  stage: string
  title: string
  steps: { stepId: string; title: string }[]
}

interface Sorted {
  /** Each wants somebody's decision or hand. */
  decisions: Against[]
  /** Only want doing and signing. */
  unsigned: UnsignedStage[]
  count: number
}

/** The server's own order is kept among the decisions and within a stage. */
export function sortAgainst(job: PlannedJob, against: readonly Against[]): Sorted {
  const { stepById, stageById } = indexPlan(job.plan)
  const stages = new Map<string, UnsignedStage>()
  const decisions: Against[] = []
  for (const reason of against) {
    if (reason.code !== 'not_signed') {
      decisions.push(reason)
      continue
    }
    const id = stepById.get(reason.stepId)?.stage ?? ''
    const stage = stages.get(id) ?? { stage: id, title: stageById.get(id)?.title ?? '', steps: [] }
    stage.steps.push({ stepId: reason.stepId, title: reason.title })
    stages.set(id, stage)
  }
  return { decisions, unsigned: [...stages.values()], count: against.length }
}

export interface ReleaseView {
  kind: ReleaseKind
  /** The one that stands. */
  inForce?: Release
  /** Nothing while it is in force. */
  against: Against[]
  /** Of those, what the release before it does not list already. */
  further: Against[]
}

/** The releases this plan knows, in their order, each with what stands against it. */
export function releaseViews(job: PlannedJob, now: number): ReleaseView[] {
  const kinds = kindsOf(RELEASES).filter((kind) => stepsOf(job, kind).length > 0)
  const seen = new Set<string>()
  return kinds.map((kind) => {
    const inForce = releaseInForce(job, kind)
    const against = inForce ? [] : againstRelease(job, kind, now)
    const further = against.filter((reason) => !seen.has(JSON.stringify(reason)))
    for (const reason of against) seen.add(JSON.stringify(reason))
    return { kind, against, further, ...(inForce ? { inForce } : {}) }
  })
}

interface ReleaseLine {
  release: Release
  /** `after`: a warranty case was opened since; the next edition follows. */
  state: 'stands' | 'withdrawn' | 'after'
  complaint?: string
  /** What was found in that case. */
  finding?: string
}

/** Newest first. */
export function releaseLines(job: PlannedJob): ReleaseLine[] {
  return job.releases.toReversed().map((release): ReleaseLine => {
    if (release.withdrawn) return { release, state: 'withdrawn' }
    if (releaseInForce(job, release.kind) === release) return { release, state: 'stands' }
    const since = job.warranties.find(({ version }) => version > release.version)
    const finding = since?.closed?.finding
    return {
      release,
      state: 'after',
      ...(since ? { complaint: since.complaint } : {}),
      ...(finding ? { finding } : {}),
    }
  })
}
