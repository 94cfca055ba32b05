/**
 * A printed text cut into what the grammar speaks of: numbers, units, signs, known words, pass numbers.
 *
 * Every character that is not a space ends in a token; what is not known becomes an `odd` one with the guess
 * what it is, so that nothing is passed over. Offsets are those of the text.
 */
import { numberAt, type PrintedNumber, type TorqueUnit, unitAt } from '../units'
import { labelAt, stagesAt } from './labels'
import type { NotePart, WordPart } from './languages'
import { DATED, DEGREES, OR_BETWEEN, phraseAt, TURN } from './words'

export type OddKind = 'word' | 'designation' | 'length' | 'half' | 'quantity' | 'misprint'
type Sign =
  | '+'
  | '-'
  | '±'
  | '%'
  | ','
  | '/'
  | '='
  | '…'
  | '('
  | ')'
  | ':'
  | 'times'
  | 'deg'
  | 'turn'
  /** A line's end, or a table's bar. */
  | 'line'
  /** An arrow. */
  | 'then'

export type Token = { start: number; end: number } & (
  | { t: 'number'; number: PrintedNumber }
  | { t: 'amount'; value: number }
  | { t: 'unit'; unit: TorqueUnit }
  | { t: 'sign'; sign: Sign }
  | { t: 'word'; part: WordPart; text: string }
  /** `Step 2:`, `b)`, `2nd`; without a number `finally`. `dotted`: `2. `, which may be half a decimal. */
  | { t: 'label'; n?: number; dotted?: boolean }
  /** `twice`. */
  | { t: 'times'; often: number }
  /** `in three stages`: how many passes follow. */
  | { t: 'stages'; count: number; text: string }
  /** What is not of tightening. `note`: what such a word may do to a torque, where a table says so. */
  | { t: 'odd'; what: OddKind; text: string; note?: NotePart }
)

const SPACE = /[ \t\u00A0\u2007\u2009\u202F\u200B\u2060\uFEFF]+/y
const SIGNS: [RegExp, Sign][] = [
  [/\r?\n|\r|[\u2028\u2029|]/y, 'line'],
  [/±|\+\s?[/\\]\s?[-‐‑‒–—−]|\+[-‒–−]/y, '±'],
  [/[→⇒➔]|[-–—=]>/y, 'then'],
  [/\.{2,3}|…|‥|÷/y, '…'],
  [/[-‐‑‒–—−]/y, '-'],
  [/[+＋]/y, '+'],
  [/%/y, '%'],
  [/[,;、]|\.(?=\s|$)/y, ','],
  [/[/⁄]/y, '/'],
  [/=/y, '='],
  [/[([{]/y, '('],
  [/[)\]}]/y, ')'],
  [/:/y, ':'],
]
/** Signs that are letters, or stand for words. */
const SPELT_SIGNS: [RegExp, Sign][] = [
  [/(?:[xX×*](?=\s*\d)|[×*])/y, 'times'],
  [/[°º˚](?!\s?[CFcf]\b)/uy, 'deg'],
  [DEGREES, 'deg'],
  [TURN, 'turn'],
]
const LETTER = /[\p{L}×*°º˚]/u

