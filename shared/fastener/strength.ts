/**
 * What a bolt's mark promises: tensile strength, yield and proof stress, by diameter.
 *
 * Tables only; nothing here can be derived. ISO 898-1 classes, SAE J429 grades and the austenitic stainless classes of
 * ISO 3506-1. Anything else is refused: bronze, brass and other metals have no standard bolt strength here; a mark beside
 * other words is asked about.
 */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import { VOCABULARY_WORDS } from './languages'
import { hasText, impossible, partsOf, shown } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import { threadOf } from './thread'
import type { Thread, ThreadGiven } from './thread-types'

export interface StrengthRange {
  /** Above this diameter, and up to the next, mm. */
  overMm: number
  uptoMm: number
  rmMPa: number
  yieldMPa: number
  proofMPa: number
}

export interface Strength {
  /** As it is written here: `10.9`, `SAE 5`, `A4-70`. */
  grade: string
  system: 'iso898' | 'saeJ429' | 'stainless' | 'given'
  /** Minimum tensile strength. */
  rmMPa: number
  /** Minimum yield: ReL or Rp0.2. */
  yieldMPa: number
  /** Stress under proof load. */
  proofMPa: number
  /** The diameter these three hold for; without one, they are the lowest of the ranges. */
  dMm?: number
  ranges: StrengthRange[]
  cautions: CautionCode[]
  basis: BasisId[]
}

/** A grade by its mark, what `strength` answered, or figures of one's own, MPa. */
export type GradeGiven =
  | string
  | Strength
  | { rmMPa: number; yieldMPa: number; proofMPa?: number }
  | FastenerRefusal

const KSI = 6.894757293168361
type Row = readonly [uptoMm: number, rm: number, yields: number, proof: number]

const ISO_898: Record<string, readonly Row[]> = {
  '4.6': [[39, 400, 240, 225]],
  '4.8': [[39, 420, 340, 310]],
  '5.6': [[39, 500, 300, 280]],
  '5.8': [[39, 520, 420, 380]],
  '6.8': [[39, 600, 480, 440]],
  '8.8': [
    [16, 800, 640, 580],
    [39, 830, 660, 600],
  ],
  '9.8': [[16, 900, 720, 650]],
  '10.9': [[39, 1040, 940, 830]],
  '12.9': [[39, 1220, 1100, 970]],
}

/** ksi; diameters in inches. The grades marked in `SAE_MEMORY` are from memory, the others found. */
const SAE: Record<string, readonly Row[]> = {
  '1': [[1.5, 60, 36, 33]],
  '2': [
    [0.75, 74, 57, 55],
    [1.5, 60, 36, 33],
  ],
  '4': [[1.5, 115, 100, 65]],
  '5': [
    [1, 120, 92, 85],
    [1.5, 105, 81, 74],
  ],
  '5.2': [[1, 120, 92, 85]],
  '7': [[1.5, 133, 115, 105]],
  '8': [[1.5, 150, 130, 120]],
  '8.2': [[1, 150, 130, 120]],
}
const SAE_MEMORY = new Set(['1', '4', '5.2', '8.2'])

const STAINLESS: Record<string, readonly [rm: number, yields: number]> = {
  '50': [500, 210],
  '70': [700, 450],
  '80': [800, 600],
  '100': [1000, 800],
}

const OTHER_METALS =
  /\b(bronze|brass|copper|aluminium|aluminum|titanium|nylon|plastic|cast iron|magnesium|zinc|silver|monel|inconel|nickel)\b/i

/** `Festigkeitsklasse`, `classe de qualité`: what is written before a class, and what stainless is called. */
const wordsOf = (key: 'grade' | 'stainless', own: string) =>
  `(?:${[own, ...VOCABULARY_WORDS.map((words) => words[key] ?? '')]
    .flatMap((entry) => entry.split('|').filter(Boolean))
    .sort((a, b) => b.length - a.length)
    .join('|')})`
