/**
 * What is left to offer where a text has words beside its torque that the grammar does not read.
 *
 * The text is cut at those words. Where exactly one torque, or one whole chain, stands among them, it is offered
 * with the words as its note; where several stand, each for a thing of its own, all are shown to choose from.
 * Numbers beside a word are its count, size, position or page and go into the note; a number that neither a
 * word nor a unit explains offers nothing, and so does a word that may put another number in the place of
 * the printed one (`not`, `if`, `formerly`).
 */
import { isRefusal } from '../log'
import type { NotePart } from './languages'
import { PLAIN_RANGE } from './quantity'
import type { SpecReading, SpecRefusal } from './refusals'
import type { Token } from './tokens'
import type { Spec } from './types'
import { shownReading } from './ways'

export interface Offer {
  readings: SpecReading[]
  /** The words that were not read. */
  note: string
  /** What the torque among the words says, where that itself is asked about. */
  asks?: SpecRefusal
}

/** `stops`: nothing can be offered, because of this word; `other`: it makes the number another kind of torque. */
export type Offering = Offer | { stops: string } | { other: string } | undefined

type Odd = Extract<Token, { t: 'odd' }>
type Read = (text: string) => Spec | SpecRefusal

/** From a to b, without b, in tokens. */
interface Run {
  from: number
  to: number
}

export function offerOf(plain: string, tokens: readonly Token[], read: Read): Offering {
  const odds = tokens.filter((token): token is Odd => token.t === 'odd')
  const runs = runsOf(tokens)
  const groups = runs.filter((run) => tokens.slice(run.from, run.to).some(isAnchor))
  const other = odds.find((odd) => odd.note === 'kind' || /^rpm/i.test(odd.text))
  if (other) return { other: other.text }
  if (groups.length === 0 || tokens.length > MOST_TOKENS) return undefined
  const stops = odds.find((odd) => odd.note === 'not' || odd.note === 'change')
  if (stops) return { stops: stops.text }
  if (odds.some((odd) => isIllegible(odd, plain)) || !notesAreNotes(tokens, runs, groups)) return undefined

  const kernels = groups.map((group) => kernelOf(plain, tokens, group, read))
  if (kernels.some((kernel) => kernel === undefined)) return undefined
  const [first, ...more] = kernels as Kernel[]
  if (!first) return undefined
  const check = odds.find((odd) => odd.note === 'check')
  if (check && (check.start < first.start || isLimit(first.answer))) return { other: check.text }
  const later = odds.find((odd) => odd.note === 'later')
  // `42 N·m (check the belt after 1000 km)`: what is done later is no tightening.
  const isCheckedLater = check !== undefined && later !== undefined && check.start < later.start
  const note = noteOf(plain, [first, ...more])
  if (more.length === 0) {
    if (later && !isCheckedLater) return { stops: later.text }
    if (!isWhole(first, tokens, odds)) return undefined
    if (isRefusal(first.answer) && first.answer.data.why === 'list' && odds.some(isOwn)) return undefined
    if (isRefusal(first.answer)) return { readings: [], note, asks: first.answer }
    return { readings: [shownReading(first.answer, first.text)], note }
  }
  const answers = [first, ...more].flatMap(({ answer, text }) =>
    isRefusal(answer) ? [] : [{ answer, text }],
  )
  if (answers.length <= more.length || answers.some(({ answer }) => torques(answer) === 0)) return undefined
  const all = answers.map(({ answer, text }) => shownReading(answer, text))
  const readings = all.filter(({ text }, i) => all.findIndex((one) => one.text === text) === i)
  if (later && readings.length === 1) return { stops: later.text }
  return { readings, note }
}

/** The stretches between words that are not of tightening. */
function runsOf(tokens: readonly Token[]): Run[] {
  const runs: Run[] = []
  let from = 0
  for (let at = 0; at <= tokens.length; at += 1) {
    if (at < tokens.length && tokens[at]?.t !== 'odd') continue
    if (at > from) runs.push({ from, to: at })
    from = at + 1
  }
  return runs
}

const isAnchor = (token: Token) => token.t === 'unit' || isSign(token, 'deg', 'turn')
const isSign = (token: Token | undefined, ...signs: string[]) =>
  token?.t === 'sign' && signs.includes(token.sign)
const isWord = (token: Token | undefined, ...parts: string[]) =>
  token?.t === 'word' && parts.includes(token.part)

/** Signs that may stand beside a word without belonging to it; all others say something of a number. */
const HARMLESS = new Set([...'"”“„″\'’#*†‡Øø_!«»§×x•¹²³⁴✓✔'])

/** A sign nobody put there on purpose, or a letter that touches a number: the number may be another. */
function isIllegible({ what, text, start, end }: Odd, plain: string): boolean {
  if (what !== 'word') return false
  // `_5 N·m`: a figure is lost.
  if (text === '_') return /\d/.test(plain[end] ?? '')
  if (/\p{L}|№/u.test(text)) return /[\d.,]/.test(plain[start - 1] ?? '') || /\d/.test(plain[end] ?? '')
  return !HARMLESS.has(text)
}

