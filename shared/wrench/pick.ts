/**
 * The crib ranked for one pass of a joint: which wrench to reach for, and what speaks against each of the others.
 *
 * In this order: fit for use (in service, in date), in reach, in range, room left in the band, high enough on its
 * scale, a scale in the sheet's unit, the plan's own choice. Nothing is hidden: a wrench that does not fit stands
 * last with every reason. The hand chooses.
 */
import type { Adapter } from '../job/types'
import type { Instant } from '../log'
import type { Band, Pass } from '../plan/types'
import type { Wrench } from '../shop/types'
import { hasTorqueScale, inRange, lowOnScale, type Room, roomFor, type Setting, settingOn } from './setting'

/** What a wrench is picked for: a joint as adopted, or any passes with their bands. */
export interface PickJoint {
  passes: readonly Pass[]
  /** `bands[i]` belongs to `passes[i]`; without them only range and date are asked. */
  bands?: readonly (Band | null)[]
}

export interface Crib {
  wrenches: readonly Wrench[] | Readonly<Record<string, Wrench>>
  now: Instant
  /** The adapter the joint needs. */
  adapter?: Adapter
  /** The same adapter on each wrench: the lever is that wrench's own. Wins over `adapter`. */
  adapterOn?: (wrench: Wrench) => Adapter | undefined
  /** By wrench id: where it is now, in words: `in Suvi’s hand on E-105`. Else what its card says. */
  away?: Readonly<Record<string, string>>
}

/** What speaks against a wrench. The first five rule it out, the others only rank it lower. */
export type Demerit =
  | 'failed'
  | 'out_for_check'
  | 'dropped'
  | 'out_of_date'
  | 'out_of_range'
  | 'no_room'
  | 'away'
  | 'low_on_scale'
  | 'between_marks'
  | 'other_unit'

const RULES_OUT: readonly Demerit[] = ['failed', 'out_for_check', 'dropped', 'out_of_date', 'out_of_range']
/** What each adds to the rank; a wrench ruled out stands behind all others. */
const WEIGHT: Record<Demerit, number> = {
  failed: 1000,
  dropped: 1000,
  out_for_check: 1000,
  out_of_date: 500,
  out_of_range: 400,
  no_room: 100,
  away: 50,
  low_on_scale: 20,
  between_marks: 10,
  other_unit: 5,
}

export interface Picked {
  wrench: Wrench
  /** The plan names it for this pass. */
  planned: boolean
  /** Nothing rules it out. */
  fits: boolean
  against: Demerit[]
  setting?: Setting
  room?: Room
  away?: string
}

/**
 * Every wrench of the right kind for pass `pass` (1 for the first) of `joint`, best first. Empty where the pass takes
 * no wrench. `unit on the scale`: the sheet's unit is N·m.
 */
export function pickWrench(joint: PickJoint, pass: number, crib: Crib): Picked[] {
  const passAsked = joint.passes[pass - 1]
  if (passAsked?.kind !== 'torque' && passAsked?.kind !== 'angle') return []
  const band = joint.bands?.[pass - 1] ?? null
  return Object.values(crib.wrenches)
    .filter((wrench) => hasTorqueScale(wrench) === (passAsked.kind === 'torque'))
    .map((wrench) => weigh(wrench, passAsked, band, crib))
    .sort((a, b) => rank(a) - rank(b) || margin(b) - margin(a) || a.wrench.id.localeCompare(b.wrench.id))
}

function weigh(
  wrench: Wrench,
  passAsked: Extract<Pass, { kind: 'torque' | 'angle' }>,
  band: Band | null,
  crib: Crib,
): Picked {
  const against: Demerit[] = []
  if (wrench.state !== 'in_service') against.push(wrench.state)
  if (wrench.dueAt !== undefined && crib.now > wrench.dueAt) against.push('out_of_date')
  const away = crib.away?.[wrench.id] ?? wrench.away
  const adapter = crib.adapterOn ? crib.adapterOn(wrench) : crib.adapter
  const target = passAsked.kind === 'torque' ? passAsked.torqueNm : null
  let setting: Setting | undefined
  let room: Room | undefined
  if (target !== null && hasTorqueScale(wrench)) {
    setting = settingOn(wrench, target, band, adapter)
    if (!inRange(wrench, setting.value)) against.push('out_of_range')
    if (band?.kind === 'torque') {
      room = roomFor(wrench, band, adapter)
      if (!room.can) against.push('no_room')
    }
    if (away) against.push('away')
    if (lowOnScale(wrench, setting.value)) against.push('low_on_scale')
    if (setting.betweenMarks) against.push('between_marks')
    if (wrench.unit !== 'N·m') against.push('other_unit')
  } else if (away) against.push('away')
  return {
    wrench,
    planned: passAsked.wrench === wrench.id,
    fits: !against.some((demerit) => RULES_OUT.includes(demerit)),
    against,
    ...(setting ? { setting } : {}),
    ...(room ? { room } : {}),
    ...(away ? { away } : {}),
  }
}

const rank = ({ against, planned }: Picked): number =>
  against.reduce((sum, demerit) => sum + WEIGHT[demerit], 0) - (planned ? 60 : 0)

const margin = ({ room }: Picked): number => room?.marginPct ?? 0
