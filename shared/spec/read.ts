/**
 * Reads what a manual prints for one fastener.
 *
 * A reading accounts for every number and word of the text, or there is none: what is not understood is
 * refused, what can be read in two ways is asked with both, and nothing is ever filled in.
 */

import { isRefusal } from '../log'
import {
  type DecimalSign,
  isAmbiguous,
  isCustomary,
  provenSign,
  type TorqueUnit,
  USUAL_UNITS,
} from '../units'
import { itemsOf } from './grammar'
import { asTyped } from './leftovers'
import { type Passes, passesOf } from './passes'
import { printSpec } from './print'
import { Stop } from './quantity'
import { type OtherThing, refuseSpec, type SpecReading, type SpecRefusal, type Unclear } from './refusals'
import { type OddKind, type Token, tokenize } from './tokens'
import type { Spec } from './types'

/** What a table knows beyond the cell: the unit of bare numbers, and the decimal sign its numbers prove. */
export interface SpecContext {
  unit?: TorqueUnit
  sign?: DecimalSign
}

/** No cell of a manual is longer; what is, is a page. */
const LONGEST = 1000

/**
 * Passes in N·m (of the first printed unit) and degrees, or a refusal: `nothing_printed`, `not_a_torque`,
 * `not_understood`, `unclear` with its readings. Two printed units that disagree by more than their rounding
 * are a `contradiction` of the result, with both as printed.
 *
 * Of a number like `1,250` the reading is taken that (1) the other numbers of the text prove, (2) a second
 * printed unit agrees with, (3) pounds, feet and inches go with: a decimal point. Else both are asked.
 */
export function readSpec(text: string, context: SpecContext = {}): Spec | SpecRefusal {
  return read(text, context, true)
}

/** `asking`: whether an unclear text is also read in its possible ways, which themselves are not asked about. */
function read(text: string, context: SpecContext, asking: boolean): Spec | SpecRefusal {
  const plain = asTyped(text).replace(/-(?=(?:turns?|deg(?:ree)?s?)\b)/gi, ' ')
  const shown = text.trim().slice(0, 200)
  if (plain.trim() === '') return refuseSpec('nothing_printed', {})
  if (plain.length > LONGEST) return refuseSpec('not_a_torque', { text: shown, what: 'words' })
  const tokens = tokenize(plain)
  const unclear = (why: Unclear, part: string, ways: () => string[]) =>
    refuseSpec('unclear', { text: shown, why, part, readings: asking ? readable(why, ways(), context) : [] })
  const odd = oddRefusal(plain, shown, tokens, unclear)
  if (odd) return odd

  const numbers = tokens.flatMap((token) => (token.t === 'number' ? [token.number] : []))
  const signs = signsFor(numbers.some(isAmbiguous), new Set(numbers.map(provenSign)), context)
  const tries = signs.map((sign) => attempt(plain, tokens, sign, context))
  const done = tries.filter((one): one is Passes => !(one instanceof Stop))
  const stop = tries.find((one): one is Stop => one instanceof Stop)
  if (done.length === 0 && stop) {
    const part = plain.slice(stop.start, stop.end)
    if (stop.why === 'not_understood')
      return refuseSpec('not_understood', { text: shown, part: part || shown })
    if ('other' in stop.why) return refuseSpec('not_a_torque', { text: shown, what: stop.why.other })
    const why = stop.why.unclear
    return unclear(why, part, () => waysToRead(why, plain, stop, tokens))
  }
  const agreeing = done.filter((one) => one.compared && !one.contradiction)
  const customary = done.some((one) => one.customary) || (context.unit && isCustomary(context.unit))
  const sure =
    done.length === 1 ? done[0] : agreeing.length === 1 ? agreeing[0] : customary ? done[0] : undefined
  if (!sure) return unclear('decimal_sign', shown, () => done.map((one) => printSpec(specOf(one))))
  const spaced = tokens.find((token) => token.t === 'number' && token.number.spaced)
  if (spaced && !agreeing.includes(sure))
    return unclear('spaced_number', plain.slice(spaced.start, spaced.end), () => [
      printSpec(specOf(sure)),
      plain.slice(0, spaced.start) +
        plain.slice(spaced.start, spaced.end).replace(/[ ,]/g, ', ') +
        plain.slice(spaced.end),
    ])
  return specOf(sure)
}

const specOf = ({ passes, contradiction }: Passes): Spec => ({
  passes,
  ...(contradiction ? { contradiction } : {}),
})

/** The decimal signs to try, the point first. */
function signsFor(open: boolean, proven: Set<DecimalSign | undefined>, context: SpecContext): DecimalSign[] {
  if (!open) return ['point']
  if (proven.has('point') !== proven.has('comma')) return [proven.has('point') ? 'point' : 'comma']
  return context.sign ? [context.sign] : ['point', 'comma']
}

