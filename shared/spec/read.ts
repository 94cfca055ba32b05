/**
 * Reads what a manual prints for one fastener.
 *
 * A reading accounts for every number and word of the text, or there is none: where one torque stands among other
 * words it is offered with them, what can be read in two ways is asked with both, and nothing is ever filled in.
 */

import { isRefusal } from '../log'
import { type DecimalSign, isAmbiguous, isCustomary, provenSign, type TorqueUnit } from '../units'
import { withBraceUnits } from './braces'
import { Stop } from './cursor'
import { itemsOf } from './grammar'
import { asTyped } from './leftovers'
import { offerOf } from './offer'
import { type Passes, passesOf } from './passes'
import { printSpec } from './print'
import { type OtherThing, refuseSpec, type SpecReading, type SpecRefusal, type Unclear } from './refusals'
import { type OddKind, type Token, tokenize } from './tokens'
import type { Spec } from './types'
import { readable, shownReading, waysToRead } from './ways'
import { BEFORE } from './words'

/** What a table knows beyond the cell: the unit of bare numbers, and the decimal sign its numbers prove. */
export interface SpecContext {
  unit?: TorqueUnit
  sign?: DecimalSign | 'unsure'
}

/** No cell of a manual is longer; what is, is a page. */
const LONGEST = 1000

/**
 * Passes in N·m (of the first printed unit) and degrees, or a refusal: `nothing_printed`, `not_a_torque`,
 * `not_understood`, `unclear`. The `readings` of a refusal are what may be meant, each written so that it is
 * clear: one alone is an offer, and its `note` the words that were not read. Two printed units within 2.5 % of
 * each other are one torque, with a `remark` where rounding does not explain them; further apart they are a
 * `contradiction`, with both as printed.
 *
 * Of a number like `1,250` the reading is taken that (1) the other numbers of the text prove, (2) a second
 * printed unit agrees with, (3) pounds, feet and inches go with: a decimal point. Else both are asked.
 */
export function readSpec(text: string, context: SpecContext = {}): Spec | SpecRefusal {
  const plain = asTyped(text).replace(/-(?=(?:turns?|deg(?:ree)?s?)\b)/gi, ' ')
  const shown = text.trim().slice(0, 200)
  if (plain.trim() === '') return refuseSpec('nothing_printed', {})
  if (plain.length > LONGEST) return refuseSpec('not_a_torque', { text: shown, what: 'words' })
  const tokens = tokenize(plain)
  const reading: Reading = { plain, shown, tokens, context, asking: true }
  const answer = strictly(reading)
  return isRefusal(answer) ? offered(answer, reading) : (vaguely(answer, reading) ?? answer)
}

/** What reads well and still is shown before it counts: a limit said as a negation, `about`, a number that may have lost a figure, a later pass alone. */
function vaguely(spec: Spec, { plain, shown, tokens }: Reading): SpecRefusal | undefined {
  const labels = tokens.filter((token) => token.t === 'label')
  const vague = tokens.find(
    (token, i) =>
      // `2nd pass: 60 N·m`: the first is missing.
      (token.t === 'label' && labels.length === 1 && (token.n ?? 1) > 1) ||
      // `Temporarily tighten to 10 N·m`: so is what follows.
      ((token.t === 'word' || token.t === 'label') &&
        spec.passes.length === 1 &&
        BEFORE.has(spelt(plain, token))) ||
      (token.t === 'word' && (token.part === 'limit' || token.part === 'about')) ||
      // `2 ±.5`: the sign before it leaves nothing to be lost.
      (token.t === 'number' && /^[.,]/.test(token.number.raw) && tokens[i - 1]?.t !== 'sign'),
  )
  if (!vague || spec.contradiction) return undefined
  const part = plain.slice(vague.start, vague.end)
  return refuseSpec('not_understood', {
    text: shown,
    part,
    readings: [shownReading(spec, plain)],
    note: part,
  })
}

const spelt = (plain: string, { start, end }: Token) =>
  plain
    .slice(start, end)
    .toLowerCase()
    .replace(/[\s:.)]+$/, '')

