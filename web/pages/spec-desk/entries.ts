/**
 * Numbers as they are typed at the desk: lengths with or without a unit, plain numbers, friction as one number or a band.
 *
 * An empty entry is no answer and no fault. What cannot be read comes back as the sentence that belongs at its field.
 */
import { isRefusal } from '../../../shared/log'
import { parseLength, unitAfter, unitSentenceFor } from '../../../shared/units'
import { exact } from '../../../shared/words'
import { format } from '../../format'
import { type InputField, type Inputs, LABELS } from './inputs'

export type Entry<T> = { value?: T; error?: string }

/** mm; a number alone is mm, because the field says so. `3/8` and `1.5 in` are inches. */
export function lengthIn(text: string): Entry<number> {
  if (text.trim() === '') return {}
  const asTyped = parseLength(text)
  const read =
    isRefusal(asTyped) && asTyped.refused === 'unclear' && (asTyped.data as { why: string }).why === 'no_unit'
      ? parseLength(text.trim().concat(' mm'))
      : asTyped
  return isRefusal(read) ? { error: unitSentenceFor(read, format) ?? '' } : { value: read.mm }
}

/** `24`, `24.5` or `24,5`, with what may stand behind it (`%`, `°`). */
export function numberIn(text: string, sign = ''): Entry<number> {
  const plain = text.trim().replace(sign, '').trim().replace(',', '.')
  if (text.trim() === '') return {}
  if (!/^-?(?:\d+(?:\.\d*)?|\.\d+)$/.test(plain))
    return { error: `“${text.trim().slice(0, 40)}” is not a number. Enter digits only, as 24 or 24.5.` }
  return { value: Number(plain) }
}

/** Share of the yield stress: `0.9`, or `90 %`. A bare number above 1 is per cent too. */
export function shareIn(text: string): Entry<number> {
  const { value, error } = numberIn(text, '%')
  if (value === undefined) return error ? { error } : {}
  return { value: text.includes('%') || value > 1 ? value / 100 : value }
}

/** `0.12`, or a band: `0.10 to 0.14`, `0,10-0,14`. */
export function frictionIn(text: string): Entry<number | { low: number; high: number }> {
  if (text.trim() === '') return {}
  const [first = '', second, ...more] = text.split(/\s*(?:to|[-–—])\s*/)
  const low = numberIn(first)
  const high = second === undefined ? low : numberIn(second)
  if (more.length > 0 || low.value === undefined || high.value === undefined)
    return {
      error: `“${text.trim().slice(0, 40)}” is not a friction. Enter one number, or the lowest and the highest: 0.10 to 0.14.`,
    }
  return { value: second === undefined ? low.value : { low: low.value, high: high.value } }
}

interface Bounds {
  /** In mm, in degrees, or a plain number. */
  unit: '' | 'mm' | '°'
  /** The lowest is allowed too, where it is `from`. */
  above?: number
  from?: number
  upto: number
}
const LENGTH: Bounds = { unit: 'mm', above: 0, upto: 5000 }
const ACROSS: Bounds = { unit: 'mm', above: 0, upto: 2000 }

/** Far beyond any workshop: so that what is computed is never blamed for what was typed. */
const BOUNDS = {
  headBearing: ACROSS,
  clearanceHole: ACROSS,
  length: LENGTH,
  boltThread: LENGTH,
  stack: LENGTH,
  threadDepth: LENGTH,
  holeDepth: LENGTH,
  insertLength: LENGTH,
  wrenchLength: LENGTH,
  washer: { unit: 'mm', from: 0, upto: 1000 },
  adapterLength: { unit: 'mm', from: 0, upto: 5000 },
  adapterAngle: { unit: '°', from: -360, upto: 360 },
  utilisation: { unit: '', above: 0, upto: 1 },
  mu: { unit: '', above: 0, upto: 2 },
} satisfies { [Field in InputField]?: Bounds }
type Bounded = keyof typeof BOUNDS

/** A number of the sheet, within what its field may hold; the sentence names that field and both its bounds. */
export function entryOf(inputs: Inputs, field: Exclude<Bounded, 'mu'>): Entry<number> {
  const text = inputs[field]
  if (field === 'utilisation') return bounded(field, shareIn(text))
  return bounded(field, BOUNDS[field].unit === '°' ? numberIn(text, '°') : lengthIn(text))
}

export const frictionOf = (inputs: Inputs): ReturnType<typeof frictionIn> =>
  bounded('mu', frictionIn(inputs.mu))

function bounded<T extends number | { low: number; high: number }>(
  field: Bounded,
  entry: Entry<T>,
): Entry<T> {
  const { unit, above, from, upto }: Bounds = BOUNDS[field]
  if (entry.value === undefined) return entry
  const ends = typeof entry.value === 'number' ? [entry.value] : [entry.value.low, entry.value.high]
  const out = ends.find(
    (value) => !(above === undefined ? value >= (from ?? 0) : value > above) || value > upto,
  )
  if (out === undefined) return entry
  const inUnit = (value: number) => `${exact(value, format)}${unitAfter(unit)}`
  const lowest = above === undefined ? `from ${inUnit(from ?? 0)}` : `above ${inUnit(above)}`
  const name = LABELS[field].replace(/, (?:mm|°)$/, '')
  return { error: `“${name}” cannot be ${inUnit(out)}. Enter a number ${lowest} to ${inUnit(upto)}.` }
}
