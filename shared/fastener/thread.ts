/**
 * What a thread designation says, and the geometry that follows from it.
 *
 * Read as people write it: `M10`, `m10 x 1.25`, `M10×1,25-6g`, `M10-1.25`, `3/8-16 UNC`, `#10-32`, `1-1/8-12`. What is unknown,
 * impossible or of another form is refused with what was understood; nothing is guessed. Diameters are basic
 * ones; limits stand in `tolerance.ts`.
 */
import { isRefusal } from '../log'
import { hasText, shown } from './numbers'
import { profile } from './profile'
import { type FastenerRefusal, no, type OtherForm } from './refusals'
import {
  COARSE_PITCH_MM,
  coarsestPitchMm,
  FINE_ONLY_MM,
  finestPitchMm,
  ISO_PITCHES_MM,
  usualPitchesMm,
} from './thread-series'
import type { Thread, ThreadGiven } from './thread-types'
import { readUnified } from './thread-unified'

/**
 * Reads one thread designation. Lengths in mm, area in mm².
 *
 * Refused: text that names no thread, a pitch that cannot be, a missing pitch, a series that contradicts the
 * count, and pipe, taper, Whitworth, trapezoidal and J forms, to which the formulas here do not apply.
 */
export function thread(designation: string): Thread | FastenerRefusal {
  if (!hasText(designation)) return no('thread_unknown', { text: shown(designation), understood: '' })
  const text = plainly(designation)
  const form = otherForm(text)
  if (form) return no('thread_other_form', { text, form })
  const { bare, hand } = withoutHand(text)
  return /^MF?\s*\d/i.test(bare) ? readMetric(text, bare, hand) : readUnified(text, bare, hand)
}

/** As a keyboard would have it: one kind of dash and space, `3/8` for a fraction that is one sign, no more than 80 signs. */
const plainly = (designation: string): string =>
  designation
    .slice(0, 80)
    .replace(/(\d)(?=[¼-¾⅐-⅞])/g, '$1 ')
    .normalize('NFKC')
    .replace(/⁄/g, '/')
    .replace(/[‐-―−]/g, '-')
    .replace(/[\u00AD\u200B\u2060\uFEFF]/g, '')
    .replace(/\s+/g, ' ')
    .trim()

/** A thread from either of its shapes; a refusal passes through. */
export function threadOf(given: ThreadGiven | null | undefined): Thread | FastenerRefusal {
  if (given === undefined || given === null) return no('input_missing', { name: 'Thread' })
  if (typeof given === 'string') return thread(given)
  if (isRefusal(given)) return given as FastenerRefusal
  // Reckoned again from its own words, so that a half-filled object from outside cannot carry NaN along.
  const { designation, hand, toleranceClass, lengthMm } = given as Thread
  const again = thread(designation)
  if (isRefusal(again)) return again
  return {
    ...again,
    hand: hand === 'left' ? 'left' : 'right',
    ...(hasText(toleranceClass) ? { toleranceClass } : {}),
    ...(Number.isFinite(lengthMm) ? { lengthMm } : {}),
  }
}

const FORMS: readonly (readonly [RegExp, OtherForm])[] = [
  [/\b(?:NPTF?|NPSF|PT|BSPT|DRYSEAL)\b/i, 'pipe_taper'],
  [/^(?:RC|R|KR)\s*\d/i, 'pipe_taper'],
  [/\b(?:BSPP?|NPS|PF)\b/i, 'pipe_parallel'],
  [/^(?:RP|G)\s*\d/i, 'pipe_parallel'],
  [/^M.*\b(?:keg|taper|tapered|konisch)\b/i, 'metric_taper'],
  [/^MK\s*\d/i, 'metric_taper'],
  [/\b(?:BSW|BSF|BSC|BA|Whit\w*|Whitworth)\b|^W\s*\d/i, 'whitworth'],
  [/^(?:Tr|ACME|S)\s*\d|\bACME\b/i, 'trapezoidal'],
  [/UNJ/i, 'unified_j'],
  [/^MJ\s*\d/i, 'metric_j'],
]
const otherForm = (text: string): OtherForm | undefined => FORMS.find(([shape]) => shape.test(text))?.[1]

/** Takes the mark of a left-hand thread off; right-hand ones are not marked. */
function withoutHand(text: string): { bare: string; hand: 'left' | 'right' } {
  const left = /[\s-]*\b(?:LH|left[\s-]?hand(?:ed)?)\s*$/i
  const right = /[\s-]*\b(?:RH|right[\s-]?hand(?:ed)?)\s*$/i
  return left.test(text)
    ? { bare: text.replace(left, '').trim(), hand: 'left' }
    : { bare: text.replace(right, '').trim(), hand: 'right' }
}

const NUMBER = String.raw`(\d+(?:[.,]\d+)?|[.,]\d+)`
const METRIC = new RegExp(
  String.raw`^M(F?)\s*${NUMBER}(?:\s*mm)?(?:\s*(?:[x×*✕]|-(?=\s*\d+[.,]\d))\s*(?:P\s*)?${NUMBER}(?:\s*mm)?)?(?:\s*[x×*✕]\s*${NUMBER}(?:\s*mm)?)?(?:\s*(coarse|fine))?(?:\s*[-–—/]?\s*(\d[a-hA-H](?:\d[a-hA-H])?(?:\s*\/\s*\d[a-hA-H](?:\d[a-hA-H])?)?))?$`,
  'i',
)