interface Reading {
  plain: string
  shown: string
  tokens: readonly Token[]
  context: SpecContext
  /** Whether an unclear text is also read in its possible ways, which themselves are not asked about. */
  asking: boolean
}

/** `44 N·m (1)`: the mark of a note at the end. */
const FOOTNOTE = /^(.*[\p{L}°.)])\s*(\((?:[1-9]|[a-z])\))\s*$/su

/** Reads a part of the text, or a way it may be written. */
function again(plain: string, context: SpecContext, asking: boolean): Spec | SpecRefusal {
  return strictly({ plain, shown: plain.trim(), tokens: tokenize(plain), context, asking })
}

/** The refusal, with what can be offered in spite of it. */
function offered(refusal: SpecRefusal, { plain, shown, tokens, context }: Reading): SpecRefusal {
  const { readings = [] } = refusal.data as { readings?: SpecReading[] }
  if (readings.length > 0) return refusal
  const braced = context.unit ? undefined : withBraceUnits(plain, tokens)
  if (braced !== undefined) {
    const spec = readSpec(braced, context)
    if (!isRefusal(spec))
      return refuseSpec('unclear', {
        text: shown,
        why: 'no_unit',
        readings: spec.contradiction ? [] : [shownReading(spec, braced)],
      })
    return { ...spec, data: { ...spec.data, text: shown } }
  }
  const marked = FOOTNOTE.exec(plain)
  const said = marked?.[1] === undefined ? refusal : again(marked[1], context, true)
  if (!isRefusal(said) && marked?.[2])
    return refuseSpec('not_understood', {
      text: shown,
      part: marked[2],
      readings: [shownReading(said, marked[1] ?? '')],
      note: marked[2],
    })
  const after = afterwards(plain, tokens, (part) => again(part, context, false))
  if (after)
    return refuseSpec('not_understood', {
      text: shown,
      part: after.note,
      readings: [shownReading(after.spec, after.text)],
      note: after.note,
    })
  const offer = offerOf(plain, tokens, (part) => again(part, context, true))
  if (!offer) return refusal
  if ('other' in offer)
    return refuseSpec('not_a_torque', { text: shown, what: 'other_torque', part: offer.other })
  if ('stops' in offer) return refuseSpec('not_understood', { text: shown, part: offer.stops, readings: [] })
  const { note, asks } = offer
  if (asks) return { ...asks, data: { ...asks.data, text: shown, note } }
  const { readings: choices } = offer
  if (refusal.refused === 'unclear') return { ...refusal, data: { ...refusal.data, readings: choices, note } }
  const part = refusal.refused === 'not_understood' ? String(refusal.data.part) : note
  return refuseSpec('not_understood', { text: shown, part, readings: choices, note })
}

/** `After 49 N·m, turn 90°` and `90° after 49 N·m`: a torque and then an angle, whichever is printed first. */
function afterwards(
  plain: string,
  tokens: readonly Token[],
  read: (part: string) => Spec | SpecRefusal,
): { spec: Spec; text: string; note: string } | undefined {
  const odds = tokens.filter((token) => token.t === 'odd')
  const [word] = odds
  if (odds.length !== 1 || word?.note !== 'later') return undefined
  const [before, behind] = [plain.slice(0, word.start).trim(), plain.slice(word.end).trim()]
  const text = before === '' ? behind : `${behind.replace(/[\s,;.]+$/, '')}, then ${before}`
  const spec = read(text)
  if (isRefusal(spec)) return undefined
  const kinds = spec.passes.map(({ kind }) => kind)
  const turned = kinds[0] === 'torque' && kinds.includes('angle') && (before === '' || kinds.length === 2)
  return turned ? { spec, text, note: word.text } : undefined
}

