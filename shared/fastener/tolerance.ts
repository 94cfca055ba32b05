/**
 * The limits a bolt's and a hole's thread may have: 6g and 6H, 2A and 2B. Stripping is reckoned at the worst of them.
 *
 * Formulas, so that any size and pitch has its limits; ISO rounds them to the R40 series, and in a few rows prints
 * another figure than its formula gives: those rows are held. Source: ISO 965-1 and ASME B1.1, from memory; the limits
 * of seven sizes behind published shear areas agree exactly (`tests/published/stripping.test.ts`).
 */
import type { Thread } from './thread-types'

export interface ThreadLimits {
  /** `6g/6H` or `2A/2B`. */
  fit: string
  /** Bolt: least major and pitch diameter, mm. */
  dMinMm: number
  dMaxMm: number
  d2MinMm: number
  d2MaxMm: number
  /** Hole: greatest minor and pitch diameter, mm. */
  D1MinMm: number
  D1MaxMm: number
  D2MinMm: number
  D2MaxMm: number
}

/** The rounded R40 series of ISO 3 over one decade. */
const R40 = [
  1, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2, 2.12, 2.24, 2.36, 2.5, 2.65, 2.8, 3, 3.15,
  3.35, 3.55, 3.75, 4, 4.25, 4.5, 4.75, 5, 5.3, 5.6, 6, 6.3, 6.7, 7.1, 7.5, 8, 8.5, 9, 9.5,
]

/** Between 10 and 100 µm ISO prints whole micrometres (the series R'40). */
const WHOLE = new Map([
  [2.12, 21],
  [2.24, 22],
  [2.36, 24],
  [2.65, 26],
  [3.15, 32],
  [3.35, 34],
  [3.55, 36],
  [3.75, 38],
  [4.25, 42],
  [4.75, 48],
])

/** Step n of the series, µm, counted from 1 µm; forty steps a decade. */
function r40(n: number): number {
  const decade = Math.floor(n / 40)
  const first = R40[n - 40 * decade] ?? 1
  return (decade === 1 && WHOLE.get(first)) || Math.round(first * 10 ** decade * 1000) / 1000
}

/** The step of the series nearest to a value in µm; midway goes up. */
function nearestStep(um: number): number {
  let n = Math.floor(40 * Math.log10(um)) - 2
  while (um - r40(n) >= r40(n + 1) - um) n += 1
  return n
}

/** Rows of ISO 965-1 that print another figure than the formula rounds to, µm by pitch in mm. */
const PRINTED = {
  es: new Map([
    [0.5, 20],
    [0.6, 21],
    [0.75, 22],
  ]),
  td: new Map([[4, 475]]),
  td1: new Map([
    [0.5, 140],
    [2.5, 450],
  ]),
}

/** Fundamental deviation of position g, µm below nominal: 15 + 11·P, rounded. */
const deviationG = (pitchMm: number): number => PRINTED.es.get(pitchMm) ?? r40(nearestStep(15 + 11 * pitchMm))

/** Td, grade 6, µm. */
const majorTolerance = (pitchMm: number): number =>
  PRINTED.td.get(pitchMm) ?? r40(nearestStep(180 * pitchMm ** (2 / 3) - 3.15 / Math.sqrt(pitchMm)))

/** TD1, grade 6, µm. */
const minorTolerance = (pitchMm: number): number =>
  PRINTED.td1.get(pitchMm) ??
  r40(nearestStep(pitchMm < 0.9 ? 433 * pitchMm - 190 * pitchMm ** 1.22 : 230 * pitchMm ** 0.7))

const RANGES = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355, 710]

/** The step of Td2, grade 6: 90·P^0.4·d^0.1 with d the geometric mean of the diameter range. */
function pitchStep(dMm: number, pitchMm: number): number {
  const index = Math.max(
    1,
    RANGES.findIndex((upto) => dMm <= upto + 1e-9),
  )
  const mean = Math.sqrt((RANGES[index - 1] ?? 0.99) * (RANGES[index] ?? 1.4))
  const step = nearestStep(90 * pitchMm ** 0.4 * mean ** 0.1)
  // Two rows of the table stand one step below their formula.
  const oneLower = (index === 3 && pitchMm === 0.5) || (index === 7 && pitchMm === 5)
  return oneLower ? step - 1 : step
}

/**
 * Limits of size of bolt and hole, mm: 6g/6H for metric, 2A/2B for Unified.
 *
 * Metric (µm): es = 15 + 11·P, Td = 180·P^(2/3) − 3.15/√P, Td2 = 90·P^0.4·d^0.1, TD2 five R40 steps (1.32 times)
 * above it, TD1 = 230·P^0.7 (from 1 mm) or 433·P − 190·P^1.22.
 */
export function limits(thread: Thread): ThreadLimits {
  return thread.system === 'metric' ? metricLimits(thread) : unifiedLimits(thread)
}

function metricLimits({ dMm, pitchMm, ...basic }: Thread): ThreadLimits {
  const mm = (um: number) => um / 1000
  // ISO 724 prints the basic diameters to a micrometre, and its limits start there.
  const d2Mm = mm(Math.round(basic.d2Mm * 1000))
  const D1Mm = mm(Math.round(basic.D1Mm * 1000))
  const es = mm(deviationG(pitchMm))
  const step = pitchStep(dMm, pitchMm)
  return {
    fit: '6g/6H',
    dMaxMm: dMm - es,
    dMinMm: dMm - es - mm(majorTolerance(pitchMm)),
    d2MaxMm: d2Mm - es,
    d2MinMm: d2Mm - es - mm(r40(step)),
    D1MinMm: D1Mm,
    D1MaxMm: D1Mm + mm(minorTolerance(pitchMm)),
    D2MinMm: d2Mm,
    D2MaxMm: d2Mm + mm(r40(step + 5)),
  }
}

function unifiedLimits({ dIn = 0, tpi = 1, series, d2Mm, D1Mm, dMm }: Thread): ThreadLimits {
  const pitch = 1 / tpi
  const engaged = series === 'UNC' || series === 'UNF' ? dIn : 9 * pitch
  const third = (value: number) => Math.cbrt(value * value)
  const td2 = 0.0015 * Math.cbrt(dIn) + 0.0015 * Math.sqrt(engaged) + 0.015 * third(pitch)
  const allowance = 0.3 * td2
  const td = 0.06 * third(pitch)
  const coarseRule = 0.25 * pitch - 0.4 * pitch * pitch
  const small = Math.min(
    Math.max(0.05 * third(pitch) + (0.03 * pitch) / dIn - 0.002, coarseRule),
    0.394 * pitch,
  )
  const td1 = dIn < 0.25 ? small : pitch > 0.25 ? 0.15 * pitch : coarseRule
  const mm = (inch: number) => inch * 25.4
  return {
    fit: '2A/2B',
    dMaxMm: dMm - mm(allowance),
    dMinMm: dMm - mm(allowance + td),
    d2MaxMm: d2Mm - mm(allowance),
    d2MinMm: d2Mm - mm(allowance + td2),
    D1MinMm: D1Mm,
    D1MaxMm: D1Mm + mm(td1),
    D2MinMm: d2Mm,
    D2MaxMm: d2Mm + mm(1.3 * td2),
  }
}
