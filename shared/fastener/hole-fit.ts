/**
 * Does this bolt fit this hole: how much thread holds, what clearance is left at the bottom, and which lengths would be right.
 *
 * A bolt that bottoms shows its torque and clamps nothing; one too short strips. Both are found before it is fitted.
 * A bolt is not all thread: its shank must not reach the hole.
 * Trade rules: two pitches of clearance, 1.5 d of thread unless a length is worked out (`engagement.ts`).
 */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import { engagement } from './engagement'
import { type InsertGiven, type InsertHold, insertHold } from './inserts'
import type { HoleMaterialGiven } from './materials'
import { impossible, impossibleIfGiven, partsOf } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import type { GradeGiven } from './strength'
import { threadOf } from './thread'
import type { Thread, ThreadGiven } from './thread-types'

export interface HoleFitInput {
  /** Under the head. */
  boltLengthMm: number
  /** Everything clamped, without the washer. */
  stackMm: number
  washerMm?: number
  holeDepthMm: number
  /** Full thread, from the face; of a nut, its height. */
  threadDepthMm: number
  /** Open at the far end, or a nut: nothing to bottom on. */
  through?: boolean
  thread: ThreadGiven
  /** Its kind alone stands for one of 1.5 d. */
  insert?: InsertGiven | InsertGiven['kind']
  /** Least thread that must hold; else reckoned from grade and material, else 1.5 d. */
  minEngagementMm?: number
  boltGrade?: GradeGiven
  holeMaterial?: HoleMaterialGiven
  /** Length of the bolt's own thread as measured or printed; without it the standard's is assumed, and that is said. */
  boltThreadMm?: number
}

/**
 * `near_bottom`: it does not bottom, but less than two pitches are left. `too_long`: more than a diameter stands out of a
 * through hole or a nut.
 */
export type HoleVerdict = 'good' | 'near_bottom' | 'bottoms_out' | 'too_short' | 'too_long'

export interface HoleFit {
  thread: Thread
  /** How far the bolt goes in; with an insert, how much of it the insert holds. */
  engagementMm: number
  /** How far the bolt's end goes below the face. */
  reachMm: number
  /** Thread left below the bolt's end; below 0 it bottoms, or stands out of a through hole. */
  clearanceMm: number
  wantedClearanceMm: number
  minEngagementMm: number
  /** In diameters, as the trade speaks of it. */
  engagementD: number
  verdict: HoleVerdict
  /** Bolt lengths from which it holds and up to which it clears, mm; none where the two cross. */
  shortestMm: number
  longestMm: number
  /** The standard lengths between them whose thread reaches far enough toward the head. */
  rightLengthsMm: number[]
  /** The thread length that was taken because none was given, and what would follow from it; the verdict leaves it out. */
  assumed?: { boltThreadMm: number; follows?: ShankFault }
  insert?: InsertHold
  cautions: CautionCode[]
  basis: BasisId[]
}

/** The shank stands on the hole's edge, or the last, incomplete threads beside it do: nothing is clamped. */
export type ShankFault = 'shank' | 'run_out'

/**
 * Thread length of a standard bolt, mm: all of it below four diameters, else b of ISO 4014 (2d + 6 up to 125 mm, 2d + 12 up
 * to 200, 2d + 25 above), inch bolts b of ASME B18.2.1 (2d + 1/4 in up to 6 in, 2d + 1/2 in above). All from memory.
 */
export function standardThreadMm({ dMm, system }: Pick<Thread, 'dMm' | 'system'>, lengthMm: number): number {
  if (lengthMm < 4 * dMm) return lengthMm
  const more =
    system === 'metric' ? (lengthMm <= 125 ? 6 : lengthMm <= 200 ? 12 : 25) : lengthMm <= 152.4 ? 6.35 : 12.7
  return Math.min(lengthMm, 2 * dMm + more)
}