/** Metric: `M10 × 1.25`, `М8 x 30`; inch: `7/16-14 UNC`, `1/2-13 x 2 1/4 in.` */
const THREAD =
  /[MmМм]\s?\d{1,3}(?:[.,]\d+)?(?:\s?[x×*х]\s?\d+(?:[.,]\d+)?){0,3}(?:[-–](?:[4568]\.[68]|9\.8|10\.9|12\.9)(?=\s*(?:[\d,;:|(]|$)))?(?![\p{L}\d])|\d{1,2}\/\d{1,2}\s?-\s?\d{1,2}(?:\s?UN[CFR]?\b|\s?BS[WF]\b)?(?:\s?[x×]\s?\d+(?:[ -]\d+\/\d+|\/\d+)?(?:\s?in\b\.?|["″”])?)?(?![\p{L}\d/])/uy
const DESIGNATION = /\p{L}[\p{L}.-]*\d[\p{L}\d.,/×-]*/uy
const RUN_ON = /[\p{L}\d.,/×-]+/uy
const OTHER_UNITS: [RegExp, OddKind][] = [
  [/(?:kgf?|kp|кгс?|кГ)\s?\/\s?(?:cm|m|см|м)(?![\p{L}\d²³^])/iuy, 'misprint'],
  [/(?:["″”]|''|(?:mm|cm|µm|um|inch(?:es)?|in|m|ft|feet|foot)(?![\p{L}\d])\.?)/iuy, 'length'],
  [/(?:lbs?|lbf|pounds?|kgs?|kgf|kp|#)(?![\p{L}\d])\.?/iuy, 'half'],
  [
    /(?:kN|N|bar|psi|[kM]?Pa|rpm|ml|cc|g|oz|°\s?[CFcf]|h|s|sec(?:ond)?s?|minutes?|hours?)(?![\p{L}\d])\.?/uy,
    'quantity',
  ],
]

export function tokenize(text: string): Token[] {
  const tokens: Token[] = []
  let at = 0
  const push = (end: number, token: TokenBody) => {
    tokens.push({ start: at, end, ...token } as Token)
    at = end
  }
  while (at < text.length) {
    const space = match(SPACE, text, at)
    if (space) {
      at += space.length
      continue
    }
    const [end, body] = tokenAt(text, at, tokens)
    for (const part of body) push(part === body.at(-1) ? end : at + lengthOf(part), part)
  }
  return tokens.filter((_, i) => !aroundUnit(tokens, i)).map(parting)
}

/** A dash before the word of a pass parts it from the one before. */
function parting(token: Token, i: number, tokens: readonly Token[]): Token {
  return token.t === 'sign' && token.sign === '-' && tokens[i + 1]?.t === 'label'
    ? { ...token, sign: ',' }
    : token
}

/** The brackets of `Torque (N·m): 25`. */
function aroundUnit(tokens: readonly Token[], i: number): boolean {
  const [before, at, after] = [tokens[i - 1], tokens[i], tokens[i + 1]]
  if (at?.t !== 'sign') return false
  const opens = (token?: Token) => token?.t === 'sign' && token.sign === '('
  const closes = (token?: Token) => token?.t === 'sign' && token.sign === ')'
  return (
    (opens(at) && after?.t === 'unit' && closes(tokens[i + 2])) ||
    (closes(at) && before?.t === 'unit' && opens(tokens[i - 2]))
  )
}

/** Of a part of what was matched as a whole: `40,70,90`. */
const lengthOf = (part: TokenBody) =>
  part.t === 'number' ? part.number.raw.length : part.t === 'sign' ? 1 : 0

type TokenBody = Token extends infer T ? (T extends Token ? Omit<T, 'start' | 'end'> : never) : never

function tokenAt(text: string, at: number, before: readonly Token[]): [end: number, TokenBody[]] {
  const label = passNumber(text, at, before)
  if (label) return label
  const dated = datedAt(text, at)
  if (dated) return [dated, [{ t: 'odd', what: 'word', text: text.slice(at, dated), note: 'reference' }]]
  const unit = unitAt(text, at)
  // `lb/ft` is no torque, and is printed for one.
  if (unit && text.slice(at, unit.end).includes('/'))
    return [unit.end, [{ t: 'odd', what: 'misprint', text: text.slice(at, unit.end) }]]
  if (unit) return [unit.end, [{ t: 'unit', unit: unit.unit }]]
  const last = before.at(-1)
  const stages = stagesAt(text, at)
  if (stages) return [stages.end, [{ t: 'stages', count: stages.count, text: text.slice(at, stages.end) }]]
  const thread = /[MmМм\d]/.test(text[at] ?? '') ? match(THREAD, text, at) : undefined
  if (thread) return [at + thread.length, [{ t: 'odd', what: 'designation', text: thread }]]
  if (last?.t === 'number')
    for (const [pattern, what] of OTHER_UNITS) {
      const found = match(pattern, text, at)
      if (found) return [at + found.length, [{ t: 'odd', what, text: found }]]
    }
  const number = numberAt(text, at)
  if (number && !runsOn(text, number.end)) return [number.end, numberTokens(number)]
  if (number) {
    const whole = match(RUN_ON, text, at) ?? number.raw
    return [at + whole.length, [{ t: 'odd', what: 'designation', text: whole }]]
  }
  // `25 N·m > 40 N·m` is an arrow, or neither.
  if (/[<>](?!=)/y.test(text.slice(at, at + 2)) && (last?.t === 'unit' || last?.t === 'number'))
    return [at + 1, [{ t: 'odd', what: 'word', text: text[at] ?? '' }]]
  // `25 . 5 N·m`: a decimal point, or the end of something.
  if (text[at] === '.' && last?.t === 'number' && last.end < at && /^\.\s+\d/.test(text.slice(at, at + 4)))
    return [at + 1, [{ t: 'odd', what: 'word', text: '.' }]]
  for (const [pattern, sign] of LETTER.test(text[at] ?? '') ? SPELT_SIGNS : SIGNS) {
    const found = match(pattern, text, at)
    if (found === undefined || (sign === 'turn' && knownWord(text, at, found.length))) continue
    return [at + found.length, [{ t: 'sign', sign }]]
  }
  // Between two figures a wave is a range; before one it is `about`.
  if (/[~〜]/.test(text[at] ?? '') && (last?.t === 'number' || last?.t === 'unit' || last?.t === 'sign'))
    return [at + 1, [{ t: 'sign', sign: '…' }]]
  const designation = match(DESIGNATION, text, at)
  if (designation) return [at + designation.length, [{ t: 'odd', what: 'designation', text: designation }]]
  const phrase = phraseAt(text, at)
  if (!phrase) {
    const character = String.fromCodePoint(text.codePointAt(at) ?? 0)
    return [at + character.length, [{ t: 'odd', what: 'word', text: character }]]
  }
  if ('unknown' in phrase) return [phrase.end, [{ t: 'odd', what: 'word', text: phrase.unknown }]]
  if ('note' in phrase)
    return [phrase.end, [{ t: 'odd', what: 'word', text: text.slice(at, phrase.end), note: phrase.note }]]
  if ('times' in phrase) return [phrase.end, [{ t: 'times', often: phrase.times }]]
  if ('amount' in phrase) {
    const amount: TokenBody = { t: 'amount', value: phrase.amount }
    return [phrase.end, phrase.turned ? [amount, { t: 'sign', sign: 'turn' }] : [amount]]
  }
  if (isOrBetween(text.slice(at, phrase.end), text.slice(phrase.end), last))
    return [phrase.end, [{ t: 'word', part: 'or', text: text.slice(at, phrase.end) }]]
  if (phrase.part === 'tolerance') return [phrase.end, [{ t: 'sign', sign: '±' }]]
  return [phrase.end, [{ t: 'word', part: phrase.part, text: text.slice(at, phrase.end) }]]
}

const YEAR = /(?:19|20)\d\d/

/** `From 1987:` says which engines, and is no torque; `up to 2000 N·m` is one. */
function datedAt(text: string, at: number): number | undefined {
  if (!LETTER.test(text[at] ?? '') || !YEAR.test(text) || /[\p{L}\d]/u.test(text[at - 1] ?? ''))
    return undefined
  const dated = match(DATED, text, at)
  const end = at + (dated?.length ?? 0)
  const after = end + (/^ */.exec(text.slice(end))?.[0].length ?? 0)
  return dated && !unitAt(text, after) ? end : undefined
}

/** `25 N·m of 30 N·m` */
function isOrBetween(word: string, rest: string, last: Token | undefined): boolean {
  const value =
    last?.t === 'unit' ||
    last?.t === 'number' ||
    (last?.t === 'sign' && (last.sign === 'deg' || last.sign === 'turn' || last.sign === ')'))
  return value && OR_BETWEEN.has(word.toLowerCase()) && /^\s*[+\d]/.test(rest)
}

/** A letter right behind a number that begins no unit and no word of tightening: `06A`, `90105T`. */
function runsOn(text: string, end: number): boolean {
  if (!/\p{L}/u.test(text[end] ?? '') || unitAt(text, end)) return false
  if (OTHER_UNITS.some(([pattern]) => match(pattern, text, end))) return false
  if (SPELT_SIGNS.some(([pattern]) => match(pattern, text, end))) return false
  const word = phraseAt(text, end)
  return !word || 'unknown' in word || word.end - end < 2
}

/** `40,70,90` is no number in any notation: three, parted by commas. What is none and no list stays one, unread. */
function numberTokens(number: PrintedNumber): TokenBody[] {
  const parts = number.raw.split(',')
  if (
    number.point ||
    number.comma ||
    parts.length < 3 ||
    parts.some((part) => !/^(?:0|[1-9]\d*)$/.test(part))
  )
    return [{ t: 'number', number }]
  return parts.flatMap((part, i): TokenBody[] => {
    const figure = { value: Number(part), step: 1 }
    const one: TokenBody = {
      t: 'number',
      number: { raw: part, end: number.end, point: figure, comma: figure },
    }
    return i === 0 ? [one] : [{ t: 'sign', sign: ',' }, one]
  })
}

/** A pass number stands at the beginning, after a sign between passes or after a unit; never after a number. */
function passNumber(text: string, at: number, before: readonly Token[]): [number, TokenBody[]] | undefined {
  const last = before.at(-1)
  if (last?.t === 'number' || (last?.t === 'sign' && /^(?:[±+…(]|times)$/.test(last.sign))) return undefined
  const dashed = last?.t === 'sign' && last.sign === '-'
  // `Step 1: 20 N·m – step 2: 90°`: between two things, with room on both sides.
  if (dashed && (before.length < 2 || !/\p{L}/u.test(text[at] ?? '') || !/ . $/u.test(text.slice(0, at))))
    return undefined
  const label = labelAt(text, at)
  if (!label || (dashed && label.n === undefined)) return undefined
  const { end, ...of } = label
  return [end, [{ t: 'label', ...of }]]
}

/** `turn back` is more than a turn. */
function knownWord(text: string, at: number, length: number): boolean {
  const phrase = phraseAt(text, at)
  return phrase !== undefined && 'part' in phrase && phrase.end > at + length
}

function match(pattern: RegExp, text: string, at: number): string | undefined {
  pattern.lastIndex = at
  return pattern.exec(text)?.[0]
}
