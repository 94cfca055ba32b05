/**
 * Torque by the short form, nut factors, scatter of preload and the airframe table, each as published.
 *
 * status `found`: the printed figure was seen in a stored public document; `memory`: written down from memory of it; `computed`: reckoned apart from this project by the stated formula.
 */
import type { Status } from './threads'

export interface ShortRow {
  k: number
  d: number
  dUnit: 'in' | 'mm'
  preload: number
  preloadUnit: 'lbf' | 'N'
  torque: number
  torqueUnit: 'lbf·in' | 'lbf·ft' | 'N·m'
  /** Half of the last digit printed, or the step a page rounds down to. */
  within: number
  status: Status
  source: string
}

const TEXTBOOK = 'memory: a textbook on fastening and joining, page 85, its title not kept'
const ARTICLE = '“What Does the Nut Factor, ‘K’, Really Encompass?” (2020)'

export const SHORT_FORM: ShortRow[] = [
  {
    k: 0.3,
    d: 0.19,
    dUnit: 'in',
    preload: 1275,
    preloadUnit: 'lbf',
    torque: 72.7,
    torqueUnit: 'lbf·in',
    within: 0.06,
    status: 'memory',
    source: TEXTBOOK,
  },
  {
    k: 0.2,
    d: 0.19,
    dUnit: 'in',
    preload: 1275,
    preloadUnit: 'lbf',
    torque: 48.5,
    torqueUnit: 'lbf·in',
    within: 0.06,
    status: 'memory',
    source: TEXTBOOK,
  },
  {
    k: 0.15,
    d: 0.19,
    dUnit: 'in',
    preload: 1275,
    preloadUnit: 'lbf',
    torque: 36.3,
    torqueUnit: 'lbf·in',
    within: 0.06,
    status: 'memory',
    source: TEXTBOOK,
  },
  {
    k: 0.1,
    d: 0.19,
    dUnit: 'in',
    preload: 1275,
    preloadUnit: 'lbf',
    torque: 24.2,
    torqueUnit: 'lbf·in',
    within: 0.06,
    status: 'memory',
    source: TEXTBOOK,
  },
  {
    k: 0.2,
    d: 0.375,
    dUnit: 'in',
    preload: 4940,
    preloadUnit: 'lbf',
    torque: 30,
    torqueUnit: 'lbf·ft',
    within: 1.0,
    status: 'found',
    source: `${ARTICLE}: 3/8-16 Grade 5, printed 30 lbf·ft, rounded down`,
  },
  {
    k: 0.2,
    d: 10,
    dUnit: 'mm',
    preload: 30000,
    preloadUnit: 'N',
    torque: 60,
    torqueUnit: 'N·m',
    within: 1e-9,
    status: 'computed',
    source: 'definition',
  },
  {
    k: 0.15,
    d: 12,
    dUnit: 'mm',
    preload: 42000,
    preloadUnit: 'N',
    torque: 75.6,
    torqueUnit: 'N·m',
    within: 1e-9,
    status: 'computed',
    source: 'definition',
  },
  {
    k: 0.12,
    d: 14,
    dUnit: 'mm',
    preload: 60000,
    preloadUnit: 'N',
    torque: 100.8,
    torqueUnit: 'N·m',
    within: 1e-9,
    status: 'computed',
    source: 'definition',
  },
]

/** 3/8-16 Grade 5 at three quarters of its proof load, lbf: found in the same article, 0.75 · 85 000 · 0.0775. */
export const THREE_QUARTERS_OF_PROOF = { thread: '3/8-16 UNC', grade: 'SAE 5', preloadLbf: 4940 }

export const NUT_FACTOR_ROWS: [condition: string, k: number, status: Status][] = [
  ['clean dry / as-received steel', 0.2, 'found'],
  ['zinc plated', 0.17, 'memory'],
  ['lubricated', 0.15, 'found'],
  ['cadmium plated', 0.16, 'memory'],
  ['non-plated black finish', 0.3, 'memory'],
  ['zinc-plated (Shigley)', 0.2, 'memory'],
  ['lubricated (Shigley)', 0.18, 'memory'],
  ['anti-seize', 0.12, 'memory'],
]

