/**
 * Preload and torque of a bolt from friction: VDI 2230 (2001 and later), and the short form T = K·d·F.
 *
 * A lubrication state gives a band, never one number. The recommended torque is the one that reaches the utilisation
 * at the LOWEST friction of the band: slipperier is where a torque stretches a bolt most, so no bolt of the band is
 * stressed further; what preload is left at the highest friction is said beside it.
 */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import {
  type FrictionBand,
  frictionBand,
  type LubricationBand,
  type PreloadScatter,
  preloadScatter,
} from './friction'
import { type HoleSeries, usualHead } from './head'
import { impossible, impossibleIfGiven, partsOf } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import { type GradeGiven, type Strength, strengthOf } from './strength'
import { threadOf } from './thread'
import type { Thread, ThreadGiven } from './thread-types'

export interface TighteningInput {
  thread: ThreadGiven
  grade: GradeGiven
  /** Friction in the thread: measured, or a band. */
  muThread?: number | FrictionBand
  /** Friction under the head; the thread's where it is left out. */
  muHead?: number | FrictionBand
  /** Instead of friction: a state (`oil`) or a plan's word for it (`anti-seize, thin`). */
  lubrication?: string
  /** Share of the yield stress that tension and torsion together may reach. */
  utilisation?: number
  headBearingMm?: number
  holeMm?: number
  holeSeries?: HoleSeries
  shank?: 'full' | 'waisted'
  /** Thinnest diameter of a waisted shank. */
  waistMm?: number
  /** How it is tightened, for the scatter of preload. */
  method?: string
}

export interface TighteningAt {
  muThread: number
  muHead: number
  preloadN: number
  torqueNm: number
  /** The nut factor this friction amounts to: torque / (d · preload). */
  k: number
}

export interface Tightening {
  thread: Thread
  grade: Strength
  utilisation: number
  /** Given with measured friction only; a lubrication state answers with its band. */
  preloadN?: number
  torqueNm?: number
  /** At the lowest and at the highest friction, each at full utilisation. */
  low: TighteningAt
  high: TighteningAt
  recommended: {
    torqueNm: number
    /** What that torque makes of the preload, at the highest and at the lowest friction. */
    preloadLowN: number
    preloadHighN: number
    why: 'full_use_at_lowest_friction'
  }
  lubrication?: LubricationBand
  /** The method's scatter about the preload at the middle of the band. It holds friction's share already: not on top of it. */
  scatter?: PreloadScatter & { nominalN: number; preloadLowN: number; preloadHighN: number }
  headBearingMm: number
  holeMm: number
  /** DKm, the mean diameter the head rubs on. */
  headFrictionMm: number
  /** The cross-section that carries: stress area or waist. */
  areaMm2: number
  waistMm?: number
  cautions: CautionCode[]
  basis: BasisId[]
}

/**
 * Preload (N) and tightening torque (N·m) of a bolt, by VDI 2230 with plastic torsion.
 *
 * F = A0·ν·Rp0.2 / √(1 + 3·[(3/2)(d2/d0)·tan(φ + ρ′)]²), M = F·[(d2/2)·tan(φ + ρ′) + DKm·μK/2], tan φ = P/(π·d2),
 * tan ρ′ = μG/cos 30°, DKm = (dW + dh)/2. That is the form table A1 was made with; the sum 0.16·P + 0.58·d2·μG that is often
 * printed beside it leaves out tan φ·tan ρ′ and falls up to 0.8 % short of it at μ 0.3. A0, d0 are the stress area and its diameter (d2 + d3)/2, or those of the waist. Without dW and dh: a hexagon head
 * (ISO 4014) over a medium hole (ISO 273). Refused: threads and grades that are, friction ≤ 0, utilisation above 1,
 * stainless without lubricant, a waisted shank without its waist.
 */
