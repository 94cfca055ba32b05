/**
 * A printed number, with every way it can be read: `12,5` has one, `1,250` has two.
 *
 * A point or comma with other than three digits behind it is the decimal sign; with exactly three it may as
 * well part thousands (1 to 3 digits before it, not beginning with 0). Both readings are kept, and who knows
 * more (the unit, the other numbers of the text) decides, or asks. Nothing here guesses.
 */

/** Which sign a text uses for decimals. */
export type DecimalSign = 'point' | 'comma'

/** A value, and what one unit of its last printed digit is worth: 4.10 is 4.1 with a step of 0.01. */
export interface Figure {
  value: number
  step: number
}

export interface PrintedNumber {
  raw: string
  /** Where the text goes on. */
  end: number
  /** The reading with a decimal point, and with a decimal comma; absent where it cannot be read so. */
  point?: Figure
  comma?: Figure
  /** Thousands parted by plain spaces, or more than once by commas: may be numbers side by side. */
  spaced?: boolean
  /** Written with a fraction bar; `whole` where a whole number stands before it. */
  fraction?: 'whole' | 'alone'
}

/** Spaces that part nothing but thousands: no-break, thin, figure and narrow no-break. */
const GROUP_SPACE = '\\u00A0\\u2007\\u2009\\u202F'
const DECIMAL = new RegExp(
  `(?:\\d+(?:(?:[.,](?=\\d)|['’${GROUP_SPACE}](?=\\d{3}(?!\\d)))\\d+)*|[.,]\\d+)`,
  'y',
)
const SPACED = /\d{1,3}(?: \d{3})+(?![\d/⁄])(?:[.,]\d+)?(?![.,]?\d)/y
/** `100,200,300`: one hundred million, or three numbers. A group beginning with 0 is no number of its own. */
const LISTED = /^\d{1,3}(?:,[1-9]\d\d){2,}$/
const BAR = /(?:(\d{1,4})(?: *- *| +))?(\d{1,2}) ?[/⁄] ?(\d{1,2})(?![\d.,]*\d|[/⁄])/y
const VULGAR = /(?:(\d{1,4})[ -]?)?([½⅓⅔¼¾⅙⅚⅛⅜⅝⅞])/y
const VULGARS: Record<string, [number, number]> = {
  '½': [1, 2],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '¼': [1, 4],
  '¾': [3, 4],
  '⅙': [1, 6],
  '⅚': [5, 6],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
}
/** What turns and inches are parted into. */
const DENOMINATORS = new Set([2, 3, 4, 6, 8, 16, 32, 64])

/** The number that begins at `at`, if one does. A sign is not part of it. */
export function numberAt(text: string, at: number): PrintedNumber | undefined {
  return fractionAt(text, at) ?? spacedAt(text, at) ?? decimalAt(text, at)
}

/** Digits of the wide forms that scans and East Asian keyboards give, as plain ones; the length stays. */
export function plainDigits(text: string): string {
  return text.replace(/[\uFF01-\uFF5E]/g, (c) => String.fromCharCode(c.charCodeAt(0) - 0xfee0))
}

/** Is this number read differently by the two decimal signs? */
export function isAmbiguous(number: PrintedNumber): boolean {
  return !!number.point && !!number.comma && number.point.value !== number.comma.value
}

/** The decimal sign this number proves its text to use, if it proves one. */
export function provenSign(number: PrintedNumber): DecimalSign | undefined {
  if (!/[.,]/.test(number.raw) || (number.point && number.comma)) return undefined
  return number.point ? 'point' : number.comma ? 'comma' : undefined
}

/** The reading by this sign, else the only one there is. */
export function readBy(number: PrintedNumber, sign: DecimalSign): Figure | undefined {
  return number[sign] ?? number.point ?? number.comma
}

function decimalAt(text: string, at: number): PrintedNumber | undefined {
  // `40Nm,70Nm`: a sign right behind something parts; it begins no decimals.
  if (/[.,]/.test(text[at] ?? '') && /[\p{L}\d)\]}°º%]/u.test(text[at - 1] ?? '')) return undefined
  DECIMAL.lastIndex = at
  const raw = DECIMAL.exec(text)?.[0]
  if (raw === undefined) return undefined
  const list = LISTED.test(raw)
  return { raw, end: at + raw.length, ...readings(raw), ...(list ? { spaced: true } : {}) }
}

function spacedAt(text: string, at: number): PrintedNumber | undefined {
  SPACED.lastIndex = at
  const raw = SPACED.exec(text)?.[0]
  if (raw === undefined || raw.startsWith('0')) return undefined
  return { raw, end: at + raw.length, ...readings(raw.replaceAll(' ', '\u00A0')), spaced: true }
}

function fractionAt(text: string, at: number): PrintedNumber | undefined {
  BAR.lastIndex = at
  const bar = BAR.exec(text)
  VULGAR.lastIndex = at
  const vulgar = bar ? null : VULGAR.exec(text)
  const [over, under] = bar ? [Number(bar[2]), Number(bar[3])] : (VULGARS[vulgar?.[2] ?? ''] ?? [0, 0])
  if (over < 1 || over >= under || !DENOMINATORS.has(under)) return undefined
  const whole = (bar ?? vulgar)?.[1]
  const raw = (bar ?? vulgar)?.[0] ?? ''
  const figure = { value: Number(whole ?? 0) + over / under, step: 1 / under }
  return {
    raw,
    end: at + raw.length,
    point: figure,
    comma: figure,
    fraction: whole === undefined ? 'alone' : 'whole',
  }
}

function readings(raw: string): Pick<PrintedNumber, 'point' | 'comma'> {
  const point = figure(raw, '.', ',')
  const comma = figure(raw, ',', '.')
  return { ...(point ? { point } : {}), ...(comma ? { comma } : {}) }
}

/** `raw` with `decimal` before its decimals and `group` between thousands, or nothing where that is impossible. */
function figure(raw: string, decimal: string, group: string): Figure | undefined {
  const [whole = '', decimals, more] = raw.split(decimal)
  if (more !== undefined || (decimals !== undefined && !/^\d+$/.test(decimals))) return undefined
  const groups = whole.split(new RegExp(`[${group === '.' ? '\\.' : group}'’${GROUP_SPACE}]`))
  const [first = '', ...rest] = groups
  if (rest.length > 0 && (!/^[1-9]\d{0,2}$/.test(first) || rest.some((part) => part.length !== 3)))
    return undefined
  const value = Number(`${groups.join('') || '0'}.${decimals ?? '0'}`)
  return Number.isFinite(value) ? { value, step: 10 ** -(decimals?.length ?? 0) } : undefined
}