function attempt(text: string, tokens: Token[], sign: DecimalSign, context: SpecContext): Passes | Stop {
  try {
    return passesOf(itemsOf(tokens, sign), text, context.unit)
  } catch (why) {
    if (why instanceof Stop) return why
    throw why
  }
}

const ODD: Record<OddKind, OtherThing> = {
  word: 'words',
  designation: 'designation',
  length: 'length',
  half: 'quantity',
  quantity: 'quantity',
}

type Ask = (why: Unclear, part: string, ways: () => string[]) => SpecRefusal

/** What stands there beside torques and angles, or instead of them. */
function oddRefusal(plain: string, shown: string, tokens: Token[], ask: Ask): SpecRefusal | undefined {
  const odds = tokens.filter((token) => token.t === 'odd')
  const odd = odds.find(({ what }) => what !== 'word') ?? odds[0]
  const hasUnit = tokens.some(
    (token) => token.t === 'unit' || (token.t === 'sign' && (token.sign === 'deg' || token.sign === 'turn')),
  )
  const holds = (token: Token) =>
    token.t === 'number' || token.t === 'amount' || (token.t === 'word' && token.part === 'slacken')
  if (!odd) return tokens.some(holds) ? undefined : refuseSpec('not_a_torque', { text: shown, what: 'words' })
  if (odd.what === 'half' && odds.length === 1)
    // `35 lbs` may have meant pound-feet or pound-inches, or a weight.
    return ask('half_a_unit', odd.text, () =>
      (/^k/i.test(odd.text) ? ['kgf·m', 'kgf·cm'] : ['lbf·ft', 'lbf·in']).map(
        (unit) => plain.slice(0, odd.start) + unit + plain.slice(odd.end),
      ),
    )
  return hasUnit
    ? refuseSpec('not_understood', { text: shown, part: odd.text })
    : refuseSpec('not_a_torque', { text: shown, what: ODD[odd.what], part: odd.text })
}

/** How an unclear text could go on to be written so that it is clear; ways that cannot be read are left out. */
function waysToRead(why: Unclear, plain: string, { start, end }: Stop, tokens: Token[]): string[] {
  const at = (from: number, to: number, put: string) => plain.slice(0, from) + put + plain.slice(to)
  const part = plain.slice(start, end)
  switch (why) {
    case 'no_unit': {
      const units = tokens.flatMap((token) => (token.t === 'unit' ? [token.unit] : []))
      if (units.length === 0 && !plain.includes('°')) return USUAL_UNITS.map((unit) => `${plain} ${unit}`)
      return [...new Set(units.length > 0 ? units : USUAL_UNITS), '°'].map((unit) => at(end, end, ` ${unit}`))
    }
    case 'one_or_two':
      return [` = `, ', then '].map(
        (put) => plain.slice(0, start).replace(JOIN_AT_END, '') + put + plain.slice(start),
      )
    case 'not_parted':
    case 'adds_to_torque':
      return [at(start, start, ' then ')]
    case 'fraction_or_two': {
      const [over = 0, under = 1] = (part.match(/\d+/g) ?? []).map(Number)
      const bar = /\d+\s*[/⁄]\s*\d+/
      return [part.replace(bar, String(over / under)), part.replace(/[/⁄]/, ', ')].map((put) =>
        at(start, end, put),
      )
    }
    default:
      return []
  }
}

/** What stands between two torques, and gives way to what is put there. */
const JOIN_AT_END = /(?:[\s,;/=-]|\b(?:or|and)\b)+$/i

/** More decimals than anybody prints: pounds turned into N·m. Such a reading is shown in its own units. */
const CONVERTED = /\.\d{7}/

/** Those of the ways that can be read. A missing unit is shown where it was put; all else as printed by us. */
function readable(why: Unclear, ways: string[], context: SpecContext): SpecReading[] {
  return ways.flatMap((way) => {
    const spec = read(way, context, false)
    if (!isRefusal(spec)) {
      const printed = printSpec(spec)
      const asPut = why === 'no_unit' || why === 'half_a_unit' || CONVERTED.test(printed)
      return [{ text: asPut ? way.replace(/\s+/g, ' ').trim() : printed, spec }]
    }
    if (spec.refused !== 'unclear' || spec.data.why !== 'decimal_sign') return []
    return (['point', 'comma'] as const).flatMap((sign) => {
      const bySign = read(way, { ...context, sign }, false)
      return isRefusal(bySign) ? [] : [{ text: printSpec(bySign), spec: bySign }]
    })
  })
}
