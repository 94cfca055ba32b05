/**
 * From items to passes: which number has which unit, which torque is the same one in another unit, which is a
 * limit, and whether the passes stand apart. Where a text would have to be guessed at, it stops.
 */
import { type TorqueUnit, toNm } from '../units'
import { type Agreement, agreement } from './contradiction'
import { Stop } from './cursor'
import type { Item } from './grammar'
import { chainOf, giveUnits, printedIn, slashWays, type Tightening } from './lists'
import { encloses, type Quantity } from './quantity'
import type { Unclear } from './refusals'
import type { AngleSpec, Contradiction, PrintedTorque, SpecPass, TorqueSpec } from './types'

export interface Passes {
  passes: SpecPass[]
  contradiction?: Contradiction
  remark?: Contradiction
  /** Another unit stood beside the first and was held against it. */
  compared: boolean
  customary: boolean
}

/** A pass being put together: its quantity, and the same torque in other units. */
interface Draft {
  kind: 'torque' | 'angle' | 'slacken'
  quantity?: Quantity
  others: Quantity[]
  /** The item it began with. */
  item: Item
}

/** `unit`: what a bare number is in, where a table says so. */
export function passesOf(items: Item[], text: string, unit?: TorqueUnit): Passes {
  if (items.length === 0) throw new Stop({ other: 'words' }, 0, text.length)
  numbered(items)
  const doubt = giveUnits(items, text, unit)
  const drafts: Draft[] = []
  items.forEach((item, i) => {
    const before = drafts.at(-1)
    if (item.slacken) {
      if (item.join === 'none' && !item.full && !item.quantity) throw stop('not_parted', item)
      drafts.push({
        kind: 'slacken',
        others: [],
        item,
        ...(item.quantity ? { quantity: item.quantity } : {}),
      })
      for (const inside of item.brackets) takeBracket(inside, drafts, items.slice(0, i + 1), unit)
      return
    }
    const { quantity } = item
    if (before && sameAgain(item, before, items, i)) {
      before.others.push(quantity)
    } else if (before && bounds(item, before)) {
      before.quantity = withLimits(before.quantity ?? quantity, quantity)
    } else {
      apart(item, before, doubt?.members.includes(quantity) ? undefined : text)
      for (let k = 0; k < item.times; k += 1)
        drafts.push({ kind: quantity.kind === 'angle' ? 'angle' : 'torque', quantity, others: [], item })
    }
    for (const inside of item.brackets) takeBracket(inside, drafts, items.slice(0, i + 1), unit)
  })
  const quantities = drafts.flatMap((draft) => (draft.quantity ? [draft.quantity, ...draft.others] : []))
  angleFirst(drafts)
  const proven = drafts.every(
    ({ quantity, others }) => !quantity || !doubt?.members.includes(quantity) || others.length > 0,
  )
  if (doubt && !(doubt.provable && proven)) throw doubt.stop
  if (unit === undefined) parted(drafts, text)
  rising(drafts, text)
  const contradiction = first('apart', drafts, text)
  const remark = contradiction ? undefined : first('near', drafts, text)
  return {
    passes: drafts.map(passOf),
    ...(contradiction ? { contradiction } : {}),
    ...(remark ? { remark } : {}),
    compared: drafts.some((draft) => draft.others.some((other) => other.kind === 'torque')),
    customary: quantities.some(({ unit: of }) => of === 'lbf·ft' || of === 'lbf·in' || of === 'ozf·in'),
  }
}

const stop = (why: Unclear, at: { start: number; end: number } | Tightening) =>
  'quantity' in at && at.quantity && !('start' in at)
    ? new Stop({ unclear: why }, at.quantity.start, at.quantity.end)
    : new Stop({ unclear: why }, (at as { start: number }).start, (at as { end: number }).end)

