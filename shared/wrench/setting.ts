/**
 * The number to set for a joint on one wrench, and whether that wrench can do the joint at all.
 *
 * Everything is told in the wrench's own unit, as its scale shows it; what reaches the fastener in N·m.
 */
import type { Adapter } from '../job/types'
import { inBand } from '../plan/adopt'
import type { Band } from '../plan/types'
import type { Wrench } from '../shop/types'
import { fromNm, roundTo, type TorqueUnit, toNm } from '../units'
import { deviationLimitPct } from './deviation'
import { appliedNm, leverFactor, settingFor } from './lever'

export type TorqueBand = Extract<Band, { kind: 'torque' }>
/** A wrench with a torque scale; an angle gauge has none. */
export type TorqueWrench = Wrench & { unit: TorqueUnit }

export const hasTorqueScale = (wrench: Wrench): wrench is TorqueWrench => wrench.unit !== 'deg'

export interface Setting {
  /** To stand on the scale, in `unit`. */
  value: number
  unit: TorqueUnit
  /** What it then applies at the fastener, adapter reckoned in. */
  appliesNm: number
  inBand: boolean
  /** The target lies between two marks and no mark stays in the band: set between them. */
  betweenMarks: boolean
}

/**
 * What to set on `wrench` for `targetNm`: the nearest mark of its scale where that stays in the band, else the
 * exact number. Without a known step, three digits, as a scale is read.
 */
export function settingOn(
  wrench: TorqueWrench,
  targetNm: number,
  band: Band | null,
  adapter?: Adapter,
): Setting {
  const { unit, increment } = wrench
  const exact = settingFor(targetNm, unit, adapter)
  const mark = increment ? roundTo(exact, increment) : Number(exact.toPrecision(3))
  const fits = (value: number) => !band || inBand(appliedNm(value, unit, adapter), band)
  const value = fits(mark) ? mark : exact
  return {
    value,
    unit,
    appliesNm: appliedNm(value, unit, adapter),
    inBand: fits(value),
    betweenMarks: value !== mark,
  }
}

/** A number on the scale within what the scale covers, ends included. */
export const inRange = (wrench: Pick<Wrench, 'min' | 'max'>, value: number): boolean =>
  value >= wrench.min && value <= wrench.max

/**
 * Below a fifth of the largest value a wrench is trusted less: the 2003 edition of ISO 6789 checked nothing there,
 * the 2017 edition starts at the lowest mark. Common practice, no source for a prohibition.
 */
export const lowOnScale = (wrench: Pick<Wrench, 'max'>, value: number): boolean => value < wrench.max * 0.2

export interface Room {
  /** Numbers that may be set, in the wrench's unit; none where `low` is above `high`. */
  low: number
  high: number
  /** Is there room at all, and a mark of the scale in it? */
  can: boolean
  /** Half the width of the room as a share of the middle, per cent; negative where there is none. */
  marginPct: number
  /** The permissible deviation that was taken off, per cent either way. */
  deviationPct: number
}

/**
 * The band that is left for this wrench when its permissible deviation and half a step of its scale are taken
 * off the joint's band on both sides.
 *
 * A wrench set to S applies between S/(1 + δ) and S/(1 − δ), δ against the reference reading as in ISO 6789. So S
 * may lie from min·(1 + δ) + i/2 to max·(1 − δ) − i/2, both through the lever of the adapter.
 */
export function roomFor(wrench: TorqueWrench, band: TorqueBand, adapter?: Adapter): Room {
  const { unit, increment = 0 } = wrench
  const type = wrench.kind === 'indicating' ? 'I' : 'II'
  const limit = deviationLimitPct({
    maxNm: toNm(wrench.max, unit),
    type,
    ...(type === 'I' ? { class: 'B' } : {}),
  })
  const share = limit / 100
  const lever = leverFactor(adapter)
  const low = fromNm((band.minNm * (1 + share)) / lever, unit) + increment / 2
  const high = fromNm((band.maxNm * (1 - share)) / lever, unit) - increment / 2
  // A hair wide, so that a mark exactly on an end counts whatever a float made of it.
  const hair = 1e-9 * Math.max(1, Math.abs(high))
  const markInside = !increment || Math.floor((high + hair) / increment) * increment >= low - hair
  return {
    low,
    high,
    can: high - low >= -hair && markInside,
    marginPct: (100 * (high - low)) / (high + low),
    deviationPct: limit,
  }
}
