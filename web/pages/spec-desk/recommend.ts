/**
 * The torque to recommend, and why that one: full use of the bolt at the lowest friction of the band, held lower where a
 * thread would strip first. The same rule as where a missing value is proposed; refused with every reason it gives.
 */
import {
  asOnAScale,
  type HoleVerdict,
  heldWords,
  proposalSentence,
  propose,
  type Tightening,
} from '../../../shared/fastener'
import { format } from '../../format'
import type { Fit, Strip } from './hole'
import type { Part } from './part'
import { open, there } from './part'

export interface Recommended {
  torqueNm: number
  /** At the highest and at the lowest friction. */
  preloadLowN: number
  preloadHighN: number
  /** In words, what holds it below full use of the bolt. */
  held?: string
  /** False where the hole was not asked about. */
  holeKnown: boolean
}

const AGAINST: Partial<Record<HoleVerdict, string>> = {
  bottoms_out: 'the bolt would stand on the bottom and clamp nothing.',
  too_short: 'too little of the bolt’s thread holds.',
}

/** What of the hole stands against tightening there at all, whatever the torque. */
export const againstHole = (fit: Part<Fit>): string | undefined =>
  fit.state === 'there' && fit.value.section ? AGAINST[fit.value.fit.verdict] : undefined

export function recommendedOf(
  tension: Part<Tightening>,
  strip: Part<Strip>,
  fit: Part<Fit>,
  tolerancePct: number,
): Part<Recommended> {
  if (tension.state !== 'there') return tension
  // A bolt on the bottom takes any torque and clamps nothing.
  const against = againstHole(fit)
  if (against) return open(`No torque is recommended: ${against}`)
  if (fit.state === 'there' && fit.value.section && fit.value.fit.assumed?.follows)
    return open(
      'No torque is recommended: with the standard’s thread length the bolt would stand on its shank. Enter how long its own thread is.',
    )
  const { thread, grade, low, high, utilisation, lubrication, headBearingMm, holeMm } = tension.value
  if (strip.state === 'open') {
    const torqueNm = asOnAScale(low.torqueNm)
    return there({
      torqueNm,
      preloadLowN: (torqueNm * high.preloadN) / high.torqueNm,
      preloadHighN: (torqueNm * low.preloadN) / low.torqueNm,
      holeKnown: false,
    })
  }
  if (strip.state === 'refused') return open(`No torque is recommended: ${strip.why}`)
  const { strip: held } = strip.value
  const answer = propose(
    {
      fastener: 'bolt',
      thread: thread.designation,
      grade: grade.grade,
      lubrication: lubrication?.lubrication ?? '',
      pass: 1,
      holeMaterial: held.material.id,
      engagementMm: held.engagementMm,
      ...(strip.value.insert ? { inserts: [strip.value.insert], plain: false } : {}),
      tolerancePct,
    },
    {
      utilisation,
      headBearingMm,
      clearanceHoleMm: holeMm,
      ...(lubrication ? {} : { friction: { low: low.muThread, high: high.muThread } }),
    },
  )
  if ('refusals' in answer)
    return open(
      `No torque is recommended. ${answer.refusals.map((refusal) => proposalSentence(refusal, format)).join(' ')}`,
    )
  const { results } = answer.proposal
  const { torqueNm, preloadLowN, preloadHighN } = results
  const heldDown = heldWords(results, format)
  return there({
    torqueNm,
    preloadLowN,
    preloadHighN,
    ...(heldDown ? { held: heldDown } : {}),
    holeKnown: true,
  })
}