/** Pass numbers count up from the first; one with a full stop alone may be half a decimal number. */
function numbered(items: Item[]): void {
  const labels = items.flatMap((item) => (item.label === undefined ? [] : [item.label]))
  const counts = labels.every((n, i) => n === (labels[0] ?? 0) + i) && (labels[0] ?? 1) >= 1
  const dotted = items.find((item) => item.dotted)
  const wrong = !counts || (labels.length === 1 && dotted) || (labels.length > 1 && labels[0] !== 1)
  if (wrong) throw stop('numbering', spanOf(items))
  // `1 - 40 N·m, 2 - 70 N·m`: pass numbers with a dash look like ranges.
  const lows = items.flatMap((item) =>
    !item.slacken && item.quantity.min && !item.quantity.nominal ? [item.quantity.min.value] : [],
  )
  if (lows.length > 1 && lows.length === items.length && lows.every((low, i) => low === i + 1))
    throw stop('range', spanOf(items))
}

function spanOf(items: Item[]): { start: number; end: number } {
  const spans = items.map((item) => (item.slacken ? item : item.quantity))
  return { start: spans[0]?.start ?? 0, end: spans.at(-1)?.end ?? 0 }
}

/** Is this the torque before it in another unit? Beside it or after a comma only where the two agree. */
function sameAgain(item: Tightening, before: Draft, items: Item[], i: number): boolean {
  const { quantity, join } = item
  const first = before.quantity
  if (before.kind !== 'torque' || quantity.kind !== 'torque' || !first) return false
  if (join === 'plus' || join === 'then' || join === 'verb') return false
  if ([first, ...before.others].some((one) => one.unit === quantity.unit)) {
    if (join === 'equal') throw stop('one_or_two', item)
    return false
  }
  const previous = items[i - 1]
  if (previous && !previous.slacken && previous.brackets.length > 0) return false
  if (join === 'slash' || join === 'equal') return true
  if (agreement(printed(first), printed(quantity)) === 'apart') throw stop('one_or_two', item)
  return true
}

/** `20 N·m, max 22 N·m` and `min 18, max 22 N·m` are one torque. */
function bounds(item: Tightening, before: Draft): boolean {
  const { quantity, join } = item
  const first = before.quantity
  if (!first || quantity.kind !== first.kind || quantity.unit !== first.unit) return false
  if (join === 'plus' || join === 'then' || join === 'equal' || quantity.nominal) return false
  if (quantity.min && quantity.max) return false
  return quantity.min ? !first.min : !first.max
}

function withLimits(first: Quantity, limits: Quantity): Quantity {
  const { min = first.min, max = first.max } = limits
  const whole = {
    ...first,
    end: Math.max(first.end, limits.end),
    ...(min ? { min } : {}),
    ...(max ? { max } : {}),
  }
  const rises = (min?.value ?? 0) <= (max?.value ?? Number.POSITIVE_INFINITY)
  if (!rises || (first.nominal && !encloses(limits, first.nominal))) throw stop('limits', limits)
  return whole
}

/** Passes need something between them; a torque followed by an angle does not. */
function apart(item: Tightening, before: Draft | undefined, text?: string): void {
  const { join, quantity } = item
  if (join === 'plus' && quantity.kind === 'torque') throw stop('adds_to_torque', item)
  if (!before) return
  const both = before.kind === 'torque' && quantity.kind === 'torque' && before.quantity
  if (
    text !== undefined &&
    join === 'slash' &&
    both &&
    item.label === undefined &&
    quantity.nominal &&
    before.quantity?.nominal
  ) {
    const members = [before.quantity, quantity]
    const ways = slashWays(members, quantity.unit ?? 'N·m', text)
    if (before.others.length === 0 && !before.item.brackets.length)
      throw new Stop({ unclear: 'slash' }, before.quantity.start, quantity.end, ways)
  }
  // `25 N·m + 90°/120°`: one angle for each of two things, unless slashes part all passes.
  const turns = before.kind === 'angle' && quantity.kind === 'angle' && before.quantity
  if (turns && join === 'slash' && before.item.join !== 'slash' && item.label === undefined) {
    const ways = [before.quantity, quantity].map((one) => text?.slice(one?.start, one?.end) ?? '')
    throw new Stop({ unclear: 'slash' }, before.quantity?.start ?? 0, quantity.end, [
      ways.join(', then '),
      ...ways,
    ])
  }
  // `20–25 N·m, max 22 N·m`: a limit beside a limit of its own side is no pass of its own.
  const alone = !quantity.nominal && !(quantity.min && quantity.max)
  const first = before.quantity
  const beside = first && first.kind === quantity.kind && (quantity.max ? first.max : first.min)
  if (alone && beside && item.label === undefined && (join === 'weak' || join === 'slash'))
    throw stop('adds_to_torque', item)
  const thenAngle = before.kind === 'torque' && quantity.kind === 'angle'
  if ((join === 'none' || (join === 'dash' && !item.staged)) && !thenAngle) throw stop('not_parted', item)
  if (join === 'equal') throw stop('one_or_two', item)
}

