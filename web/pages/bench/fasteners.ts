/**
 * What is known of the fasteners of a round: which still have to be declared before signing, which stand only for
 * now, and the presses that say so. Pure.
 */

import { FASTENER_CONDITIONS } from '../../../shared/job/kinds'
import type { PlannedJob } from '../../../shared/job/types'
import { fastenerFault, fastenerNow } from '../../../shared/job/verdicts'
import type { AdoptedJoint } from '../../../shared/plan/types'
import { counted, positionsInWords } from '../../../shared/words'
import type { Round } from './work'

interface Declaring {
  positions: number[]
  /** `8 bolts to enter before signing.` */
  asks: string
  /** `8 new, one-use` */
  fresh: string
  /** `8 reused, tightening 2 of 4`, one a count; none where nothing may be reused. */
  reused: { cycle: number; words: string }[]
}

/** One-use and cycle-limited fasteners nobody has declared: asked for the whole round in one press. */
export function toDeclare(job: PlannedJob, { joint, positions }: Round): Declaring | undefined {
  const open = positions.filter((n) => fastenerFault(job, joint, n) === 'not_declared')
  if (open.length === 0) return undefined
  const many = counted(open.length, joint.fastener)
  const { use } = joint
  if (use.kind !== 'cycles')
    return {
      positions: open,
      asks: `${many} to enter before signing.`,
      fresh: `${open.length} new, one-use`,
      reused: [],
    }
  const cycles = Array.from({ length: use.limit - 1 }, (_, index) => index + 2)
  return {
    positions: open,
    asks: `${many} to enter before signing; at most ${counted(use.limit, 'tightening')}.`,
    fresh: `${open.length} new`,
    reused: cycles.map((cycle) => ({
      cycle,
      words: `${open.length} reused, tightening ${cycle} of ${use.limit}`,
    })),
  }
}

/** Fasteners that stand only for now, or not at all: `Temporary: 3. Removed: 5, 6.` */
export function oddFasteners(job: PlannedJob, { joint, positions }: Round): string[] {
  const kinds = ['hand_tight', 'temporary', 'removed', 'fitted_twice', 'cycles_spent'] as const
  return kinds.flatMap((kind) => {
    const these = positions.filter((n) => fastenerFault(job, joint, n) === kind)
    return these.length > 0 ? [`${FAULT_TITLES[kind]}: ${positionsInWords(these)}.`] : []
  })
}

const FAULT_TITLES = {
  hand_tight: 'Hand-tight only',
  temporary: 'Temporary, to be replaced',
  removed: 'Removed, the hole is empty',
  fitted_twice: 'One-use and fitted twice: fit new ones',
  cycles_spent: 'Tightened more often than allowed: fit new ones',
} as const

/** What stands in one place, in words: `new, tightening 1 of 4`. */
export function fastenerHere(job: PlannedJob, joint: AdoptedJoint, position: number): string {
  const state = fastenerNow(job, joint, position)
  if (!state) return joint.use.kind === 'reusable' ? 'may be used again' : 'not entered yet'
  const cycle =
    state.cycle !== undefined && state.condition !== 'removed' && joint.use.kind === 'cycles'
      ? `, tightening ${state.cycle} of ${joint.use.limit}`
      : ''
  return `${FASTENER_CONDITIONS[state.condition]}${cycle}`
}

/** Open heads of a class B or C pass that one press may count; class A never. */
export function roundToCount(
  joint: AdoptedJoint,
  positions: readonly number[],
  open: readonly number[],
): number | undefined {
  // The count is of the round that the joint's first fastener belongs to: another set of it goes head by head.
  const first = joint.positions[0]?.n
  if (joint.class === 'A' || first === undefined || !positions.includes(first)) return undefined
  return open.length > 1 ? open.length : undefined
}
