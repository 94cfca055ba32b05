/**
 * Limits of size as the standards print them. From memory, not seen: they agree among themselves and with the limits behind
 * published shear areas.
 */

/** ISO 965-1, tolerance grade 6 by pitch, µm: major diameter of the bolt Td, minor diameter of the hole TD1, position g es. */
export const ISO_965: [pitchMm: number, td: number, td1: number, es: number][] = [
  [0.5, 106, 140, 20],
  [0.7, 140, 180, 22],
  [0.75, 140, 190, 22],
  [0.8, 150, 200, 24],
  [1, 180, 236, 26],
  [1.25, 212, 265, 28],
  [1.5, 236, 300, 32],
  [1.75, 265, 335, 34],
  [2, 280, 375, 38],
  [2.5, 335, 450, 42],
  [3, 375, 500, 48],
  [3.5, 425, 560, 53],
  [4, 475, 600, 60],
]

/** ASME B1.1, classes 2A and 2B, inches: allowance, major least, pitch least; hole: minor most, pitch most. */
export const ASME_B1_1: [
  thread: string,
  allowance: number,
  majorMin: number,
  pitchMin: number,
  minorMax: number,
  holePitchMax: number,
][] = [
  ['1/4-20 UNC', 0.0011, 0.2408, 0.2127, 0.207, 0.2224],
  ['1/4-28 UNF', 0.001, 0.2425, 0.2225, 0.22, 0.2311],
  ['5/16-18 UNC', 0.0012, 0.3026, 0.2712, 0.265, 0.2817],
  ['3/8-16 UNC', 0.0013, 0.3643, 0.3287, 0.321, 0.3401],
  ['7/16-14 UNC', 0.0014, 0.4258, 0.385, 0.376, 0.3972],
  ['1/2-13 UNC', 0.0015, 0.4876, 0.4435, 434 / 1000, 0.4565],
  ['5/8-11 UNC', 0.0016, 0.6113, 0.5589, 0.546, 0.5732],
  ['3/4-10 UNC', 0.0018, 0.7353, 0.6773, 0.663, 0.6927],
  ['7/8-9 UNC', 0.0019, 0.8592, 0.7946, 0.778, 0.811],
  ['1-8 UNC', 0.002, 0.983, 0.91, 0.89, 0.9276],
]

/** Numbered sizes, inches: ASME B1.1. From memory. */
export const NUMBERED: [size: string, inches: number][] = [
  ['#0-80', 0.06],
  ['#2-56', 0.086],
  ['#4-40', 0.112],
  ['#5-40', 0.125],
  ['#6-32', 0.138],
  ['#8-32', 0.164],
  ['#10-32', 0.19],
  ['#12-24', 0.216],
]

/**
 * Hexagon cap screws, inches: width across flats (ASME B18.2.1), washer face at 95 % of it, normal clearance hole
 * (ASME B18.2.8). From memory.
 */
export const INCH_HEADS: [thread: string, acrossIn: number, holeIn: number][] = [
  ['1/4-20', 0.4375, 0.28125],
  ['5/16-18', 0.5, 0.34375],
  ['3/8-16', 0.5625, 0.40625],
  ['7/16-14', 0.625, 0.46875],
  ['1/2-13', 0.75, 0.5625],
  ['9/16-12', 0.8125, 0.625],
  ['5/8-11', 0.9375, 0.6875],
  ['3/4-10', 1.125, 0.8125],
  ['7/8-9', 1.3125, 0.9375],
  ['1-8', 1.5, 1.09375],
]

/** What stays of two rules of Unified limits when 1 % is less than the printed unit, to a millionth of an inch. */
export const UNIFIED_FORMULA_MICROINCHES = {
  source: 'ASME B1.1, formulas of section 5 (memory), reckoned apart for 1/2-13: Le = D',
  thread: '1/2-13 UNC',
  pitchTolerance: 4964,
  allowance: 1489,
  majorTolerance: 10_852,
  holePitchTolerance: 6454,
  holeMinorTolerance: 16_864,
}