/** `25 N·m, 30 N·m` and nothing else may be two fasteners: passes are numbered, turned on, or joined by `then`. */
function parted(drafts: Draft[], text: string): void {
  const members = drafts.flatMap(({ kind, quantity }) => (kind === 'torque' && quantity ? [quantity] : []))
  if (members.length < 2 || members.length < drafts.length || drafts.some(({ others }) => others.length > 0))
    return
  const bare = drafts
    .slice(1)
    .every(({ item }) => item.join === 'weak' && item.label === undefined && !item.verb)
  const [first, last] = [members[0], members.at(-1)]
  if (!bare || !first || !last) return
  const ways = [chainOf(members, last.unit ?? 'N·m', text)]
  throw new Stop({ unclear: 'list' }, first.start, last.end, ways)
}

/** An angle with a torque listed behind it is of something else: passes begin with a torque, or are numbered. */
function angleFirst(drafts: Draft[]): void {
  const [one, two] = drafts
  if (one?.kind !== 'angle' || two?.kind !== 'torque' || !one.quantity) return
  const numbered = two.item.label === undefined || one.item.label !== undefined
  if (two.item.join !== 'then' || two.item.arrow || !numbered)
    throw new Stop('not_understood', one.quantity.start, one.quantity.end)
}

/** A torque below the one before it, with no slackening between them, is no pass unless it says so. */
function rising(drafts: Draft[], text: string): void {
  let before: Quantity | undefined
  for (const { kind, quantity, item } of drafts) {
    if (kind === 'slacken') before = undefined
    if (kind !== 'torque' || !quantity) continue
    if (before && !item.down && levelOf(quantity) < levelOf(before)) {
      const [high, low] = [before, quantity].map((one) => printedIn(one, one.unit ?? 'N·m', text))
      const { start } = before
      throw new Stop({ unclear: 'falls' }, start, quantity.end, [
        `${high}, then down to ${low}`,
        `${high}, then slacken fully, then ${low}`,
      ])
    }
    before = quantity
  }
}

function levelOf({ unit = 'N·m', nominal, min, max }: Quantity): number {
  return toNm((nominal ?? max ?? min)?.value ?? 0, unit)
}

/** In brackets: the torque before them, or the list before them, in other units; or limits. */
function takeBracket(inside: Item[], drafts: Draft[], before: Item[], given?: TorqueUnit): void {
  const main = drafts.at(-1)
  if (!main?.quantity || inside.length === 0) throw new Stop('not_understood', 0, 0)
  const list = inside.map((item) => {
    if (
      item.slacken ||
      item.join === 'plus' ||
      item.join === 'then' ||
      item.label !== undefined ||
      item.brackets.length > 0
    )
      throw stop('one_or_two', item.slacken ? item : item.quantity)
    return item
  })
  const onlyLimits = list.length === 1 && list[0]?.quantity.kind === 'bare' && given === main.quantity.unit
  giveUnits(list, '', onlyLimits ? given : undefined)
  const quantities = joinBounds(list.map((item) => item.quantity))
  const run = runBefore(drafts, before, quantities)
  quantities.forEach((quantity, i) => {
    const draft = run ? run[i % run.length] : main
    if (!draft?.quantity) throw stop('one_or_two', quantity)
    const first = draft.quantity
    if (quantity.kind !== first.kind) throw stop('one_or_two', quantity)
    if (quantity.kind === 'torque' && quantity.unit !== first.unit) {
      if (draft.others.some((other) => other.unit === quantity.unit)) throw stop('one_or_two', quantity)
      draft.others.push(quantity)
    } else if (!quantity.nominal) {
      // `40–47 (30–35) N·m`: limits that stand already are never replaced by others.
      const other = (['min', 'max'] as const).some(
        (end) => first[end] && quantity[end] && first[end].value !== quantity[end].value,
      )
      if (other) throw stop('one_or_two', quantity)
      draft.quantity = withLimits(first, quantity)
    } else if (first.nominal?.value !== quantity.nominal.value) throw stop('one_or_two', quantity)
  })
}

