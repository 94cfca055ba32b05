/**
 * Lubrication as a person names it, and the band of friction it stands for.
 *
 * A state is never one number: VDI 2230 gives bands, and a torque is only as sure as its band. Nut factors and the
 * scatter of preload by tightening method stand beside them. Bands: VDI 2230 Part 1, table A5.
 */
import type { BasisStatus } from './basis'
import { hasText, shown } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import { LUBRICATION_TERMS, type Lubrication, lubricationVocabulary, understand } from './vocabulary'

export type { Lubrication } from './vocabulary'
export const LUBRICATIONS: readonly Lubrication[] = LUBRICATION_TERMS.map(({ id }) => id)
export type FrictionClass = 'A' | 'B' | 'C' | 'D'

export interface FrictionBand {
  low: number
  high: number
}

/** No unit. Class E (≥ 0.30) has no upper bound and so gives no torque. Source: VDI 2230 Part 1, table A5. */
export const FRICTION_CLASSES: Record<FrictionClass, FrictionBand> = {
  A: { low: 0.04, high: 0.1 },
  B: { low: 0.08, high: 0.16 },
  C: { low: 0.14, high: 0.24 },
  D: { low: 0.2, high: 0.35 },
}

/** The class of each state, on steel and on austenitic stainless; `undefined` where no band can be promised. */
const CLASS_OF: Record<Lubrication, { steel: FrictionClass; stainless?: FrictionClass; words: string }> = {
  dry: { steel: 'C', words: 'bare or phosphated steel, clean, no lubricant added' },
  oil: { steel: 'B', stainless: 'D', words: 'engine oil on thread and under the head' },
  grease: { steel: 'B', stainless: 'C', words: 'grease on thread and under the head' },
  paste: { steel: 'A', stainless: 'B', words: 'molybdenum, graphite or PTFE paste or film' },
  anti_seize: { steel: 'B', stainless: 'C', words: 'anti-seize, metal or ceramic in grease' },
  threadlocker: { steel: 'C', words: 'liquid threadlocker, wet' },
  zinc_plated: { steel: 'C', words: 'zinc plated, no lubricant added' },
  wax: { steel: 'B', stainless: 'B', words: 'wax coated as delivered' },
}

export interface LubricationBand extends FrictionBand {
  lubrication: Lubrication
  class: FrictionClass
  words: string
}

/** What a person is told to write in a plan. */
export const LUBRICATION_EXAMPLES: readonly string[] = ['dry', 'engine oil', 'oil on threads and under head']

/** Which state a text means by the vocabulary; anything it does not hold whole is asked about, for no friction is guessed. */
export function readLubrication(text: string): Lubrication | FastenerRefusal {
  if (!hasText(text) || text.trim() === '')
    return no('lubrication_unknown', { text: shown(text), known: [...LUBRICATIONS] })
  const understood = understand(text.slice(0, LONGEST), lubricationVocabulary())
  if ('id' in understood) return understood.id
  return understood.could.length > 0
    ? no('lubrication_unclear', { text: text.slice(0, 60), could: understood.could })
    : no('lubrication_unknown', { text: text.slice(0, 60), known: [...LUBRICATIONS] })
}

/** No plan names a lubrication in more signs. */
const LONGEST = 200

/** The friction band of a state on a bolt of steel or austenitic stainless. Source: VDI 2230 Part 1, table A5. */
export function frictionBand(
  text: string,
  grade: { grade: string; system: string },
): LubricationBand | FastenerRefusal {
  const state = readLubrication(text)
  if (typeof state !== 'string') return state
  const { steel, stainless, words } = CLASS_OF[state]
  const name = grade.system === 'stainless' ? stainless : steel
  if (!name) return no('stainless_needs_lubricant', { grade: grade.grade })
  return { lubrication: state, class: name, words, ...FRICTION_CLASSES[name] }
}

export interface NutFactor {
  condition: string
  k: number
  source: string
  status: BasisStatus
}

