/**
 * The words of tightening in every language of the tables, each with its part in the grammar, and the words
 * beside it with what they may do to a torque. A word that stands in no table is not passed over: it is shown.
 */
import { alternatives, LANGUAGES, type NotePart, type WordPart } from './languages'

const GRAMMAR: WordPart[] = [
  ...([
    'next',
    'plus',
    'and',
    'or',
    'to',
    'a',
    'down',
    'between',
    'filler',
    'min',
    'max',
    'limit',
    'about',
    'slacken',
  ] as const),
  ...(['fully', 'tolerance'] as const),
]
const isGrammar = (part: WordPart | NotePart): part is WordPart => (GRAMMAR as string[]).includes(part)

const WORDS = new Map<string, WordPart | NotePart>()
const AMOUNTS = new Map<string, number>()
const TURNED = new Map<string, number>()
const TIMES = new Map<string, number>()
for (const { words, amounts, turned = {}, times = {} } of LANGUAGES) {
  for (const [part, entry] of Object.entries(words))
    for (const word of alternatives(entry)) if (!WORDS.has(word)) WORDS.set(word, part as WordPart | NotePart)
  for (const [word, share] of Object.entries(amounts)) if (!AMOUNTS.has(word)) AMOUNTS.set(word, share)
  for (const [word, share] of Object.entries(turned)) TURNED.set(word, share)
  for (const [word, often] of Object.entries(times)) TIMES.set(word, often)
}

/** Behind its angle such a verb says which way it turns: `um 180° lösen`. */
export const SLACKEN_LAST = new Set(
  LANGUAGES.flatMap(({ verbLast, words }) => (verbLast ? alternatives(words.slacken ?? '') : [])),
)

/** A pass that says of itself that more follows. */
export const BEFORE = new Set(LANGUAGES.flatMap(({ before = '' }) => alternatives(before)))

/** Between two values these words are `or`. */
export const OR_BETWEEN = new Set(LANGUAGES.flatMap(({ orBetween = '' }) => alternatives(orBetween)))

const anyOf = (key: 'turn' | 'degrees') =>
  [...new Set(LANGUAGES.flatMap((language) => alternatives(language[key])))]
    .sort((a, b) => b.length - a.length)
    .map((word) => word.replaceAll('.', '\\.'))
    .join('|')
export const TURN = new RegExp(`(?:${anyOf('turn')})(?!\\p{L})\\.?`, 'iuy')
export const DEGREES = new RegExp(`(?:${anyOf('degrees')})(?!\\p{L})`, 'iuy')
/** From or up to a year of make: `from 1987`, `ab 10/1987`, `jusqu’en 2003`. */
export const DATED = new RegExp(
  `(?:${[...new Set(LANGUAGES.flatMap(({ dated = '' }) => alternatives(dated)))]
    .sort((a, b) => b.length - a.length)
    .map((word) => word.replaceAll('.', '\\.').replaceAll("'", "['’]"))
    .join('|')})(?:[ \\u00A0]|(?<=['’]))(?:\\d{1,2}[./-])?(?:19|20)\\d\\d(?![\\d.,/°%]|\\s*[-–…±+])`,
  'iuy',
)
const TURN_AFTER = new RegExp(
  `(?:[ \\u00A0]+of)?(?:[ \\u00A0]+an?)?[ \\u00A0-]*(?:${anyOf('turn')})(?!\\p{L})`,
  'iuy',
)

/** Longest first: up to four words as they stand, with single spaces between. */
const PHRASE = /[\p{L}№][\p{L}'’./°º-]*(?:[ \u00A0][\p{L}][\p{L}'’./-]*){0,3}|[≥≤≈~№&∠]|[<>]=?/uy

export type Phrase = { end: number } & (
  | { part: WordPart }
  | { note: NotePart }
  | { amount: number; turned?: boolean }
  | { times: number }
  | { unknown: string }
)

/** The longest phrase known at `at`, else the one word that is not. */
export function phraseAt(text: string, at: number): Phrase | undefined {
  PHRASE.lastIndex = at
  const found = PHRASE.exec(text)?.[0]
  if (found === undefined) return undefined
  const spelt = found.toLowerCase().replaceAll('\u00A0', ' ').replaceAll('’', "'")
  for (let length = found.length; length > 0; length = spelt.lastIndexOf(' ', length - 1)) {
    const known = phraseKnown(spelt.slice(0, length), text, at + length)
    if (known) return { end: at + length, ...known }
  }
  const unknown = /^[^ \u00A0]+/.exec(found)?.[0] ?? found
  return { end: at + unknown.length, unknown }
}

type Known =
  | { part: WordPart }
  | { note: NotePart }
  | { amount: number; turned?: boolean }
  | { times: number }

function phraseKnown(spelt: string, text: string, end: number): Known | undefined {
  const short = spelt.replace(/[.'-]$/, '')
  const amount = AMOUNTS.get(spelt) ?? AMOUNTS.get(short)
  TURN_AFTER.lastIndex = end
  if (amount !== undefined && TURN_AFTER.test(text)) return { amount }
  const often = TIMES.get(short)
  if (often !== undefined) return { times: often }
  const turned = TURNED.get(short)
  if (turned !== undefined) return { amount: turned, turned: true }
  const part = WORDS.get(spelt) ?? WORDS.get(short)
  if (part) return isGrammar(part) ? { part } : { note: part }
  return amount === undefined ? undefined : { amount }
}
