/** What a hole is, in words: the register, the trail and the record say it alike. */
import type { HoleFit, HoleVerdict, WeakestLink } from '../fastener'
import { type Figures, listed, upperFirst } from '../words'
import { HOLE_CONDITIONS } from './kinds'
import type { HoleEntry } from './types'
import type { BoltFit } from './verdicts'

export const INSERT_WORDS = { wire: 'wire insert', solid: 'solid insert' } as const

/** `solid insert, 12 mm long, 0.5 mm below the face; full thread 18.5 mm`. */
export function holeWords(
  { condition, insert, depthMm, threadMm }: Pick<HoleEntry, 'condition' | 'insert' | 'depthMm' | 'threadMm'>,
  { number }: Figures,
): string {
  const kind = insert
    ? `${INSERT_WORDS[insert.kind]}, ${number(insert.lengthMm)} mm long${insert.setDownMm ? `, ${number(insert.setDownMm)} mm below the face` : ''}`
    : HOLE_CONDITIONS[condition]
  const sizes = [
    ...(threadMm === undefined ? [] : [`full thread ${number(threadMm)} mm`]),
    ...(depthMm === undefined ? [] : [`drilled ${number(depthMm)} mm`]),
  ]
  return [kind, ...sizes].join('; ')
}

/** What is said of a bolt's fit, first thing. */
export const FIT_WORDS: Record<HoleVerdict, string> = {
  good: 'fits',
  near_bottom: 'comes near the bottom',
  bottoms_out: 'bottoms out',
  too_short: 'is too short',
  too_long: 'is too long',
}

const mm = (value: number, { number }: Figures, decimals = 1): string => `${number(value, decimals)} mm`

/** Two lengths beside each other, with decimals enough that the less reads less. */
function beside(value: number, other: number, figures: Figures): [string, string] {
  const decimals = [1, 2].find((count) => mm(value, figures, count) !== mm(other, figures, count)) ?? 3
  return [mm(value, figures, decimals), mm(other, figures, decimals)]
}

/** From and to, rounded into what lies between, so that a bolt cut to either is right. */
function within(shortest: number, longest: number, figures: Figures): string {
  const [from, to] = [Math.ceil(shortest * 10 - 1e-6) / 10, Math.floor(longest * 10 + 1e-6) / 10]
  return from <= to
    ? `${mm(from, figures)} to ${mm(to, figures)}`
    : `${mm(shortest, figures, 3)} to ${mm(longest, figures, 3)}`
}

/** `The stud of 58 mm fits: 12 mm of thread holds (1.5 d), 3 mm clear at the bottom.` */
export function fitWords(
  what: string,
  { lengthMm, fit }: Pick<BoltFit, 'lengthMm' | 'fit'>,
  figures: Figures,
): string {
  const { verdict, engagementMm, clearanceMm, wantedClearanceMm, minEngagementMm } = fit
  const named = `The ${what} of ${figures.number(lengthMm)} mm ${FIT_WORDS[verdict]}`
  const [held, must] = beside(engagementMm, minEngagementMm, figures)
  const [clear, wanted] = beside(clearanceMm, wantedClearanceMm, figures)
  const holds = `${verdict === 'too_short' ? held : mm(engagementMm, figures)} of thread holds (${figures.number(fit.engagementD, 1)} d)`
  switch (verdict) {
    case 'good':
      return `${named}: ${holds}${clearanceMm < 0 ? '' : `, ${mm(clearanceMm, figures)} clear at the bottom`}.`
    case 'near_bottom':
      return `${named}: ${clear} clear, ${wanted} wanted. ${upperFirst(holds)}.`
    case 'bottoms_out':
      if (what === 'stud')
        return `${named}${clearanceMm < 0 ? `, ${mm(-clearanceMm, figures)} too long` : ''}: it would stand on the bottom of its hole, not in its thread.`
      return `${named}${clearanceMm < 0 ? `, ${mm(-clearanceMm, figures)} too long` : ''}: it would show its torque and clamp nothing.`
    case 'too_short':
      return `${named}: ${holds}, at least ${must} needed.`
    case 'too_long':
      return `${named}: ${mm(-clearanceMm, figures)} of it stands out at the far side.`
  }
}

/** Which lengths would be right: `Right here: 50 or 55 mm.` */
export function rightLengths({ rightLengthsMm, shortestMm, longestMm }: HoleFit, figures: Figures): string {
  if (rightLengthsMm.length > 0)
    return `Right here: ${listed(rightLengthsMm.map((length) => figures.number(length)))} mm of the standard lengths; any from ${within(shortestMm, longestMm, figures)}.`
  return shortestMm <= longestMm
    ? `No standard length is right here. Cut a longer one to ${within(shortestMm, longestMm, figures)}.`
    : 'No length both holds and clears the bottom here. The hole needs another repair: ask the supervisor.'
}

export const LINK_WORDS: Record<WeakestLink, string> = {
  bolt: 'the bolt itself, before its threads',
  bolt_thread: 'the bolt’s thread',
  hole_thread: 'the thread of the hole',
}
