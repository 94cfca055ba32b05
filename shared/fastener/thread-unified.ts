/**
 * Unified threads as people write them: `3/8-16 UNC-2A`, `1/4-28`, `#10-32`, `No. 10-24`, `1-1/8-12`, `.375-16`, `UNF 1/4`.
 *
 * The count may be left out where the series is named, the series where the count tells it. A count that is in no
 * series is refused unless it is marked UN or UNS.
 */
import type { CautionCode } from './cautions'
import { profile } from './profile'
import { type FastenerRefusal, no } from './refusals'
import { CONSTANT_PITCHES, UNIFIED, type UnifiedSeries } from './thread-series'
import type { Thread } from './thread-types'

const IN = 25.4
const SERIES = /(?<![A-Za-z])(UNEF|UNRC|UNRF|UNC|UNF|UNS|UNR|UN|NEF|NC|NF)(?![A-Za-z])/i
const CLASS = /[\s-]*\b([123][AB])\b/i

const NAMES: Record<string, UnifiedSeries> = {
  UNC: 'UNC',
  UNRC: 'UNC',
  NC: 'UNC',
  UNF: 'UNF',
  UNRF: 'UNF',
  NF: 'UNF',
  UNEF: 'UNEF',
  NEF: 'UNEF',
  UN: 'UN',
  UNR: 'UN',
  UNS: 'UNS',
}

interface Size {
  /** `#10`, `3/8`, `1-1/8`. */
  name: string
  dIn: number
}

