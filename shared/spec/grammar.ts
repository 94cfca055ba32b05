/**
 * The order of a printed text: quantities, what joins them, what stands in brackets.
 *
 *     text     = item { join item }          join  = , ; / then + newline, or a pass number, or nothing
 *     item     = slacken [fully | angle] | [n ×] quantity { ( brackets ) }
 *     brackets = the same torque in other units, or its limits
 *
 * Items come out as they stand; `passes.ts` gives bare numbers their unit and says which are one torque twice.
 */

import type { DecimalSign } from '../units'
import { Cursor, isSign, Stop } from './cursor'
import { type Quantity, quantity, toleranceIn } from './quantity'
import type { Token } from './tokens'
import { SLACKEN_LAST } from './words'

/** What stands before an item, the strongest of it. `verb`: `tighten`, `turn`. */
export type Join = 'start' | 'none' | 'verb' | 'weak' | 'dash' | 'slash' | 'equal' | 'plus' | 'then'
const STRENGTH: Join[] = ['start', 'none', 'verb', 'weak', 'dash', 'slash', 'equal', 'plus', 'then']

export type Item = Joined & { brackets: Item[][] } & (
    | { slacken: true; quantity?: Quantity; full?: boolean; start: number; end: number }
    | { slacken: false; quantity: Quantity; times: number }
  )

/** All items of the tokens, or the `Stop` thrown where they cannot be read. */
export function itemsOf(tokens: readonly Token[], sign: DecimalSign): Item[] {
  const c = new Cursor(tokens, sign)
  const items = list(c, false)
  if (c.peek()) throw oddStop(c)
  const stages = tokens.find((token) => token.t === 'stages')
  const torques = items.filter((item) => !item.slacken).length
  if (stages?.t === 'stages' && stages.count !== torques) throw c.stop('not_understood', stages)
  return items
}

function list(c: Cursor, inBrackets: boolean): Item[] {
  const items: Item[] = []
  for (;;) {
    const before = c.at
    const joined = joinBefore(c, items.length === 0)
    const next = c.peek()
    const closes = next?.t === 'sign' && next.sign === ')'
    if (!next || (closes && inBrackets)) {
      // A comma or full stop may end a text; `then`, `+` or a pass number with nothing behind it may not.
      if (joined.join !== 'start' && STRENGTH.indexOf(joined.join) > STRENGTH.indexOf('weak'))
        throw c.stop('not_understood', c.tokens[before])
      if (joined.label !== undefined || joined.named || joined.turn || isPart(c.peek(-1), 'and'))
        throw c.stop('not_understood', c.tokens[before])
      return items
    }
    const item = slackening(c, joined) ?? tightening(c, joined)
    if (!item || (joined.turn && !item.slacken && item.quantity.kind === 'torque')) throw oddStop(c)
    items.push(item)
  }
}

interface Joined {
  join: Join
  label?: number
  dotted?: boolean
  named?: boolean
  /** A verb of tightening stands before it. */
  verb?: boolean
  /** The text says how many stages it has. */
  staged?: boolean
  /** A word for turn stands before it: an angle, or nothing that can be read. */
  turn?: boolean
  /** An arrow stands before it, and no word or number of a pass. */
  arrow?: boolean
  /** Printed as lower than the pass before, on purpose. */
  down?: boolean
}

function joinBefore(c: Cursor, first: boolean): Joined {
  const joined: Joined = { join: first ? 'start' : 'none', ...(c.staged ? { staged: true } : {}) }
  const stronger = (join: Join) => {
    if (STRENGTH.indexOf(join) > STRENGTH.indexOf(joined.join)) joined.join = join
  }
  for (let token = c.peek(); token; token = c.peek()) {
    const join = joinOf(token, c)
    if (!join) break
    if (token.t === 'label') {
      if (joined.label !== undefined) throw c.stop({ unclear: 'numbering' })
      if (token.n !== undefined) joined.label = token.n
      if (token.dotted) joined.dotted = true
      joined.named = true
    }
    // A dash anywhere but between two things is a minus, and no fastener is tightened by less than nothing.
    if (join === 'dash' && joined.join !== 'none') throw c.stop('not_understood')
    if (joined.join === 'dash' && join !== 'verb' && join !== 'then') throw c.stop('not_understood')
    if (join === 'verb') joined.verb = true
    if (isSign(token, 'then')) joined.arrow = true
    if (isSign(token, 'turn')) joined.turn = true
    if (isPart(token, 'or') && first) throw c.stop('not_understood')
    if (token.t === 'word' && token.part === 'down') joined.down = true
    // `to` and its likes follow a verb: `bis 60 N·m` alone is a limit.
    if (isPart(token, 'to') && !isVerb(c.peek(-1)) && !/^to$/i.test(token.t === 'word' ? token.text : ''))
      throw c.stop('not_understood')
    if (join !== 'none') stronger(join)
    c.at += 1
  }
  return joined
}

function joinOf(token: Token, c: Cursor): Join | undefined {
  if (token.t === 'label') return 'then'
  if (token.t === 'stages') return 'verb'
  if (token.t === 'word') {
    switch (token.part) {
      case 'next':
      case 'down':
        return 'then'
      case 'plus':
        return 'plus'
      case 'and':
        return 'weak'
      case 'or':
        return 'equal'
      case 'to':
        return 'none'
      case 'a':
      case 'filler':
        return 'verb'
      default:
        return undefined
    }
  }
  if (token.t !== 'sign') return undefined
  switch (token.sign) {
    case ',':
    case 'line':
      return 'weak'
    case 'then':
      return 'then'
    case '/':
      return 'slash'
    case '=':
      return 'equal'
    case '+':
      return 'plus'
    case '-':
      return 'dash'
    case ':':
      return 'none'
    case 'turn':
      return c.peek(-1)?.t === 'number' ? undefined : 'verb'
    default:
      return undefined
  }
}

