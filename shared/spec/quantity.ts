/**
 * One quantity of a printed text: a torque or an angle with its range, tolerance or single limit.
 *
 * Each reader takes what is its own or leaves the cursor where it was. What is half there stops the reading with
 * the reason, as a `Stop`, which `readSpec` turns into a refusal.
 */
import type { Figure, TorqueUnit } from '../units'
import { type Cursor, isSign, Stop } from './cursor'
import type { WordPart } from './languages'
import type { Token } from './tokens'

export interface Quantity {
  start: number
  end: number
  /** `bare`: no unit yet. */
  kind: 'torque' | 'angle' | 'bare'
  unit?: TorqueUnit
  nominal?: Figure
  min?: Figure
  max?: Figure
  /** A fraction without a whole number: `1/4`. */
  fraction?: boolean
  /** A fraction behind a whole number: `7 1/2`. */
  mixed?: boolean
}

type Unit = { kind: 'torque'; unit: TorqueUnit } | { kind: 'angle'; degrees: number }

/** The quantity at the cursor, if one begins here. */
export function quantity(c: Cursor): Quantity | undefined {
  return c.attempt(() => {
    const start = c.peek()?.start ?? 0
    let bound: WordPart | undefined
    let between = false
    for (let word = c.word(...BEFORE); word; word = c.word(...BEFORE)) {
      if (word === 'min' || word === 'max') bound = word
      if (word === 'limit') bound = 'max'
      if (word === 'between') between = true
    }
    // `Maximum torque: 58 N·m`
    if (bound) {
      while (c.word('filler'));
      c.takes(':', '=')
    }
    const leading = c.peek()?.t === 'unit' ? unit(c) : undefined
    if (leading) c.takes(':', '=')
    const firstAt = c.peek()
    const first = c.number() ?? amount(c)
    if (!first) return undefined
    const read = leading ?? unit(c)
    const range = rangeAfter(c, first, leading ? undefined : read, firstAt)
    // `from 20 N·m`: the other end is lost.
    if (between && !range) throw c.stop('not_understood', firstAt)
    let of = range?.unit ?? read
    let limits: Limits | undefined = range ?? toleranceAfter(c, first, of) ?? innerLimits(c, first)
    if (!of) of = unit(c)
    limits ??= of ? toleranceAfter(c, first, of) : undefined
    if ((range || bound) && c.peek()?.t === 'sign' && toleranceAfter(c, first, of))
      throw c.stop({ unclear: 'limits' })
    if (!range && !limits && !bound && bindsBackward(c))
      bound = c.word('min') ?? (c.word('max', 'limit') && 'max')
    const end = c.peek(-1)?.end ?? start
    if (bound && limits) throw new Stop({ unclear: 'limits' }, start, end)
    const { alone, mixed, ...nominal } = { mixed: false, ...first }
    const ends = [first, range?.max].map((figure) => figure?.value ?? 0)
    if (of?.kind === 'angle' && Math.max(...ends) > (of.degrees === 1 ? MOST_TURNS * 360 : MOST_TURNS))
      throw c.stop('not_understood', firstAt)
    const figures = bound ? { [bound]: nominal } : range ? limits : { nominal, ...limits }
    const scaled = {
      ...scale(figures?.nominal, of, 'nominal'),
      ...scale(figures?.min, of, 'min'),
      ...scale(figures?.max, of, 'max'),
    }
    return {
      start,
      end,
      kind: of?.kind ?? 'bare',
      ...(of?.kind === 'torque' ? { unit: of.unit } : {}),
      ...scaled,
      ...(alone ? { fraction: true } : {}),
      ...(mixed ? { mixed } : {}),
    }
  })
}

/** Words before a value. */
const BEFORE = ['min', 'max', 'limit', 'about', 'between'] as const

/** No bolt is turned further in one pass. */
const MOST_TURNS = 10

type Limits = { nominal?: Figure; min?: Figure; max?: Figure }

