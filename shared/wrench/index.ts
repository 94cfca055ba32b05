/**
 * The wrench in the hand: what its scale applies at the fastener, whether it can be trusted there, and
 * whether the number on it could be a slip of unit.
 *
 * A click wrench proves a setting, not a value; everything here speaks of what was set or shown.
 */

import type { Adapter, Flag, UnitSlip, WrenchThen } from '../job/types'
import type { Instant } from '../log'
import { inBand } from '../plan/adopt'
import type { Band } from '../plan/types'
import type { Shop, Wrench } from '../shop/types'
import { fromNm, type TorqueUnit, toNm } from '../units'

/**
 * How much an adapter lengthens the lever: applied torque = setting × (L + E·cos α) / L.
 *
 * `wrenchMm` L from the drive to where the hand pulls, `adapterMm` E from the drive to the fastener,
 * `angleDeg` α between them (0 straight out, 90 no change, 180 shortening). No unit. Source: lever rule;
 * printed so in service manuals, see `tests/published/`.
 */
export function leverFactor(adapter: Adapter | undefined): number {
  if (!adapter) return 1
  const { wrenchMm, adapterMm, angleDeg } = adapter
  // A right angle is exactly "no change" to the trade; the cosine of a double is not exactly 0.
  const along = angleDeg === 90 || angleDeg === 270 ? 0 : Math.cos((angleDeg * Math.PI) / 180)
  return (wrenchMm + adapterMm * along) / wrenchMm
}

/** What a setting on the scale applies at the fastener, N·m. */
export const appliedNm = (value: number, unit: TorqueUnit, adapter?: Adapter): number =>
  toNm(value, unit) * leverFactor(adapter)

/** The number to set on the scale so that the fastener gets `targetNm`, in the wrench's unit. */
export const settingFor = (targetNm: number, unit: TorqueUnit, adapter?: Adapter): number =>
  fromNm(targetNm / leverFactor(adapter), unit)

/** The units a number in this shop could have been meant in: those on the crib's scales, and the sheet's. */
export function unitsInUse(shop: Shop): TorqueUnit[] {
  const units = new Set<TorqueUnit>(['N·m'])
  for (const wrench of Object.values(shop.wrenches)) if (wrench.unit !== 'deg') units.add(wrench.unit)
  return [...units]
}

/**
 * A number that misses the band as it stands, and meets it in another unit of this shop.
 *
 * `undefined` when it fits as it stands (no false alarm) or fits in no unit: then it is merely out of band.
 */
export function unitSlip(
  value: number,
  unit: TorqueUnit,
  band: Band | null,
  units: readonly TorqueUnit[],
  adapter?: Adapter,
): UnitSlip | undefined {
  if (band?.kind !== 'torque') return undefined
  const readNm = appliedNm(value, unit, adapter)
  if (inBand(readNm, band)) return undefined
  const fitsAs = units.find((other) => other !== unit && inBand(appliedNm(value, other, adapter), band))
  return fitsAs && { value, readAs: unit, readNm, fitsAs, fitsNm: appliedNm(value, fitsAs, adapter) }
}

/** The wrench as an event keeps it. */
export function wrenchThen(wrench: Wrench): WrenchThen {
  const { id, kind, unit, min, max, state } = wrench
  return {
    id,
    kind,
    unit,
    min,
    max,
    state,
    ...(wrench.lastCheckedAt === undefined ? {} : { lastCheckedAt: wrench.lastCheckedAt }),
    ...(wrench.dueAt === undefined ? {} : { dueAt: wrench.dueAt }),
  }
}

/** Reasons to doubt a wrench at this number on its scale, at this moment. */
export function wrenchDoubts(wrench: WrenchThen | undefined, value: number | undefined, at: Instant): Flag[] {
  if (!wrench) return ['wrench_unknown']
  const flags: Flag[] = []
  if (value !== undefined && (value < wrench.min || value > wrench.max)) flags.push('wrench_out_of_range')
  if (wrench.dueAt !== undefined && at > wrench.dueAt) flags.push('wrench_out_of_date')
  if (wrench.state !== 'in_service') flags.push('wrench_failed')
  return flags
}
