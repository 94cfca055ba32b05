/** A proposal in the words of trail and record: what it was reckoned from, what came out, which link is the weakest. */
import type { Figures } from '../words'
import type { WeakestLink } from './engagement'
import type { ProposalInputs, ProposalResults } from './proposal'

export const PROPOSAL_METHOD = 'preload and friction, VDI 2230, at the lowest friction of the band'

export const LINK_WORDS: Record<WeakestLink, string> = {
  bolt: 'the bolt itself',
  bolt_thread: 'the bolt’s thread',
  hole_thread: 'the thread of the hole',
}

/** `M8x1.25, 8.8, oil: friction 0.08 to 0.16; hole in cast aluminium…, 16 mm engaged; 0.9 of yield`. */
export function inputsWords(inputs: ProposalInputs, { number }: Figures): string {
  const { frictionLow: low, frictionHigh: high } = inputs
  return [
    `${inputs.thread}, ${inputs.grade}, ${inputs.lubrication}: friction ${low === high ? number(low, 6) : `${number(low, 6)} to ${number(high, 6)}`}`,
    `hole in ${inputs.holeMaterial} (shear ${number(inputs.holeShearMPa, 0)} MPa), ${number(inputs.engagementMm, 1)} mm engaged${inputs.insert ? `, ${inputs.insert.kind} insert` : ''}`,
    `${number(inputs.utilisation, 2)} of yield`,
    `limits ${number(inputs.tolerancePct, 1)} % either side`,
  ].join('; ')
}

/** `proposed 17.5 N·m, preload 8.1 to 14.8 kN; weakest: the thread of the hole, bears 1.1 times that`. */
export function resultsWords(results: ProposalResults, figures: Figures): string {
  const held = heldWords(results, figures)
  return [
    `proposed ${figures.torque(results.torqueNm, 'N·m')} N·m`,
    `preload ${kiloNewton(results.preloadLowN, figures)} to ${kiloNewton(results.preloadHighN, figures)} kN by friction`,
    `weakest: ${LINK_WORDS[results.weakest]}, bears ${figures.number(results.margin, 1)} times the highest preload`,
    ...(held ? [held] : []),
  ].join('; ')
}

/** What holds the torque below full use of the bolt; nothing where nothing does. */
export function heldWords({ heldBy, fullUseNm }: ProposalResults, { number }: Figures): string | undefined {
  const full = `full use of the bolt would be ${number(fullUseNm, 1)} N·m`
  if (heldBy === 'hole_thread') return `held down because the thread of the hole would strip first: ${full}`
  if (heldBy === 'bolt_thread') return `held down because the bolt’s thread would strip first: ${full}`
  if (heldBy === 'limits') return `held down so that the highest limit stays below yield: ${full}`
  return undefined
}

/** A force in N as kN, without the unit. */
export const kiloNewton = (n: number, { number }: Figures): string => number(n / 1000, n < 1000 ? 2 : 1)