function scale(figure: Figure | undefined, of: Unit | undefined, key: keyof Limits): Limits {
  if (!figure) return {}
  const by = of?.kind === 'angle' ? of.degrees : 1
  // As printed: cleaning a number nobody reckoned with would change its last digit.
  return { [key]: by === 1 ? figure : { value: clean(figure.value * by), step: figure.step * by } }
}

/** `quarter`, `half a`: only where a turn follows. */
function amount(c: Cursor): (Figure & { alone: boolean }) | undefined {
  const token = c.peek()
  if (token?.t !== 'amount') return undefined
  c.at += 1
  const before = c.at
  c.word('filler', 'a')
  const next = c.peek()
  if (next?.t !== 'sign' || next.sign !== 'turn') throw c.stop('not_understood', token)
  c.at = before
  return { value: token.value, step: 0, alone: false }
}

function unit(c: Cursor): Unit | undefined {
  const token = c.peek()
  if (token?.t === 'unit') {
    c.at += 1
    return { kind: 'torque', unit: token.unit }
  }
  return c.attempt(() => {
    if (c.takes('deg')) return { kind: 'angle' as const, degrees: 1 }
    c.word('filler', 'a') // `1/4 of a turn`
    return c.takes('turn') ? { kind: 'angle' as const, degrees: 360 } : undefined
  })
}

const isTurns = (of: Unit | undefined) => of?.kind === 'angle' && of.degrees !== 1

const same = (one: Unit, other: Unit) =>
  one.kind === 'torque'
    ? other.kind === 'torque' && one.unit === other.unit
    : other.kind === 'angle' && one.degrees === other.degrees

/** A range of more than tenfold is two numbers that got side by side (`1 - 40 N·m`), not a range. */
const WIDEST = 10
/** Up to twofold a dash makes a range; above, `4 - 25 N·m` may be item 4, as in `tighten 4 to 25 N·m`, and is asked. */
export const PLAIN_RANGE = 2

/** `18–22`, `18 N·m to 22 N·m`, `between 18 and 22`. A dash before another unit parts passes and is left. */
function rangeAfter(
  c: Cursor,
  first: Figure,
  read: Unit | undefined,
  firstAt?: Token,
): (Limits & { unit: Unit | undefined }) | undefined {
  return c.attempt(() => {
    const from = c.peek()
    if (
      !(!c.staged && c.takes('-')) &&
      !c.takes('…') &&
      !c.word('to', 'a') &&
      !(betweenBefore(c) && c.word('and'))
    )
      return undefined
    const second = c.number()
    if (!second) return undefined
    // `20 −2/+3` are limits off 20.
    if (isSign(c.peek(), '/') && isSign(c.peek(1), '+')) return undefined
    const after = unit(c)
    if (read && after && !same(read, after)) return undefined
    if (read && !after) throw c.stop({ unclear: 'no_unit' }, from)
    const { value, step, alone } = second
    const max = { value, step }
    // `1 to 2 turns` is how a thing is run down by hand.
    if (isTurns(after ?? read) && value > 1) throw c.stop({ unclear: 'range' }, from)
    const next = c.peek()
    if (
      next?.t === 'sign' &&
      (next.sign === '-' || next.sign === '…') &&
      c.peek(1)?.t === 'number' &&
      alikeAfter(c, after)
    )
      throw c.stop({ unclear: 'range' }, next)
    if (alone || first.value >= max.value || max.value > first.value * WIDEST)
      throw c.stop({ unclear: 'range' }, from)
    if (!read && !betweenBefore(c)) plainRange(c, firstAt, first, second, after)
    return { min: { value: first.value, step: first.step }, max, unit: read ?? after }
  })
}

/** Property classes of bolts: `8.8 - 12 N·m`. */
const GRADES = new Set([4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, 12.9])

