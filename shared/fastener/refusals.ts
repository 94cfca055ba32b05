/**
 * Why an answer about a fastener was refused: the codes, and the one sentence of each.
 *
 * A person's input never throws here and never comes back as NaN: what cannot be reckoned is one of these. A
 * sentence says what is so, which one, and what to do next. A code without a sentence does not compile.
 */
import type { Refusal } from '../log'
import { exact, type Figures, listed } from '../words'

export type OtherForm =
  | 'pipe_taper'
  | 'pipe_parallel'
  | 'metric_taper'
  | 'whitworth'
  | 'trapezoidal'
  | 'unified_j'
  | 'metric_j'

export interface FastenerRefusalData {
  input_missing: { name: string }
  number_impossible: { name: string; given: string; must: string }
  thread_unknown: { text: string; understood: string }
  thread_pitch_needed: { text: string; size: string; pitches: string[] }
  thread_pitch_or_length: { text: string; dMm: number; pitchMm: number; lengthMm: number }
  thread_pitch_impossible: {
    text: string
    dMm: number
    pitchMm: number
    why: 'too_coarse' | 'too_fine' | 'not_a_pitch'
    limitMm?: number
  }
  thread_series_differs: { text: string; size: string; series: string; tpi: number; expected: string[] }
  thread_other_form: { text: string; form: OtherForm }
  grade_unknown: { text: string }
  grade_unclear: { text: string; could: string[] }
  grade_not_this_size: { grade: string; dMm: number; fromMm: number; uptoMm: number }
  grade_without_formula: { text: string; material: string }
  lubrication_unknown: { text: string; known: string[] }
  lubrication_unclear: { text: string; could: string[] }
  friction_missing: Record<never, never>
  stainless_needs_lubricant: { grade: string }
  waist_needed: Record<never, never>
  waist_too_thick: { waistMm: number; d3Mm: number }
  hole_below_thread: { holeMm: number; dMm: number }
  bearing_below_hole: { bearingMm: number; holeMm: number }
  material_unknown: { text: string; known: string[] }
  material_unclear: { text: string; could: string[] }
  insert_unknown: { text: string }
  insert_outer_thread_needed: Record<never, never>
  insert_outer_thread_small: { outer: string; thread: string }
  insert_longer_than_hole: { insertMm: number; holeMm: number }
  thread_deeper_than_hole: { threadDepthMm: number; holeDepthMm: number }
  method_unknown: { text: string; known: string[] }
  turn_outside_table: { lengthMm: number; dMm: number; uptoMm: number }
  no_published_torque: { thread: string; source: string }
  positions_unclear: {
    why: 'none' | 'not_finite' | 'number_twice' | 'same_place' | 'not_a_number' | 'too_many'
  }
  positions_without_places: { pattern: string }
  pattern_unknown: { text: string; known: string[] }
  order_not_a_permutation: { missing: number[]; unknown: number[]; twice: number[] }
}

export type FastenerRefusalCode = keyof FastenerRefusalData
export type FastenerRefusal = {
  [Code in FastenerRefusalCode]: Refusal<Code> & { data: FastenerRefusalData[Code] }
}[FastenerRefusalCode]

/** A refusal with the data its sentence needs. */
export const no = <Code extends FastenerRefusalCode>(
  refused: Code,
  data: FastenerRefusalData[Code],
): FastenerRefusal => ({ refused, data }) as FastenerRefusal

const FORMS: Record<OtherForm, string> = {
  pipe_taper:
    'a taper pipe thread: it wedges and seals, so tension formulas do not hold. Use the maker’s figure',
  pipe_parallel:
    'a pipe thread of Whitworth form: it is not a bolt’s, so tension formulas do not hold. Use the maker’s figure',
  metric_taper: 'a metric taper thread: it wedges, so tension formulas do not hold. Use the maker’s figure',
  whitworth:
    'a British thread of another form (Whitworth 55°, BA 47½°), which is not known here. Use the maker’s figure',
  trapezoidal: 'a trapezoidal thread: it moves loads, it does not clamp. Use the maker’s figure',
  unified_j: 'a J-form thread with a larger root, which is not known here. Use the maker’s figure',
  metric_j: 'a metric J-form thread with a larger root, which is not known here. Use the maker’s figure',
}

