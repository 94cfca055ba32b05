/**
 * The thread and hole register: which entry of a place is in force, the hole as it is now, and whether the bolt that is
 * to go into it fits. Asked before it is fitted: a bolt that bottoms shows its torque and clamps nothing.
 *
 * Of the maker's own bolt in a hole as the maker left it one thing alone is judged: that it bottoms by the lengths that are
 * printed. How much thread must hold is the maker's to say. Lengths in mm.
 */
import { type Engagement, engagement, type FastenerRefusal, type HoleFit } from '../../fastener'
import { isRefusal } from '../../log'
import { fitIn } from '../../plan/fit'
import { indexPlan } from '../../plan/read'
import type { AdoptedJoint, Joint, TappedHole } from '../../plan/types'
import type { HoleEntry, Job, PlannedJob, ThreadInsert } from '../types'

/** What was last found or done at a hole; `undefined` while nobody has said anything of it. */
export const holeAt = (job: Job, jointId: string, position: number): HoleEntry | undefined =>
  job.holes[jointId]?.findLast((entry) => entry.position === position)

/** Until when a bonded insert cures there; over, or never begun, where it is not after `now`. */
export const curesUntil = (job: Job, jointId: string, position: number): number =>
  holeAt(job, jointId, position)?.curesUntil ?? 0

export interface HoleNow {
  hole: TappedHole
  insert?: ThreadInsert
}

/** [HR8] The plan's hole with what was last recorded of it on top; `undefined` where the plan says nothing of it. */
export function holeNow(job: Job, joint: Joint, position: number): HoleNow | undefined {
  if (!joint.hole) return undefined
  const entry = holeAt(job, joint.id, position)
  if (!entry) return { hole: joint.hole }
  const planned = joint.hole
  const threadMm = entry.threadMm ?? Math.min(planned.threadMm, entry.depthMm ?? planned.threadMm)
  // Measured deeper than the plan drills, the hole was drilled deeper.
  const depthMm =
    entry.depthMm ?? (planned.depthMm === undefined ? undefined : Math.max(planned.depthMm, threadMm))
  const { depthMm: _, ...rest } = planned
  return {
    hole: { ...rest, threadMm, ...(depthMm === undefined ? {} : { depthMm }) },
    ...(entry.condition === 'insert' && entry.insert ? { insert: entry.insert } : {}),
  }
}

/** The length that stands in a place, or that the plan would put there, mm. */
export const lengthHere = (job: Job, joint: Joint, position: number): number | undefined =>
  job.fasteners[joint.id]?.[position]?.lengthMm ?? joint.lengthMm

/** What is longer or shorter in a hole: the plan may call the nut, but it is the stud that goes in. */
export const longPart = (joint: Joint): string =>
  joint.hole?.aboveMm === undefined ? joint.fastener : 'stud'

export interface BoltFit extends HoleNow {
  lengthMm: number
  fit: HoleFit
}

/**
 * [HR8–HR9] How a bolt of a length (mm; that of the place, where none is asked for) fits the hole as it is now.
 *
 * What must hold is 1.5 d, or what the maker's own bolt has in the maker's own hole where that is less, or the insert's
 * length. `undefined` where hole or length are not known; a refusal where what was recorded cannot be.
 */
export function boltFit(
  job: Job,
  joint: Joint,
  position: number,
  lengthMm = lengthHere(job, joint, position),
): BoltFit | FastenerRefusal | undefined {
  const now = holeNow(job, joint, position)
  if (!now || lengthMm === undefined) return undefined
  const fit = onceFor(fits, joint, JSON.stringify([now, lengthMm]), () => fitIn(joint, now, lengthMm))
  return isRefusal(fit) ? fit : { ...now, lengthMm, fit }
}

/** A joint of an adopted plan never changes, and the holes of one are mostly alike: each sort is reckoned once. */
const fits = new WeakMap<Joint, Map<string, HoleFit | FastenerRefusal>>()
const loads = new WeakMap<Joint, Map<string, Engagement | FastenerRefusal>>()

