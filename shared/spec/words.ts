/**
 * The words of tightening, each with its part in the grammar. A word that is not here is not passed over:
 * it may change what the number means (`dry`, `oiled`, `left-hand`), so the text is refused and shown.
 */
export type WordPart =
  | 'next'
  | 'plus'
  | 'and'
  | 'or'
  | 'to'
  | 'between'
  | 'filler'
  | 'min'
  | 'max'
  | 'about'
  | 'slacken'
  | 'fully'
  | 'tolerance'

const PARTS: Record<WordPart, string> = {
  next: 'then|and then|followed by|next|thereafter|afterwards|after that|subsequently',
  plus: 'plus|and a further|and an additional|and another',
  and: 'and',
  or: 'or',
  to: 'to|thru',
  between: 'between|from',
  filler:
    'tighten|tighten to|tighten by|tightening torque|tightening|tightened|retighten|retighten to|re-tighten|re-tighten to|' +
    'torque|torque to|torqued to|retorque|re-torque|retorque to|re-torque to|torque angle|angle|angle of|rotate|' +
    'turn by|turn through|a|an|another|a further|further|additional|an additional|additionally|extra|more|by|of|of a|all|' +
    'bolt|bolts|nut|nuts|screw|screws|value|specification|spec|nominal|set to|set at|at|the|clockwise|cw',
  min: 'min|min.|minimum|at least|not less than|no less than|≥|>=',
  max: 'max|max.|maximum|at most|not more than|no more than|not over|up to|≤|<=',
  about: 'approx|approx.|approximately|about|ca|ca.|circa|≈|~',
  slacken:
    'slacken|slacken off|slackened|loosen|loosened|back off|back-off|backoff|back out|release|undo|unscrew|turn back|' +
    'slacken by|loosen by|back off by|turn back by',
  fully: 'fully|completely|entirely|totally|all the way',
  tolerance: 'plus or minus|plus/minus',
}

const WORDS = new Map<string, WordPart>(
  (Object.keys(PARTS) as WordPart[]).flatMap((part) =>
    PARTS[part].split('|').map((word) => [word, part] as const),
  ),
)

/** Numbers as words; they stand before a turn only. */
const AMOUNTS: Record<string, number> = {
  quarter: 0.25,
  'one quarter': 0.25,
  'one-quarter': 0.25,
  half: 0.5,
  'one half': 0.5,
  'one-half': 0.5,
  third: 1 / 3,
  'one third': 1 / 3,
  'one-third': 1 / 3,
  'two thirds': 2 / 3,
  'two-thirds': 2 / 3,
  'three quarter': 0.75,
  'three quarters': 0.75,
  'three-quarter': 0.75,
  'three-quarters': 0.75,
  one: 1,
  full: 1,
  'one full': 1,
  'one and a half': 1.5,
  two: 2,
  three: 3,
}

/** Longest first: up to four words as they stand, with single spaces between. */
const PHRASE = /[\p{L}][\p{L}'’./-]*(?:[ \u00A0][\p{L}][\p{L}'’./-]*){0,3}|[≥≤≈~]|[<>]=/uy

export type Phrase = { end: number } & ({ part: WordPart } | { amount: number } | { unknown: string })

/** The longest phrase known at `at`, else the one word that is not. */
export function phraseAt(text: string, at: number): Phrase | undefined {
  PHRASE.lastIndex = at
  const found = PHRASE.exec(text)?.[0]
  if (found === undefined) return undefined
  for (let long = found; long !== ''; long = shorter(long)) {
    const spelt = long.toLowerCase().replaceAll('\u00A0', ' ')
    const key = WORDS.has(spelt) ? spelt : spelt.replace(/\.$/, '')
    const end = at + long.length
    const part = WORDS.get(key)
    if (part) return { end, part }
    if (Object.hasOwn(AMOUNTS, key)) return { end, amount: AMOUNTS[key] ?? 0 }
  }
  const unknown = /^[^ \u00A0]+/.exec(found)?.[0] ?? found
  return { end: at + unknown.length, unknown }
}

function shorter(phrase: string): string {
  const last = Math.max(phrase.lastIndexOf(' '), phrase.lastIndexOf('\u00A0'))
  return last < 0 ? '' : phrase.slice(0, last)
}