export function tightening(input: TighteningInput): Tightening | FastenerRefusal {
  const parts = partsOf(input)
  const thread = threadOf(parts.thread)
  if (isRefusal(thread)) return thread
  const grade = strengthOf(parts.grade, thread)
  if (isRefusal(grade)) return grade
  const utilisation = parts.utilisation ?? 0.9
  const fault =
    impossible('Utilisation', utilisation, 'utilisation') ??
    impossibleIfGiven('Head bearing diameter', parts.headBearingMm, 'length') ??
    impossibleIfGiven('Clearance hole', parts.holeMm, 'length') ??
    impossibleIfGiven('Waist', parts.waistMm, 'length')
  if (fault) return fault
  const section = sectionOf(thread, parts.shank, parts.waistMm)
  if (isRefusal(section)) return section
  const friction = frictionOf(parts, grade)
  if (isRefusal(friction)) return friction
  const usual = usualHead(thread, parts.holeSeries)
  const headBearingMm = parts.headBearingMm ?? usual.headBearingMm
  const holeMm = parts.holeMm ?? usual.holeMm
  if (holeMm < thread.dMm) return no('hole_below_thread', { holeMm, dMm: thread.dMm })
  if (headBearingMm <= holeMm) return no('bearing_below_hole', { bearingMm: headBearingMm, holeMm })
  const headFrictionMm = (headBearingMm + holeMm) / 2
  const at = (muThread: number, muHead: number): TighteningAt => {
    const preloadN = preloadAt(thread, section, grade.yieldMPa * utilisation, muThread)
    const torqueNm = (preloadN * leverMm(thread, headFrictionMm, muThread, muHead)) / 1000
    return { muThread, muHead, preloadN, torqueNm, k: (torqueNm * 1000) / (thread.dMm * preloadN) }
  }
  const { muThread, muHead } = friction
  const low = at(muThread.low, muHead.low)
  const high = at(muThread.high, muHead.high)
  const torqueNm = low.torqueNm
  const preloadLowN = (torqueNm * 1000) / leverMm(thread, headFrictionMm, muThread.high, muHead.high)
  const nominalN =
    (torqueNm * 1000) /
    leverMm(thread, headFrictionMm, (muThread.low + muThread.high) / 2, (muHead.low + muHead.high) / 2)
  const single = muThread.low === muThread.high && muHead.low === muHead.high && !friction.lubrication
  const scatter = parts.method === undefined ? undefined : preloadScatter(parts.method)
  if (isRefusal(scatter)) return scatter
  const cautions: CautionCode[] = [
    'maker_governs',
    'competent_person',
    'clean_threads',
    ...(single ? [] : (['low_friction_governs', 'friction_dominates'] as const)),
    ...(parts.headBearingMm === undefined ? (['default_head'] as const) : []),
    ...(parts.holeMm === undefined ? (['default_hole'] as const) : []),
    ...(!usual.exact && (parts.headBearingMm === undefined || parts.holeMm === undefined)
      ? (['default_interpolated'] as const)
      : []),
    ...(friction.oneForBoth ? (['one_friction_for_both'] as const) : []),
    ...(utilisation > 0.9 ? (['near_yield'] as const) : []),
    ...(section.waistMm === undefined ? [] : (['waisted'] as const)),
    ...thread.cautions,
    ...grade.cautions.filter((code) => code !== 'proof_from_yield'),
  ]
  return {
    thread,
    grade,
    utilisation,
    ...(single ? { preloadN: low.preloadN, torqueNm: low.torqueNm } : {}),
    low,
    high,
    recommended: { torqueNm, preloadLowN, preloadHighN: low.preloadN, why: 'full_use_at_lowest_friction' },
    ...(friction.lubrication ? { lubrication: friction.lubrication } : {}),
    ...(scatter
      ? {
          scatter: {
            ...scatter,
            nominalN,
            preloadLowN: nominalN * (1 - scatter.plusMinusPct / 100),
            preloadHighN: nominalN * (1 + scatter.plusMinusPct / 100),
          },
        }
      : {}),
    headBearingMm,
    holeMm,
    headFrictionMm,
    areaMm2: section.areaMm2,
    ...(section.waistMm === undefined ? {} : { waistMm: section.waistMm }),
    cautions: [...new Set(cautions)],
    basis: [
      'vdi2230',
      ...(friction.lubrication ? (['friction_classes'] as const) : []),
      ...(parts.headBearingMm === undefined ? (['head_bearing'] as const) : []),
      ...(parts.holeMm === undefined ? (['clearance_hole'] as const) : []),
      ...(scatter ? (['preload_scatter'] as const) : []),
      ...grade.basis,
      ...thread.basis,
    ],
  }
}

