/**
 * The decimal style of a sheet: decided once for all of it, by what its numbers prove.
 *
 * A number that proves the other sign, or that has three digits behind the sheet's own decimal sign and so may be thousands,
 * breaks the style: its line is doubted, with both readings. Where as many prove one sign as the other, nothing is decided.
 */
import { type DecimalSign, isAmbiguous, numberAt, type PrintedNumber, provenSign, unitAt } from '../units'
import { exact, type Figures } from '../words'
import type { SheetRecord } from './split'
import type { NumberStyle, Role, SheetColumn } from './types'

const NUMBERS: readonly Role[] = ['torque', 'also', 'min', 'max', 'angle', 'thread']

/**
 * `unsure`: as many prove one sign as the other. `withUnit`: only numbers before a torque unit count, for a line without
 * columns holds page numbers as well.
 */
export function styleOf(
  records: readonly SheetRecord[],
  columns: readonly SheetColumn[],
  withUnit: boolean,
): { style?: NumberStyle; unsure?: true } {
  const at = columns.filter(({ role }) => NUMBERS.includes(role)).map(({ index }) => index)
  const proofs: Record<DecimalSign, { text: string; line: number }[]> = { point: [], comma: [] }
  for (const { cells, line } of records)
    for (const index of withUnit ? cells.keys() : at)
      for (const number of numbersIn(cells[index] ?? '')) {
        const sign = provenSign(number)
        const counts = !withUnit || unitAt(cells[index] ?? '', afterSpace(cells[index] ?? '', number.end))
        if (sign && counts) proofs[sign].push({ text: number.raw, line })
      }
  const { point, comma } = proofs
  if (point.length === comma.length) return point.length > 0 ? { unsure: true } : {}
  const sign = point.length > comma.length ? 'point' : 'comma'
  const first = proofs[sign][0]
  return first ? { style: { sign, ...first, mixed: point.length > 0 && comma.length > 0 } } : {}
}

const WORDS = { point: 'a decimal point', comma: 'a decimal comma' } as const
const MARK = { point: '.', comma: ',' } as const

/** What breaks the style in a torque as printed, in a sentence. */
export function breachOf(
  text: string,
  style: NumberStyle | undefined,
  figures: Figures,
): { sentence: string; open: boolean } | undefined {
  if (!style) return undefined
  for (const printed of numbersIn(text)) {
    const proven = provenSign(printed)
    if (proven && proven !== style.sign)
      return {
        sentence: `“${printed.raw}” has ${WORDS[proven]}; the sheet’s numbers have ${WORDS[style.sign]} (“${style.text}” in line ${style.line}).`,
        open: false,
      }
    if (isAmbiguous(printed) && printed.raw.includes(MARK[style.sign]))
      return {
        sentence: `“${printed.raw}” may be ${exact(printed[style.sign]?.value ?? 0, figures)} or ${exact(printed[other(style.sign)]?.value ?? 0, figures)}: the sheet’s numbers have ${WORDS[style.sign]} (“${style.text}” in line ${style.line}), but three digits behind it may be thousands.`,
        open: true,
      }
  }
  return undefined
}

export const other = (sign: DecimalSign): DecimalSign => (sign === 'point' ? 'comma' : 'point')

export const styleWords = ({ sign, text, line, mixed }: NumberStyle): string =>
  `Numbers are read with ${WORDS[sign]}, as “${text}” in line ${line}${mixed ? '; lines that differ are doubtful' : ''}.`

const afterSpace = (text: string, at: number): number => at + (/^\s*/.exec(text.slice(at))?.[0].length ?? 0)

function* numbersIn(text: string): Generator<PrintedNumber> {
  if (!/[.,]/.test(text)) return
  for (const start of text.matchAll(/(?<![\d.,])\d/g)) {
    const number = numberAt(text, start.index)
    if (number) yield number
  }
}
