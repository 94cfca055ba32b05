/**
 * A torque proposed where none is published: from thread, grade, friction and what the hole bears, or every reason against it.
 *
 * It is a proposal to a competent person, never a value by itself. The weakest link caps it: at the lowest friction of
 * the band, and at the top of the limits, neither the bolt yields nor a thread strips. All that it was reckoned from
 * and said stands in it as data and words, so that a record shows it years later without reckoning anything again.
 */
import { isRefusal } from '../log'
import { BASIS, type BasisId, type BasisStatus } from './basis'
import { CAUTIONS, type CautionCode } from './cautions'
import { type Engagement, engagement, type WeakestLink } from './engagement'
import { type FrictionBand, readLubrication } from './friction'
import type { InsertGiven } from './inserts'
import { type HoleMaterialGiven, holeMaterial } from './materials'
import { hasText } from './numbers'
import { not, type ProposalRefusal } from './proposal-refusals'
import type { FastenerRefusal } from './refusals'
import { type GradeGiven, strengthOf } from './strength'
import { thread as readThread } from './thread'
import { type Tightening, tightening } from './tightening'

/** What is known of the joint, from plan and register. Lengths in mm. */
export interface ProposalJoint {
  /** `bolt`, `nut`, `stud`; anything else is not reckoned. */
  fastener: string
  thread: string
  grade: string
  lubrication: string
  /** The torque comes before an angle, or a later torque pass tightens further. */
  angle?: boolean
  pass: number
  laterPass?: number
  holeMaterial?: string
  engagementMm?: number
  /** What the register says of a hole and cannot be: an insert longer than its thread. */
  fault?: FastenerRefusal
  /** A bolt longer than its hole has room for. */
  bottoms?: { lengthMm: number; roomMm: number }
  /** Inserts of the register, each kind once; `plain` where some holes have none. */
  inserts?: readonly InsertGiven[]
  plain?: boolean
  stripped?: readonly number[]
  worn?: readonly number[]
  /** What the shop allows either side, per cent of the torque. */
  tolerancePct: number
}

/** What a person adds or puts in place of what the plan says. */
export interface ProposalAdded {
  /** By its name here, or a shear strength from the maker’s data with the words for it. */
  holeMaterial?: string | { words: string; shearMPa: number }
  engagementMm?: number
  /** Share of yield; 0.9 where it is left out. */
  utilisation?: number
  /** Read from the head; taken only where the plan names no bolt grade that is known. */
  grade?: string
  /** What the plan's word means; taken only where that is not one of the vocabulary. */
  lubrication?: string
  /** Measured, in place of the band of the lubrication. */
  friction?: FrictionBand
  headBearingMm?: number
  clearanceHoleMm?: number
}

export interface ProposalInputs {
  thread: string
  grade: string
  lubrication: string
  frictionLow: number
  frictionHigh: number
  holeMaterial: string
  holeShearMPa: number
  engagementMm: number
  utilisation: number
  headBearingMm: number
  clearanceHoleMm: number
  tolerancePct: number
  insert?: { kind: string; usableMm: number }
}

export interface ProposalResults {
  /** Proposed, with its limits, and the torque that no limit may pass. */
  torqueNm: number
  minNm: number
  maxNm: number
  ceilingNm: number
  /** What the proposed torque makes of the preload, at the highest and the lowest friction. */
  preloadLowN: number
  preloadHighN: number
  /** What each link bears, N: the bolt breaks, a thread strips. */
  boltN: number
  boltThreadN: number
  holeThreadN: number
  weakest: WeakestLink
  /** Weakest link over highest preload. */
  margin: number
  /** What holds the torque below full use of the bolt, and what full use would have been. */
  heldBy?: 'hole_thread' | 'bolt_thread' | 'limits'
  fullUseNm: number
}

export interface Proposal {
  added: ProposalAdded
  inputs: ProposalInputs
  results: ProposalResults
  /** As they were shown. */
  cautions: string[]
  basis: { title: string; formula: string; source: string; status: BasisStatus }[]
}

export type Proposed = { proposal: Proposal } | { refusals: ProposalRefusal[] }