/** ISO 888, mm: nominal lengths of bolts and studs, the second-choice ones too. From memory. */
export const STANDARD_LENGTHS_MM: readonly number[] = [
  2, 2.5, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85,
  90, 95, 100, 105, 110, 115, 120, 125, 130, 140, 150, 160, 170, 180, 190, 200, 220, 240, 260, 280, 300, 320,
  340, 360, 380, 400, 420, 440, 460, 480, 500,
]

/**
 * Engagement and bottom clearance of a bolt in a blind or through hole, mm, with a verdict and the right lengths.
 *
 * Engagement = length − stack − washer; clearance = full thread − engagement, at least 2 P wanted. Through holes and nuts do
 * not bottom: where the thread is shorter than what must hold, it is filled and one thread stands out (FAA AC 43.13-1B),
 * three at most (common practice). An insert holds from
 * its set-down on and no longer than its least installed length; its outer thread is not asked. A bolt is threaded as given;
 * an assumed length changes no verdict, but is told with what would follow. Refused: lengths below nothing, a thread deeper
 * than its hole, an insert longer than the thread.
 */
export function holeFit(input: HoleFitInput): HoleFit | FastenerRefusal {
  const parts = partsOf(input)
  const thread = threadOf(parts.thread)
  if (isRefusal(thread)) return thread
  const { boltLengthMm = Number.NaN, stackMm = Number.NaN, washerMm = 0 } = parts
  const { holeDepthMm = Number.NaN, threadDepthMm = Number.NaN } = parts
  const fault =
    impossible('Bolt length', boltLengthMm, 'length') ??
    impossible('Stack', stackMm, 'length_or_none') ??
    impossible('Washer', washerMm, 'length_or_none') ??
    impossible('Hole depth', holeDepthMm, 'length') ??
    impossible('Thread depth', threadDepthMm, 'length') ??
    impossibleIfGiven('Least engagement', parts.minEngagementMm, 'length') ??
    impossibleIfGiven('Length of the bolt’s thread', parts.boltThreadMm, 'length')
  if (fault) return fault
  if (threadDepthMm > holeDepthMm) return no('thread_deeper_than_hole', { threadDepthMm, holeDepthMm })
  const insert = parts.insert === undefined ? undefined : insertHold(thread, parts.insert)
  if (isRefusal(insert)) return insert
  if (insert && insert.installedMinMm + insert.setDownMinMm > threadDepthMm)
    return no('insert_longer_than_hole', { insertMm: insert.nominalMm, holeMm: threadDepthMm })
  const clampedMm = stackMm + washerMm
  const reachMm = boltLengthMm - clampedMm
  const setDownMm = insert?.setDownMaxMm ?? 0
  // A through hole holds no more than its thread is deep; a blind one says by its clearance that the bolt went too far.
  const heldMm = parts.through === true ? Math.min(reachMm, threadDepthMm) : reachMm
  const engagementMm = Math.max(0, insert ? Math.min(heldMm - setDownMm, insert.usableMm) : heldMm)
  const clearanceMm = threadDepthMm - Math.max(0, reachMm)
  const wantedClearanceMm = 2 * thread.pitchMm
  const minEngagementMm = leastEngagement(parts, thread, insert)
  if (typeof minEngagementMm !== 'number') return minEngagementMm
  const shankFault = (lengthMm: number, boltThread: number): ShankFault | undefined => {
    const short = lengthMm - boltThread - clampedMm
    // The incomplete threads beside the shank: about 2.5 pitches, ISO 3508, from memory.
    return short <= EPSILON ? undefined : short <= 2.5 * thread.pitchMm ? 'run_out' : 'shank'
  }
  const { boltThreadMm } = parts
  const assumedMm = standardThreadMm(thread, boltLengthMm)
  const shank = shankFault(boltLengthMm, boltThreadMm ?? assumedMm)
  const shankBottoms = boltThreadMm !== undefined && shank !== undefined
  // One threaded to its head is bought so in other lengths too; one with a shank keeps the standard's or its own thread.
  const reachesStack = (lengthMm: number) =>
    boltThreadMm === undefined
      ? shankFault(lengthMm, standardThreadMm(thread, lengthMm)) === undefined
      : boltThreadMm >= boltLengthMm || shankFault(lengthMm, boltThreadMm) === undefined
  const through = parts.through === true
  const fillsThread = through && setDownMm + minEngagementMm > threadDepthMm
  const shortestMm = clampedMm + (fillsThread ? threadDepthMm + thread.pitchMm : setDownMm + minEngagementMm)
  const longestMm = clampedMm + threadDepthMm + (through ? 3 * thread.pitchMm : -wantedClearanceMm)
  const tooShort = fillsThread
    ? boltLengthMm < shortestMm - EPSILON
    : engagementMm < minEngagementMm - EPSILON
  const verdict: HoleVerdict =
    (!through && clearanceMm <= EPSILON) || shankBottoms
      ? 'bottoms_out'
      : tooShort
        ? 'too_short'
        : through && -clearanceMm > thread.dMm + EPSILON
          ? 'too_long'
          : !through && clearanceMm < wantedClearanceMm - EPSILON
            ? 'near_bottom'
            : 'good'
  return {
    thread,
    engagementMm,
    reachMm,
    clearanceMm,
    wantedClearanceMm,
    minEngagementMm,
    engagementD: engagementMm / thread.dMm,
    verdict,
    shortestMm,
    longestMm,
    rightLengthsMm:
      insert && insert.usableMm < minEngagementMm - EPSILON
        ? []
        : STANDARD_LENGTHS_MM.filter(
            (mm) => mm >= shortestMm - EPSILON && mm <= longestMm + EPSILON && reachesStack(mm),
          ),
    ...(boltThreadMm === undefined && assumedMm < boltLengthMm
      ? { assumed: { boltThreadMm: assumedMm, ...(shank ? { follows: shank } : {}) } }
      : {}),
    ...(insert ? { insert } : {}),
    cautions: [
      ...(parts.minEngagementMm === undefined && !isProvable(parts) ? (['engagement_rule'] as const) : []),
      ...(verdict === 'near_bottom' ? (['clearance_two_pitches'] as const) : []),
      ...(shankBottoms ? (['shank_in_hole'] as const) : []),
      ...(boltThreadMm === undefined && shank ? (['thread_length_assumed'] as const) : []),
      through ? 'protrudes' : 'fluid_in_hole',
      ...(insert?.cautions ?? []),
      ...thread.cautions,
    ],
    basis: [
      'hole_fit',
      'lengths',
      ...(boltThreadMm === undefined ? (['bolt_thread'] as const) : []),
      ...(insert?.basis ?? []),
      ...thread.basis,
    ],
  }
}

