/**
 * How much thread must engage: what the bolt's thread, the hole's thread and the bolt itself each bear, and which gives first.
 *
 * A bolt that breaks is seen; a stripped hole is not, until it is too late. So the length at which the bolt is the weakest
 * is the length to want. Shear areas by FED-STD-H28 at the worst limits of size.
 */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import { type InsertGiven, type InsertPlan, insertPlan } from './inserts'
import { type HoleMaterial, type HoleMaterialGiven, holeMaterial, RESERVE } from './materials'
import { impossible, partsOf } from './numbers'
import type { FastenerRefusal } from './refusals'
import { type GradeGiven, type Strength, strengthOf } from './strength'
import { threadOf } from './thread'
import type { Thread, ThreadGiven } from './thread-types'
import { limits, type ThreadLimits } from './tolerance'

export interface EngagementInput {
  thread: ThreadGiven
  boltGrade: GradeGiven
  holeMaterial: HoleMaterialGiven
  engagementMm: number
  /** Its kind alone stands for one of 1.5 d. */
  insert?: InsertGiven | InsertGiven['kind']
}

export type WeakestLink = 'bolt' | 'bolt_thread' | 'hole_thread'

export interface Engagement {
  thread: Thread
  grade: Strength
  material: HoleMaterial
  limits: ThreadLimits
  /** As asked, and what of it an insert leaves. */
  engagementMm: number
  usableMm: number
  boltShearMm2: number
  holeShearMm2: number
  /** Shear strengths reckoned with, MPa: the hole's is its material's, less the reserve of what is typical or from memory. */
  boltThreadShearMPa: number
  holeShearMPa: number
  /** What each link bears, N. */
  boltBreakN: number
  boltStripN: number
  holeStripN: number
  weakest: WeakestLink
  weakestN: number
  boltBreaksFirst: boolean
  /** Engagement from which the bolt breaks before a thread strips, at minimum strengths; and with a bolt a fifth stronger. */
  lengthForBoltFirstMm: number
  lengthForStrongBoltMm: number
  /** The two it is the greater of: for the bolt's thread, and for the hole's. */
  lengthForBoltThreadMm: number
  lengthForHoleThreadMm: number
  /** FED-STD-H28: length at which the bolt's thread equals the bolt, J, and the length Q for a weaker hole. */
  equalStrengthMm: number
  strengthRatioJ: number
  lengthQMm: number
  insert?: InsertPlan
  cautions: CautionCode[]
  basis: BasisId[]
}

/** tan 30°, as the standard writes it. */
const TAN30 = 0.57735
/** Shear to tensile strength of a bolt's thread; VDI 2230 gives 0.60 to 0.65 for steels. */
export const BOLT_SHEAR_RATIO = 0.6

/** Shear area of the bolt's thread per mm of engagement, mm²/mm: (π/P)·D1max·[P/2 + 0.57735·(d2min − D1max)]. */
export const boltShearPerMm = (pitchMm: number, D1MaxMm: number, d2MinMm: number): number =>
  (Math.PI / pitchMm) * D1MaxMm * (pitchMm / 2 + TAN30 * (d2MinMm - D1MaxMm))

/** Shear area of the hole's thread per mm of engagement, mm²/mm: (π/P)·dmin·[P/2 + 0.57735·(dmin − D2max)]. */
export const holeShearPerMm = (pitchMm: number, dMinMm: number, D2MaxMm: number): number =>
  (Math.PI / pitchMm) * dMinMm * (pitchMm / 2 + TAN30 * (dMinMm - D2MaxMm))

/**
 * Shear areas (mm²), strip and breaking loads (N), the weakest link, and the lengths (mm) for the bolt to break first.
 *
 * Strip load = area · shear strength, bolt thread at 0.6·Rm. With an insert the engagement is at most what the insert
 * leaves, and the hole is the thread tapped for it. Of a typical or from memory hole strength a reserve is held back (`RESERVE`). Refused: unknown thread, grade or material, a length of nothing.
 * Source: FED-STD-H28/2B; limits ISO 965-1 or ASME B1.1.
 */