const CLASS = wordsOf(
  'grade',
  'property class|strength class|class|cl|grade|gr|quality|bolt|bolts|screw|screws|marked|head marked|bolt marked|bolts marked',
)
const STEEL = wordsOf('stainless', 'stainless|stainless steel')
const STAINLESS_TEXT = new RegExp(
  `^(?:(?:${CLASS}|${STEEL})\\s+)?A([1-5])?\\s*[-–—\\s]\\s*(50|70|80|100)(?:[\\s,]+${STEEL})?$`,
  'iu',
)
const ISO_TEXT = new RegExp(
  `^(?:ISO\\s*(?:898(?:-1)?)?\\s*)?(?:${CLASS})?\\s*[.:]?\\s*(\\d{1,2}\\s*[.,]\\s*\\d)$`,
  'iu',
)

/** `grade 8` on a metric thread may be class 8.8, a nut's class, or an inch bolt's grade. */
const BARE_GRADE = /^\s*(?:grade|gr)\s*\.?\s*(\d(?:[.,]2)?)\s*$/i

/** A bare 8 is a nut's class far sooner than an inch bolt's grade, unless the thread is an inch thread. */
const BARE = /^\s*([1-9])\s*$/

/**
 * Strength of a grade, MPa: `8.8`, `Class 10.9`, `10,9`, `SAE Grade 5`, `Gr.8`, `A2-70`.
 *
 * `d` is the nominal diameter, mm, or a thread; without it a grade with several ranges answers with its weakest and
 * says so. Refused: an unknown mark, one that could be two, a diameter the grade is not defined for, a material
 * without standard strengths. Source: ISO 898-1 table 3, SAE J429, ISO 3506-1.
 */
export function strength(grade: string, d?: number | ThreadGiven): Strength | FastenerRefusal {
  const dMm = diameterOf(d)
  if (isRefusal(dMm)) return dMm as FastenerRefusal
  if (!hasText(grade)) return no('grade_unknown', { text: shown(grade) })
  const text = grade.trim().slice(0, 60)
  const stainless = STAINLESS_TEXT.exec(text)
  if (stainless) return ofStainless(`A${stainless[1] ?? ''}-${stainless[2]}`, stainless[2] ?? '', dMm)
  const bareStainless = /^A([1-5])$/i.exec(text)
  if (bareStainless)
    return no('grade_unclear', { text, could: ['50', '70', '80'].map((n) => `A${bareStainless[1]}-${n}`) })
  const bare = BARE.exec(text)?.[1]
  if (bare && SAE[bare])
    return no('grade_unclear', { text, could: [`nut class ${bare}`, `SAE ${bare} on an inch bolt`] })
  const sae = /^(?:SAE\s*J?\s*(?:429)?|J\s*429)?\s*(?:grade|gr)?\s*\.?\s*(\d(?:[.,]\d)?)$/i.exec(text)
  const saeMark = sae?.[1]?.replace(',', '.')
  const iso = ISO_TEXT.exec(text)
  const isoMark = iso?.[1]?.replace(',', '.').replace(/\s/g, '')
  if (isoMark && ISO_898[isoMark]) return ofTable('iso898', isoMark, isoMark, ISO_898[isoMark], 1, dMm)
  if (saeMark && SAE[saeMark]) return ofTable('saeJ429', `SAE ${saeMark}`, saeMark, SAE[saeMark], 25.4, dMm)
  const could = marksIn(text)
  if (could.length > 0) return no('grade_unclear', { text, could })
  const metal = OTHER_METALS.exec(text)?.[1]
  if (metal) return no('grade_without_formula', { text, material: metal.toLowerCase() })
  if (/stainless|^C[134]-/i.test(text))
    return no('grade_without_formula', { text, material: 'stainless without its class' })
  if (/^(?:class|cl)?\s*\.?\s*(?:10|12)$/i.test(text))
    return no('grade_unclear', { text, could: [text.endsWith('10') ? '10.9' : '12.9', 'a nut class'] })
  return no('grade_unknown', { text })
}

