/**
 * The wrench in hand, in its own unit: what to set, which wrenches would do, and whether the number entered is
 * the one that counts now. The rules stand in `shared/wrench`; these are its words at the bench. Pure.
 */
import { doubtsInWords, type TorqueJudgement } from '../../../shared/fastener'
import type { Adapter, PlannedJob, ScaleEntry, UnitSlip } from '../../../shared/job/types'
import { inBand } from '../../../shared/plan/adopt'
import { impossibleAt } from '../../../shared/plan/fasteners'
import type { AdoptedJoint, Band, Pass } from '../../../shared/plan/types'
import { bandWords } from '../../../shared/plan/words'
import type { Shop, Wrench } from '../../../shared/shop/types'
import {
  inRange,
  type Picked,
  pickWrench,
  type Room,
  type Setting,
  settingFor,
  unitSlip,
  unitsInUse,
} from '../../../shared/wrench'
import { format } from '../../format'

/** The number as it is to stand on the scale: to the digits its step has. */
export function shownOn({ value, betweenMarks }: Setting, wrench: Wrench): string {
  const decimals = wrench.increment && !betweenMarks ? decimalsOf(wrench.increment) : 2
  return format.number(value, Math.max(decimals, Number.isInteger(value) ? 0 : 1))
}

const decimalsOf = (step: number): number => (String(step).split('.')[1] ?? '').length

/** The crib ranked for a pass, best first, with an adapter where the joint needs one. */
export const wrenchChoices = (
  shop: Shop,
  pass: Pass,
  now: number,
  { band = null, adapter }: { band?: Band | null; adapter?: Adapter | undefined } = {},
): Picked[] =>
  pickWrench({ passes: [pass], bands: [band] }, 1, {
    wrenches: shop.wrenches,
    now,
    // The lever is each wrench’s own, where its card knows the length.
    ...(adapter
      ? { adapterOn: ({ lengthMm }: Wrench) => ({ ...adapter, wrenchMm: lengthMm ?? adapter.wrenchMm }) }
      : {}),
  })

export const rangeWords = ({ min, max, unit }: Pick<Wrench, 'min' | 'max' | 'unit'>): string =>
  unit === 'deg' ? 'degrees' : `${format.number(min)}–${format.number(max)} ${unit}`

/** The wrench to reach for: the plan’s if it fits, else the best that does; one of the plan’s kind before another. */
export function proposedWrench(choices: readonly Picked[]): Wrench | undefined {
  const fit = choices.filter(({ fits }) => fits)
  const kind = choices.find(({ planned }) => planned)?.wrench.kind
  const best = fit.find(({ planned }) => planned) ?? fit.find(({ wrench }) => wrench.kind === kind)
  return (best ?? fit[0] ?? choices[0])?.wrench
}

/** `Set 48 lbf·ft: 65.1 N·m at the fastener, inside the band.` */
export function settingWords({ setting, wrench }: Picked, adapter?: Adapter): string | undefined {
  if (!setting) return undefined
  if (adapter && wrench.kind !== 'click')
    return 'Shows another torque with the adapter; that is not computed here.'
  const inside = setting.inBand ? 'in band' : 'out of band'
  return `${wrench.kind === 'click' ? 'Set' : 'Pull to'} ${shownOn(setting, wrench)} ${setting.unit}: ${appliesWords(setting)} at the fastener, ${inside}.`
}

export const appliesWords = ({ appliesNm }: Pick<Setting, 'appliesNm'>): string =>
  `${format.torque(appliesNm, 'N·m')} N·m`

/** Can this wrench do this joint at all? Nothing where that is not known. */
export function roomWords({ room, wrench }: Picked): string | undefined {
  if (!room) return undefined
  if (!room.can)
    return `${wrench.id} is not accurate enough for this joint: its ±${format.number(room.deviationPct)} % and half a step of its scale are wider than the band.`
  return `${wrench.id} can do this joint: ${roomSpan(room, wrench)} on its scale stays in the band, its ±${format.number(room.deviationPct)} % included.`
}

/** The marks within the room; a room between two marks is told as it is. */
function roomSpan({ low, high }: Room, { increment, unit }: Wrench): string {
  const marks = increment
    ? [Math.ceil(low / increment - 1e-9) * increment, Math.floor(high / increment + 1e-9) * increment]
    : [low, high]
  const [from = low, to = high] = marks
  const decimals = increment ? decimalsOf(increment) : 1
  const [first, last] = [format.number(from, decimals), format.number(to, decimals)]
  return first === last ? `only ${first} ${unit}` : `anything from ${first} to ${last} ${unit}`
}

/** The wrench this person entered last for this pass: what is in the hand after a reload too. */
export function wrenchInHand(job: PlannedJob, jointId: string, pass: number, by: string): string | undefined {
  return Object.values(job.scales)
    .filter((scale) => scale.jointId === jointId && scale.pass === pass && scale.by === by)
    .sort((a, b) => b.doneAt - a.doneAt)[0]?.wrenchId
}