const endsAfter = (token: Token | undefined) =>
  token === undefined || isSign(token, ',') || isSign(token, 'line') || isSign(token, ')')
const isPart = (token: Token | undefined, part: string) => token?.t === 'word' && token.part === part
const isVerb = (token: Token | undefined) => isPart(token, 'filler') || isPart(token, 'a')

function slackening(c: Cursor, joined: Joined): Item | undefined {
  const start = c.peek()?.start ?? 0
  if (!c.word('slacken')) return undefined
  while (c.word('filler', 'a'));
  const full = c.word('fully') !== undefined
  const by = full ? undefined : c.attempt(() => (c.word('to') ? undefined : quantity(c)))
  if (by && by.kind !== 'angle') throw c.stop('not_understood', c.peek(-1))
  c.word('fully')
  const brackets = by ? bracketsAfter(c, by) : []
  return {
    ...joined,
    slacken: true,
    brackets,
    start,
    end: c.peek(-1)?.end ?? start,
    ...(full ? { full } : {}),
    ...(by ? { quantity: by } : {}),
  }
}

const MOST_REPEATS = 6

function tightening(c: Cursor, joined: Joined): Item | undefined {
  const times = repeats(c, () => c.peek(1)?.t === 'sign' && isSign(c.peek(1), 'times'))
  const found = quantity(c)
  if (!found) return opening(c, joined)
  if (isSign(c.peek(), 'times')) throw repeatedBehind(c, found)
  const again = c.peek()?.t === 'times' ? c.peek() : undefined
  if (again?.t === 'times') {
    if (times > 1 || found.kind === 'bare') throw c.stop('not_understood')
    c.at += 1
    return { ...joined, slacken: false, quantity: found, times: again.often, brackets: [] }
  }
  const verb = c.peek()
  const backward =
    found.kind === 'angle' &&
    joined.join !== 'plus' &&
    verb?.t === 'word' &&
    SLACKEN_LAST.has(verb.text.toLowerCase()) &&
    endsAfter(c.peek(1))
  if (backward) {
    c.at += 1
    return { ...joined, slacken: true, quantity: found, brackets: [], start: found.start, end: verb.end }
  }
  // `girar 90° más`: more, and nothing that is added.
  if (found.kind === 'angle' && isPart(c.peek(), 'plus') && endsAfter(c.peek(1))) c.at += 1
  if (times > 1 && found.kind !== 'angle') throw c.stop('not_understood', c.peek(-1))
  return { ...joined, slacken: false, quantity: found, times, brackets: bracketsAfter(c, found) }
}

function bracketsAfter(c: Cursor, main: Quantity): Item[][] {
  const brackets: Item[][] = []
  while (c.takes('(')) {
    brackets.push(bracket(c, main))
    if (!c.takes(')')) throw oddStop(c)
  }
  return brackets
}

/** A text, or a pass, that stands in brackets as a whole. */
function opening(c: Cursor, joined: Joined): Item | undefined {
  if (joined.join !== 'start' || !c.takes('(')) return undefined
  const inner = list(c, true)
  const only = inner[0]
  if (inner.length !== 1 || !only || !c.takes(')')) throw oddStop(c)
  // `[1] 25 N·m`: an item's number.
  if (!only.slacken && only.quantity.kind === 'bare' && c.peek()) throw oddStop(c)
  return { ...only, ...joined }
}

/** `(±4)` and `(+5/−0)` are limits of what stands before; all else is a list of its own. */
function bracket(c: Cursor, main: Quantity): Item[] {
  if (!isSign(c.peek(), '±') && !isSign(c.peek(), '+')) return list(c, true)
  const limits = c.attempt(() => toleranceIn(c, main))
  if (!limits) throw c.stop('not_understood')
  return [{ join: 'start', slacken: false, quantity: limits, times: 1, brackets: [] }]
}

function repeats(c: Cursor, follows: () => boolean): number {
  const token = c.peek()
  if (token?.t !== 'number' || !follows()) return 1
  const count = c.number()?.value ?? 0
  c.takes('times')
  return wholeCount(c, count)
}

/** `90° x 4`: four passes, or one on each of four bolts. */
function repeatedBehind(c: Cursor, found: Quantity): Stop {
  c.takes('times')
  const count = wholeCount(c, c.number()?.value ?? 0)
  if (found.kind !== 'angle') return c.stop('not_understood', c.peek(-1))
  const degrees = found.nominal && !found.min && !found.max ? `${found.nominal.value}°` : undefined
  const ways = degrees ? [degrees, `${count} x ${degrees}`] : []
  return new Stop({ unclear: 'repeats' }, found.start, c.peek(-1)?.end ?? found.end, ways)
}

function wholeCount(c: Cursor, count: number): number {
  if (!Number.isInteger(count) || count < 1 || count > MOST_REPEATS)
    throw c.stop('not_understood', c.peek(-1))
  return count
}

/** What stands in the way, and what it seems to be. */
function oddStop(c: Cursor): Stop {
  return c.stop('not_understood')
}