const isProvable = ({ boltGrade, holeMaterial }: Partial<HoleFitInput>) =>
  boltGrade !== undefined && holeMaterial !== undefined

/** As entered; or so much that the bolt breaks before a thread strips; or 1.5 d, an insert's length at most. */
function leastEngagement(
  given: Partial<HoleFitInput>,
  thread: Thread,
  insert: InsertHold | undefined,
): number | FastenerRefusal {
  if (given.minEngagementMm !== undefined) return given.minEngagementMm
  const { boltGrade, holeMaterial } = given
  if (boltGrade === undefined || holeMaterial === undefined)
    return Math.min(1.5 * thread.dMm, insert?.usableMm ?? Number.POSITIVE_INFINITY)
  const proven = engagement({
    thread,
    boltGrade,
    holeMaterial,
    engagementMm: thread.dMm,
    ...(insert?.kind === 'wire' && given.insert ? { insert: given.insert } : {}),
  })
  if (isRefusal(proven)) return proven
  // In the part a solid insert stands with its whole length: what the bolt needs of it is its own thread.
  return insert?.kind === 'solid' ? proven.lengthForBoltThreadMm : proven.lengthForBoltFirstMm
}

/** A thousandth of a micrometre: sums of decimals are compared to it, so that 22.5 − 20 is exactly two pitches of 1.25. */
const EPSILON = 1e-6