/** The marks held here that stand in a text beside other words: candidates, for a leftover word may change which is meant. */
function marksIn(text: string): string[] {
  const iso = [...text.matchAll(/(?<![\d.,-])(\d{1,2})\s*[.,]\s*(\d)(?![\d.,])/g)]
    .map(([, whole, part]) => `${whole}.${part}`)
    .filter((mark) => Object.hasOwn(ISO_898, mark))
  const sae = [...text.matchAll(/\b(?:SAE|J\s*429)\s*(?:grade|gr)?\s*\.?\s*(\d(?:\.\d)?)\b/gi)]
    .map(([, mark = '']) => mark)
    .filter((mark) => Object.hasOwn(SAE, mark))
    .map((mark) => `SAE ${mark}`)
  const stainless = [...text.matchAll(/\bA([1-5])\s*[-–—]\s*(50|70|80|100)\b/gi)].map(
    ([, steel, mark]) => `A${steel}-${mark}`,
  )
  return [...new Set([...iso, ...sae, ...stainless])]
}

/** Proof load, N: stress area times proof stress. ISO's printed loads depart from it by up to 0.62 % by their rounding. */
export function proofLoadN(threadGiven: ThreadGiven, grade: GradeGiven): number | FastenerRefusal {
  return loadOf(threadGiven, grade, 'proofMPa')
}

/** Least ultimate tensile load, N: stress area times minimum tensile strength (ISO 898-1). */
export function ultimateLoadN(threadGiven: ThreadGiven, grade: GradeGiven): number | FastenerRefusal {
  return loadOf(threadGiven, grade, 'rmMPa')
}

/** The load at which the thread yields under pure tension, N. */
export function yieldLoadN(threadGiven: ThreadGiven, grade: GradeGiven): number | FastenerRefusal {
  return loadOf(threadGiven, grade, 'yieldMPa')
}

function loadOf(threadGiven: ThreadGiven, grade: GradeGiven, stress: 'proofMPa' | 'rmMPa' | 'yieldMPa') {
  const thread = threadOf(threadGiven)
  if (isRefusal(thread)) return thread
  const result = strengthOf(grade, thread)
  return isRefusal(result) ? result : thread.stressAreaMm2 * result[stress]
}

/** A strength from any of its shapes, on one thread. */
export function strengthOf(
  grade: GradeGiven | null | undefined,
  { dMm, system }: Pick<Thread, 'dMm' | 'system'>,
): Strength | FastenerRefusal {
  if (grade === undefined || grade === null) return no('input_missing', { name: 'Grade' })
  if (typeof grade === 'string') {
    const bare = BARE.exec(grade)?.[1]
    const word = BARE_GRADE.exec(grade)?.[1]
    if (word && system === 'metric' && SAE[word.replace(',', '.')])
      return no('grade_unclear', {
        text: grade.trim().slice(0, 60),
        could: [
          ...(ISO_898[`${word}.8`] ? [`${word}.8`] : []),
          `nut class ${word}`,
          `SAE ${word} on an inch bolt`,
        ],
      })
    const result = strength(bare && system === 'unified' ? `SAE ${bare}` : grade, dMm)
    if (isRefusal(result)) return result
    const foreign = result.system === (system === 'metric' ? 'saeJ429' : 'iso898')
    return foreign ? { ...result, cautions: [...result.cautions, 'grade_other_system'] } : result
  }
  if (isRefusal(grade)) return grade as FastenerRefusal
  const parts: { grade?: string; system?: string; rmMPa?: number; yieldMPa?: number; proofMPa?: number } =
    partsOf(grade)
  if (parts.system !== 'given' && typeof parts.grade === 'string')
    return strengthOf(parts.grade, { dMm, system })
  const { rmMPa, yieldMPa } = parts
  const proofMPa = parts.proofMPa ?? yieldMPa
  const fault =
    impossible('Tensile strength', rmMPa, 'stress') ??
    impossible('Yield strength', yieldMPa, 'stress') ??
    impossible('Proof stress', proofMPa, 'stress')
  if (fault) return fault
  const figures = { rmMPa: rmMPa ?? 0, yieldMPa: yieldMPa ?? 0, proofMPa: proofMPa ?? 0 }
  if (figures.yieldMPa > figures.rmMPa)
    return no('number_impossible', {
      name: 'Yield strength',
      given: String(figures.yieldMPa),
      must: `at most the tensile strength of ${figures.rmMPa} MPa`,
    })
  return {
    grade: `${figures.rmMPa}/${figures.yieldMPa} MPa`,
    system: 'given',
    ...figures,
    dMm,
    ranges: [{ overMm: 0, uptoMm: 1e6, ...figures }],
    cautions: [],
    basis: ['strength_given'],
  }
}

