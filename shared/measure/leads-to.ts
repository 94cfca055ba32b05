/**
 * What a plan's measurement leads to once it is taken: the gasket, the shim, or what to do about a number outside.
 *
 * The plan says which kind it is (`Measurement.leadsTo`) with the maker's table; this turns the standing numbers into
 * one sentence for the bench. A proposal: the doer measures again after fitting, and the maker's page governs.
 */
import type { LeadsTo, Measurement } from '../plan/types'
import type { Figures } from '../words'
import { CLEARANCE_WORDS } from './clearances'
import { gasketGrade, gasketWords } from './cylinders'
import { type MeasureRefusal, measureSentence } from './refusals'
import { shimWords, timingShim } from './shims'
import { fieldsOf, isMeasureRefusal, type Judged, judge, type Limits, listOf, verdictOn } from './verdict'

export type { LeadsTo } from '../plan/types'

export interface Led {
  /** Where it was measured; absent where all places lead to one answer. */
  place?: string
  /** It is settled by what there is; `false` where a part has to be found or a number put right. */
  inside: boolean
  /** Nothing is wrong with it: there is more to measure before it is settled. */
  pending?: true
  sentence: string
}

/** What the numbers taken so far lead to, by place. Empty where the plan names nothing or nothing is measured. */
export function leadsTo(
  measurement: Pick<Measurement, 'leadsTo' | 'places' | 'min' | 'max'>,
  taken: Readonly<Record<string, number>>,
  figures: Figures,
): Led[] {
  const { leadsTo: rule, min, max, places } = fieldsOf(measurement)
  const numbers = fieldsOf(taken)
  const measured = listOf(places).filter((place) => Object.hasOwn(numbers, place))
  if (!rule || measured.length === 0) return []
  const limits: Limits = { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) }
  if (rule.kind === 'gasket') return gasket(places.length, measured, numbers, rule, figures)
  return measured.map((place) => ({ place, ...each(rule, numbers[place] as number, limits, figures) }))
}

/** A part has to be found or a number put right. */
export const isAgainst = ({ inside, pending }: Led): boolean => !inside && !pending

/** The same sentence once, with every place it holds for: `main 1, main 3: …`. */
export function ledWords(led: readonly Led[]): { words: string; against: boolean }[] {
  const bySentence = new Map<string, Led[]>()
  for (const next of led) bySentence.set(next.sentence, [...(bySentence.get(next.sentence) ?? []), next])
  return [...bySentence].map(([sentence, same]) => {
    const places = same.flatMap(({ place }) => place ?? []).join(', ')
    return { words: places ? `${places}: ${sentence}` : sentence, against: same.some(isAgainst) }
  })
}

function gasket(
  places: number,
  measured: readonly string[],
  taken: Readonly<Record<string, number>>,
  rule: Extract<LeadsTo, { kind: 'gasket' }>,
  figures: Figures,
): Led[] {
  const choice = gasketGrade(
    measured.map((place) => taken[place] as number),
    rule.grades,
  )
  if (isMeasureRefusal(choice)) return [{ inside: false, sentence: measureSentence(choice, figures) }]
  const open = places - measured.length
  const waiting = open > 0 ? ` ${open} more to measure before it is certain.` : ''
  const hasGrade = choice.grade !== undefined
  return [
    {
      inside: hasGrade && open === 0,
      ...(hasGrade && open > 0 ? { pending: true as const } : {}),
      sentence: gasketWords(choice, figures) + waiting,
    },
  ]
}

function each(
  rule: Exclude<LeadsTo, { kind: 'gasket' }>,
  value: number,
  limits: Limits,
  figures: Figures,
): Omit<Led, 'place'> {
  if (rule.kind === 'clearance') return outcome(judge(value, 'mm', limits, CLEARANCE_WORDS[rule.of]), figures)
  const choice = timingShim({ ...rule, readDeg: value, targetDeg: middle(limits, value), limits })
  if (isMeasureRefusal(choice)) return { inside: false, sentence: measureSentence(choice, figures) }
  if (verdictOn(value, limits) === 'inside')
    return { inside: true, sentence: 'Within limits: leave the shims as they are.' }
  const now = `With ${figures.number(rule.fittedMm)} mm of shim in place`
  const right = `${figures.number(choice.idealMm)} mm would be right.`
  // Where no size will do, the answer begins with what would.
  const next = shimWords(choice, figures)
  const sentence = next.startsWith(right) ? `${now}, ${next}` : `${now}, ${right} ${next}`
  return { inside: false, sentence }
}

const outcome = (judged: Judged | MeasureRefusal, figures: Figures): Omit<Led, 'place'> =>
  isMeasureRefusal(judged)
    ? { inside: false, sentence: measureSentence(judged, figures) }
    : { inside: judged.verdict === 'inside', sentence: judged.next }

/** What to aim at: the middle of the limits, the one limit there is, or where it stands. */
function middle({ min, max }: Limits, value: number): number {
  if (min !== undefined && max !== undefined) return (min + max) / 2
  return min ?? max ?? value
}