export interface HeldUp {
  title: string
  sentences: string[]
}

/**
 * An entry that stops the hand: a number that would fit in another unit, or one outside the band. Both
 * readings in plain words; nothing is converted silently.
 */
export function heldUp(entry: ScaleEntry, targetNm: number | null, joint: AdoptedJoint): HeldUp | undefined {
  const breaks = impossibleAt(joint, entry.pass, entry.appliesNm, entry.band)
  if (breaks && !entry.slip)
    return {
      title: 'Stop: does the scale really read so?',
      sentences: breaksSentences(breaks),
    }
  if (entry.slip)
    return {
      title: 'Stop: which unit is that?',
      sentences: [
        ...(breaks ? breaksSentences(breaks) : []),
        ...slipSentences(entry.slip, targetNm, entry.adapter),
      ],
    }
  const { wrench, band, adapter } = entry
  if (wrench && !inRange(wrench, entry.value))
    return {
      title: `Stop: ${entry.wrenchId} does not reach that.`,
      sentences: [outOfReachWords(wrench, entry.value), 'Take another wrench, or read its scale again.'],
    }
  if (band?.kind !== 'torque' || inBand(entry.appliesNm, band)) return undefined
  const limits = [band.minNm, band.maxNm]
  const under = entry.appliesNm < band.minNm
  return {
    title: `Stop: the scale is set ${under ? 'below' : 'above'} the band.`,
    sentences: [
      `${format.number(entry.value)} ${entry.unit}${adapter ? ' through the adapter' : ''} applies ${format.torque(entry.appliesNm, 'N·m', limits)} N·m; the band is ${bandWords(band, format)}.`,
      ...(targetNm === null ? [] : [onThisScale(targetNm, entry.unit, adapter)]),
    ],
  }
}

/** `36 N·m would break an M8x1.25 bolt (8.8): …`, and the question. */
export function breaksSentences(judged: TorqueJudgement): string[] {
  const [first = ''] = doubtsInWords(judged, format)
  return [first, 'Does the scale really read so?']
}

/** `30 N·m is outside the scale of TW-25, 5–25 N·m.` */
export const outOfReachWords = (wrench: Pick<Wrench, 'id' | 'min' | 'max' | 'unit'>, value: number): string =>
  `${format.number(value)} ${wrench.unit} is outside the scale of ${wrench.id}, ${rangeWords(wrench)}.`

/** “9 on this wrench is 9 lbf·ft = 12.2 N·m. The plan says 9 N·m, which is 6.64 on this scale.” */
export function slipSentences(slip: UnitSlip, targetNm: number | null, adapter?: Adapter): string[] {
  const { value, readAs, readNm, fitsAs } = slip
  const reads = `${format.number(value)} on this wrench is ${format.number(value)} ${readAs}`
  const applies = adapter
    ? `, ${format.torque(readNm, 'N·m')} N·m through the adapter`
    : readAs === 'N·m'
      ? ''
      : ` = ${format.torque(readNm, 'N·m')} N·m`
  return [
    `${reads}${applies}.`,
    targetNm === null
      ? `${format.number(value)} ${fitsAs} would fit.`
      : `The plan says ${format.torque(targetNm, fitsAs)} ${fitsAs}, which is ${format.number(settingFor(targetNm, readAs, adapter), 1)} on this scale.`,
  ]
}

const onThisScale = (targetNm: number, unit: ScaleEntry['unit'], adapter?: Adapter): string =>
  `The plan says ${format.torque(targetNm, 'N·m')} N·m${unit === 'N·m' && !adapter ? '' : `, which is ${format.number(settingFor(targetNm, unit, adapter), 1)} on this scale`}.`

const SOURCES = { maker: 'the maker’s limits', plan: 'the plan’s limits', shop: 'the shop’s limits' } as const
export const bandSource = (band: Band): string => SOURCES[band.from]

/** What an indicating wrench showed, if it could be a slip of unit. */
export function indicatedSlip(
  shop: Shop,
  wrench: Wrench,
  value: number,
  band: Band | null,
): UnitSlip | undefined {
  return wrench.unit === 'deg' ? undefined : unitSlip(value, wrench.unit, band, unitsInUse(shop))
}

export interface WrenchOffer {
  unfit: Picked
  fit?: Picked
}

/** The wrench in hand does not fit: the one to take instead. Nothing where it fits. */
export function wrenchOffer(choices: readonly Picked[], inHand: string | undefined): WrenchOffer | undefined {
  const unfit = choices.find(({ wrench, fits }) => wrench.id === inHand && !fits)
  if (!unfit) return undefined
  const best = proposedWrench(choices)
  const fit = choices.find(({ wrench, fits }) => fits && wrench.id === best?.id)
  return { unfit, ...(fit ? { fit } : {}) }
}