/** `(min 18 N·m, max 22 N·m)` is one pair of limits. */
function joinBounds(quantities: Quantity[]): Quantity[] {
  const joined: Quantity[] = []
  for (const quantity of quantities) {
    const last = joined.at(-1)
    const pairs =
      last?.min && !last.nominal && !last.max && quantity.max && !quantity.nominal && !quantity.min
    if (last && pairs && last.unit === quantity.unit && last.kind === quantity.kind)
      joined[joined.length - 1] = withLimits(last, quantity)
    else joined.push(quantity)
  }
  return joined
}

/** `40, 70, 90 N·m (30, 52, 66 lb-ft)`: as many in brackets, unit by unit, as torques in the list before. */
function runBefore(drafts: Draft[], items: Item[], inside: Quantity[]): Draft[] | undefined {
  const unit = inside[0]?.unit
  const each = inside.filter((quantity) => quantity.unit === unit).length
  if (each < 2 || inside.length % each !== 0) return undefined
  const blocks = inside.every((quantity, i) => quantity.unit === inside[i - (i % each)]?.unit)
  const run = drafts.slice(-each)
  const listed = items
    .slice(-each + 1)
    .every((item) => item.join === 'weak' || item.join === 'slash' || item.join === 'then')
  const plain = run.every(
    (draft) =>
      draft.kind === 'torque' && draft.others.length === 0 && draft.quantity?.unit === run[0]?.quantity?.unit,
  )
  return blocks && listed && plain && run.length === each ? run : undefined
}

/** The first pass whose printed units agree this badly. */
function first(how: Agreement, drafts: Draft[], text: string): Contradiction | undefined {
  for (const [pass, { quantity, others }] of drafts.entries()) {
    if (!quantity?.unit) continue
    const other = others.find((one) => agreement(printed(quantity), printed(one)) === how)
    if (other) return { pass, first: shown(quantity, text), second: shown(other, text) }
  }
  return undefined
}

function printed({ unit = 'N·m', nominal, min, max }: Quantity) {
  return { unit, ...(nominal ? { nominal } : {}), ...(min ? { min } : {}), ...(max ? { max } : {}) }
}

function shown(quantity: Quantity, text: string): PrintedTorque {
  const { kind, ...values } = torqueOf(quantity)
  const words = text.slice(quantity.start, quantity.end)
  // A number whose unit stands at the end of its list has none of its own to show.
  const unit = quantity.unit ?? 'N·m'
  return { text: /\p{L}/u.test(words) ? words : `${words} ${unit}`, unit, ...values }
}

function passOf({ kind, quantity }: Draft): SpecPass {
  if (kind === 'slacken') return quantity ? { ...angleOf(quantity), kind: 'slacken' } : { kind: 'slacken' }
  if (!quantity) throw new Stop('not_understood', 0, 0)
  return kind === 'torque' ? torqueOf(quantity) : angleOf(quantity)
}

function torqueOf(quantity: Quantity): TorqueSpec {
  const { unit = 'N·m', nominal, min, max } = quantity
  aboveZero(quantity)
  const nm = (value: number) => toNm(value, unit)
  return {
    kind: 'torque',
    ...(nominal ? { nominalNm: nm(nominal.value) } : {}),
    ...(min ? { minNm: nm(min.value) } : {}),
    ...(max ? { maxNm: nm(max.value) } : {}),
  }
}

function angleOf(quantity: Quantity): AngleSpec {
  const { nominal, min, max } = quantity
  aboveZero(quantity)
  return {
    kind: 'angle',
    ...(nominal ? { nominalDeg: nominal.value } : {}),
    ...(min ? { minDeg: min.value } : {}),
    ...(max ? { maxDeg: max.value } : {}),
  }
}

function aboveZero({ nominal, min, max, start, end }: Quantity): void {
  const least = nominal ?? max ?? min
  if (!least || !(least.value > 0) || !Number.isFinite(max?.value ?? 0))
    throw new Stop({ other: 'zero' }, start, end)
}
