/**
 * The sizes that no formula gives: coarse metric pitches, the ISO series of pitches, and the Unified series.
 *
 * Sources: ISO 261 and ISO 262 (metric), ASME B1.1 (Unified), from memory; the rows that published tables of
 * stress areas name agree (`tests/published/threads.test.ts`).
 */

/** Coarse pitch by nominal diameter, mm (ISO 261). */
export const COARSE_PITCH_MM: ReadonlyMap<number, number> = new Map([
  [1, 0.25],
  [1.1, 0.25],
  [1.2, 0.25],
  [1.4, 0.3],
  [1.6, 0.35],
  [1.8, 0.35],
  [2, 0.4],
  [2.2, 0.45],
  [2.5, 0.45],
  [3, 0.5],
  [3.5, 0.6],
  [4, 0.7],
  [4.5, 0.75],
  [5, 0.8],
  [6, 1],
  [7, 1],
  [8, 1.25],
  [9, 1.25],
  [10, 1.5],
  [11, 1.5],
  [12, 1.75],
  [14, 2],
  [16, 2],
  [18, 2.5],
  [20, 2.5],
  [22, 2.5],
  [24, 3],
  [27, 3],
  [30, 3.5],
  [33, 3.5],
  [36, 4],
  [39, 4],
  [42, 4.5],
  [45, 4.5],
  [48, 5],
  [52, 5],
  [56, 5.5],
  [60, 5.5],
  [64, 6],
  [68, 6],
])

/** Diameters of the ISO series that have fine pitches only, mm. */
export const FINE_ONLY_MM: ReadonlySet<number> = new Set([
  5.5, 15, 17, 25, 26, 28, 32, 35, 38, 40, 50, 55, 58, 62, 65, 70, 72, 75, 76, 80, 85, 90, 95, 100,
])

export const ISO_PITCHES_MM: readonly number[] = [
  0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5,
  5.5, 6, 8,
]

/** The largest diameter a fine pitch is used on, mm (ISO 261; below 0.5 mm from the rows of its table). */
const WIDEST_FOR_PITCH: readonly (readonly [pitchMm: number, dMm: number])[] = [
  [0.2, 2],
  [0.25, 3],
  [0.3, 3],
  [0.35, 5],
  [0.45, 8],
  [0.5, 22],
  [0.75, 33],
  [1, 80],
  [1.5, 150],
  [2, 200],
]

/** The fine pitches a shop meets, and from which diameter to which, mm (ISO 261, from memory; odd sizes vary). */
const USUAL_FINE: readonly (readonly [pitchMm: number, fromMm: number, uptoMm: number])[] = [
  [0.2, 1, 1.8],
  [0.25, 2, 2.2],
  [0.35, 2.5, 3.5],
  [0.5, 4, 5.5],
  [0.75, 6, 11],
  [1, 8, 30],
  [1.25, 10, 14],
  [1.5, 12, 80],
  [2, 18, 150],
  [3, 30, 250],
  [4, 42, 300],
  [6, 70, 300],
]

/** The pitches a diameter is usually cut with, mm, for the question back: coarse and fine, or fine alone. */
export function usualPitchesMm(dMm: number, fineOnly: boolean): number[] {
  const coarse = COARSE_PITCH_MM.get(dMm)
  if (coarse === undefined && !FINE_ONLY_MM.has(dMm)) return []
  const fine = USUAL_FINE.filter(
    ([pitch, from, upto]) =>
      dMm >= from && dMm <= upto && pitch < coarsestPitchMm(dMm) && (pitch !== 1.25 || WITH_125_MM.has(dMm)),
  ).map(([pitch]) => pitch)
  return coarse === undefined || fineOnly ? fine : [...fine, coarse]
}

const WITH_125_MM = new Set([10, 12, 14])

/** The finest ISO pitch still in use on a diameter, mm. */
export function finestPitchMm(dMm: number): number {
  return WIDEST_FOR_PITCH.find(([, widest]) => dMm <= widest)?.[0] ?? 3
}

/** The coarsest pitch a diameter can have: its own coarse pitch, else that of the next standard size above. */
export function coarsestPitchMm(dMm: number): number {
  for (const [size, pitch] of COARSE_PITCH_MM) if (size >= dMm) return pitch
  return 8
}

export type UnifiedSeries = 'UNC' | 'UNF' | 'UNEF' | 'UN' | 'UNS'

/** Threads an inch by size; numbered sizes as `#10`, the rest as fractions of an inch (ASME B1.1). */
export const UNIFIED: Record<'UNC' | 'UNF' | 'UNEF', Readonly<Record<string, number>>> = {
  UNC: {
    '#1': 64,
    '#2': 56,
    '#3': 48,
    '#4': 40,
    '#5': 40,
    '#6': 32,
    '#8': 32,
    '#10': 24,
    '#12': 24,
    '1/4': 20,
    '5/16': 18,
    '3/8': 16,
    '7/16': 14,
    '1/2': 13,
    '9/16': 12,
    '5/8': 11,
    '3/4': 10,
    '7/8': 9,
    '1': 8,
    '1-1/8': 7,
    '1-1/4': 7,
    '1-3/8': 6,
    '1-1/2': 6,
    '1-3/4': 5,
    '2': 4.5,
    '2-1/4': 4.5,
    '2-1/2': 4,
    '2-3/4': 4,
    '3': 4,
    '3-1/4': 4,
    '3-1/2': 4,
    '3-3/4': 4,
    '4': 4,
  },
  UNF: {
    '#0': 80,
    '#1': 72,
    '#2': 64,
    '#3': 56,
    '#4': 48,
    '#5': 44,
    '#6': 40,
    '#8': 36,
    '#10': 32,
    '#12': 28,
    '1/4': 28,
    '5/16': 24,
    '3/8': 24,
    '7/16': 20,
    '1/2': 20,
    '9/16': 18,
    '5/8': 18,
    '3/4': 16,
    '7/8': 14,
    '1': 12,
    '1-1/8': 12,
    '1-1/4': 12,
    '1-3/8': 12,
    '1-1/2': 12,
  },
  UNEF: {
    '#12': 32,
    '1/4': 32,
    '5/16': 32,
    '3/8': 32,
    '7/16': 28,
    '1/2': 28,
    '9/16': 24,
    '5/8': 24,
    '11/16': 24,
    '3/4': 20,
    '13/16': 20,
    '7/8': 20,
    '15/16': 20,
    '1': 20,
    '1-1/16': 18,
    '1-1/8': 18,
    '1-3/16': 18,
    '1-1/4': 18,
    '1-5/16': 18,
    '1-3/8': 18,
    '1-7/16': 18,
    '1-1/2': 18,
    '1-9/16': 18,
    '1-5/8': 18,
    '1-11/16': 18,
  },
}

/** The constant-pitch series, threads an inch. */
export const CONSTANT_PITCHES: ReadonlySet<number> = new Set([4, 6, 8, 12, 16, 20, 28, 32])