const NUT_FACTOR_ARTICLE = '“What Does the Nut Factor, ‘K’, Really Encompass?” (2020)'
const SHIGLEY = 'Shigley’s Mechanical Engineering Design, 10th edition, table 8-15 (memory)'

/** K of T = K·d·F by condition; no unit. */
export const NUT_FACTORS: readonly NutFactor[] = [
  { condition: 'clean dry steel, as received', k: 0.2, source: NUT_FACTOR_ARTICLE, status: 'found' },
  {
    condition: 'zinc plated',
    k: 0.17,
    source: 'memory',
    status: 'memory',
  },
  { condition: 'lubricated', k: 0.15, source: NUT_FACTOR_ARTICLE, status: 'found' },
  { condition: 'cadmium plated', k: 0.16, source: SHIGLEY, status: 'memory' },
  { condition: 'black finish, not plated', k: 0.3, source: SHIGLEY, status: 'memory' },
  { condition: 'zinc plated (Shigley)', k: 0.2, source: SHIGLEY, status: 'memory' },
  { condition: 'lubricated (Shigley)', k: 0.18, source: SHIGLEY, status: 'memory' },
  { condition: 'anti-seize', k: 0.12, source: SHIGLEY, status: 'memory' },
]

const NASA = 'NSTS 08307, as quoted in “Methods of Applying and Measuring Preload”, table 2'
const HANDBOOK = 'Machinery’s Handbook, as quoted in “Methods of Applying and Measuring Preload”, table 1'

/** Scatter of preload about its mean, plus and minus per cent, by how the bolt is tightened. */
export const PRELOAD_SCATTER = {
  torque_dry: { plusMinusPct: 35, words: 'torque wrench, dry', source: NASA },
  torque_plated: { plusMinusPct: 30, words: 'torque wrench, cadmium plated', source: NASA },
  torque_lubricated: { plusMinusPct: 25, words: 'torque wrench, lubricated', source: NASA },
  tensioner: { plusMinusPct: 15, words: 'hydraulic tensioner', source: NASA },
  indicating_washer: { plusMinusPct: 10, words: 'preload indicating washer', source: NASA },
  ultrasonic: { plusMinusPct: 10, words: 'ultrasonic measurement', source: NASA },
  elongation: { plusMinusPct: 5, words: 'bolt elongation measured', source: NASA },
  instrumented_bolt: { plusMinusPct: 5, words: 'instrumented bolt', source: NASA },
  by_feel: { plusMinusPct: 35, words: 'by feel', source: HANDBOOK },
  torque_wrench: { plusMinusPct: 25, words: 'torque wrench', source: HANDBOOK },
  turn_of_nut: { plusMinusPct: 15, words: 'turn of nut', source: HANDBOOK },
  yield_point: { plusMinusPct: 8, words: 'yield-point sensing', source: HANDBOOK },
} as const satisfies Record<string, { plusMinusPct: number; words: string; source: string }>
export type TighteningMethod = keyof typeof PRELOAD_SCATTER
export const TIGHTENING_METHODS = Object.keys(PRELOAD_SCATTER) as TighteningMethod[]

export interface PreloadScatter {
  method: TighteningMethod
  plusMinusPct: number
  /** αA = Fmax/Fmin, the tightening factor of VDI 2230; no unit. */
  tighteningFactor: number
  words: string
  source: string
}

/** Scatter of a method, per cent either side of the mean preload. */
export function preloadScatter(method: string): PreloadScatter | FastenerRefusal {
  const asId = hasText(method)
    ? method
        .trim()
        .toLowerCase()
        .replace(/[\s-]+/g, '_')
    : ''
  const known = TIGHTENING_METHODS.find((name) => name === asId)
  if (!known) return no('method_unknown', { text: shown(method), known: TIGHTENING_METHODS })
  const scatter = PRELOAD_SCATTER[known]
  const share = scatter.plusMinusPct / 100
  return { method: known, ...scatter, tighteningFactor: (1 + share) / (1 - share) }
}
