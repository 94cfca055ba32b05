/** Could the number on the scale have been meant in another unit? Asked over the units of this shop alone. */
import type { Adapter, UnitSlip } from '../job/types'
import { inBand } from '../plan/adopt'
import type { Band } from '../plan/types'
import type { Shop } from '../shop/types'
import type { TorqueUnit } from '../units'
import { appliedNm } from './lever'

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
