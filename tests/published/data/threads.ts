/**
 * Thread geometry and stress areas as published, mm and mm² or inches and square inches.
 *
 * status `found`: the printed figure was seen in a stored public document; `memory`: written down from memory of it; `computed`: reckoned apart from this project by the stated formula. `within` is half of the
 * last digit printed. d2, d3 and D1 are reckoned to a micrometre; areas are printed, five digits where a handbook has them.
 */
export type Status = 'found' | 'memory' | 'computed' | 'common_practice'

export interface MetricRow {
  thread: string
  series: 'coarse' | 'fine'
  d2: number
  d3: number
  D1: number
  area: number
  within: number
  fiveDigits?: number
  status: Status
  source: string
}

const ISO_898_FOUND =
  'ISO 898-1, nominal stress areas; five digits: Bickford, Introduction to the Design and Behavior of Bolted Joints, 4th edition'
const ISO_898_MEMORY = 'ISO 898-1:2013, tables 6 and 7, from memory'

export const METRIC: MetricRow[] = [
  {
    thread: 'M4x0.7',
    series: 'coarse',
    d2: 3.545,
    d3: 3.1412,
    D1: 3.242,
    area: 8.78,
    within: 0.005,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M5x0.8',
    series: 'coarse',
    d2: 4.48,
    d3: 4.019,
    D1: 4.134,
    area: 14.2,
    within: 0.05,
    fiveDigits: 14.183,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M6x1',
    series: 'coarse',
    d2: 5.35,
    d3: 4.773,
    D1: 4.917,
    area: 20.1,
    within: 0.05,
    fiveDigits: 20.123,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M8x1.25',
    series: 'coarse',
    d2: 7.188,
    d3: 6.466,
    D1: 6.647,
    area: 36.6,
    within: 0.05,
    fiveDigits: 36.609,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M10x1.5',
    series: 'coarse',
    d2: 9.026,
    d3: 8.16,
    D1: 8.376,
    area: 58,
    within: 0.05,
    fiveDigits: 57.99,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M14x2',
    series: 'coarse',
    d2: 12.701,
    d3: 11.546,
    D1: 11.835,
    area: 115,
    within: 0.5,
    fiveDigits: 115.44,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M16x2',
    series: 'coarse',
    d2: 14.701,
    d3: 13.546,
    D1: 13.835,
    area: 157,
    within: 0.5,
    fiveDigits: 156.67,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M20x2.5',
    series: 'coarse',
    d2: 18.376,
    d3: 16.933,
    D1: 17.294,
    area: 245,
    within: 0.5,
    fiveDigits: 244.79,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M22x2.5',
    series: 'coarse',
    d2: 20.376,
    d3: 18.933,
    D1: 19.294,
    area: 303,
    within: 0.5,
    fiveDigits: 303.4,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M24x3',
    series: 'coarse',
    d2: 22.051,
    d3: 20.319,
    D1: 20.752,
    area: 353,
    within: 0.5,
    fiveDigits: 352.5,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M30x3.5',
    series: 'coarse',
    d2: 27.727,
    d3: 25.706,
    D1: 26.211,
    area: 561,
    within: 0.5,
    fiveDigits: 560.59,
    status: 'found',
    source: ISO_898_FOUND,
  },
  {
    thread: 'M8x1',
    series: 'fine',
    d2: 7.35,
    d3: 6.773,
    D1: 6.917,
    area: 39.2,
    within: 0.05,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M10x1.25',
    series: 'fine',
    d2: 9.188,
    d3: 8.466,
    D1: 8.647,
    area: 61.2,
    within: 0.05,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M12x1.5',
    series: 'fine',
    d2: 11.026,
    d3: 10.16,
    D1: 10.376,
    area: 88.1,
    within: 0.05,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M12x1.25',
    series: 'fine',
    d2: 11.188,
    d3: 10.466,
    D1: 10.647,
    area: 92.1,
    within: 0.05,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M16x1.5',
    series: 'fine',
    d2: 15.026,
    d3: 14.16,
    D1: 14.376,
    area: 167,
    within: 0.5,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M18x1.5',
    series: 'fine',
    d2: 17.026,
    d3: 16.16,
    D1: 16.376,
    area: 216,
    within: 0.5,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M22x1.5',
    series: 'fine',
    d2: 21.026,
    d3: 20.16,
    D1: 20.376,
    area: 333,
    within: 0.5,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
  {
    thread: 'M24x2',
    series: 'fine',
    d2: 22.701,
    d3: 21.546,
    D1: 21.835,
    area: 384,
    within: 0.5,
    status: 'memory',
    source: ISO_898_MEMORY,
  },
]

export interface UnifiedRow {
  thread: string
  pitchDiaIn: number
  areaIn2: number
  within: number
  status: Status
  source: string
}

const UNC = 'ASME B1.1, coarse series: stress area and pitch diameter'
const UNF = 'ASME B1.1, fine series: stress area and pitch diameter'

export const UNIFIED_ROWS: UnifiedRow[] = [
  { thread: '1/4-20 UNC', pitchDiaIn: 0.2175, areaIn2: 0.0318, within: 5e-5, status: 'found', source: UNC },
  { thread: '5/16-18 UNC', pitchDiaIn: 0.2764, areaIn2: 0.0524, within: 5e-5, status: 'found', source: UNC },
  { thread: '3/8-16 UNC', pitchDiaIn: 0.3344, areaIn2: 0.0775, within: 5e-5, status: 'found', source: UNC },
  { thread: '1/2-13 UNC', pitchDiaIn: 0.45, areaIn2: 0.142, within: 0.0005, status: 'found', source: UNC },
  { thread: '9/16-12 UNC', pitchDiaIn: 0.5084, areaIn2: 0.182, within: 0.0005, status: 'found', source: UNC },
  { thread: '3/4-10 UNC', pitchDiaIn: 0.685, areaIn2: 0.334, within: 0.0005, status: 'found', source: UNC },
  { thread: '1/4-28 UNF', pitchDiaIn: 0.2268, areaIn2: 0.0364, within: 5e-5, status: 'found', source: UNF },
  { thread: '5/16-24 UNF', pitchDiaIn: 0.2854, areaIn2: 0.058, within: 0.0005, status: 'found', source: UNF },
  { thread: '3/8-24 UNF', pitchDiaIn: 0.3479, areaIn2: 0.0878, within: 5e-5, status: 'found', source: UNF },
  { thread: '1/2-20 UNF', pitchDiaIn: 0.4675, areaIn2: 0.1599, within: 5e-5, status: 'found', source: UNF },
  { thread: '9/16-18 UNF', pitchDiaIn: 0.5264, areaIn2: 0.203, within: 0.0005, status: 'found', source: UNF },
  { thread: '3/4-16 UNF', pitchDiaIn: 0.7094, areaIn2: 0.373, within: 0.0005, status: 'found', source: UNF },
]
