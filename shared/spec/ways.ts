/** How an unclear text could go on to be written so that it is clear, and what that then says. */
import { isRefusal } from '../log'
import { USUAL_UNITS } from '../units'
import type { Stop } from './cursor'
import { printSpec } from './print'
import type { SpecReading, SpecRefusal, Unclear } from './refusals'
import type { Token } from './tokens'
import type { Spec } from './types'

/** Reads a text that no longer asks; by a decimal sign where one is named. */
export type ReadAgain = (text: string, sign?: 'point' | 'comma') => Spec | SpecRefusal

/** Ways that cannot be read are left out by `readable`. */
export function waysToRead(why: Unclear, plain: string, stop: Stop, tokens: readonly Token[]): string[] {
  const { start, end } = stop
  const at = (from: number, to: number, put: string) => plain.slice(0, from) + put + plain.slice(to)
  if (stop.ways.length > 0) return stop.ways.map((put) => at(start, end, put))
  const part = plain.slice(start, end)
  switch (why) {
    case 'no_unit': {
      const units = tokens.flatMap((token) => (token.t === 'unit' ? [token] : []))
      if (units.length === 0 && !plain.includes('°')) return USUAL_UNITS.map((unit) => `${plain} ${unit}`)
      // A number before the first unit and parted from it is no torque.
      if (units[0] && start < units[0].start) return []
      const names = [...new Set(units.map(({ unit }) => unit))]
      const turned = Number(part) > MOST_DEGREES ? [] : ['°']
      // Another torque only where a list goes on: `150 N·m at 2000` is none.
      const before = tokens.findLast((token) => token.end <= start)
      const listed = !before || before.t === 'label' || isJoin(before)
      const torques = listed ? (names.length > 0 ? names : USUAL_UNITS) : []
      const ways = [...torques, ...turned].map((unit) => at(end, end, ` ${unit}`))
      // `30 N·m + 90`: degrees, or a second torque.
      const second =
        before && isSign(before, '+') && turned.length > 0
          ? names.map(
              (unit) =>
                `${plain.slice(0, before.start)}then ${plain.slice(start, end)} ${unit}${plain.slice(end)}`,
            )
          : []
      return [...ways, ...second]
    }
    case 'one_or_two': {
      const or = tokens.find((token) => token.t === 'word' && token.part === 'or')
      if (or) return [plain.slice(0, or.start), plain.slice(or.end)]
      return [` = `, ', then '].map(
        (put) => plain.slice(0, start).replace(JOIN_AT_END, '') + put + plain.slice(start),
      )
    }
    case 'not_parted': {
      const passes = PASS_AFTER.map((put) => at(start, start, put))
      // Two torques side by side may as well be of two things.
      const torque = tokens.some((token) => token.t === 'unit' && token.start >= start && token.end <= end)
      return torque ? [...passes, plain.slice(0, start), plain.slice(start)] : passes
    }
    case 'adds_to_torque':
      if (!/\d/.test(plain.slice(0, start))) return []
      return [
        ...PASS_AFTER.map((put) => at(start, start, put)),
        at(
          start,
          end,
          part.replace(/^[\d.,]+/, (number) => `${number}/-0`),
        ),
      ]
    case 'fraction_or_two': {
      const [over = 0, under = 1] = (part.match(/\d+/g) ?? []).map(Number)
      const bar = /\d+\s*[/⁄]\s*\d+/
      return [part.replace(bar, String(over / under)), part.replace(/[/⁄]/, ' then ')].map((put) =>
        at(start, end, put),
      )
    }
    default:
      return []
  }
}

const isSign = (token: Token, sign: string) => token.t === 'sign' && token.sign === sign
const isJoin = (token: Token) =>
  (token.t === 'sign' && [',', '/', 'line', 'then', '('].includes(token.sign)) ||
  (token.t === 'word' && token.part === 'next')

/** A pass, and one that is lower on purpose: of a rising one they say the same. */
const PASS_AFTER = [' then ', ' then down to ']

/** No pass turns a bolt further than once round. */
const MOST_DEGREES = 360

/** What stands between two torques, and gives way to what is put there. */
const JOIN_AT_END = /(?:[\s,;/=-]|\b(?:or|and)\b)+$/i

/** More decimals than anybody prints: pounds turned into N·m. Such a reading is shown in its own units. */
const CONVERTED = /\.\d{7}/

/** What is asked about is a unit: each way is shown as it was put. */
const AS_PUT = new Set<Unclear>(['no_unit', 'half_a_unit', 'misprint'])

/** Those of the ways that can be read. A missing unit is shown where it was put; all else as printed by us. */
export function readable(why: Unclear, ways: readonly string[], read: ReadAgain): SpecReading[] {
  const readings = ways.flatMap((way): SpecReading[] => {
    const spec = read(way)
    if (!isRefusal(spec)) return [shownReading(spec, way, AS_PUT.has(why))]
    if (spec.refused !== 'unclear' || spec.data.why !== 'decimal_sign') return []
    return (['point', 'comma'] as const).flatMap((sign) => {
      const bySign = read(way, sign)
      return isRefusal(bySign) ? [] : [{ text: printSpec(bySign), spec: bySign }]
    })
  })
  return readings.filter(({ text }, i) => readings.findIndex((one) => one.text === text) === i)
}

export function shownReading(spec: Spec, way: string, asPut = false): SpecReading {
  const printed = printSpec(spec)
  return { text: asPut || CONVERTED.test(printed) ? way.replace(/\s+/g, ' ').trim() : printed, spec }
}
