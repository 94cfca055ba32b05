/**
 * How far a wrench may be off, and how far it was: the deviation of ISO 6789, and the permissible one.
 *
 * Reckoned against the reference reading, not against the scale, so that equal errors high and low do not give
 * equal per cents. Sources: ISO 6789:2003 (setting tools, class A: 4 % above 10 N·m, 6 % up to it; test points 20, 60 and
 * 100 %), found quoted; the other classes and types from memory of ISO 6789-1:2017.
 */
import { refuseWrench, type WrenchRefusal } from './refusals'

/** I: indicating, read while pulling. II: setting, which gives a signal at the number set. */
export type ToolType = 'I' | 'II'
export type ToolClass = 'A' | 'B' | 'C' | 'D' | 'E' | 'F' | 'G'

/**
 * 100 · (shown − reference) / reference, in per cent, for a number set or shown and what the reference read, both
 * in one unit. Refused (`check_impossible`) where either is not above zero.
 */
export function deviationPct(shown: number, reference: number): number | WrenchRefusal {
  const sound = [shown, reference].every((value) => Number.isFinite(value) && value > 0)
  if (!sound) return refuseWrench('check_impossible', { shown, reference })
  return (100 * (shown - reference)) / reference
}

export interface Tool {
  /** Its largest torque, N·m. */
  maxNm: number
  type?: ToolType
  class?: ToolClass
}

/** Classes held to the wider limit at any size. From memory: ISO 6789-1:2017. */
const WIDER: Record<ToolType, readonly ToolClass[]> = { I: ['A', 'D'], II: ['D', 'E', 'F', 'G'] }

/** The largest deviation permitted, per cent either way; a setting tool of class A unless said otherwise. */
export function deviationLimitPct({ maxNm, type = 'II', class: toolClass = 'A' }: Tool): 4 | 6 {
  return maxNm <= 10 || WIDER[type].includes(toolClass) ? 6 : 4
}

/** Exactly on the limit passes, whatever a float made of it. */
export const deviationPasses = (pct: number, limitPct: number): boolean => Math.abs(pct) <= limitPct + 1e-9

/**
 * Where a check takes its readings, N·m: the lowest marked value, 60 and 100 % of the largest (2017 edition), or
 * 20, 60 and 100 % (2003). Source: ISO 6789:2003 and ISO 6789-1:2017, found quoted.
 */
export function checkPointsNm(tool: { minNm: number; maxNm: number }, edition: 2003 | 2017 = 2017): number[] {
  const lowest = edition === 2017 ? tool.minNm : tool.maxNm * 0.2
  return [lowest, tool.maxNm * 0.6, tool.maxNm]
}

/**
 * The coarsest step a display may have at `readingNm`, N·m: a quarter of the largest deviation permitted there.
 * Source: ISO 6789-2:2017, found quoted.
 */
export const coarsestResolutionNm = (tool: Tool, readingNm: number): number =>
  (readingNm * deviationLimitPct(tool)) / 100 / 4
