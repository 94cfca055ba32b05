/**
 * Torque-then-angle cases, the turn-of-nut table and rules on fitting stretched bolts again: mm, N, degrees, inches.
 *
 * Angle cases are reckoned apart from this project. Turns: RCSC, Specification for Structural Joints Using High-Strength Bolts,
 * table 8.2, both faces square (found quoted; where larger sizes are misprinted there the 4, 8 and 12 d rule is carried),
 * tolerances from memory. Rules on reuse: memory, of makers' manuals that are not named here.
 */
export interface AngleRow {
  dMm: number
  pitchMm: number
  shankMm: number
  threadMm: number
  stiffness: number
  ratio: number
  angleDeg: number
  snugN: number
  addedN: number
  totalN: number
  yieldN: number
  elastic: boolean
}

export const ANGLES: AngleRow[] = [
  {
    dMm: 10,
    pitchMm: 1.5,
    shankMm: 60,
    threadMm: 20,
    stiffness: 184879.02,
    ratio: 3,
    angleDeg: 90,
    snugN: 12000,
    addedN: 51997.2,
    totalN: 63997.2,
    yieldN: 54510.2,
    elastic: false,
  },
  {
    dMm: 11,
    pitchMm: 1.5,
    shankMm: 80,
    threadMm: 25,
    stiffness: 172598.9,
    ratio: 4,
    angleDeg: 90,
    snugN: 15000,
    addedN: 51779.7,
    totalN: 66779.7,
    yieldN: 67936.0,
    elastic: true,
  },
  {
    dMm: 12,
    pitchMm: 1.75,
    shankMm: 40,
    threadMm: 20,
    stiffness: 346858.09,
    ratio: 2.5,
    angleDeg: 60,
    snugN: 20000,
    addedN: 72262.1,
    totalN: 92262.1,
    yieldN: 79210.5,
    elastic: false,
  },
  {
    dMm: 8,
    pitchMm: 1.25,
    shankMm: 30,
    threadMm: 15,
    stiffness: 203661.64,
    ratio: 3,
    angleDeg: 45,
    snugN: 6000,
    addedN: 23866.6,
    totalN: 29866.6,
    yieldN: 34412.0,
    elastic: true,
  },
]

export const TURNS: [
  diameterIn: number,
  overIn: number,
  uptoIn: number,
  turn: string,
  degrees: number,
  toleranceDeg: number,
][] = [
  [0.5, 0, 2, '1/3', 120, 30],
  [0.5, 2, 4, '1/2', 180, 30],
  [0.5, 4, 6, '2/3', 240, 45],
  [0.625, 0, 2.5, '1/3', 120, 30],
  [0.625, 2.5, 5, '1/2', 180, 30],
  [0.625, 5, 7.5, '2/3', 240, 45],
  [0.75, 0, 3, '1/3', 120, 30],
  [0.75, 3, 6, '1/2', 180, 30],
  [0.75, 6, 9, '2/3', 240, 45],
  [0.875, 0, 3.5, '1/3', 120, 30],
  [0.875, 3.5, 7, '1/2', 180, 30],
  [0.875, 7, 10.5, '2/3', 240, 45],
  [1, 0, 4, '1/3', 120, 30],
  [1, 4, 8, '1/2', 180, 30],
  [1, 8, 12, '2/3', 240, 45],
]

/** Rules on fitting a bolt again, as makers print them; two more check the neck with a straight edge and give no figure. */
export const REUSE_RULES = [
  {
    source: 'memory: a maker’s manual, petrol four of 2010 to 2011',
    torquesNm: [20, 40],
    anglesDeg: [60, 80],
    totalAngleDeg: 140,
    rule: 'neck',
    maxDifferenceMm: 0.25,
  },
  {
    source: 'memory: a maker’s manual, petrol six of 2000',
    torquesNm: [61, 88, 88],
    anglesDeg: [90],
    totalAngleDeg: 90,
    rule: 'torque_after_turn',
    minNm: 122,
  },
] as const
