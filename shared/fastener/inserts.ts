/**
 * Thread inserts: what a wire or solid insert needs, and how much thread it leaves the bolt.
 *
 * Wire insert rules: ASME B18.29.8M-2005, found quoted; the tapped thread's diameters from memory (NASM33537, DIN 8140).
 * A solid insert holds by its outer thread, which only its maker's data name.
 */
import { isRefusal } from '../log'
import type { BasisId } from './basis'
import type { CautionCode } from './cautions'
import { impossible, impossibleIfGiven, partsOf, shown } from './numbers'
import { type FastenerRefusal, no } from './refusals'
import { threadOf } from './thread'
import type { Thread, ThreadGiven } from './thread-types'

export interface InsertGiven {
  kind: 'wire' | 'solid'
  /** Nominal length, mm. */
  lengthMm?: number
  /** Or in diameters: 1, 1.5, 2, 2.5, 3. 1.5 where neither is given. */
  lengthD?: number
  /** How far it is set below the surface, mm. */
  setDownMm?: number
  /** The outer thread of a solid insert. */
  outerThread?: ThreadGiven
  /** The maker's pull-out load in this material, N. */
  pullOutN?: number
}

export interface InsertPlan {
  kind: 'wire' | 'solid'
  nominalMm: number
  /** Length once in its hole, least and most. */
  installedMinMm: number
  installedMaxMm: number
  /** Below the surface, least and most, or as given. */
  setDownMinMm: number
  setDownMaxMm: number
  /** How much of its thread a bolt can count on: the least installed length. */
  usableMm: number
  /** Full thread to tap. */
  threadDepthMm: number
  /** Drill depth of a blind hole. */
  drillDepthPlugMm: number
  drillDepthBottomingMm: number
  /** The thread to tap into the part. */
  tapped: { pitchMm: number; minorMinMm: number; pitchDiaMm: number; majorMinMm: number }
  pullOutN?: number
  cautions: CautionCode[]
  basis: BasisId[]
}

/** What of an insert a bolt's fit asks: where it sits and how much of it holds. */
export type InsertHold = Pick<
  InsertPlan,
  | 'kind'
  | 'nominalMm'
  | 'installedMinMm'
  | 'setDownMinMm'
  | 'setDownMaxMm'
  | 'usableMm'
  | 'cautions'
  | 'basis'
> &
  Partial<InsertPlan>

export const WIRE_LENGTHS_D = [1, 1.5, 2, 2.5, 3] as const

/**
 * What an insert of a thread needs and leaves, mm.
 *
 * Wire: installed = nominal − 0.75 P to − 0.5 P; full thread = nominal + P; drill = nominal + 6 P with a plug tap (d/2
 * more up to 8 mm), nominal + 4 P with a bottoming tap; set down 0.75 to 1.5 P; tapped minor d + 0.216506 P, pitch
 * d + 0.649519 P, major d + 1.299038 P. Solid: its own length; its outer thread is the one to tap.
 */
export function insertPlan(
  given: ThreadGiven,
  insert: InsertGiven | InsertGiven['kind'],
): InsertPlan | FastenerRefusal {
  const read = readInsert(given, insert)
  if (isRefusal(read)) return read
  const { thread, parts, nominalMm } = read
  return parts.kind === 'wire'
    ? wire(parts, nominalMm, thread.dMm, thread.pitchMm)
    : solid(parts, nominalMm, thread)
}

/**
 * Where an insert sits and how much thread it leaves the bolt, mm: length and set-down are enough, so a solid one whose
 * outer thread nobody gave still has a fit. What it bears is another question (`insertPlan`).
 */
export function insertHold(
  given: ThreadGiven,
  insert: InsertGiven | InsertGiven['kind'],
): InsertHold | FastenerRefusal {
  const read = readInsert(given, insert)
  if (isRefusal(read)) return read
  const { parts, nominalMm } = read
  return parts.kind === 'solid' && parts.outerThread === undefined
    ? { ...solidHold(parts, nominalMm), cautions: ['insert_maker'], basis: [] }
    : insertPlan(given, insert)
}