/** Stops where a dash or `to` with one unit behind it may part a number of something else from a torque. */
function plainRange(c: Cursor, from: Token | undefined, first: Figure, second: Figure, of: Unit | undefined) {
  const whole = Number.isInteger(first.value) && Number.isInteger(second.value)
  const graded = whole === false && Number.isInteger(second.value) && GRADES.has(first.value)
  if ((second.value <= first.value * PLAIN_RANGE && !graded) || from?.t !== 'number') return
  const name = of?.kind === 'torque' ? of.unit : of?.degrees === 360 ? 'turns' : of ? '°' : undefined
  const last = c.tokens.slice(0, c.at).findLast((token) => token.t === 'number')
  if (!name || last?.t !== 'number') throw c.stop({ unclear: 'range' }, from)
  const [low, high] = [from.number.raw, last.number.raw]
  const parted = last.start - from.end > 1
  throw new Stop({ unclear: 'range' }, from.start, c.peek(-1)?.end ?? last.end, [
    `min ${low} ${name}, max ${high} ${name}`,
    ...(parted && (whole || graded) ? [`${high} ${name}`] : []),
  ])
}

function betweenBefore(c: Cursor): boolean {
  return c.tokens
    .slice(Math.max(0, c.at - 4), c.at)
    .some((token) => token.t === 'word' && token.part === 'between')
}

/** Would a third number belong to the same chain? After a whole range a dash and another unit part passes. */
function alikeAfter(c: Cursor, of: Unit | undefined): boolean {
  const third = c.peek(2)
  if (!of || third === undefined) return true
  return of.kind === 'torque'
    ? third.t === 'unit' && third.unit === of.unit
    : third.t === 'sign' && third.sign === 'deg'
}

/** `±4`, `± 10 %`, `+5/−0`, `−2/+3`, before or after the unit; a tolerance may repeat the unit. */
function toleranceAfter(c: Cursor, first: Figure, read: Unit | undefined): Limits | undefined {
  return plusMinus(c, first, read) ?? plusThenMinus(c, first, read)
}

function plusMinus(c: Cursor, first: Figure, read: Unit | undefined): Limits | undefined {
  if (!c.takes('±')) return undefined
  const off = offset(c, first, read)
  if (!off) throw c.stop('not_understood')
  return limitsAround(c, first, off, off)
}

function plusThenMinus(c: Cursor, first: Figure, read: Unit | undefined): Limits | undefined {
  return c.attempt(() => {
    const signed = c.peek()
    const figureAt = c.peek(1)
    const lead = c.takes('+', '-')
    const one = lead && offset(c, first, read)
    if (!one) return undefined
    const parted = c.takes('/', ',')
    // `25 N·m + 9-12`: positions, not limits.
    if (!parted && signed?.end !== figureAt?.start) return undefined
    const second = lead === '+' ? c.takes('-') : parted ? c.takes('+') : undefined
    // `+10/0`: nothing has no sign.
    const nothing = lead === '+' && parted === '/' && !second && isZero(c)
    const other = second || nothing ? offset(c, first, read) : undefined
    if (!other) return undefined
    // `+10/−5 %`: the sign at the end is that of both, as a unit would be. `+10 %/−5` is half said.
    const shared = other.share !== undefined && one.bare !== undefined ? ofShare(first, one.bare) : one
    if (one.share !== undefined && other.bare) throw c.stop({ unclear: 'limits' }, c.peek(-1))
    // `30 N·m + 85–95°`: an angle of its own, not limits of the torque.
    if (read?.kind === 'torque' && (isSign(c.peek(), 'deg') || isSign(c.peek(), 'turn'))) return undefined
    return lead === '+' ? limitsAround(c, first, shared, other) : limitsAround(c, first, other, shared)
  })
}

function isZero(c: Cursor): boolean {
  const token = c.peek()
  return token?.t === 'number' && token.number.raw === '0'
}