function onceFor<T>(known: WeakMap<Joint, Map<string, T>>, joint: Joint, key: string, reckon: () => T): T {
  const ofJoint = known.get(joint) ?? new Map<string, T>()
  known.set(joint, ofJoint)
  const fit = ofJoint.get(key) ?? reckon()
  ofJoint.set(key, fit)
  return fit
}

/** What stands against a bolt in its hole. Coming near the bottom is a caution, never one of these. */
export type Misfit = 'bottoms_out' | 'too_short' | 'too_long' | 'hole_impossible'

/** What was recorded of a hole and cannot be: no fit can be told, so nothing there is taken for right. */
const IMPOSSIBLE: readonly string[] = [
  'insert_longer_than_hole',
  'thread_deeper_than_hole',
  'insert_outer_thread_small',
  'number_impossible',
]

/** [HR9–HR11] [HR16] What is wrong with the length that stands, or would stand, in a place. */
export function misfit(job: Job, joint: Joint, position: number): Misfit | undefined {
  if (!joint.hole) return undefined
  const fit = boltFit(job, joint, position)
  if (isRefusal(fit))
    return IMPOSSIBLE.includes(fit.refused) && !isAsMade(job, joint, position) ? 'hole_impossible' : undefined
  return fit && misfitOf(fit, isAsMade(job, joint, position))
}

/** [HR10] What stands against a fit; of the maker's own bolt in the maker's own hole, that it bottoms. */
export function misfitOf({ fit: { verdict } }: Pick<BoltFit, 'fit'>, asMade: boolean): Misfit | undefined {
  if (verdict === 'good' || verdict === 'near_bottom') return undefined
  return asMade && verdict !== 'bottoms_out' ? undefined : verdict
}

/** [HR10] The maker's bolt in the maker's hole: nobody measured, renewed or shortened anything here. */
export function isAsMade(job: Job, joint: Joint, position: number): boolean {
  const entry = holeAt(job, joint.id, position)
  const changed =
    entry !== undefined &&
    (entry.insert !== undefined || entry.depthMm !== undefined || entry.threadMm !== undefined)
  const length = job.fasteners[joint.id]?.[position]?.lengthMm
  return !changed && (length === undefined || length === joint.lengthMm)
}

/**
 * [HR13] Which gives first there, bolt or thread, by shear areas; `undefined` where material, grade or a solid insert's
 * outer thread are not known.
 */
export function stripsFirst(joint: Joint, { hole, insert, fit }: BoltFit): Engagement | undefined {
  if (fit.engagementMm <= 0) return undefined
  const input = {
    thread: joint.thread,
    boltGrade: joint.grade,
    holeMaterial: hole.material,
    engagementMm: fit.engagementMm,
    ...(insert ? { insert } : {}),
  }
  const strength = onceFor(loads, joint, JSON.stringify(input), () => engagement(input))
  return isRefusal(strength) ? undefined : strength
}

export interface RegisterRow {
  joint: AdoptedJoint
  position: number
  /** Every entry of the place, oldest first; none where only the bolt is of another length. */
  entries: HoleEntry[]
}

/** Every place of which something was recorded, or whose bolt is of another length, as the plan lists them. */
export function holeRegister(job: PlannedJob): RegisterRow[] {
  return [...indexPlan(job.plan).jointById.values()].flatMap((joint) => {
    const byPosition = new Map<number, HoleEntry[]>()
    for (const entry of job.holes[joint.id] ?? [])
      byPosition.set(entry.position, [...(byPosition.get(entry.position) ?? []), entry])
    return joint.positions.flatMap(({ n }) => {
      const entries = byPosition.get(n) ?? []
      return entries.length > 0 || !isAsMade(job, joint, n) ? [{ joint, position: n, entries }] : []
    })
  })
}
