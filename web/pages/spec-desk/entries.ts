/**
 * Numbers as they are typed at the desk: lengths with or without a unit, plain numbers, friction as one number or a band.
 *
 * An empty entry is no answer and no fault. What cannot be read comes back as the sentence that belongs at its field.
 */
import { isRefusal } from '../../../shared/log'
import { parseLength, unitSentenceFor } from '../../../shared/units'

export type Entry<T> = { value?: T; error?: string }

/** mm; a number alone is mm, because the field says so. `3/8` and `1.5 in` are inches. */
export function lengthIn(text: string): Entry<number> {
  if (text.trim() === '') return {}
  const asTyped = parseLength(text)
  const read =
    isRefusal(asTyped) && asTyped.refused === 'unclear' && (asTyped.data as { why: string }).why === 'no_unit'
      ? parseLength(`${text.trim()} mm`)
      : asTyped
  return isRefusal(read) ? { error: unitSentenceFor(read) ?? '' } : { value: read.mm }
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