/** Outside of the torques stand numbers of words and signs between them, and nothing that is of tightening. */
function notesAreNotes(tokens: readonly Token[], runs: Run[], groups: Run[]): boolean {
  const turnsOnly = groups.every((run) => tokens.slice(run.from, run.to).every((token) => token.t !== 'unit'))
  const noted = (part: NotePart) => tokens.some((token) => token.t === 'odd' && token.note === part)
  // An angle among words turns anything; only where a fastener is first seated is it a pass.
  if (turnsOnly && !noted('seat')) return false
  return (
    runs
      .filter((run) => !groups.includes(run))
      .every((run) =>
        tokens
          .slice(run.from, run.to)
          .every((token, i) => isNoted(token, tokens[run.from + i - 1], tokens[run.from + i + 1])),
      ) && runs.every((run) => groups.includes(run) || !valued(tokens, run))
  )
}

/** `Inlet 20, exhaust 30 N·m`: the first may be a torque whose unit stands at the end. */
function valued(tokens: readonly Token[], { from, to }: Run): boolean {
  const [before, after] = [tokens[from - 1], tokens[to]]
  const plain = (token: Token | undefined) =>
    token?.t === 'odd' && token.what === 'word' && token.note === undefined && /\p{L}/u.test(token.text)
  // `M8 25 - M10 45 N·m`: each size has its own.
  const sized = (token: Token | undefined) => token?.t === 'odd' && token.what === 'designation'
  if (tokens[from]?.t !== 'number') return false
  if (sized(before) && sized(after)) return to - from === 1 || isSign(tokens[from + 1], ',', '/', 'line', '-')
  return isSign(tokens[from + 1], ',', '/', 'line') && plain(before) && plain(after)
}

/** `M6: 10, M8: 25 N·m`: a number behind a colon is a value, not a count. */
function isNoted(token: Token, before: Token | undefined, after: Token | undefined): boolean {
  if (token.t === 'number' && before?.t === 'label') return false
  if (token.t === 'number') return after?.t === 'odd' || !isSign(before, ':', '=', '±')
  return (
    token.t !== 'amount' && token.t !== 'stages' && !isSign(token, '±') && !isWord(token, 'slacken', 'next')
  )
}

interface Kernel {
  start: number
  end: number
  text: string
  answer: Spec | SpecRefusal
}

/** Places tried to begin or end at; a text with more is a page’s. */
const MOST_CUTS = 8
/** A cell with more pieces than this is read whole or not at all. */
const MOST_TOKENS = 120

/** The torque or chain of a run, read without what belongs to the words on both sides of it. */
function kernelOf(plain: string, tokens: readonly Token[], run: Run, read: Read): Kernel | undefined {
  const anchors = tokens.flatMap((token, i) => (i >= run.from && i < run.to && isAnchor(token) ? [i] : []))
  const first = anchors[0] ?? run.from
  const last = anchors.at(-1) ?? run.to
  const starts = startsOf(tokens, run, first).slice(0, MOST_CUTS)
  const ends = endsOf(tokens, run, last).slice(0, MOST_CUTS)
  let asks: Kernel | undefined
  for (const from of starts)
    for (const to of ends) {
      const start = tokens[from]?.start ?? 0
      const end = tokens[to - 1]?.end ?? plain.length
      const text = closed(plain.slice(start, end))
      const answer = read(text)
      if (!isRefusal(answer)) return { start, end, text, answer }
      const { readings = [] } = answer.data as { readings?: SpecReading[] }
      if (readings.length > 0) asks ??= { start, end, text, answer }
    }
  return asks
}

/** Where the torque may begin: behind the numbers of the word before it, behind an item’s number. */
function startsOf(tokens: readonly Token[], run: Run, anchor: number): number[] {
  const word = tokens[run.from - 1]
  let from = run.from
  if (word?.t === 'odd') {
    const after = behindNumbers(tokens, from, word.note === 'reference')
    if (after === undefined) return []
    from = after
    while (
      from < anchor &&
      (isSign(tokens[from], ',', ':', ')', 'line', '=', '-', 'times', '/') || isWord(tokens[from], 'and'))
    )
      from += 1
  }
  if (tokens[from]?.t === 'number' && isSign(tokens[from + 1], 'times')) from += 2
  const starts = [from]
  const labels = tokens.slice(run.from, run.to).filter((token) => token.t === 'label').length
  for (let at = from; at < anchor; at += 1) {
    const token = tokens[at]
    // `Stage 2: 60 (Stage 1: 20 N·m)`: a pass whose unit is missing is never left out.
    if (token?.t === 'number' && behindLabel(tokens, at)) break
    const single = token?.t === 'label' && labels === 1
    if (single || isSign(token, ',', ':', ')', 'line')) {
      if (at + 1 < anchor) starts.push(at + 1)
    } else if (
      !(
        token?.t === 'number' ||
        isSign(token, '-', '(', 'times') ||
        isWord(token, 'filler', 'a', 'to', 'and')
      )
    )
      break
  }
  return starts
}

/** Is this number what a pass says? */
function behindLabel(tokens: readonly Token[], at: number): boolean {
  const before = isSign(tokens[at - 1], ':', '=', '-') ? tokens[at - 2] : tokens[at - 1]
  return before?.t === 'label'
}

