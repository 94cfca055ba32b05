/**
 * Shear areas, worked stripping cases, wire inserts and bolts in their holes: mm, mm², MPa and N.
 *
 * Areas found (Bickford, Introduction to the Design and Behavior of Bolted Joints, 4th edition), the 6g and 6H limits behind them from memory of
 * ISO 965-2. Worked cases reckoned apart from this project by FED-STD-H28/2B at 0.6·Rm. Insert lengths and depths: rules of
 * ASME B18.29.8M-2005 found quoted; tapped diameters from memory. Holes: common practice, reckoned.
 */
export const SHEAR_AREAS: [
  thread: string,
  dMin: number,
  d2Min: number,
  D1Max: number,
  D2Max: number,
  engagementMm: number,
  boltMm2: number,
  holeMm2: number,
][] = [
  ['M5x0.8', 4.826, 4.361, 4.334, 4.605, 5, 35.366, 49.994],
  ['M8x1.25', 7.76, 7.042, 6.912, 7.348, 8, 97.29, 134.63],
  ['M10x1.5', 9.732, 8.862, 8.676, 9.206, 10, 155.8, 214.77],
  ['M12x1.75', 11.701, 10.679, 10.441, 11.063, 12, 227.72, 313.41],
  ['M16x2', 15.682, 14.503, 14.21, 14.913, 16, 417.55, 569.12],
  ['M20x2.5', 19.623, 18.164, 17.744, 18.6, 20, 665.58, 907.76],
  ['M24x3', 23.577, 21.803, 21.252, 22.316, 24, 971.1, 1320.2],
]

export interface WorkedStrip {
  title: string
  thread: string
  engagementMm: number
  boltRmMPa: number
  holeRmMPa: number
  boltN: number
  boltStripN: number
  holeStripN: number
  ratioJ: number
  equalMm: number
  lengthQMm: number
  boltFirstMm: number
  weakest: 'bolt' | 'hole_thread'
}

export const WORKED: WorkedStrip[] = [
  {
    title: 'M8 8.8 in cast Al (Rm 240)',
    thread: 'M8x1.25',
    engagementMm: 12,
    boltRmMPa: 830,
    holeRmMPa: 240,
    boltN: 30385.1,
    boltStripN: 72675.3,
    holeStripN: 29079.7,
    ratioJ: 2.4992,
    equalMm: 6.021,
    lengthQMm: 15.046,
    boltFirstMm: 12.539,
    weakest: 'hole_thread',
  },
  {
    title: 'M10 10.9 in cast Al',
    thread: 'M10x1.5',
    engagementMm: 15,
    boltRmMPa: 1040,
    holeRmMPa: 240,
    boltN: 60309.2,
    boltStripN: 145824.7,
    holeStripN: 46390.1,
    ratioJ: 3.1434,
    equalMm: 7.444,
    lengthQMm: 23.401,
    boltFirstMm: 19.501,
    weakest: 'hole_thread',
  },
  {
    title: 'M10 10.9 in steel 500',
    thread: 'M10x1.5',
    engagementMm: 10,
    boltRmMPa: 1040,
    holeRmMPa: 500,
    boltN: 60309.2,
    boltStripN: 97216.4,
    holeStripN: 64430.8,
    ratioJ: 1.5089,
    equalMm: 7.444,
    lengthQMm: 11.232,
    boltFirstMm: 9.36,
    weakest: 'bolt',
  },
  {
    title: 'M16 8.8 in steel 400',
    thread: 'M16x2',
    engagementMm: 16,
    boltRmMPa: 830,
    holeRmMPa: 400,
    boltN: 130034.8,
    boltStripN: 207940.2,
    holeStripN: 136588.6,
    ratioJ: 1.5224,
    equalMm: 12.007,
    lengthQMm: 18.279,
    boltFirstMm: 15.232,
    weakest: 'bolt',
  },
]

/**
 * M10x1.5 of 10.9 in 310 aluminium, shear strength 130 MPa: 21.6 mm for a bolt as strong as 12.9 (1200 · 58 N). Found in a
 * handbook chapter's abstract. It takes the greatest major diameter, 9.968, for the least, which is 9.732: the right one asks more.
 */
export const HANDBOOK_LENGTH = {
  pitchMm: 1.5,
  dTakenMm: 9.968,
  D2MaxMm: 9.206,
  loadN: 69_600,
  shearMPa: 130,
  lengthMm: 21.6,
}