const decimal = (text: string) => Number(text.replace(',', '.'))

function readMetric(text: string, bare: string, hand: 'left' | 'right'): Thread | FastenerRefusal {
  const match = METRIC.exec(bare)
  if (!match)
    return no('thread_unknown', { text, understood: `metric, from “${/^MF?\s*[\d.,]+/i.exec(bare)?.[0]}”` })
  const [, markedFine, size = '', first, second, word, toleranceClass] = match
  const dMm = decimal(size)
  // ISO 4014 and its like leave the coarse pitch out: `M8 x 25` is a bolt 25 mm long.
  const isLength = first !== undefined && second === undefined && couldBeLength(dMm, decimal(first))
  const pointLost = isLength ? pitchWithPoint(dMm, first) : undefined
  if (pointLost !== undefined)
    return no('thread_pitch_or_length', { text, dMm, pitchMm: pointLost, lengthMm: decimal(first ?? '') })
  const [pitch, length] = isLength ? [undefined, first] : [first, second]
  if (!(dMm >= 1 && dMm <= 600))
    return no('thread_unknown', { text, understood: `metric, ${dMm} mm across, outside 1 to 600 mm` })
  const coarse = COARSE_PITCH_MM.get(dMm)
  const usual = (fineOnly: boolean) => usualPitchesMm(dMm, fineOnly).map(String)
  const fineAsked = markedFine !== '' || word?.toLowerCase() === 'fine'
  if (pitch === undefined && (coarse === undefined || fineAsked))
    return no('thread_pitch_needed', { text, size: `M${dMm}`, pitches: usual(fineAsked) })
  const pitchMm = pitch === undefined ? (coarse ?? 0) : decimal(pitch)
  const fault = pitchFault(dMm, pitchMm)
  if (fault) return no('thread_pitch_impossible', { text, dMm, pitchMm, ...fault })
  if (fineAsked && pitchMm === coarse)
    return no('thread_pitch_needed', { text, size: `M${dMm}`, pitches: usual(true) })
  if (word?.toLowerCase() === 'coarse' && coarse !== undefined && pitchMm !== coarse)
    return no('thread_pitch_needed', { text, size: `M${dMm}`, pitches: [`${coarse}`] })
  return {
    designation: `M${dMm}x${pitchMm}`,
    system: 'metric',
    series: pitchMm === coarse ? 'coarse' : 'fine',
    hand,
    ...(toleranceClass ? { toleranceClass: toleranceClass.replace(/\s/g, '') } : {}),
    ...(length === undefined ? {} : { lengthMm: decimal(length) }),
    ...(pitch === undefined ? { pitchTaken: true as const } : {}),
    dMm,
    pitchMm,
    ...profile(dMm, pitchMm, 'metric'),
    cautions: coarse === undefined && !FINE_ONLY_MM.has(dMm) ? ['thread_not_standard_size'] : [],
    basis: ['thread_metric', 'stress_area_metric'],
  }
}

const LONGEST_MM = 1000
/** Nominal lengths a set screw shorter than its diameter comes in, mm (ISO 888, from memory). */
const SHORT_MM: readonly number[] = [2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25]
/** Nominal lengths of bolts and screws, mm (ISO 888, from memory; above 200 mm no pitch looks like one). */
const LENGTHS_MM: ReadonlySet<number> = new Set([
  ...SHORT_MM,
  ...[30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200],
])

/** No pitch of that diameter, but whole millimetres as long as it is thick; shorter only as set screws come. */
const couldBeLength = (dMm: number, number: number): boolean =>
  Number.isInteger(number) &&
  number > coarsestPitchMm(dMm) &&
  number <= LONGEST_MM &&
  (number >= dMm || (number >= dMm / 2 && SHORT_MM.includes(number)))

/**
 * The pitch of that diameter a length would be with a decimal point in it: `M10x125` may be M10x1.25, and `M12x15` M12x1.5.
 * Not where bolts come in that length: M20x25 and M5x8 are.
 */
const pitchWithPoint = (dMm: number, digits = ''): number | undefined =>
  LENGTHS_MM.has(Number(digits))
    ? undefined
    : usualPitchesMm(dMm, false).find((pitch) => !Number.isInteger(pitch) && sameDigits(pitch, digits))
const sameDigits = (pitch: number, digits: string): boolean =>
  `${pitch}`.replace(/^0?|[.]/g, '') === digits.replace(/^0/, '')

function pitchFault(dMm: number, pitchMm: number) {
  const coarsest = coarsestPitchMm(dMm)
  if (pitchMm > coarsest) return { why: 'too_coarse' as const, limitMm: coarsest }
  const finest = finestPitchMm(dMm)
  if (pitchMm < finest) return { why: 'too_fine' as const, limitMm: finest }
  if (!ISO_PITCHES_MM.includes(pitchMm)) return { why: 'not_a_pitch' as const }
  return undefined
}
