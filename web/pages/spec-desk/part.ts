/** One answer of the desk: there, refused with the reason, or open with what it asks for. And whose field a reason is. */
import type { FastenerRefusal } from '../../../shared/fastener'
import { fastenerSentence } from '../../../shared/fastener'
import { format } from '../../format'
import type { Entry } from './entries'
import type { InputField } from './inputs'

export type Part<T> =
  | { state: 'there'; value: T }
  | { state: 'refused'; why: string; field?: InputField; could?: readonly string[] }
  | { state: 'open'; asks: string }

/** What was typed and cannot be read, with what it may mean. */
export interface Unread {
  state: 'refused'
  why: string
  readings: readonly { text: string }[]
  /** Its words that none of the readings holds. */
  note: string
}

export type FieldErrors = Partial<Record<InputField, string>>
/** By field, what a word there could mean. */
export type Candidates = Partial<Record<InputField, readonly string[]>>

export const there = <T>(value: T): Part<T> => ({ state: 'there', value })
export const open = (asks: string): Part<never> => ({ state: 'open', asks })

/** What was answered, if anything was. */
export const answerOf = <T>(part: Part<T>): T | undefined => (part.state === 'there' ? part.value : undefined)

/** Why there is no answer. */
export const whyNot = (part: Part<unknown>): string =>
  part.state === 'refused' ? part.why : part.state === 'open' ? part.asks : ''

/** The same value where it is in this state. */
export const inState = <T extends { state: string }, S extends T['state']>(value: T, state: S) =>
  value.state === state ? (value as Extract<T, { state: S }>) : undefined

/** The first entry that cannot be read refuses what needs it. */
export function unreadable(entries: { [Field in InputField]?: Entry<unknown> }): Part<never> | undefined {
  for (const [field, { error }] of Object.entries(entries))
    if (error) return { state: 'refused', why: error, field: field as InputField }
  return undefined
}

const FIELD_OF: Partial<Record<FastenerRefusal['refused'], InputField>> = {
  thread_unknown: 'thread',
  thread_pitch_needed: 'thread',
  thread_pitch_or_length: 'thread',
  thread_pitch_impossible: 'thread',
  thread_series_differs: 'thread',
  thread_other_form: 'thread',
  grade_unknown: 'grade',
  grade_unclear: 'grade',
  grade_not_this_size: 'grade',
  grade_without_formula: 'grade',
  lubrication_unknown: 'lubrication',
  lubrication_unclear: 'lubrication',
  friction_missing: 'lubrication',
  stainless_needs_lubricant: 'lubrication',
  hole_below_thread: 'clearanceHole',
  bearing_below_hole: 'headBearing',
  material_unknown: 'material',
  material_unclear: 'material',
  insert_unknown: 'insert',
  insert_outer_thread_needed: 'insertOuter',
  insert_outer_thread_small: 'insertOuter',
  insert_longer_than_hole: 'insertLength',
  thread_deeper_than_hole: 'holeDepth',
  positions_unclear: 'count',
  pattern_unknown: 'pattern',
}

/** The names the formulas give to numbers, and where those are typed. */
const NAMED: Record<string, InputField> = {
  'Thread friction': 'mu',
  'Head friction': 'mu',
  Utilisation: 'utilisation',
  'Head bearing diameter': 'headBearing',
  'Clearance hole': 'clearanceHole',
  'Bolt length': 'length',
  Stack: 'stack',
  Washer: 'washer',
  'Hole depth': 'holeDepth',
  'Thread depth': 'threadDepth',
  'Insert length': 'insertLength',
  'Hole material': 'material',
  'Length of the bolt’s thread': 'boltThread',
}

/** A refusal as a part: its sentence, and the field it belongs to. */
export function refusedPart(refusal: FastenerRefusal): Part<never> {
  const named =
    refusal.refused === 'number_impossible' || refusal.refused === 'input_missing'
      ? NAMED[refusal.data.name]
      : undefined
  const field = named ?? FIELD_OF[refusal.refused]
  const could =
    refusal.refused === 'lubrication_unclear' || refusal.refused === 'material_unclear'
      ? refusal.data.could
      : undefined
  return {
    state: 'refused',
    why: fastenerSentence(refusal, format),
    ...(field ? { field } : {}),
    ...(could ? { could } : {}),
  }
}
