/**
 * The adapter on the wrench in hand: a crowfoot or an extension that lengthens the lever. Pure.
 *
 * Remembered for this wrench in this joint as long as nobody stops; afterwards, and on another wrench, it is asked
 * again rather than supposed, because a setting made for a lever that is gone over- or undertightens.
 */
import type { Adapter, PlannedJob, ScaleEntry } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import type { Wrench } from '../../../shared/shop/types'
import { type WrenchRefusal, wrenchSetting } from '../../../shared/wrench'
import { format } from '../../format'

type AdapterNow =
  /** Nothing between wrench and fastener but a socket. */
  | { kind: 'none' }
  | { kind: 'on'; adapter: Adapter }
  /** The last number for this joint was set with one: is it on now? */
  | { kind: 'ask'; last: ScaleEntry; before: Adapter; sound: boolean }

interface AdapterAsked {
  wrench: Wrench | undefined
  jointId: string
  by: string
}

/** `stated`: at this page since the last stop; `null` for none. */
export function adapterNow(
  job: PlannedJob,
  { wrench, jointId, by }: AdapterAsked,
  stated: Adapter | null | undefined,
): AdapterNow {
  if (wrench?.kind !== 'click') return { kind: 'none' }
  if (stated !== undefined) return stated ? { kind: 'on', adapter: stated } : { kind: 'none' }
  const scale = job.scales[wrench.id]
  if (scale?.jointId === jointId && scale.by === by)
    return scale.adapter ? { kind: 'on', adapter: scale.adapter } : { kind: 'none' }
  const last = job.scaleLog.findLast((entry) => entry.jointId === jointId)
  if (!last?.adapter) return { kind: 'none' }
  const own = wrench.lengthMm ?? (last.wrenchId === wrench.id ? last.adapter.wrenchMm : undefined)
  const before = { ...last.adapter, wrenchMm: own ?? last.adapter.wrenchMm }
  return { kind: 'ask', last, before, sound: own !== undefined && !leverFault(before) }
}

/** Why no torque can be reckoned through it. */
export function leverFault(adapter: Adapter): WrenchRefusal | undefined {
  // The torque has no say in whether a lever is one.
  const setting = wrenchSetting({ targetNm: 1, ...adapter })
  return isRefusal(setting) ? (setting as WrenchRefusal) : undefined
}

export const sameAdapter = (a: Adapter | undefined, b: Adapter | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    a.wrenchMm === b.wrenchMm &&
    a.adapterMm === b.adapterMm &&
    a.angleDeg === b.angleDeg)

/** The four ways a hand turns a crowfoot without measuring. */
export const ANGLES: readonly { deg: number; title: string; means: string }[] = [
  { deg: 0, title: 'Straight out', means: 'in line, away from the hand' },
  { deg: 45, title: '45°', means: 'halfway to square' },
  { deg: 90, title: 'Square', means: 'the setting does not change' },
  { deg: 180, title: 'Back', means: 'along the handle, towards the hand' },
]

export const angleWords = (deg: number): string =>
  ANGLES.find((angle) => angle.deg === deg)?.title.toLowerCase() ?? `at ${format.number(deg)}°`

/** `30 mm straight out on a wrench of 300 mm`. */
export const adapterWords = ({ adapterMm, angleDeg, wrenchMm }: Adapter): string =>
  `${format.number(adapterMm)} mm ${angleWords(angleDeg)} on a wrench of ${format.number(wrenchMm)} mm`
