/**
 * The lever rule: what an adapter (crowfoot, extension) does to the torque on its way to the fastener.
 *
 * `wrenchMm` L runs from the drive to where the hand pulls, `adapterMm` E from the drive to the fastener,
 * `angleDeg` α between handle and adapter: 0 straight out, 90 no change, 180 back along the handle. A socket
 * extension in line with the drive changes nothing.
 */
import type { Adapter } from '../job/types'
import { isRefusal } from '../log'
import { fromNm, type TorqueUnit, toNm } from '../units'
import { refuseWrench, type WrenchRefusal } from './refusals'

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
  // A scale at 0 on a lever that reaches back beyond the hand: + 0 makes −0 a 0, which is how it is stored.
  toNm(value, unit) * leverFactor(adapter) + 0

/** The number to set on the scale so that the fastener gets `targetNm`, in the wrench's unit. */
export const settingFor = (targetNm: number, unit: TorqueUnit, adapter?: Adapter): number =>
  fromNm(targetNm / leverFactor(adapter), unit)

/** A torque and the lever it goes through; N·m, mm and degrees. */
export interface LeverInput extends Adapter {
  targetNm: number
}

/**
 * What to set, N·m, so that the fastener gets `targetNm`: S = T·L / (L + E·cos α), for every angle.
 *
 * Refused: a torque that is none or not above zero (`torque_impossible`), a wrench without length, an adapter of
 * negative length or no angle (`lever_impossible`), and an adapter that reaches back to the hand or beyond it,
 * where no pull turns the fastener that way (`lever_reversed`). Source: lever rule, as printed in service
 * manuals; rows in `tests/published/lever.test.ts`.
 */
export function wrenchSetting({ targetNm, ...adapter }: LeverInput): number | WrenchRefusal {
  if (!isTorque(targetNm)) return refuseWrench('torque_impossible', { value: targetNm })
  const lever = checkedLever(adapter)
  return isRefusal(lever) ? lever : targetNm / lever
}

/** The other way: what a setting of `settingNm` N·m applies at the fastener, N·m. Refused as `wrenchSetting` is. */
export function applied(settingNm: number, adapter: Adapter): number | WrenchRefusal {
  if (!isTorque(settingNm)) return refuseWrench('torque_impossible', { value: settingNm })
  const lever = checkedLever(adapter)
  return isRefusal(lever) ? lever : settingNm * lever
}

/** Above nothing, and not so large that no wrench or sum could hold it. */
const isTorque = (nm: number): boolean => nm > 0 && nm <= LARGEST

/** N·m and mm: far beyond any workshop, so that no answer overflows. */
const LARGEST = 1e9

function checkedLever(adapter: Adapter): number | WrenchRefusal {
  const { wrenchMm, adapterMm, angleDeg } = adapter
  const sound =
    [wrenchMm, adapterMm, angleDeg].every((value) => Math.abs(value) <= LARGEST) &&
    wrenchMm > 0 &&
    adapterMm >= 0
  if (!sound) return refuseWrench('lever_impossible', { wrenchMm, adapterMm, angleDeg })
  const lever = leverFactor(adapter)
  // Below a thousandth of its length the lever is nothing but the float's noise.
  return lever > 1e-3 ? lever : refuseWrench('lever_reversed', { wrenchMm, adapterMm, angleDeg })
}