interface Section {
  areaMm2: number
  acrossMm: number
  waistMm?: number
}

function sectionOf(
  thread: Thread,
  shank: TighteningInput['shank'],
  waistMm: number | undefined,
): Section | FastenerRefusal {
  if (waistMm === undefined) {
    if (shank === 'waisted') return no('waist_needed', {})
    return { areaMm2: thread.stressAreaMm2, acrossMm: (thread.d2Mm + thread.d3Mm) / 2 }
  }
  if (waistMm >= thread.d3Mm) return no('waist_too_thick', { waistMm, d3Mm: round3(thread.d3Mm) })
  return { areaMm2: (Math.PI / 4) * waistMm * waistMm, acrossMm: waistMm, waistMm }
}

const round3 = (mm: number) => Math.round(mm * 1000) / 1000

/** tan(φ + ρ′): what the helix and the friction on its flanks of 60° take of a newton of preload. */
function threadSlope({ d2Mm, pitchMm }: Thread, muThread: number): number {
  const helix = Math.atan(pitchMm / (Math.PI * d2Mm))
  const friction = Math.atan(muThread / Math.cos(Math.PI / 6))
  return Math.tan(helix + friction)
}

function preloadAt(thread: Thread, section: Section, stressMPa: number, muThread: number): number {
  const twist = 1.5 * (thread.d2Mm / section.acrossMm) * threadSlope(thread, muThread)
  return (section.areaMm2 * stressMPa) / Math.sqrt(1 + 3 * twist * twist)
}

/** Torque per newton of preload, mm. */
const leverMm = (thread: Thread, headFrictionMm: number, muThread: number, muHead: number): number =>
  (thread.d2Mm / 2) * threadSlope(thread, muThread) + (headFrictionMm / 2) * muHead

interface Friction {
  muThread: FrictionBand
  muHead: FrictionBand
  oneForBoth: boolean
  lubrication?: LubricationBand
}

function frictionOf(given: Partial<TighteningInput>, grade: Strength): Friction | FastenerRefusal {
  const { muThread, muHead, lubrication } = given
  if (muThread === undefined && muHead === undefined) {
    if (lubrication === undefined) return no('friction_missing', {})
    const band = frictionBand(lubrication, grade)
    if (isRefusal(band)) return band
    return { muThread: band, muHead: band, oneForBoth: false, lubrication: band }
  }
  const thread = bandOf('Thread friction', muThread ?? muHead)
  if (isRefusal(thread)) return thread
  const head = bandOf('Head friction', muHead ?? muThread)
  if (isRefusal(head)) return head
  return { muThread: thread, muHead: head, oneForBoth: muThread === undefined || muHead === undefined }
}

function bandOf(name: string, mu: number | FrictionBand | undefined): FrictionBand | FastenerRefusal {
  const { low, high } = typeof mu === 'number' ? { low: mu, high: mu } : partsOf<FrictionBand>(mu)
  const fault = impossible(name, low, 'friction') ?? impossible(name, high, 'friction')
  if (fault) return fault
  const band = { low: low ?? 0, high: high ?? 0 }
  if (band.low > band.high)
    return no('number_impossible', { name, given: `${band.low} to ${band.high}`, must: 'from low to high' })
  return band
}
