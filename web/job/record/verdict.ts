/**
 * Where a fastener stands as the audit says it: the record's verdict, and apart from *proven* what a waiver made
 * *accepted*. Beside it the waivers that reach the fastener, with their reasons.
 */
import { type RecordLine, type RecordVerdict, readingsOf, record } from '../../../shared/audit/record'
import type { Deferral, FastenerState, Job, PlannedJob, SetState, Waiver } from '../../../shared/job/types'
import { deferredPositions, setView } from '../../../shared/job/verdicts'
import { indexPlan, signatureSets } from '../../../shared/plan/read'

export type Verdict = RecordVerdict | 'accepted'
export const VERDICTS: readonly Verdict[] = ['open', 'flagged', 'final', 'accepted', 'proven']

export interface AuditLine extends Omit<RecordLine, 'verdict'> {
  verdict: Verdict
  waivers: readonly Waiver[]
  /** What is known of the fastener there. */
  fastener?: FastenerState
  /** Left out on purpose, due elsewhere. */
  deferred?: Deferral
  /** A second person looked without the server; no signature yet. */
  look?: NonNullable<SetState['look']>
}

const NONE: readonly Waiver[] = []
/** The record gives the same line while nothing of its step, its waivers and its deferrals has changed. */
const known = new WeakMap<RecordLine, AuditLine>()

export function auditLines(job: Job): AuditLine[] {
  const { plan } = job
  if (!plan) return []
  const planned = job as PlannedJob
  const accepted = acceptedSets(planned)
  return record(job).map((line) => {
    const before = known.get(line)
    if (before) return before
    const waivers = waiversOn(job, line)
    const deferred = deferredPositions(planned, line.joint).get(line.position)
    const look = job.steps[line.stepId]?.sets[line.set]?.look
    const made: AuditLine = {
      ...line,
      verdict: verdictOf(line.verdict, waivers, accepted.has(`${line.stepId} ${line.set}`)),
      waivers,
      ...(deferred ? { deferred } : {}),
      ...(look && !line.second ? { look } : {}),
    }
    known.set(line, made)
    return made
  })
}

/**
 * Both signatures under a waived reading or fastener prove nothing: it is accepted. A second signature given after
 * all makes its own waiver idle.
 */
function verdictOf(verdict: Verdict, waivers: readonly Waiver[], setAccepted: boolean): Verdict {
  if (verdict === 'proven') return waivers.some(({ what }) => what.kind !== 'second') ? 'accepted' : verdict
  return verdict === 'final' && waivers.length > 0 && setAccepted ? 'accepted' : verdict
}

function acceptedSets(job: PlannedJob): Set<string> {
  if (job.waivers.length === 0) return new Set()
  const { steps } = job.plan
  return new Set(
    steps.flatMap((step) =>
      signatureSets(step).flatMap((set) =>
        setView(job, step, set).accepted ? [`${step.id} ${set.id}`] : [],
      ),
    ),
  )
}

/** The waivers that reach this fastener: of its readings, of itself, of its set's second signature. */
function waiversOn(
  job: Job,
  line: Pick<RecordLine, 'stepId' | 'set' | 'joint' | 'position' | 'passes'>,
): readonly Waiver[] {
  if (job.waivers.length === 0) return NONE
  const readings = new Set(readingsOf(line as RecordLine).map(({ id }) => id))
  return job.waivers.filter(({ what }) => {
    switch (what.kind) {
      case 'reading':
        return readings.has(what.readingId)
      case 'fastener':
        return what.jointId === line.joint && what.position === line.position
      case 'second':
        return what.stepId === line.stepId && what.setId === line.set
      default:
        return false
    }
  })
}

export type Counts = Record<Verdict, number> & { fasteners: number }

/** Fasteners by class and verdict; a re-check looks again at some that are counted already. */
export function countsByClass(lines: readonly AuditLine[]): Map<string, Counts> {
  const byClass = new Map<string, Counts>()
  for (const line of lines) {
    if (line.recheckOf !== undefined) continue
    const counts = byClass.get(line.class) ?? {
      fasteners: 0,
      open: 0,
      flagged: 0,
      final: 0,
      accepted: 0,
      proven: 0,
    }
    counts.fasteners++
    counts[line.verdict]++
    byClass.set(line.class, counts)
  }
  return byClass
}

/** The name of one joint's position, as the trade says it. */
export function positionName(job: PlannedJob, jointId: string, n: number): string {
  const label = indexPlan(job.plan)
    .jointById.get(jointId)
    ?.positions.find((position) => position.n === n)?.label
  return label ? `${n} (${label})` : `${n}`
}