export function readUnified(text: string, bare: string, hand: 'left' | 'right'): Thread | FastenerRefusal {
  const seriesWord = SERIES.exec(bare)?.[1]?.toUpperCase()
  const named = seriesWord === undefined ? undefined : NAMES[seriesWord]
  // A count may touch its series (`1/4-20UNC`): the letters end it.
  const noSeries = bare.replace(SERIES, ' ').trim()
  const toleranceClass = CLASS.exec(noSeries)?.[1]?.toUpperCase()
  const rest = noSeries
    .replace(CLASS, '')
    .replace(/["”″]|(?<=[\d\s])(?:inch|in)\b\.?/gi, '')
    .replace(/^[\s-]+|[\s-]+$/g, '')
    .trim()
  const whole = sizesAndCounts(rest)
  const bolt = /^(.*\S)\s*[x×]\s*([\d\s/.-]+)$/.exec(rest)
  // A number after x that no thread of that size has is its length: `1/4-20 x 1`, `1/4 UNC x 2`.
  const sized = whole.some(mayHaveCount) ? [] : sizesAndCounts(bolt?.[1] ?? '').filter(isInSeries)
  const readings = sized.length > 0 ? sized : whole
  const lengthIn = sized.length > 0 ? inches(bolt?.[2] ?? '') : undefined
  if (readings.length === 0)
    return no('thread_unknown', { text, understood: named ? `Unified ${named}, no size` : '' })
  const exact = readings.find(({ size, tpi }) => tpi !== undefined && seriesOf(size, tpi, named))
  const reading = exact ?? readings[0]
  if (!reading) return no('thread_unknown', { text, understood: '' })
  const { size, tpi } = reading
  if (!(size.dIn > 0.05 && size.dIn <= 12))
    return no('thread_unknown', { text, understood: `${size.name} in across` })
  if (tpi === undefined) {
    const known =
      named === 'UNC' || named === 'UNF' || named === 'UNEF' ? UNIFIED[named][size.name] : undefined
    if (known === undefined || !named)
      return no('thread_pitch_needed', { text, size: size.name, pitches: comesAs(size) })
    return build(size, known, named, hand, toleranceClass, lengthIn)
  }
  const series = seriesOf(size, tpi, named)
  if (series) return build(size, tpi, series, hand, toleranceClass, lengthIn)
  if (!named && comesAs(size).length === 0)
    return no('thread_unknown', { text, understood: `${size.name} in across, ${tpi} threads an inch` })
  return no('thread_series_differs', {
    text,
    size: size.name,
    series: named ?? 'a Unified series',
    tpi,
    expected: comesAs(size),
  })
}

interface SizeAndCount {
  size: Size
  tpi?: number
}

/** A pitch between a third and a hundredth of the diameter. */
const isPossible = ({ dIn }: Size, tpi: number): boolean => 1 / tpi < dIn / 3 && 1 / tpi > dIn / 100
const mayHaveCount = ({ size, tpi }: SizeAndCount): boolean => tpi === undefined || isPossible(size, tpi)
const isInSeries = ({ size, tpi }: SizeAndCount): boolean => tpi !== undefined || comesAs(size).length > 0

/** The series a size and count belong to; `undefined` where they belong to none, or not to the one named. */
function seriesOf(size: Size, tpi: number, named: UnifiedSeries | undefined): UnifiedSeries | undefined {
  const standard = (['UNC', 'UNF', 'UNEF'] as const).find((series) => UNIFIED[series][size.name] === tpi)
  // The one special that every list carries beside the fine series.
  const special: UnifiedSeries | undefined = size.name === '1' && tpi === 14 ? 'UNS' : undefined
  const possible = isPossible(size, tpi)
  if (named === 'UN') return standard ?? (CONSTANT_PITCHES.has(tpi) && possible ? 'UN' : undefined)
  if (named === 'UNS') return standard ? undefined : possible ? 'UNS' : undefined
  // 1-14 was printed as fine for decades.
  if (named === 'UNF' && special) return special
  if (named) return UNIFIED[named as 'UNC' | 'UNF' | 'UNEF'][size.name] === tpi ? named : undefined
  return standard ?? special
}

const comesAs = (size: Size): string[] =>
  (['UNC', 'UNF', 'UNEF'] as const).flatMap((series) => {
    const tpi = UNIFIED[series][size.name]
    return tpi === undefined ? [] : [`${size.name}-${tpi} ${series}`]
  })

/** Every way to read a size and a count out of what is left; the likelier first. */
function sizesAndCounts(rest: string): SizeAndCount[] {
  const count = String.raw`(?:\s*[-–—x×]\s*|\s+)(\d+(?:\.\d+)?)`
  const number = new RegExp(String.raw`^(?:#|No\.?|N°|Nr\.?)\s*(\d{1,2})(?:${count})?$`, 'i').exec(rest)
  if (number) return [{ size: numbered(Number(number[1])), tpi: asNumber(number[2]) }]
  const mixed = new RegExp(String.raw`^(\d+)[\s-]+(\d+)\s*/\s*(\d+)(?:${count})?$`).exec(rest)
  if (mixed) return [fraction(Number(mixed[1]), Number(mixed[2]), Number(mixed[3]), asNumber(mixed[4]))]
  const plain = new RegExp(String.raw`^(\d+)\s*/\s*(\d+)(?:${count})?$`).exec(rest)
  if (plain) return [fraction(0, Number(plain[1]), Number(plain[2]), asNumber(plain[3]))]
  const dec = new RegExp(String.raw`^(\d*\.\d+)(?:${count})?$`).exec(rest)
  if (dec) return [{ size: fromInches(Number(dec[1])), tpi: asNumber(dec[2]) }]
  const whole = new RegExp(String.raw`^(\d{1,2})(?:${count})?$`).exec(rest)
  if (!whole) return []
  const inches = { size: { name: whole[1] ?? '', dIn: Number(whole[1]) }, tpi: asNumber(whole[2]) }
  const byNumber = { size: numbered(Number(whole[1])), tpi: asNumber(whole[2]) }
  // `10-32` is a number, `1-8` an inch: whichever is in a series. Without a count it stays open.
  if (inches.tpi === undefined) return [inches]
  return seriesOf(byNumber.size, inches.tpi, undefined) ? [byNumber, inches] : [inches, byNumber]
}

/** A length in inches: `2`, `1-1/2`, `.75`; nothing where it is none. */
function inches(text: string): number | undefined {
  const [size] = sizesAndCounts(text.trim()).filter(({ tpi }) => tpi === undefined)
  return size && size.size.dIn > 0 ? size.size.dIn : undefined
}

const asNumber = (text: string | undefined) => (text === undefined ? undefined : Number(text))

/** Numbered sizes: D = 0.060 + 0.013·n in. */
const numbered = (n: number): Size => ({ name: `#${n}`, dIn: Number((0.06 + 0.013 * n).toFixed(3)) })

function fraction(whole: number, over: number, under: number, tpi?: number): SizeAndCount {
  if (under === 0 || over === 0) return { size: { name: `${over}/${under}`, dIn: 0 }, tpi }
  return { size: fromInches(whole + over / under), tpi }
}

/** The name of a size in inches: its fraction in sixty-fourths, or a numbered size, or the decimal itself. */
function fromInches(dIn: number): Size {
  const parts = dIn * 64
  if (Math.abs(parts - Math.round(parts)) > 0.032) {
    const n = (dIn - 0.06) / 0.013
    return Math.abs(n - Math.round(n)) < 1e-6 && n >= 0 && n <= 12
      ? numbered(Math.round(n))
      : { name: String(dIn), dIn }
  }
  let over = Math.round(parts)
  let under = 64
  while (over % 2 === 0 && under > 1) {
    over /= 2
    under /= 2
  }
  const whole = Math.floor(over / under)
  const left = over - whole * under
  const name = left === 0 ? `${whole}` : whole === 0 ? `${left}/${under}` : `${whole}-${left}/${under}`
  return { name, dIn: over / under }
}

function build(
  size: Size,
  tpi: number,
  series: UnifiedSeries,
  hand: 'left' | 'right',
  toleranceClass: string | undefined,
  lengthIn?: number,
): Thread {
  const dMm = size.dIn * IN
  const pitchMm = IN / tpi
  const cautions: CautionCode[] = series === 'UNS' ? ['special_series'] : []
  return {
    designation: `${size.name}-${tpi} ${series}`,
    system: 'unified',
    series,
    hand,
    ...(toleranceClass ? { toleranceClass } : {}),
    ...(lengthIn === undefined ? {} : { lengthMm: Math.round(lengthIn * IN * 1e6) / 1e6 }),
    tpi,
    dIn: size.dIn,
    dMm,
    pitchMm,
    ...profile(dMm, pitchMm, 'unified'),
    cautions,
    basis: ['thread_unified', 'stress_area_unified'],
  }
}
