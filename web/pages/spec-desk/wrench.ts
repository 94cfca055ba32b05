/**
 * What to set on which wrench: the printed torque where one is printed, else the recommended one, through the adapter.
 *
 * The band is the printed one, else so many per cent about the torque. A wrench whose own length nobody entered is
 * reckoned with no adapter but named as one to measure.
 */
import type { Adapter } from '../../../shared/job/types'
import { isRefusal } from '../../../shared/log'
import type { Wrench } from '../../../shared/shop/types'
import type { TorqueSpec } from '../../../shared/spec'
import {
  hasTorqueScale,
  type Picked,
  pickWrench,
  wrenchSentence,
  wrenchSetting,
} from '../../../shared/wrench'
import { format } from '../../format'
import { entryOf } from './entries'
import type { Inputs } from './inputs'
import { open, type Part, there, unreadable } from './part'

export interface Target {
  torqueNm: number
  minNm: number
  maxNm: number
  from: 'printed' | 'recommended'
  /** The limits are printed; else they lie so many per cent either side. */
  limits: 'printed' | 'percent'
  tolerancePct: number
}

/** The torque to set, N·m, and the band about it. A range without a value is aimed at in its middle. */
export function targetOf(
  printed: TorqueSpec | undefined,
  recommendedNm: number | undefined,
  tolerancePct: number,
): Target | undefined {
  const share = tolerancePct / 100
  if (printed) {
    const { nominalNm, minNm, maxNm } = printed
    const middle = minNm !== undefined && maxNm !== undefined ? (minNm + maxNm) / 2 : undefined
    // At most so much is a limit, and no torque to set.
    const torqueNm = nominalNm ?? middle ?? minNm
    if (torqueNm === undefined || !(torqueNm > 0)) return undefined
    // One limit alone: the torque stays on its right side, with the shop's width on the other.
    const both = minNm !== undefined && maxNm !== undefined
    return {
      torqueNm,
      minNm: minNm ?? torqueNm * (1 - share),
      maxNm: maxNm ?? torqueNm * (1 + share),
      from: 'printed',
      limits: both ? 'printed' : 'percent',
      tolerancePct,
    }
  }
  if (recommendedNm === undefined) return undefined
  return {
    torqueNm: recommendedNm,
    minNm: recommendedNm * (1 - share),
    maxNm: recommendedNm * (1 + share),
    from: 'recommended',
    limits: 'percent',
    tolerancePct,
  }
}

export interface OnWrench {
  adapter?: { adapterMm: number; angleDeg: number }
  /** By the lever length typed: any wrench of that length. */
  typed?: { adapter: Adapter; settingNm: number }
  /** The lever to draw: the typed one, else that of the best wrench. */
  drawn?: { lever: Adapter; whose: string }
  ranked: Picked[]
  /** Wrenches of the crib whose length is not known: with an adapter nothing can be set on them. */
  toMeasure: Wrench[]
}

export function onWrench(
  inputs: Inputs,
  target: Target | undefined,
  wrenches: readonly Wrench[],
  now: number,
): Part<OnWrench> {
  const wrenchLength = entryOf(inputs, 'wrenchLength')
  const adapterLength = entryOf(inputs, 'adapterLength')
  const adapterAngle = entryOf(inputs, 'adapterAngle')
  const unread = unreadable({ wrenchLength, adapterLength, adapterAngle })
  if (unread) return unread
  if (!target) return open('There is no torque to set yet.')
  const adapter = adapterLength.value
    ? { adapterMm: adapterLength.value, angleDeg: adapterAngle.value ?? 0 }
    : undefined
  const leverOf = (wrenchMm: number | undefined): Adapter | undefined =>
    adapter && wrenchMm !== undefined ? { wrenchMm, ...adapter } : undefined
  const typedLever = leverOf(wrenchLength.value)
  const settingNm = typedLever && wrenchSetting({ targetNm: target.torqueNm, ...typedLever })
  if (isRefusal(settingNm))
    return { state: 'refused', why: wrenchSentence(settingNm, format), field: 'adapterLength' }
  const scales = wrenches.filter(hasTorqueScale)
  const lengthMm = (wrench: Wrench) => wrench.lengthMm ?? wrenchLength.value
  const reversed = (wrench: Wrench) => {
    const lever = leverOf(lengthMm(wrench))
    return lever !== undefined && isRefusal(wrenchSetting({ targetNm: target.torqueNm, ...lever }))
  }
  const toMeasure = adapter ? scales.filter((wrench) => lengthMm(wrench) === undefined) : []
  const able = scales.filter((wrench) => !toMeasure.includes(wrench) && !reversed(wrench))
  const away = Object.fromEntries(able.flatMap(({ id, away }) => (away ? [[id, away] as const] : [])))
  const ranked = pickWrench(
    {
      passes: [{ kind: 'torque', torqueNm: target.torqueNm }],
      bands: [{ kind: 'torque', minNm: target.minNm, maxNm: target.maxNm, from: 'shop' }],
    },
    1,
    { wrenches: able, now, away, adapterOn: (wrench) => leverOf(lengthMm(wrench)) },
  )
  const best = ranked.find(({ fits }) => fits)?.wrench
  const lever = typedLever ?? (best && leverOf(lengthMm(best)))
  return there({
    ...(adapter ? { adapter } : {}),
    ...(lever ? { drawn: { lever, whose: typedLever ? 'this wrench' : (best?.id ?? '') } } : {}),
    ...(typedLever && typeof settingNm === 'number' ? { typed: { adapter: typedLever, settingNm } } : {}),
    ranked,
    toMeasure,
  })
}
