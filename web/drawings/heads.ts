/**
 * The heads of a bolt map as a job stands: what each wears, and in words for those who cannot see it. Pure; the
 * bench, the engine page and the audit all draw from it.
 */

import { flagWords } from '../../shared/job/kinds'
import type { PlannedJob, Reading } from '../../shared/job/types'
import {
  answeringStep,
  deferredPositions,
  fastenerFault,
  lastSetId,
  positionState,
  standingReading,
  stands,
  stepState,
} from '../../shared/job/verdicts'
import { ordinal } from '../../shared/plan/order'
import { setOf } from '../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep } from '../../shared/plan/types'
import type { PaintName, Shop } from '../../shared/shop/types'

/** A person's stripe: the paint, and the initials beside it so that nothing depends on colour. */
export interface Mark {
  initials: string
  paint: PaintName
}

export type WaitingAs = 'pending' | 'kept'

export interface Head {
  n: number
  /** What stands on the head: its turn in the order, or its number where any order is right. */
  figure: string
  /** Beside it: where the trade names it, and its number where the figure is its turn. */
  label?: string
  /** Of the pass shown. `final`: all passes of the joint, without a flag. */
  state: 'open' | 'reached' | 'final'
  next?: boolean
  flagged?: boolean
  /** Entered, and not confirmed yet: `kept` once this device would still have it after a reload. */
  waiting?: WaitingAs
  /** What stands there only for now, or nothing at all. */
  fitted?: 'hand_tight' | 'temporary' | 'removed'
  /** Left out on purpose, due at a later step. */
  leftOut?: string
  /** Not of the round shown. */
  aside?: boolean
  first?: Mark
  second?: Mark
}

interface HeadsAsked {
  /** The pass shown; without it the joint as a whole. */
  pass?: number
  /** Positions of the round shown; without them all. */
  round?: readonly number[]
  next?: number
  waiting?: ReadonlyMap<number, WaitingAs>
}

const WAITING_WORDS: Record<WaitingAs, string> = {
  pending: 'entered, not kept yet',
  kept: 'waiting to be sent',
}

export function markOf(shop: Shop, personId: string): Mark {
  const person = shop.people[personId]
  return person ? { initials: person.initials, paint: person.paint } : { initials: '?', paint: 'slate' }
}

export function headsOf(
  job: PlannedJob,
  shop: Shop,
  step: AdoptedStep,
  joint: AdoptedJoint,
  { pass, round, next, waiting }: HeadsAsked = {},
): Head[] {
  const turn = new Map(joint.order?.map((n, index) => [n, index + 1]))
  const sameNumbers = [...turn].every(([n, place]) => n === place)
  const away = deferredPositions(job, joint.id)
  return joint.positions.map(({ n, label }) => {
    const { reached, flags, final } = positionState(job, joint, n)
    const place = turn.get(n)
    const beside = [place !== undefined && !sameNumbers ? `no. ${n}` : '', label ?? '']
      .filter(Boolean)
      .join(' · ')
    const here = pass === undefined ? reached.length > 0 && final : reached.includes(pass)
    // What was left out on purpose is answered for by the last set of the step it is due at.
    const answering = away.has(n) ? answeringStep(job, joint.id, n) : step
    const setId = answering && (away.has(n) ? lastSetId(answering) : setOf(step, joint.id, n)?.id)
    const signed = answering && setId ? stepState(job, answering.id).sets[setId] : undefined
    const waits = waiting?.get(n)
    const fitted = fittedThere(job, joint, n)
    const doer = signed?.first?.by ?? (final ? lastReading(job, joint, n)?.by : undefined)
    return {
      n,
      figure: `${place ?? n}`,
      ...(beside ? { label: beside } : {}),
      state: final ? 'final' : here ? 'reached' : 'open',
      ...(next === n ? { next: true } : {}),
      ...(flags.length > 0 ? { flagged: true } : {}),
      ...(waits ? { waiting: waits } : {}),
      ...(fitted ? { fitted } : {}),
      ...(away.has(n) && !final ? { leftOut: away.get(n)?.dueStepId ?? '' } : {}),
      ...(round && !round.includes(n) ? { aside: true } : {}),
      ...(final && doer ? { first: markOf(shop, doer) } : {}),
      ...(final && signed?.second ? { second: markOf(shop, signed.second.by) } : {}),
    }
  })
}

/** Hand-tight only while nothing tightened it since. */
function fittedThere(job: PlannedJob, joint: AdoptedJoint, position: number): Head['fitted'] {
  const fault = fastenerFault(job, joint, position)
  return fault === 'hand_tight' || fault === 'temporary' || fault === 'removed' ? fault : undefined
}

const FITTED_WORDS = {
  hand_tight: 'hand-tight only',
  temporary: 'temporary fastener',
  removed: 'removed, the hole is empty',
} as const

function lastReading(job: PlannedJob, joint: AdoptedJoint, position: number): Reading | undefined {
  return job.readings[joint.id]?.findLast((reading) => reading.position === position && stands(reading))
}

/** `Head bolts 3 of 8, pass 2, not yet reached, next`: the head's name for a screen reader. */
export function headName(job: PlannedJob, joint: AdoptedJoint, head: Head, pass?: number): string {
  const { flags } = positionState(job, joint, head.n)
  const reading = pass === undefined ? undefined : standingReading(job, joint, head.n, pass)
  const where = joint.positions.find(({ n }) => n === head.n)?.label
  return [
    `${joint.title}, ${head.n} of ${joint.positions.length}`,
    head.figure === `${head.n}` ? undefined : `${ordinal(Number(head.figure))} in order`,
    where,
    pass === undefined ? undefined : `pass ${pass}`,
    head.state === 'final' ? 'final' : reading || head.state === 'reached' ? 'reached' : 'not yet reached',
    head.first ? `painted ${head.first.initials}` : undefined,
    head.second ? `second ${head.second.initials}` : undefined,
    flags.length > 0 ? [...new Set(flags)].map(flagWords).join(', ') : undefined,
    head.fitted ? FITTED_WORDS[head.fitted] : undefined,
    head.leftOut === undefined ? undefined : `left out, due at ${head.leftOut}`,
    head.waiting && WAITING_WORDS[head.waiting],
    head.next ? 'next' : undefined,
  ]
    .filter(Boolean)
    .join(', ')
}
