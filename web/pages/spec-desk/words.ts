/** Numbers of the desk as they are read: no more digits than the trade uses, the unit behind them. */
import { type Engagement, type HoleVerdict, kiloNewton, type WeakestLink } from '../../../shared/fastener'
import { toDecimals } from '../../../shared/plan/words'
import { fromNm } from '../../../shared/units'
import { format } from '../../format'
import type { Calculation } from './calculation'
import type { givesWayFirst } from './hole'

export const kN = (n: number): string => kiloNewton(n, format)
export const mm = (value: number): string => format.number(value, 2)
export const percent = (share: number): string => `${format.number(share * 100, 0)} %`

/** A band of friction, both ends with as many decimals: `0.10 to 0.16`. */
export const frictionWords = ({ low, high }: { low: number; high: number }, to: string): string =>
  [low, high].map((end) => toDecimals(end, { min: low, max: high }, format)).join(to)

/** A figure that comes out of a formula: three digits, never a hundredth of a newton-metre nobody can set. */
export const computedNm = (nm: number): string => format.number(nm, nm < 10 ? 2 : nm < 100 ? 1 : 0)

/** The same torque in the other units of a crib. */
export const alsoIn = (nm: number): string =>
  nm < 12
    ? `${format.torque(nm, 'lbf·in')} lbf·in`
    : `${format.torque(nm, 'lbf·ft')} lbf·ft, ${format.number(fromNm(nm, 'lbf·in'), 0)} lbf·in`

export const VERDICTS: Record<HoleVerdict, string> = {
  good: 'It fits.',
  near_bottom: 'It fits, with too little left at the bottom.',
  bottoms_out: 'It bottoms: the wrench clicks and nothing is clamped.',
  too_short: 'Too short: too little thread holds.',
  too_long: 'Too long: more than a diameter of it stands out.',
}

export const LINKS: Record<WeakestLink, string> = {
  bolt: 'the bolt breaks',
  bolt_thread: 'the bolt’s thread strips',
  hole_thread: 'the hole’s thread strips',
}

/** What gives way first, in a sentence. */
export function firstWords(
  { weakest, boltBreakN, boltStripN, holeStripN }: Engagement,
  first: ReturnType<typeof givesWayFirst>,
): string {
  if (first === 'bolt') return 'The bolt breaks first, and is seen.'
  if (first === 'thread') return `First ${LINKS[weakest]}.`
  const thread = holeStripN <= boltStripN ? 'hole_thread' : 'bolt_thread'
  const strips = Math.min(holeStripN, boltStripN)
  return `Too close to say: ${LINKS.bolt} at ${kN(boltBreakN)} kN, ${LINKS[thread]} at ${kN(strips)}, and bolts are up to a fifth stronger than their class. Give it more thread.`
}

/** The sheet in a sentence or two, for a reader who hears it change. */
export function summaryOf({ recommended, target, fit, thread, printedJudged }: Calculation): string {
  if (thread.state !== 'there') return ''
  const { designation } = thread.value
  const torque =
    printedJudged?.verdict === 'impossible'
      ? 'the printed torque is more than this fastener bears. Look at the page again.'
      : target?.from === 'printed'
        ? `${format.number(target.torqueNm, 2)} N·m as printed.${printedJudged?.verdict === 'implausible' ? ' It is doubtful.' : ''}`
        : recommended.state === 'there'
          ? `recommended ${computedNm(recommended.value.torqueNm)} N·m.`
          : 'no torque recommended.'
  const verdict = fit.state === 'there' && fit.value.section ? ` ${VERDICTS[fit.value.fit.verdict]}` : ''
  return `${designation}: ${torque}${verdict}`
}