/** Limits in brackets behind a value: `(±4)`, `(+5/−0 N·m)`. */
export function toleranceIn(c: Cursor, main: Quantity): Quantity | undefined {
  const read: Unit | undefined =
    main.kind === 'torque' && main.unit
      ? { kind: 'torque', unit: main.unit }
      : main.kind === 'angle'
        ? { kind: 'angle', degrees: 1 }
        : undefined
  const start = c.peek()?.start ?? 0
  const limits = main.nominal && toleranceAfter(c, main.nominal, read)
  if (!limits) return undefined
  const { kind, unit: of } = main
  return { start, end: c.peek(-1)?.end ?? start, kind, ...(of ? { unit: of } : {}), ...limits }
}

/** `share`: given in per cent; `bare`: a number with nothing behind it. */
type Offset = Figure & { share?: number; bare?: number }

const ofShare = (first: Figure, share: number): Offset => ({
  value: (first.value * share) / 100,
  step: first.step,
  share,
})

/** How far a limit is off: in the same unit, in degrees of a turn, or per cent of the value. */
function offset(c: Cursor, first: Figure, read: Unit | undefined): Offset | undefined {
  const number = c.number()
  if (!number) return undefined
  if (c.takes('%')) return ofShare(first, number.value)
  const again = read && c.attempt(() => ofKind(unit(c), read))
  const turns = read?.kind === 'angle' && read.degrees !== 1
  // `1/2 turn ±5` says nothing: five turns are not meant, and degrees are not written.
  if (turns && again?.kind !== 'angle') throw c.stop({ unclear: 'no_unit' }, c.peek(-1))
  const by = turns && again?.kind === 'angle' ? again.degrees / read.degrees : 1
  return {
    value: number.value * by,
    step: number.step * by + first.step,
    ...(again ? {} : { bare: number.value }),
  }
}

function ofKind(again: Unit | undefined, read: Unit): Unit | undefined {
  if (!again) return undefined
  return same(again, read) || (again.kind === 'angle' && read.kind === 'angle' && read.degrees !== 1)
    ? again
    : undefined
}

function limitsAround(c: Cursor, first: Figure, up: Figure, down: Figure): Limits {
  const min = clean(first.value - down.value)
  if (min < 0) throw c.stop({ unclear: 'limits' }, c.peek(-1))
  if (down.value > first.value / 2 || up.value > first.value) throw c.stop({ unclear: 'wide' }, c.peek(-1))
  return {
    min: { value: min, step: down.step },
    max: { value: clean(first.value + up.value), step: up.step },
  }
}

/** `24 (20–28) N·m`, `24 (±4) N·m`: limits in brackets before the unit. */
function innerLimits(c: Cursor, first: Figure): Limits | undefined {
  return c.attempt(() => {
    if (!c.takes('(')) return undefined
    const number = c.peek()?.t === 'number' ? c.number() : undefined
    const limits = number ? rangeAfter(c, number, undefined) : toleranceAfter(c, first, undefined)
    if (!limits || !c.takes(')')) return undefined
    const next = c.peek()
    const followed = next?.t === 'unit' || (next?.t === 'sign' && next.sign === 'deg')
    if (!followed || ('unit' in limits && limits.unit)) return undefined
    if (!encloses(limits, first)) throw c.stop({ unclear: 'limits' })
    return { ...(limits.min ? { min: limits.min } : {}), ...(limits.max ? { max: limits.max } : {}) }
  })
}

export function encloses(limits: Limits, figure: Figure): boolean {
  return (
    (limits.min?.value ?? figure.value) <= figure.value && figure.value <= (limits.max?.value ?? figure.value)
  )
}

/** `22 N·m max`; but in `min 18 max 22` the word belongs to what follows. */
function bindsBackward(c: Cursor): boolean {
  const word = c.peek()
  const next = c.peek(1)
  return (
    word?.t === 'word' &&
    (word.part === 'min' || word.part === 'max' || word.part === 'limit') &&
    next?.t !== 'number' &&
    next?.t !== 'unit'
  )
}

/** Takes the float's own noise away: 24.1 − 0.3 is 23.8. */
export function clean(value: number): number {
  return Number(value.toPrecision(15))
}