const CLAMPS: readonly string[] = ['bolt', 'nut', 'stud']
const DEFAULT_UTILISATION = 0.9
/** Common practice, no source: fewer full turns than this are not reckoned with. */
const LEAST_TURNS = 3

/**
 * A torque (N·m) with limits, preload band (N) and weakest link; or all reasons against it, each once.
 *
 * Preload F at lowest friction = share · least of (yield-limited preload, bolt-thread strip load, hole-thread strip load),
 * share = least of (utilisation, 1/(1 + tolerance)): so that the top of the limits stays at or below that load. Torque by VDI 2230,
 * rounded down to what a scale shows. Sources in `basis`.
 */
export function propose(joint: ProposalJoint, added: ProposalAdded = {}): Proposed {
  const refusals: ProposalRefusal[] = []
  const keep = <T>(answer: T): Exclude<T, ProposalRefusal> | undefined => {
    if (!isRefusal(answer)) return answer as Exclude<T, ProposalRefusal>
    const refusal = answer as unknown as ProposalRefusal
    if (!refusals.some(({ refused }) => refused === refusal.refused)) refusals.push(refusal)
    return undefined
  }
  if (!CLAMPS.includes(joint.fastener)) refusals.push(not('not_a_clamp', { fastener: joint.fastener }))
  if (joint.angle) refusals.push(not('angle_in_joint', {}))
  else if (joint.laterPass !== undefined)
    refusals.push(not('later_pass_tightens', { pass: joint.pass, later: joint.laterPass }))
  if (joint.stripped?.length) refusals.push(not('hole_stripped', { positions: [...joint.stripped] }))
  if (joint.worn?.length) refusals.push(not('hole_worn', { positions: [...joint.worn] }))
  if (joint.fault) keep(joint.fault)
  if (joint.bottoms) refusals.push(not('bolt_bottoms', joint.bottoms))
  const thread = keep(readThread(joint.thread))
  const read: GradeGiven = gradeOf(joint, added)
  // Without a thread the grade is still judged: both reasons are told at once.
  const grade = keep(strengthOf(read, thread ?? { dMm: 10, system: 'metric' }))
  const tight =
    thread && grade
      ? keep(
          tightening({
            thread,
            grade,
            ...(added.friction
              ? { muThread: added.friction, muHead: added.friction }
              : { lubrication: lubricationOf(joint, added) }),
            utilisation: added.utilisation ?? DEFAULT_UTILISATION,
            ...(added.headBearingMm === undefined ? {} : { headBearingMm: added.headBearingMm }),
            ...(added.clearanceHoleMm === undefined ? {} : { holeMm: added.clearanceHoleMm }),
          }),
        )
      : undefined
  const materialGiven = added.holeMaterial ?? joint.holeMaterial
  const material =
    materialGiven === undefined || materialGiven === ''
      ? keep(not('hole_unknown', { fastener: joint.fastener }))
      : keep(holeMaterial(materialGiven as HoleMaterialGiven))
  const engagementMm = added.engagementMm ?? joint.engagementMm
  if (engagementMm === undefined) keep(not('engagement_unknown', {}))
  else if (thread && engagementMm < LEAST_TURNS * thread.pitchMm - 1e-9)
    keep(
      not('too_few_threads', {
        engagementMm: decimals(engagementMm, 2),
        wantedMm: decimals(LEAST_TURNS * thread.pitchMm, 2),
      }),
    )
  if (!thread || !grade || !material || engagementMm === undefined || refusals.length > 0) return { refusals }
  const holes: (InsertGiven | undefined)[] = [...(joint.inserts ?? [])]
  if (joint.plain !== false || holes.length === 0) holes.push(undefined)
  const borne = holes.map((insert) =>
    keep(
      engagement({
        thread,
        boltGrade: grade,
        holeMaterial: material,
        engagementMm,
        ...(insert === undefined ? {} : { insert }),
      }),
    ),
  )
  const least = borne
    .filter((strength) => strength !== undefined)
    .toSorted((a, b) => threadsN(a) - threadsN(b))
    .at(0)
  if (!tight || !least || refusals.length > 0) return { refusals }
  return { proposal: made(joint, added, tight, least) }
}

