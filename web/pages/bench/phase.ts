/**
 * What the hand does next on the pass shown: the one answer the action column, the map and the keyboard share.
 * Pure. The order of the questions is the order of the work: claim, wait, wrench, scale, heads, next pass.
 */
import type { ReadingHow } from '../../../shared/job/kinds'
import { scaleInForce } from '../../../shared/job/scale-in-force'
import type { PlannedJob, ScaleEntry } from '../../../shared/job/types'
import { curesUntil, isSigned, stepState } from '../../../shared/job/verdicts'
import type { AdoptedStep, Pass } from '../../../shared/plan/types'
import type { Wrench } from '../../../shared/shop/types'
import { type BrokenOff, brokenOff } from './interruption'
import { type BenchTarget, nextHead, nextTarget, type Round, sheetFor, waitUntil } from './work'
import { type HeldUp, heldUp } from './wrench'

export type Phase =
  /** Not this person's step now: look only. */
  | { kind: 'look' }
  /** A round was broken off: what its rule asks comes before anything else. */
  | { kind: 'restart'; broken: BrokenOff }
  | { kind: 'wait'; until?: number; minutes: number; next?: BenchTarget }
  | { kind: 'no_wrench' }
  | { kind: 'enter_scale'; wrench: Wrench }
  | { kind: 'held_up'; entry: ScaleEntry; why: HeldUp }
  | { kind: 'record'; how: ReadingHow; head: number; wrench?: Wrench; scale?: ScaleEntry; early?: number }
  | { kind: 'through'; next?: BenchTarget }

interface PhaseInput {
  job: PlannedJob
  step: AdoptedStep
  round: Round
  pass: number
  me: string
  now: number
  wrench?: Wrench | undefined
  /** Scale entries the person said are really set so. */
  confirmedScales: ReadonlySet<string>
  /** Joints the person goes on with although their rule after a stop was not followed. */
  skippedRestarts?: ReadonlySet<string>
}

export function phaseOf(input: PhaseInput): Phase {
  const { job, step, round, pass, me, now, wrench } = input
  const sheet = sheetFor(job, round.joint, pass)
  if (!sheet || stepState(job, step.id).claim?.by !== me || isSigned(job, step)) return { kind: 'look' }
  const broken = input.skippedRestarts?.has(round.joint.id) ? undefined : brokenOff(job, round)
  if (broken) return { kind: 'restart', broken }
  if (sheet.kind === 'wait') {
    const until = waitUntil(job, round, pass + 1)
    return {
      kind: 'wait',
      minutes: sheet.minutes,
      ...optional('until', until),
      ...optional('next', nextTarget(job, step, at(round, pass))),
    }
  }
  const head = freeHead(job, round, pass, now) ?? nextHead(job, round, pass)
  if (head === undefined)
    return { kind: 'through', ...optional('next', nextTarget(job, step, at(round, pass))) }
  const until = waitUntil(job, round, pass)
  const early = until !== undefined && now < until ? { early: until } : {}
  if (sheet.kind === 'slacken') return { kind: 'record', how: 'slackened', head, ...early }
  if (!wrench)
    return sheet.kind === 'angle' ? { kind: 'record', how: 'turned', head, ...early } : { kind: 'no_wrench' }
  if (sheet.kind === 'angle') return { kind: 'record', how: 'turned', head, wrench, ...early }
  if (wrench.kind === 'indicating') return { kind: 'record', how: 'indicated', head, wrench, ...early }
  const scale = scaleInForce(job, { wrenchId: wrench.id, jointId: round.joint.id, pass }, me)
  if (!scale) return { kind: 'enter_scale', wrench }
  const why = input.confirmedScales.has(scale.id) ? undefined : heldUp(scale, targetOf(sheet), round.joint)
  if (why) return { kind: 'held_up', entry: scale, why }
  return { kind: 'record', how: 'clicked', head, wrench, scale, ...early }
}

/** Where no order is asked, a head whose thread still cures is left for later. */
const freeHead = (job: PlannedJob, round: Round, pass: number, now: number): number | undefined =>
  round.ordered
    ? undefined
    : nextHead(
        job,
        {
          ...round,
          positions: round.positions.filter((n) => curesUntil(job, round.joint.id, n) <= now),
        },
        pass,
      )

export const targetOf = (pass: Pass | undefined): number | null =>
  pass?.kind === 'torque' ? pass.torqueNm : null

const at = (round: Round, pass: number): BenchTarget => ({ round: round.key, pass })

const optional = <K extends string, V>(key: K, value: V | undefined): { [P in K]?: V } =>
  value === undefined ? {} : ({ [key]: value } as { [P in K]?: V })
