/**
 * Clearances of the bottom end: bearings, crank and cam end play, piston rings. All in mm.
 *
 * Each is reckoned from what the instruments read and judged against the maker's limits. Definitions as in service
 * manuals; see `tests/published/measurements.test.ts`.
 */
import type { ClearanceOf } from '../plan/types'
import type { MeasureRefusal } from './refusals'
import { fieldsOf, impossibleSize, type Judged, judge, type Limits, type NextWords } from './verdict'

/** What to do next, by the kind of clearance. Common practice, no source. */
export const CLEARANCE_WORDS: Record<ClearanceOf, NextWords> = {
  bearing: {
    under:
      'Too tight: look for dirt behind the shells, make sure it is the right cap the right way round, and measure again. If it stays, fit shells with more clearance or ask the machine shop.',
    over: 'Too loose: measure journal and housing separately; then grind the journal for undersize shells, or ask the machine shop.',
  },
  end_play: {
    under: 'Too little play: fit thinner thrust washers, and make sure that the cap sits square.',
    over: 'Too much play: fit oversize thrust washers; if the thrust face is scored, ask the machine shop.',
  },
  ring_gap: {
    under: 'Too small: file one end square, break the edge, measure again in the same bore.',
    over: 'Too large: try another ring; if a new one is too large as well, measure the bore.',
  },
}

/** Measured in the bore with the shells torqued in place, or from housing and shell. */
export type BearingInput = { journalMm: number } & (
  | { boreWithShellsMm: number }
  | { housingMm: number; shellMm: number }
)

/**
 * Oil clearance of a plain bearing, mm: bore with shells fitted and torqued − journal, or housing − 2 · shell −
 * journal. A negative clearance is told as under: the journal would not go in.
 */
export function bearingClearance(input: BearingInput, limits: Limits = {}): Judged | MeasureRefusal {
  const parts = fieldsOf(input)
  const { journalMm } = parts
  const bore = 'boreWithShellsMm' in parts ? parts.boreWithShellsMm : parts.housingMm - 2 * parts.shellMm
  const sizes: Record<string, number> =
    'boreWithShellsMm' in parts
      ? { 'the bore with shells': parts.boreWithShellsMm }
      : { 'the housing bore': parts.housingMm, 'the shell thickness': parts.shellMm }
  const impossible = impossibleSize({ ...sizes, 'the journal': journalMm })
  return impossible ?? judge(bore - journalMm, 'mm', limits, CLEARANCE_WORDS.bearing)
}

/** Axial play of a shaft, mm: journal length − width of cap with its thrust washers. */
export function endPlay(
  input: { journalLengthMm: number; widthMm: number },
  limits: Limits = {},
): Judged | MeasureRefusal {
  const { journalLengthMm, widthMm } = fieldsOf(input)
  const impossible = impossibleSize({ 'the journal length': journalLengthMm, 'the width between': widthMm })
  return impossible ?? judge(journalLengthMm - widthMm, 'mm', limits, CLEARANCE_WORDS.end_play)
}

/** Gap of a piston ring squared up in its own bore, mm. */
export function ringGap(gapMm: number, limits: Limits = {}): Judged | MeasureRefusal {
  return (
    impossibleSize({ 'a ring gap': gapMm }, 'mm', 'zero_too') ??
    judge(gapMm, 'mm', limits, CLEARANCE_WORDS.ring_gap)
  )
}

/** Ring gap asked by the rule of the trade, mm: 0.004 of the bore. From memory, no source; the maker's figure governs. */
export const ringGapRuleMm = (boreMm: number, share = 0.004): number | MeasureRefusal =>
  shareOf({ 'the bore': boreMm }, share)

/** Bearing clearance by the rule of the trade, mm: 0.001 of the journal. From memory, no source; the maker's figure governs. */
export const bearingRuleMm = (journalMm: number, share = 0.001): number | MeasureRefusal =>
  shareOf({ 'the journal': journalMm }, share)

const shareOf = (size: Record<string, number>, share: number): number | MeasureRefusal =>
  impossibleSize(size) ??
  impossibleSize({ 'the share': share }, '', 'above_zero', 1) ??
  (Object.values(size)[0] ?? 0) * share