/** Behind `1-10`, `1, 2, 3`, `(18)`, `4`: what belongs to the word before. Nothing where that cannot be told. */
function behindNumbers(tokens: readonly Token[], from: number, surely: boolean): number | undefined {
  let at = from
  const bracketed = isSign(tokens[at], '(') && tokens[at + 1]?.t === 'number' && isSign(tokens[at + 2], ')')
  if (bracketed) return at + 3
  const members: number[] = []
  for (;;) {
    const token = tokens[at]
    if (token?.t !== 'number') return at
    const next = tokens[at + 1]
    if (next && (isAnchor(next) || isSign(next, '±', '+', 'then'))) {
      // `M8/M10 24/48 N·m`: one torque for each.
      if (members.length > 0 && isSign(tokens[at - 1], '/')) return undefined
      // `bolts 40, 70, 90 N·m`: too large for bolts' numbers, too bare for passes.
      return members.some((value) => value >= 15) && members.length > 1 ? undefined : at
    }
    const value = token.number.point?.value ?? token.number.comma?.value ?? 0
    const ranged = isSign(next, '-', '…') || isWord(next, 'to', 'a')
    const second = tokens[at + 2]
    if (ranged && second?.t === 'number') {
      // `Pos. 7 – 20-25 N·m`: the range begins behind the first dash.
      const goesOn = isSign(tokens[at + 3], '-', '…', '±', '+', 'then') || isWord(tokens[at + 3], 'to', 'a')
      if (goesOn && tokens[at + 4]?.t === 'number') return at + 2
      const high = second.number.point?.value ?? second.number.comma?.value ?? 0
      const reaches =
        tokens[at + 3] !== undefined && (isAnchor(tokens[at + 3] as Token) || isSign(tokens[at + 3], '±'))
      if (
        reaches &&
        !surely &&
        value < high &&
        high <= value * PLAIN_RANGE * (Number.isInteger(value) ? 1 : 2)
      )
        return at
      at += reaches ? 2 : 3
    } else at += 1
    members.push(value)
    const joined = isSign(tokens[at], ',', '/') || isWord(tokens[at], 'and')
    if (joined && tokens[at + 1]?.t === 'number') at += 1
    else if (tokens[at]?.t !== 'number') return at
  }
}

/** Where it may end: before the signs, fillers and numbers of the word behind it. */
function endsOf(tokens: readonly Token[], run: Run, anchor: number): number[] {
  const ends = [run.to]
  for (let at = run.to - 1; at > anchor; at -= 1) {
    const token = tokens[at]
    const followed = tokens[run.to]?.t === 'odd'
    const counted = token?.t === 'number' && followed
    const between =
      isWord(token, 'and', 'a', 'filler', 'about') ||
      (followed && (isSign(token, '-', '…') || isWord(token, 'to', 'between')))
    if (!counted && !between && !isSign(token, ',', ':', '(', ')', 'line', '=', 'times')) break
    ends.push(at)
  }
  return ends
}

/** With the bracket closed that a word in it cut off. */
function closed(text: string): string {
  const open = (text.match(/[([{]/g) ?? []).length - (text.match(/[)\]}]/g) ?? []).length
  return open > 0 ? text + ')'.repeat(open) : text
}

function torques(answer: Spec | SpecRefusal): number {
  return isRefusal(answer) ? 0 : answer.passes.filter((pass) => pass.kind === 'torque').length
}

function isLimit(answer: Spec | SpecRefusal): boolean {
  const [only, more] = isRefusal(answer) ? [] : answer.passes
  return (
    only?.kind === 'torque' &&
    more === undefined &&
    only.nominalNm === undefined &&
    (only.minNm === undefined || only.maxNm === undefined)
  )
}

/** A size or a condition, of which each torque may have its own. */
const isOwn = (odd: Odd) => odd.what === 'designation' || odd.note === 'condition'

/** Several torques parted by commas only are one chain where no word says what each is for. */
function isWhole(kernel: Kernel, tokens: readonly Token[], odds: readonly Odd[]): boolean {
  if (torques(kernel.answer) < 2) return true
  const inside = tokens.filter(({ start, end }) => start >= kernel.start && end <= kernel.end)
  const chained = inside.some(
    (token) =>
      token.t === 'label' ||
      token.t === 'stages' ||
      isWord(token, 'next', 'slacken', 'down', 'plus') ||
      isSign(token, 'then', 'deg', 'turn', '+'),
  )
  return chained || !odds.some(isOwn)
}

/** The text without its torques. */
function noteOf(plain: string, kernels: readonly Kernel[]): string {
  const pieces: string[] = []
  let at = 0
  for (const { start, end } of [...kernels, { start: plain.length, end: plain.length }]) {
    pieces.push(plain.slice(at, start))
    at = end
  }
  return pieces
    .map((piece) => piece.replace(/\s+/g, ' ').replace(/^[\s,;:.=)\]}–-]+|[\s,;:=([{–-]+$/g, ''))
    .filter(Boolean)
    .join(' … ')
}