/** The plan's grade goes first; a person's stands in only where the plan's is no bolt grade that is known. */
function gradeOf(joint: ProposalJoint, added: ProposalAdded): string {
  if (!hasText(added.grade) || added.grade.trim() === '') return joint.grade
  const planned = strengthOf(joint.grade, { dMm: 10, system: 'metric' })
  const unread = isRefusal(planned) && /^grade_un/.test(planned.refused)
  return unread ? added.grade : joint.grade
}

/** Likewise: a person says what a word of the plan means, never another coating than it names. */
const lubricationOf = ({ lubrication }: ProposalJoint, added: ProposalAdded): string =>
  added.lubrication !== undefined && isRefusal(readLubrication(lubrication)) ? added.lubrication : lubrication

const threadsN = ({ boltStripN, holeStripN }: Engagement): number => Math.min(boltStripN, holeStripN)

function made(joint: ProposalJoint, added: ProposalAdded, tight: Tightening, held: Engagement): Proposal {
  const { low, utilisation } = tight
  const share = Math.min(utilisation, 1 / (1 + joint.tolerancePct / 100))
  const nmPerN = low.torqueNm / low.preloadN
  const yieldN = low.preloadN / utilisation
  const bearsN = Math.min(yieldN, threadsN(held))
  const torqueNm = asOnAScale(share * bearsN * nmPerN)
  const heldBy =
    bearsN < yieldN
      ? held.holeStripN <= held.boltStripN
        ? 'hole_thread'
        : 'bolt_thread'
      : share < utilisation
        ? 'limits'
        : undefined
  const preloadHighN = torqueNm / nmPerN
  const cautions: CautionCode[] = [...new Set<CautionCode>([...tight.cautions, ...held.cautions])]
  const basis: BasisId[] = [...new Set<BasisId>([...tight.basis, ...held.basis])]
  const { muThread: frictionLow } = low
  return {
    added,
    inputs: {
      thread: tight.thread.designation,
      grade: tight.grade.grade,
      lubrication: added.friction ? 'measured' : lubricationOf(joint, added),
      frictionLow,
      frictionHigh: tight.high.muThread,
      holeMaterial: held.material.words,
      holeShearMPa: held.holeShearMPa,
      engagementMm: held.engagementMm,
      utilisation,
      headBearingMm: tight.headBearingMm,
      clearanceHoleMm: tight.holeMm,
      tolerancePct: joint.tolerancePct,
      ...(held.insert ? { insert: { kind: held.insert.kind, usableMm: held.insert.usableMm } } : {}),
    },
    results: {
      torqueNm,
      minNm: micro(torqueNm * (1 - joint.tolerancePct / 100)),
      maxNm: micro(torqueNm * (1 + joint.tolerancePct / 100)),
      ceilingNm: micro(bearsN * nmPerN),
      preloadLowN: (torqueNm * tight.recommended.preloadLowN) / tight.recommended.torqueNm,
      preloadHighN,
      boltN: held.boltBreakN,
      boltThreadN: held.boltStripN,
      holeThreadN: held.holeStripN,
      weakest: held.weakest,
      margin: held.weakestN / preloadHighN,
      ...(heldBy ? { heldBy } : {}),
      fullUseNm: low.torqueNm,
    },
    cautions: cautions.map((code) => CAUTIONS[code]),
    basis: basis.map((id) => ({ ...BASIS[id] })),
  }
}

/** Rounded down, never up: to 0.1 N·m below 10, to 0.5 below 100, to whole ones below 1000, to tens above. */
export function asOnAScale(torqueNm: number): number {
  const step = torqueNm < 10 ? 0.1 : torqueNm < 100 ? 0.5 : torqueNm < 1000 ? 1 : 10
  const rounded = decimals(Math.floor(torqueNm / step + 1e-9) * step, 1)
  return rounded > 0 ? rounded : torqueNm
}

const micro = (nm: number): number => decimals(nm, 6)
const decimals = (value: number, count: number): number => Math.round(value * 10 ** count) / 10 ** count