export const WIRE_INSERTS: [
  thread: string,
  lengthD: number,
  installedMax: number,
  installedMin: number,
  drillPlug: number,
  drillBottoming: number,
  threadDepth: number,
  major: number,
  pitchDia: number,
  minor: number,
][] = [
  ['M5x0.8', 1, 4.6, 4.4, 12.3, 8.2, 5.8, 6.0392, 5.5196, 5.1732],
  ['M5x0.8', 1.5, 7.1, 6.9, 14.8, 10.7, 8.3, 6.0392, 5.5196, 5.1732],
  ['M5x0.8', 2, 9.6, 9.4, 17.3, 13.2, 10.8, 6.0392, 5.5196, 5.1732],
  ['M6x1', 1, 5.5, 5.25, 15, 10, 7, 7.299, 6.6495, 6.2165],
  ['M6x1', 1.5, 8.5, 8.25, 18, 13, 10, 7.299, 6.6495, 6.2165],
  ['M6x1', 2, 11.5, 11.25, 21, 16, 13, 7.299, 6.6495, 6.2165],
  ['M8x1.25', 1, 7.375, 7.0625, 19.5, 13, 9.25, 9.6238, 8.8119, 8.2706],
  ['M8x1.25', 1.5, 11.375, 11.0625, 23.5, 17, 13.25, 9.6238, 8.8119, 8.2706],
  ['M8x1.25', 2, 15.375, 15.0625, 27.5, 21, 17.25, 9.6238, 8.8119, 8.2706],
  ['M10x1.5', 1, 9.25, 8.875, 19, 16, 11.5, 11.9486, 10.9743, 10.3248],
  ['M10x1.5', 1.5, 14.25, 13.875, 24, 21, 16.5, 11.9486, 10.9743, 10.3248],
  ['M10x1.5', 2, 19.25, 18.875, 29, 26, 21.5, 11.9486, 10.9743, 10.3248],
  ['M10x1.25', 1, 9.375, 9.0625, 17.5, 15, 11.25, 11.6238, 10.8119, 10.2706],
  ['M10x1.25', 1.5, 14.375, 14.0625, 22.5, 20, 16.25, 11.6238, 10.8119, 10.2706],
  ['M10x1.25', 2, 19.375, 19.0625, 27.5, 25, 21.25, 11.6238, 10.8119, 10.2706],
  ['M14x2', 1, 13.0, 12.5, 26, 22, 16, 16.5981, 15.299, 14.433],
  ['M14x2', 1.5, 20.0, 19.5, 33, 29, 23, 16.5981, 15.299, 14.433],
  ['M14x2', 2, 27.0, 26.5, 40, 36, 30, 16.5981, 15.299, 14.433],
]

export interface HoleRow {
  boltLengthMm: number
  stackMm: number
  washerMm: number
  threadDepthMm: number
  pitchMm: number
  minEngagementMm: number
  engagementMm: number
  clearanceMm: number
  verdict: 'good' | 'near_bottom' | 'too_short'
}

export const HOLES: HoleRow[] = [
  {
    boltLengthMm: 40,
    stackMm: 20,
    washerMm: 1.6,
    threadDepthMm: 24,
    pitchMm: 1.25,
    minEngagementMm: 12,
    engagementMm: 18.4,
    clearanceMm: 5.6,
    verdict: 'good',
  },
  {
    boltLengthMm: 45,
    stackMm: 20,
    washerMm: 1.6,
    threadDepthMm: 24,
    pitchMm: 1.25,
    minEngagementMm: 12,
    engagementMm: 23.4,
    clearanceMm: 0.6,
    verdict: 'near_bottom',
  },
  {
    boltLengthMm: 30,
    stackMm: 20,
    washerMm: 1.6,
    threadDepthMm: 24,
    pitchMm: 1.25,
    minEngagementMm: 12,
    engagementMm: 8.4,
    clearanceMm: 15.6,
    verdict: 'too_short',
  },
  {
    boltLengthMm: 42.5,
    stackMm: 20,
    washerMm: 0,
    threadDepthMm: 25,
    pitchMm: 1.25,
    minEngagementMm: 12,
    engagementMm: 22.5,
    clearanceMm: 2.5,
    verdict: 'good',
  },
  {
    boltLengthMm: 70,
    stackMm: 45,
    washerMm: 2.5,
    threadDepthMm: 30,
    pitchMm: 1.5,
    minEngagementMm: 15,
    engagementMm: 22.5,
    clearanceMm: 7.5,
    verdict: 'good',
  },
]