/** Reckoned by the form of NASA-STD-5020A, section 6, from memory. */
export interface RangeRow {
  torque: number
  k: number
  d: number
  units: 'lbf·in' | 'N·m'
  plusMinusPct: number
  nominal: number
  high: number
  low: number
  settledLow: number
}
export const PRELOAD_RANGES: RangeRow[] = [
  {
    torque: 48.5,
    k: 0.2,
    d: 0.19,
    units: 'lbf·in',
    plusMinusPct: 35,
    nominal: 1276.32,
    high: 1723.03,
    low: 829.61,
    settledLow: 788.12,
  },
  {
    torque: 48.5,
    k: 0.2,
    d: 0.19,
    units: 'lbf·in',
    plusMinusPct: 25,
    nominal: 1276.32,
    high: 1595.39,
    low: 957.24,
    settledLow: 909.37,
  },
  {
    torque: 80,
    k: 0.18,
    d: 10,
    units: 'N·m',
    plusMinusPct: 35,
    nominal: 44444.44,
    high: 60000,
    low: 28888.89,
    settledLow: 27444.44,
  },
]

/** Found: NSTS 08307 and Machinery's Handbook, quoted in “Methods of Applying and Measuring Preload”, tables 2 and 1. */
export const SCATTER: [method: string, plusMinusPct: number, printedAs: string][] = [
  ['torque_dry', 35, 'torque wrench, unlubricated bolts'],
  ['torque_plated', 30, 'torque wrench, cadmium-plated'],
  ['torque_lubricated', 25, 'torque wrench, lubricated'],
  ['tensioner', 15, 'hydraulic tensioner'],
  ['indicating_washer', 10, 'preload indicating washer'],
  ['ultrasonic', 10, 'ultrasonic measurement'],
  ['elongation', 5, 'bolt elongation measurement'],
  ['instrumented_bolt', 5, 'instrumented bolt'],
  ['by_feel', 35, 'by feel'],
  ['torque_wrench', 25, 'torque wrench'],
  ['turn_of_nut', 15, 'turn-of-nut'],
  ['yield_point', 8, 'yield-point sensing'],
]

/** FAA AC 43.13-1B (9/8/98), table 7-1, lbf·in, oil-free cadmium-plated threads: found. */
export const AIRFRAME: [
  thread: string,
  tensionLow: number,
  tensionHigh: number,
  shearLow: number,
  shearHigh: number,
  maxTension: number,
  maxShear: number,
  estimated: boolean,
][] = [
  ['#8-36', 12, 15, 7, 9, 20, 12, false],
  ['#10-32', 20, 25, 12, 15, 40, 25, false],
  ['1/4-28', 50, 70, 30, 40, 100, 60, false],
  ['5/16-24', 100, 140, 60, 85, 225, 140, false],
  ['3/8-24', 160, 190, 95, 110, 390, 240, false],
  ['7/16-20', 450, 500, 270, 300, 840, 500, false],
  ['1/2-20', 480, 690, 290, 410, 1100, 660, false],
  ['9/16-18', 800, 1000, 480, 600, 1600, 960, false],
  ['5/8-18', 1100, 1300, 600, 780, 2400, 1400, false],
  ['3/4-16', 2300, 2500, 1300, 1500, 5000, 3000, false],
  ['7/8-14', 2500, 3000, 1500, 1800, 7000, 4200, false],
  ['1-14', 3700, 5500, 2200, 3300, 10000, 6000, true],
  ['1-1/8-12', 5000, 7000, 3000, 4200, 15000, 9000, true],
  ['1-1/4-12', 9000, 11000, 5400, 6600, 25000, 15000, true],
  ['#8-32', 12, 15, 7, 9, 20, 12, false],
  ['#10-24', 20, 25, 12, 15, 35, 21, false],
  ['1/4-20', 40, 50, 25, 30, 75, 45, false],
  ['5/16-18', 80, 90, 48, 55, 160, 100, false],
  ['3/8-16', 160, 185, 95, 100, 275, 170, false],
  ['7/16-14', 235, 255, 140, 155, 475, 280, false],
  ['1/2-13', 400, 480, 240, 290, 880, 520, false],
  ['9/16-12', 500, 700, 300, 420, 1100, 650, false],
  ['5/8-11', 700, 900, 420, 540, 1500, 900, false],
  ['3/4-10', 1150, 1600, 700, 950, 2500, 1500, false],
  ['7/8-9', 2200, 3000, 1300, 1800, 4600, 2700, false],
]