export function engagement(input: EngagementInput): Engagement | FastenerRefusal {
  const parts = partsOf(input)
  const thread = threadOf(parts.thread)
  if (isRefusal(thread)) return thread
  const grade = strengthOf(parts.boltGrade, thread)
  if (isRefusal(grade)) return grade
  const material = holeMaterial(parts.holeMaterial)
  if (isRefusal(material)) return material
  const fault = impossible('Engagement', parts.engagementMm, 'length')
  if (fault) return fault
  const insert = parts.insert === undefined ? undefined : insertPlan(thread, parts.insert)
  if (isRefusal(insert)) return insert
  const engagementMm = parts.engagementMm ?? 0
  const usableMm = insert ? Math.min(engagementMm, insert.usableMm) : engagementMm
  const size = limits(thread)
  const boltPerMm = boltShearPerMm(thread.pitchMm, size.D1MaxMm, size.d2MinMm)
  const holePerMm = insert
    ? insertHolePerMm(insert, thread, parts.insert)
    : holeShearPerMm(thread.pitchMm, size.dMinMm, size.D2MaxMm)
  const boltThreadShearMPa = BOLT_SHEAR_RATIO * grade.rmMPa
  const holeShearMPa = material.shearMPa * material.reserve
  const boltBreakN = thread.stressAreaMm2 * grade.rmMPa
  const boltStripN = boltPerMm * usableMm * boltThreadShearMPa
  // A bush bears on its whole length in the part; of a coil only those turns that the bolt loads.
  const holeLengthMm = insert?.kind === 'solid' ? insert.usableMm : usableMm
  const holeStripN = insert?.pullOutN ?? holePerMm * holeLengthMm * holeShearMPa
  const [weakest, weakestN] = (
    [
      ['bolt', boltBreakN],
      ['bolt_thread', boltStripN],
      ['hole_thread', holeStripN],
    ] as const
  ).reduce((low, link) => (link[1] < low[1] ? link : low))
  const lengthForBoltThreadMm = boltBreakN / (boltPerMm * boltThreadShearMPa)
  const lengthForHoleThreadMm = boltBreakN / (holePerMm * holeShearMPa)
  const lengthForBoltFirstMm = Math.max(lengthForBoltThreadMm, lengthForHoleThreadMm)
  const equalStrengthMm = (2 * thread.stressAreaMm2) / boltPerMm
  const strengthRatioJ = (boltPerMm * grade.rmMPa) / (holePerMm * material.rmMPa)
  return {
    thread,
    grade,
    material,
    limits: size,
    engagementMm,
    usableMm,
    boltShearMm2: boltPerMm * usableMm,
    holeShearMm2: holePerMm * holeLengthMm,
    boltThreadShearMPa,
    holeShearMPa,
    boltBreakN,
    boltStripN,
    holeStripN,
    weakest,
    weakestN,
    boltBreaksFirst: weakest === 'bolt',
    lengthForBoltFirstMm,
    lengthForStrongBoltMm: 1.2 * lengthForBoltFirstMm,
    lengthForBoltThreadMm,
    lengthForHoleThreadMm,
    equalStrengthMm,
    strengthRatioJ,
    lengthQMm: equalStrengthMm * Math.max(1, strengthRatioJ),
    ...(insert ? { insert } : {}),
    cautions: [
      'maker_governs',
      'bolt_stronger',
      ...reserveCaution(material),
      ...(insert ? [] : (['worn_hole'] as const)),
      ...(usableMm > 2.5 * thread.dMm ? (['long_engagement'] as const) : []),
      ...(insert && !insert.pullOutN && lengthForBoltFirstMm > insert.usableMm
        ? (['insert_short'] as const)
        : []),
      ...(insert?.cautions ?? []),
      ...grade.cautions.filter((code) => code !== 'proof_from_yield'),
      ...thread.cautions,
    ],
    basis: [
      'strip',
      'bolt_shear',
      thread.system === 'metric' ? 'tolerance_metric' : 'tolerance_unified',
      ...(insert?.basis ?? []),
      ...grade.basis,
      ...thread.basis,
    ],
  }
}

const reserveCaution = ({ reserve }: HoleMaterial): CautionCode[] =>
  reserve === RESERVE.entered ? [] : [reserve === RESERVE.cast ? 'reserve_cast' : 'reserve_typical']

/** The part's own thread around an insert, at the limits of a thread of that size and pitch. */
function insertHolePerMm(insert: InsertPlan, thread: Thread, given: EngagementInput['insert']): number {
  const outer =
    insert.kind === 'solid' ? threadOf(partsOf<InsertGiven>(given as InsertGiven).outerThread) : undefined
  if (outer && !isRefusal(outer)) {
    const size = limits(outer)
    return holeShearPerMm(outer.pitchMm, size.dMinMm, size.D2MaxMm)
  }
  const own = limits(thread)
  const { majorMinMm, pitchDiaMm, pitchMm } = insert.tapped
  return holeShearPerMm(
    pitchMm,
    majorMinMm - (own.dMaxMm - own.dMinMm),
    pitchDiaMm + (own.D2MaxMm - own.D2MinMm),
  )
}
