/**
 * In what order the hand goes round: the plan’s, else a proposal from where the fasteners stand; backwards to loosen.
 *
 * A proposal is never a rule: nothing is refused or flagged for going another way. Pure.
 */
import { proposeOrder } from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import type { AdoptedJoint } from '../../../shared/plan/types'

/** Plugs, unions, senders and injectors each close a hole of their own: none of them waits for another. */
const CLAMP_TOGETHER: ReadonlySet<AdoptedJoint['fastener']> = new Set(['bolt', 'nut', 'stud'])
/** Two are in order whichever comes first. */
const FEWEST = 3

/** For a round of a joint without an order of its own. */
export function proposedOrder(joint: AdoptedJoint, positions: readonly number[]): number[] | undefined {
  if (joint.order || positions.length < FEWEST || !CLAMP_TOGETHER.has(joint.fastener)) return undefined
  const places = joint.positions.filter(({ n }) => positions.includes(n)).map(({ n, x, y }) => ({ n, x, y }))
  const proposal = proposeOrder(places, 'auto')
  return isRefusal(proposal) ? undefined : proposal.order
}

interface RouteAsked {
  joint: Pick<AdoptedJoint, 'order'>
  positions: readonly number[]
  ordered: boolean
  proposed?: readonly number[]
}

export interface Route {
  positions: readonly number[]
  /** What stands on those heads: their turn where the plan gives an order, else their number. */
  figures: readonly number[]
  proposed: boolean
  loosening: boolean
}

/** The way round; nothing where any way is as good. */
export function routeOf(
  { joint, positions, ordered, proposed }: RouteAsked,
  loosening: boolean,
): Route | undefined {
  const along = ordered ? positions : proposed
  if (!along || along.length < FEWEST) return undefined
  const way = loosening ? [...along].reverse() : [...along]
  const { order } = joint
  return {
    positions: way,
    figures: order ? way.map((n) => order.indexOf(n) + 1) : way,
    proposed: !ordered,
    loosening,
  }
}

/** Which of the two numbers on a head is which; nothing where the plan’s order is that of the numbers. */
export const figureWords = (joint: Pick<AdoptedJoint, 'order' | 'fastener'>): string | undefined =>
  joint.order?.some((n, index) => n !== index + 1)
    ? `Big number: its turn. “no.”: the number of the ${joint.fastener} itself.`
    : undefined

/** Said beside the map where the figures on the heads do not say it. */
export function routeWords(route: Route | undefined): string | undefined {
  if (!route || (!route.proposed && !route.loosening)) return undefined
  const along = route.figures.join(', ')
  if (!route.loosening) return `The plan gives no order. Proposed: ${along}. Any other order is recorded too.`
  return route.proposed
    ? `The plan gives no order. Proposed for loosening: ${along}.`
    : `Loosen in reverse order, by the big numbers on the heads: ${along}.`
}
