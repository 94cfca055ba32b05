/**
 * Torque-then-angle: what an angle adds to the preload, while bolt and joint are springs.
 *
 * Past yield the formula ends, and says so: then the maker's procedure is the only one. The turn-of-nut table stands
 * beside it.
 */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import { impossible, impossibleIfGiven, partsOf } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import { type GradeGiven, strengthOf } from './strength'
import { threadOf } from './thread'
import type { Thread, ThreadGiven } from './thread-types'

export interface AnglePreloadInput {
  thread: ThreadGiven
  /** For the yield load; without it nothing is said about yield. */
  grade?: GradeGiven
  /** Clamped length of plain shank, and of thread, mm. */
  shankMm?: number
  threadMm: number
  /** Diameter of the shank; the nominal one where it is left out. */
  shankDiaMm?: number
  /** Young's modulus of the bolt, MPa; steel 205 000. */
  elasticModulusMPa?: number
  /** Stiffness of the joint, N/mm, or as a multiple of the bolt's. */
  jointStiffnessNPerMm?: number
  jointToBoltStiffness?: number
  angleDeg: number
  /** Preload at snug: given, or from the snug torque and a nut factor. */
  snugN?: number
  snugTorqueNm?: number
  k?: number
}

export interface AnglePreload {
  thread: Thread
  boltStiffnessNPerMm: number
  jointStiffnessNPerMm: number
  snugN: number
  /** What the angle adds by the elastic formula. */
  addedN: number
  /** Snug plus added, as if nothing yielded. */
  elasticN: number
  /** As·Rp0.2, pure tension. */
  yieldN?: number
  /** False where the elastic sum passes the yield load: then no preload is promised. */
  elastic: boolean
  /** The elastic sum below yield; past it the yield load, about which the preload then stays. */
  preloadN: number
  /** How much the bolt lengthens from snug on, mm. */
  stretchMm: number
  cautions: CautionCode[]
  basis: BasisId[]
}

/**
 * Preload (N) after turning `angleDeg` from snug: ΔF = kb·kj/(kb + kj)·P·θ/360, kb = E/Σ(l/A).
 *
 * The threaded length counts on the stress area. Valid below yield only. Refused: lengths, stiffness or angles that
 * cannot be, and a start that is not given.
 */
export function anglePreload(input: AnglePreloadInput): AnglePreload | FastenerRefusal {
  const parts = partsOf(input)
  const thread = threadOf(parts.thread)
  if (isRefusal(thread)) return thread
  const { shankMm = 0, threadMm = Number.NaN, angleDeg = Number.NaN, elasticModulusMPa = 205_000 } = parts
  const shankDiaMm = parts.shankDiaMm ?? thread.dMm
  const fault =
    impossible('Shank length', shankMm, 'length_or_none') ??
    impossible('Threaded length', threadMm, 'length_or_none') ??
    impossible('Clamped length', shankMm + threadMm, 'length') ??
    impossible('Shank diameter', shankDiaMm, 'length') ??
    impossible('Young’s modulus', elasticModulusMPa, 'stress') ??
    impossible('Angle', angleDeg, 'angle') ??
    impossibleIfGiven('Joint stiffness', parts.jointStiffnessNPerMm, 'force') ??
    impossibleIfGiven('Ratio of joint to bolt stiffness', parts.jointToBoltStiffness, 'ratio')
  if (fault) return fault
  const snugN = snugOf(parts, thread)
  if (isRefusal(snugN)) return snugN
  const shankArea = (Math.PI / 4) * shankDiaMm * shankDiaMm
  const boltStiffness = elasticModulusMPa / (shankMm / shankArea + threadMm / thread.stressAreaMm2)
  const ratio = parts.jointToBoltStiffness
  if (parts.jointStiffnessNPerMm === undefined && ratio === undefined)
    return no('input_missing', { name: 'Stiffness of the joint' })
  const jointStiffness = parts.jointStiffnessNPerMm ?? boltStiffness * (ratio ?? 1)
  const together = boltStiffness * (jointStiffness / (boltStiffness + jointStiffness))
  const addedN = (together * thread.pitchMm * angleDeg) / 360
  const elasticN = snugN + addedN
  const grade = parts.grade === undefined ? undefined : strengthOf(parts.grade, thread)
  if (isRefusal(grade)) return grade
  const yieldN = grade && thread.stressAreaMm2 * grade.yieldMPa
  const elastic = yieldN === undefined || elasticN <= yieldN
  return {
    thread,
    boltStiffnessNPerMm: boltStiffness,
    jointStiffnessNPerMm: jointStiffness,
    snugN,
    addedN,
    elasticN,
    ...(yieldN === undefined ? {} : { yieldN }),
    elastic,
    preloadN: elastic ? elasticN : (yieldN ?? elasticN),
    stretchMm: addedN / boltStiffness,
    cautions: [
      'maker_governs',
      'angle_after_snug',
      'joint_stiffness_guess',
      ...(elastic ? [] : (['past_yield'] as const)),
      ...thread.cautions,
    ],
    basis: ['angle', ...(grade?.basis ?? []), ...thread.basis],
  }
}

function snugOf(given: Partial<AnglePreloadInput>, thread: Thread): number | FastenerRefusal {
  if (given.snugN !== undefined)
    return impossible('Snug preload', given.snugN, 'force_or_none') ?? given.snugN
  if (given.snugTorqueNm === undefined) return no('input_missing', { name: 'Snug preload or snug torque' })
  const fault =
    impossible('Snug torque', given.snugTorqueNm, 'torque') ?? impossible('Nut factor', given.k, 'nut_factor')
  return fault ?? (given.snugTorqueNm * 1000) / ((given.k ?? 1) * thread.dMm)
}

export interface TurnOfNut {
  turn: '1/3' | '1/2' | '2/3'
  angleDeg: number
  toleranceDeg: number
  basis: BasisId[]
}

/**
 * Turn from snug for structural bolts with both faces square: 1/3 to 4 d, 1/2 to 8 d, 2/3 to 12 d, length under the head.
 *
 * Source: RCSC, Specification for Structural Joints Using High-Strength Bolts, table 8.2; tolerances (30°, 30°, 45°) from memory. Not for engines: shown for comparison.
 */
export function turnOfNut(dMm: number, lengthMm: number): TurnOfNut | FastenerRefusal {
  const fault = impossible('Diameter', dMm, 'length') ?? impossible('Length', lengthMm, 'length')
  if (fault) return fault
  const times = lengthMm / dMm
  const basis: BasisId[] = ['turn_of_nut']
  if (times <= 4 + 1e-9) return { turn: '1/3', angleDeg: 120, toleranceDeg: 30, basis }
  if (times <= 8 + 1e-9) return { turn: '1/2', angleDeg: 180, toleranceDeg: 30, basis }
  if (times <= 12 + 1e-9) return { turn: '2/3', angleDeg: 240, toleranceDeg: 45, basis }
  return no('turn_outside_table', { lengthMm, dMm, uptoMm: 12 * dMm })
}