function diameterOf(d: number | ThreadGiven | undefined): number | undefined | FastenerRefusal {
  if (d === undefined) return undefined
  if (typeof d === 'number') return impossible('Diameter', d, 'length') ?? d
  const thread = threadOf(d)
  return isRefusal(thread) ? thread : thread.dMm
}

function ofStainless(grade: string, mark: string, dMm: number | undefined): Strength | FastenerRefusal {
  const [rm, yields] = STAINLESS[mark] ?? [0, 0]
  const result = ofTable('stainless', grade, mark, [[39, rm, yields, yields]], 1, dMm)
  if (isRefusal(result)) return result
  result.cautions.push('proof_from_yield', 'stainless_galls')
  if (dMm !== undefined && dMm > 24 && mark !== '50') result.cautions.push('stainless_over_24')
  return result
}

/** 1.5 in is 38.1 mm, whatever a double makes of it. */
const tidy = (mm: number) => Math.round(mm * 1e6) / 1e6

function ofTable(
  system: Strength['system'],
  grade: string,
  mark: string,
  rows: readonly Row[],
  scale: number,
  dMm: number | undefined,
): Strength | FastenerRefusal {
  const stress = scale === 1 ? 1 : KSI
  const ranges = rows.map(([upto, rm, yields, proof], index) => ({
    overMm: tidy((rows[index - 1]?.[0] ?? 0) * scale),
    uptoMm: tidy(upto * scale),
    rmMPa: rm * stress,
    yieldMPa: yields * stress,
    proofMPa: proof * stress,
  }))
  const last = ranges.at(-1)
  const weakest = ranges.reduce((low, range) => (range.proofMPa < low.proofMPa ? range : low))
  const cautions: CautionCode[] = []
  let chosen = weakest
  if (dMm !== undefined) {
    const at = ranges.find((range) => dMm <= range.uptoMm + 1e-9)
    // Class 9.8 ends at 16 mm and the SAE grades at their last inch; ISO's other classes are made larger too.
    if (!at && (system === 'saeJ429' || mark === '9.8'))
      return no('grade_not_this_size', { grade, dMm, fromMm: 0, uptoMm: last?.uptoMm ?? 0 })
    chosen = at ?? last ?? weakest
    if (!at || (system === 'saeJ429' && dMm < 6.35) || (system === 'iso898' && dMm < 1.6))
      cautions.push('outside_standard_size')
  } else if (ranges.length > 1) cautions.push('lowest_of_ranges')
  if (mark === '12.9') cautions.push('hydrogen')
  const basis: BasisId =
    system === 'stainless'
      ? 'strength_stainless'
      : system === 'iso898'
        ? 'strength_iso'
        : SAE_MEMORY.has(mark)
          ? 'strength_sae_memory'
          : 'strength_sae'
  const { rmMPa, yieldMPa, proofMPa } = chosen
  return {
    grade,
    system,
    rmMPa,
    yieldMPa,
    proofMPa,
    ...(dMm === undefined ? {} : { dMm }),
    ranges,
    cautions,
    basis: [basis],
  }
}
