/**
 * What a language's manuals write around a torque: a table, read by `words.ts` and `labels.ts`; no code.
 *
 * A bar parts the words of an entry; a word may be a phrase of up to four. Units are spelt in `shared/units`.
 * The tables are from memory of the trade's usage, not carried over from a source.
 */

/** Parts of the grammar. A word with such a part changes nothing but what the grammar says. */
export type WordPart =
  /** A further pass. */
  | 'next'
  | 'plus'
  | 'and'
  | 'or'
  /** Between the ends of a range, or before a value after a verb. */
  | 'to'
  /** The same, and an article or preposition elsewhere: `a`, `à`. */
  | 'a'
  /** A pass lower than the one before, on purpose. */
  | 'down'
  | 'between'
  | 'filler'
  | 'min'
  | 'max'
  /** The same said as a negation, `do not exceed`: beside a torque its limit, but never read without a question. */
  | 'limit'
  | 'about'
  | 'slacken'
  | 'fully'
  | 'tolerance'

/** Words beside a torque that the grammar does not read, and what they may do to it. */
export type NotePart =
  /** What is tightened or counted: a number beside it is a count, a size or a position. */
  | 'thing'
  /** What a number refers to: page, figure, item. */
  | 'reference'
  /** One torque may have such a condition; two may each have their own. */
  | 'condition'
  /** May put another number in the place of the printed one. */
  | 'change'
  /** A later act, with a torque of its own. */
  | 'later'
  /** Another torque than one to tighten to. */
  | 'kind'
  | 'check'
  | 'not'
  /** A negation that leaves the number as it is. */
  | 'harmless'
  /** Where an angle counts from, without a torque. */
  | 'seat'

export interface Language {
  words: Partial<Record<WordPart | NotePart, string>>
  /** Words for `or` that mean something else in another language: `or` only between two values. */
  orBetween?: string
  /** The verb stands behind its angle: `um 180° lösen`. */
  verbLast?: boolean
  degrees: string
  turn: string
  /** Shares of a turn, before a word for turn. */
  amounts: Record<string, number>
  /** The same in one word with the turn. */
  turned?: Record<string, number>
  /** What a pass is called, before its number or behind it: `step 1`, `1. Stufe`. */
  stage: string
  /** What it is called behind its number only: `1st tightening`. */
  act?: string
  /** Of the words above those that say that more follows: `temporarily`, `vorziehen`. */
  before?: string
  /** What stands before a year of make: `from 1987`. */
  dated?: string
  /** Behind the number of a pass: those that stand alone, and those that need the word beside them. */
  suffix?: string
  suffixBesideStage?: string
  /** First, second, … each with its forms. */
  ordinals: string[]
  /** One, two, … each with its forms. */
  counts: string[]
  /** How often a pass is done: `twice`. */
  times?: Record<string, number>
  /** The last pass, or the first, without a number. */
  unnumbered: string
  /** What stands before `three stages`, and the stages. */
  staged?: { before: string; stages: string }
}