function strictly({ plain, shown, tokens, context, asking }: Reading): Spec | SpecRefusal {
  const unclear = (why: Unclear, part: string, ways: () => string[]) =>
    refuseSpec('unclear', {
      text: shown,
      why,
      part,
      readings: asking
        ? readable(why, ways(), (way, sign) => again(way, sign ? { ...context, sign } : context, false))
        : [],
    })
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
      return refuseSpec('not_understood', { text: shown, part: part || shown, readings: [] })
    if ('other' in stop.why) return refuseSpec('not_a_torque', { text: shown, what: stop.why.other })
    const why = stop.why.unclear
    return unclear(why, part, () => waysToRead(why, plain, stop, tokens))
  }
  const agreeing = done.filter((one) => one.compared && !one.contradiction)
  // A foot-pound speaks for the point, but not on a sheet that writes both.
  const customary =
    context.sign !== 'unsure' &&
    (done.some((one) => one.customary) || (context.unit && isCustomary(context.unit)))
  const sure =
    done.length === 1 ? done[0] : agreeing.length === 1 ? agreeing[0] : customary ? done[0] : undefined
  if (!sure) return unclear('decimal_sign', shown, () => done.map((one) => printSpec(specOf(one))))
  const spaced = tokens.find((token) => token.t === 'number' && token.number.spaced)
  if (spaced && !agreeing.includes(sure))
    return unclear('spaced_number', plain.slice(spaced.start, spaced.end), () => [
      printSpec(specOf(sure)),
      plain.slice(0, spaced.start) +
        plain.slice(spaced.start, spaced.end).replace(/[ ,]/g, ' then ') +
        plain.slice(spaced.end),
    ])
  return specOf(sure)
}

const specOf = ({ passes, contradiction, remark }: Passes): Spec => ({
  passes,
  ...(contradiction ? { contradiction } : {}),
  ...(remark ? { remark } : {}),
})

/** The decimal signs to try, the point first. */
function signsFor(open: boolean, proven: Set<DecimalSign | undefined>, context: SpecContext): DecimalSign[] {
  if (!open) return ['point']
  if (proven.has('point') !== proven.has('comma')) return [proven.has('point') ? 'point' : 'comma']
  return context.sign && context.sign !== 'unsure' ? [context.sign] : ['point', 'comma']
}

function attempt(
  text: string,
  tokens: readonly Token[],
  sign: DecimalSign,
  context: SpecContext,
): Passes | Stop {
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
  misprint: 'quantity',
}

/** What a unit that is printed as a quotient may have been meant for. */
function unitsFor(misprint: string): string[] {
  if (/f[te]/i.test(misprint)) return ['lbf·ft']
  if (/in/i.test(misprint)) return [/oz|ounce/i.test(misprint) ? 'ozf·in' : 'lbf·in']
  return /[cс][mм]$/i.test(misprint) ? ['kgf·cm', 'kgf·m'] : ['kgf·m', 'N·m']
}

type Ask = (why: Unclear, part: string, ways: () => string[]) => SpecRefusal

/** What stands there beside torques and angles, or instead of them. */
function oddRefusal(
  plain: string,
  shown: string,
  tokens: readonly Token[],
  ask: Ask,
): SpecRefusal | undefined {
  const odds = tokens.filter((token) => token.t === 'odd')
  const odd = odds.find(({ what }) => what !== 'word') ?? odds[0]
  const hasUnit = tokens.some(
    (token) => token.t === 'unit' || (token.t === 'sign' && (token.sign === 'deg' || token.sign === 'turn')),
  )
  const holds = (token: Token) =>
    token.t === 'number' || token.t === 'amount' || (token.t === 'word' && token.part === 'slacken')
  if (!odd) return tokens.some(holds) ? undefined : refuseSpec('not_a_torque', { text: shown, what: 'words' })
  if (odd.what === 'misprint' && odds.length === 1) {
    const units = unitsFor(odd.text)
    return ask('misprint', odd.text, () =>
      units.map((unit) => plain.slice(0, odd.start) + unit + plain.slice(odd.end)),
    )
  }
  if (odd.what === 'half' && odds.length === 1)
    // `35 lbs` may have meant pound-feet or pound-inches, or a weight.
    return ask('half_a_unit', odd.text, () =>
      (/^k/i.test(odd.text) ? ['kgf·m', 'kgf·cm'] : ['lbf·ft', 'lbf·in']).map(
        (unit) => plain.slice(0, odd.start) + unit + plain.slice(odd.end),
      ),
    )
  return hasUnit
    ? refuseSpec('not_understood', { text: shown, part: odd.text, readings: [] })
    : refuseSpec('not_a_torque', { text: shown, what: ODD[odd.what], part: odd.text })
}
