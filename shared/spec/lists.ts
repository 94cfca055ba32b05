/**
 * Numbers in a list, and the unit at its end: `40, 70, 90 N·m`, `1st 40, 2nd 70 N·m`, `20 → 40 N·m`.
 *
 * Pass numbers, `then`, arrows and a printed count of stages say that every member is a torque. A comma says so
 * only where a second unit repeats the list, or where it climbs like passes and an angle or an equal pass
 * follows; else `9, 10, 26 N·m` may be bolts 9 and 10, and is asked. A slash may mean anything, and is asked.
 */
import { type TorqueUnit, unambiguous } from '../units'
import { Stop } from './cursor'
import type { Item } from './grammar'
import type { Quantity } from './quantity'

export type Tightening = Extract<Item, { slacken: false }>

/** A list that is not proven to be one: why, and which items; its `Stop` is thrown unless a bracket proves it. */
export interface ListDoubt {
  stop: Stop
  members: Quantity[]
  /** May another unit in brackets prove it? */
  provable: boolean
}

/** Gives bare numbers the unit at the end of their list, or the table's. */
export function giveUnits(items: Item[], text: string, given: TorqueUnit | undefined): ListDoubt | undefined {
  const bare: Tightening[] = []
  let unitBefore = false
  let doubt: ListDoubt | undefined
  for (const [i, item] of items.entries()) {
    if (item.slacken) continue
    const { quantity } = item
    const turned = quantity.kind === 'angle' && (quantity.nominal?.value ?? 1) >= 1
    if (quantity.fraction && !turned) throw stopAt('fraction_or_two', quantity)
    // Newton metres have no fractions: `8 1/2 N·m` may be a count and a size.
    if (quantity.mixed && quantity.unit && METRIC.has(quantity.unit))
      throw stopAt('fraction_or_two', quantity)
    if (quantity.kind === 'bare') {
      bare.push(item)
      continue
    }
    if (bare.length > 0) {
      const plain = item.join === 'weak' || item.join === 'slash' || item.join === 'then' || item.staged
      const values = bare.every((one) => one.quantity.nominal && one.brackets.length === 0)
      if (
        quantity.kind === 'torque' &&
        quantity.nominal &&
        !given &&
        plain &&
        values &&
        !unitBefore &&
        !bare.some(oddlyJoined)
      ) {
        for (const one of bare) give(one, quantity.unit)
        doubt = doubtOf([...bare, item], items[i + 1], text)
        bare.length = 0
      } else if (!given) throw stopAt('no_unit', (bare[0] ?? item).quantity)
      // `40, 90, 90°` in a column of N·m: the middle one may be either.
      else if (
        quantity.kind === 'angle' &&
        bare.length > 1 &&
        (item.join === 'weak' || item.join === 'slash')
      )
        throw stopAt('no_unit', (bare.at(-1) ?? item).quantity)
    }
    unitBefore = true
  }
  for (const one of bare) {
    if (!given || oddlyJoined(one)) throw stopAt('no_unit', one.quantity)
    give(one, given)
  }
  return doubt
}

const METRIC = new Set<TorqueUnit>(['N·m', 'N·mm', 'cN·m', 'dN·m', 'daN·m', 'kN·m'])

const stopAt = (why: 'fraction_or_two' | 'no_unit', { start, end }: Quantity) =>
  new Stop({ unclear: why }, start, end)

const oddlyJoined = (item: Item) =>
  !item.staged &&
  (item.join === 'plus' || item.join === 'equal' || item.join === 'dash' || item.join === 'none')

function give(item: Tightening, unit: TorqueUnit | undefined): void {
  item.quantity = { ...item.quantity, kind: 'torque', ...(unit ? { unit } : {}) }
}

function doubtOf(list: Tightening[], next: Item | undefined, text: string): ListDoubt | undefined {
  const joins = list.slice(1).map((item) => item.join)
  const members = list.map(({ quantity }) => quantity)
  const { start, end } = { start: members[0]?.start ?? 0, end: members.at(-1)?.end ?? 0 }
  const unit = members[0]?.unit ?? 'N·m'
  if (joins.includes('slash'))
    return {
      stop: new Stop({ unclear: 'slash' }, start, end, slashWays(members, unit, text)),
      members,
      provable: false,
    }
  const values = members.map(({ nominal }) => nominal?.value ?? 0)
  const climbs = (first: number, by: number) =>
    (values[0] ?? 0) >= first &&
    values.every(
      (value, i) => i === 0 || (value >= (values[i - 1] ?? 0) && value <= by * (values[i - 1] ?? 0)),
    )
  const repeated = values.some((value, i) => value === values[i - 1])
  const turned = next && !next.slacken && next.quantity.kind === 'angle'
  const arrows = list.slice(1).some((item) => item.arrow && item.label === undefined)
  const then = joins.every((join) => join === 'then')
  const labels = list.filter((item) => item.label !== undefined).length
  if (list.some((item) => item.staged)) return undefined
  if (then && !arrows && (labels === 0 || labels === list.length)) return undefined
  // Falling, it is asked about as that.
  const falls = !climbs(0, Number.POSITIVE_INFINITY)
  const many = values.length > 2
  const sure = climbs(many ? 0 : LEAST_LIKELY, 2.5) && (many || turned)
  if (then && arrows && (falls || sure)) return undefined
  if (many && climbs(LEAST_SURE, 2) && (repeated || turned)) return undefined
  const chain = chainOf(members, unit, text)
  const last = printedIn(members.at(-1), unit, text)
  // `25 , 5 N·m` may be one number; a falling list offers nothing.
  const ways = falls ? [] : !climbs(LEAST_LIKELY, 4) ? [last] : many ? [chain] : [chain, last]
  return { stop: new Stop({ unclear: 'list' }, start, end, ways), members, provable: true }
}

/** Below these the first number of a list is too easily a bolt's number, or a count. */
const LEAST_SURE = 20
const LEAST_LIKELY = 15

/** A slash between torques: a range, passes, or one for each of several fasteners. */
export function slashWays(members: Quantity[], unit: string, text: string): string[] {
  const [low, high] = members.map(({ nominal }) => nominal?.value ?? 0)
  const each = members.map((member) => printedIn(member, unit, text))
  const range = members.length === 2 && low !== undefined && high !== undefined && low < high
  return [...(range ? [`min ${each[0]}, max ${each[1]}`] : []), chainOf(members, unit, text), ...each]
}

export function chainOf(members: Quantity[], unit: string, text: string): string {
  return members
    .map((member, i) => {
      const falls = i > 0 && (member.nominal?.value ?? 0) < (members[i - 1]?.nominal?.value ?? 0)
      return `${i === 0 ? '' : falls ? ', then down to ' : ', then '}${printedIn(member, unit, text)}`
    })
    .join('')
}

/** One value with its unit; a range or limit as it stands in the text. */
export function printedIn(quantity: Quantity | undefined, unit: string, text: string): string {
  if (quantity?.nominal && !quantity.min && !quantity.max)
    return `${unambiguous(quantity.nominal.value)} ${unit}`
  const words = text.slice(quantity?.start ?? 0, quantity?.end ?? 0).trim()
  return /[\p{L}°]/u.test(words) ? words : `${words} ${unit}`
}