function readInsert(threadGiven: ThreadGiven, insert: InsertGiven | InsertGiven['kind']) {
  const thread = threadOf(threadGiven)
  if (isRefusal(thread)) return thread
  const parts: Partial<InsertGiven> = typeof insert === 'string' ? { kind: insert } : partsOf(insert)
  if (parts.kind !== 'wire' && parts.kind !== 'solid')
    return no('insert_unknown', { text: shown(parts.kind) })
  const fault =
    impossibleIfGiven('Insert length', parts.lengthMm, 'length') ??
    impossibleIfGiven('Insert length in diameters', parts.lengthD, 'ratio') ??
    impossibleIfGiven('Set-down', parts.setDownMm, 'length_or_none') ??
    impossibleIfGiven('Pull-out load', parts.pullOutN, 'force')
  if (fault) return fault
  const nominalMm = parts.lengthMm ?? (parts.lengthD ?? 1.5) * thread.dMm
  return impossible('Insert length', nominalMm, 'length') ?? { thread, parts, nominalMm }
}

const solidHold = (parts: Partial<InsertGiven>, nominalMm: number) => ({
  kind: 'solid' as const,
  nominalMm,
  installedMinMm: nominalMm,
  installedMaxMm: nominalMm,
  setDownMinMm: parts.setDownMm ?? 0,
  setDownMaxMm: parts.setDownMm ?? 0.5,
  usableMm: nominalMm,
  ...(parts.pullOutN === undefined ? {} : { pullOutN: parts.pullOutN }),
})

function wire(parts: Partial<InsertGiven>, nominalMm: number, dMm: number, pitchMm: number) {
  const installedMinMm = nominalMm - 0.75 * pitchMm
  const short = impossible('Insert length', installedMinMm, 'length')
  if (short)
    return no('number_impossible', {
      name: 'Insert length',
      given: `${nominalMm} mm`,
      must: 'above 0.75 pitches',
    })
  return {
    kind: 'wire' as const,
    nominalMm,
    installedMinMm,
    installedMaxMm: nominalMm - 0.5 * pitchMm,
    setDownMinMm: parts.setDownMm ?? 0.75 * pitchMm,
    setDownMaxMm: parts.setDownMm ?? 1.5 * pitchMm,
    usableMm: installedMinMm,
    threadDepthMm: nominalMm + pitchMm,
    drillDepthPlugMm: nominalMm + 6 * pitchMm + (dMm <= 8 ? dMm / 2 : 0),
    drillDepthBottomingMm: nominalMm + 4 * pitchMm,
    tapped: {
      pitchMm,
      minorMinMm: dMm + 0.216506 * pitchMm,
      pitchDiaMm: dMm + 0.649519 * pitchMm,
      majorMinMm: dMm + 1.299038 * pitchMm,
    },
    ...(parts.pullOutN === undefined ? {} : { pullOutN: parts.pullOutN }),
    cautions: ['insert_maker', 'insert_below_coil'] satisfies CautionCode[],
    basis: ['insert_wire', 'insert_tap'] satisfies BasisId[],
  }
}

function solid(parts: Partial<InsertGiven>, nominalMm: number, thread: Thread): InsertPlan | FastenerRefusal {
  if (parts.outerThread === undefined) return no('insert_outer_thread_needed', {})
  const outer = threadOf(parts.outerThread)
  if (isRefusal(outer)) return outer
  // A wall: the outer thread's root must stand clear of the inner thread's major diameter.
  if (outer.d3Mm <= thread.dMm)
    return no('insert_outer_thread_small', { outer: outer.designation, thread: thread.designation })
  return {
    ...solidHold(parts, nominalMm),
    threadDepthMm: nominalMm + outer.pitchMm,
    drillDepthPlugMm: nominalMm + 6 * outer.pitchMm,
    drillDepthBottomingMm: nominalMm + 4 * outer.pitchMm,
    tapped: {
      pitchMm: outer.pitchMm,
      minorMinMm: outer.D1Mm,
      pitchDiaMm: outer.d2Mm,
      majorMinMm: outer.dMm,
    },
    cautions: ['insert_maker'],
    basis: ['strip'],
  }
}