const PITCH_WHY: Record<FastenerRefusalData['thread_pitch_impossible']['why'], string> = {
  too_coarse: 'is coarser than the coarse pitch',
  too_fine: 'is too fine for that diameter',
  not_a_pitch: 'is not a pitch of the ISO series',
}

const POSITIONS: Record<FastenerRefusalData['positions_unclear']['why'], string> = {
  none: 'There are no positions. Place the fasteners on the map first.',
  not_finite: 'A position has no place on the map. Give every fastener its x and y.',
  number_twice: 'Two positions have the same number. Number them again.',
  same_place: 'Two positions are on the same spot. Move one of them.',
  not_a_number: 'A position’s number is not a whole number from 1. Number them again.',
  too_many: 'There are more than 1000 positions. Split the joint into smaller ones.',
}

/** Ids as words: `cast_iron` is read aloud as cast iron, and taken so. */
const worded = (ids: readonly string[]) => listed(ids.map((id) => id.replaceAll('_', ' ')))

type Sentences = {
  [Code in FastenerRefusalCode]: (data: FastenerRefusalData[Code], figures: Figures) => string
}

const mm = (value: number, figures: Figures): string => `${exact(value, figures)} mm`

const SENTENCES: Sentences = {
  input_missing: (d) => `${d.name} is missing. Enter it.`,
  number_impossible: (d, { digits }) =>
    `${d.name} is ${digits(d.given)}; it must be ${digits(d.must)}. Enter it again.`,
  thread_unknown: (d, { digits }) =>
    `“${d.text}” is not a thread known here${d.understood ? ` (understood: ${digits(d.understood)})` : ''}. Write it as M10x1.25, 3/8-16 UNC or #10-32.`,
  thread_pitch_needed: (d, { digits }) =>
    `“${d.text}” does not say the pitch${d.pitches.length ? `: ${d.size} comes with ${listed(d.pitches.map(digits))}` : ''}. Write the pitch too.`,
  thread_pitch_or_length: (d, f) =>
    `“${d.text}” may be M${exact(d.dMm, f)}x${exact(d.pitchMm, f)} without its decimal point, or a bolt ${mm(d.lengthMm, f)} long. Write the pitch, and a length after it.`,
  thread_pitch_impossible: (d, f) =>
    `“${d.text}” was understood as ${mm(d.dMm, f)} with pitch ${mm(d.pitchMm, f)}, which ${PITCH_WHY[d.why]}${d.limitMm === undefined ? '' : ` (${mm(d.limitMm, f)})`}. Measure the pitch; a length is written after it.`,
  thread_series_differs: (d) =>
    `“${d.text}”: ${d.size} with ${d.tpi} threads an inch is not ${d.series}${d.expected.length ? `; it comes as ${listed(d.expected)}` : ''}. Count the threads and write it again.`,
  thread_other_form: (d) => `“${d.text}” is ${FORMS[d.form]}.`,
  grade_unknown: (d) =>
    `“${d.text}” is not a property class or grade known here. Read the mark on the head: 8.8, 10.9, SAE Grade 5, A2-70.`,
  grade_unclear: (d) =>
    `“${d.text}” does not say exactly one class. ${d.could.length === 1 ? `If it is ${d.could[0]}, write that alone` : `Write ${listed(d.could, 'or')} alone`}, as it stands on the head.`,
  grade_not_this_size: (d, f) =>
    `${d.grade} is not defined at ${mm(d.dMm, f)}; it runs from ${exact(d.fromMm, f)} to ${mm(d.uptoMm, f)}. Check size and mark.`,
  grade_without_formula: (d) =>
    `“${d.text}”: no bolt strength is known for ${d.material}, so nothing is computed. Use the maker’s figure, or a competent person’s own value.`,
  lubrication_unknown: (d) =>
    `No friction is known for “${d.text}”. Choose one of ${worded(d.known)}, or enter measured friction.`,
  lubrication_unclear: (d) =>
    `“${d.text}” does not say exactly one lubrication. Choose ${worded(d.could)}, or enter measured friction.`,
  friction_missing: () =>
    'Neither friction nor lubrication is entered. Enter how thread and head are lubricated.',
  stainless_needs_lubricant: (d) =>
    `${d.grade} without a lubricant seizes, and its friction has no upper limit. Lubricate it, or enter measured friction.`,
  waist_needed: () => 'A waisted shank carries less than its thread. Measure the waist and enter it.',
  waist_too_thick: (d, f) =>
    `A waist of ${mm(d.waistMm, f)} is no thinner than the thread’s core of ${mm(d.d3Mm, f)}. Enter it as a full shank.`,
  hole_below_thread: (d, f) =>
    `A hole of ${mm(d.holeMm, f)} does not pass a ${mm(d.dMm, f)} thread. Measure the hole again.`,
  bearing_below_hole: (d, f) =>
    `A head bearing on ${mm(d.bearingMm, f)} falls through a hole of ${mm(d.holeMm, f)}. Measure both again.`,
  material_unknown: (d) =>
    `No shear strength is known for “${d.text}”. Choose one of ${worded(d.known)}, or enter it from the maker’s data.`,
  material_unclear: (d) =>
    `“${d.text}” does not say exactly one material. Choose ${worded(d.could)}, or enter its shear strength from the maker’s data.`,
  insert_unknown: (d) => `“${d.text}” is not a kind of insert known here. Choose wire or solid.`,
  insert_outer_thread_needed: () =>
    'A solid insert holds by its outer thread, which its maker names. Enter that thread.',
  insert_outer_thread_small: (d) =>
    `A solid insert for ${d.thread} cannot have the outer thread ${d.outer}: it leaves no wall. Check both.`,
  insert_longer_than_hole: (d, f) =>
    `An insert of ${mm(d.insertMm, f)} does not fit a thread ${mm(d.holeMm, f)} deep. Choose a shorter one or tap deeper.`,
  thread_deeper_than_hole: (d, f) =>
    `The thread is ${mm(d.threadDepthMm, f)} deep in a hole of ${mm(d.holeDepthMm, f)}. Measure both again.`,
  method_unknown: (d) =>
    `“${d.text}” is not a tightening method known here. Choose one of ${worded(d.known)}.`,
  turn_outside_table: (d, f) =>
    `The turn-of-nut table ends at ${mm(d.uptoMm, f)} for this diameter; ${mm(d.lengthMm, f)} needs its own test. Ask a competent person.`,
  no_published_torque: (d) => `${d.source} has nothing for ${d.thread}. Use another source.`,
  positions_unclear: (d) => POSITIONS[d.why],
  positions_without_places: (d) =>
    `The pattern ${d.pattern} needs the places on the map. Give every fastener its x and y.`,
  pattern_unknown: (d) =>
    `“${d.text}” is not a pattern. Choose ${worded(d.known)}, or give the order itself.`,
  order_not_a_permutation: (d) =>
    `The order must name every position once.${d.missing.length ? ` Missing: ${listed(d.missing.map(String))}.` : ''}${d.twice.length ? ` Twice: ${listed(d.twice.map(String))}.` : ''}${d.unknown.length ? ` Not there: ${listed(d.unknown.map(String))}.` : ''} Correct it.`,
}

export const FASTENER_REFUSAL_CODES = Object.keys(SENTENCES) as FastenerRefusalCode[]

/** The sentence of a fastener refusal, for the person at the bench. */
export function fastenerSentence(refusal: FastenerRefusal, figures: Figures): string {
  const sentence = SENTENCES[refusal.refused] as (data: never, figures: Figures) => string
  return sentence(refusal.data as never, figures)
}
