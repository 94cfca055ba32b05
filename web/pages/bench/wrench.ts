/**
 * The wrench in hand, in its own unit: what to set, which wrenches would do, and whether the number entered is
 * the one that counts now. Pure.
 */
import type { PlannedJob } from '../../../shared/job/context'
import { flagWords } from '../../../shared/job/flags'
import type { ScaleEntry, UnitSlip } from '../../../shared/job/types'
import { inBand } from '../../../shared/plan/adopt'
import type { Band, Pass } from '../../../shared/plan/types'
import type { Shop, Wrench } from '../../../shared/shop/types'
import { formatNumber, fromNm, roundTo, showTorque, toNm } from '../../../shared/units'
import { settingFor, unitSlip, unitsInUse, wrenchDoubts, wrenchThen } from '../../../shared/wrench'

export interface Setting {
  /** As it is to stand on the scale. */
  value: number
  shown: string
  unit: Exclude<Wrench['unit'], 'deg'>
  appliesNm: number
  /** The target lies between two marks, and rounding to one would leave the band. */
  betweenMarks: boolean
}

/** The number to set on this wrench: to its scale's step where that stays in the band, else as it is. */
export function targetOn(wrench: Wrench, targetNm: number, band: Band | null): Setting | undefined {
  if (wrench.unit === 'deg') return undefined
  const exact = settingFor(targetNm, wrench.unit)
  const rounded = wrench.increment ? roundTo(exact, wrench.increment) : Number(exact.toPrecision(3))
  const fits = !band || inBand(toNm(rounded, wrench.unit), band)
  const value = fits ? rounded : exact
  const decimals = fits && wrench.increment ? decimalsOf(wrench.increment) : 2
  return {
    value,
    shown: formatNumber(value, Math.max(decimals, Number.isInteger(value) ? 0 : 1)),
    unit: wrench.unit,
    appliesNm: toNm(value, wrench.unit),
    betweenMarks: !fits,
  }
}

const decimalsOf = (step: number): number => (String(step).split('.')[1] ?? '').length

export interface WrenchChoice {
  wrench: Wrench
  /** The plan names it for this pass. */
  planned: boolean
  fits: boolean
  /** Why it does not, in words. */
  why: string[]
}

/** The wrenches of the right kind for a pass: the plan's first, then those that fit, then the rest. */
export function wrenchChoices(shop: Shop, pass: Pass, now: number): WrenchChoice[] {
  if (pass.kind !== 'torque' && pass.kind !== 'angle') return []
  return Object.values(shop.wrenches)
    .filter((wrench) => (wrench.kind === 'angle_gauge') === (pass.kind === 'angle'))
    .map((wrench) => {
      const setting =
        pass.kind === 'torque' && pass.torqueNm !== null && wrench.unit !== 'deg'
          ? settingFor(pass.torqueNm, wrench.unit)
          : undefined
      const why = wrenchDoubts(wrenchThen(wrench), setting, now).map((flag) =>
        flag === 'wrench_out_of_range'
          ? `${flagWords(flag)}: ${rangeWords(wrench)}`
          : stateWords(wrench) || flagWords(flag),
      )
      return { wrench, planned: pass.wrench === wrench.id, fits: why.length === 0, why: [...new Set(why)] }
    })
    .sort((a, b) => rank(a) - rank(b) || other(a) - other(b) || a.wrench.id.localeCompare(b.wrench.id))
}

/** A scale in the sheet's own unit before one that wants reckoning. */
const other = ({ wrench }: WrenchChoice): number => (wrench.unit === 'N·m' || wrench.unit === 'deg' ? 0 : 1)
const rank = ({ planned, fits }: WrenchChoice): number => (planned ? 0 : fits ? 1 : 2)

const STATES: Record<Wrench['state'], string> = {
  in_service: '',
  failed: 'failed its check: do not use',
  out_for_check: 'out for its check',
  dropped: 'dropped: do not use before it is checked',
}
const stateWords = (wrench: Wrench): string => STATES[wrench.state]

export const rangeWords = ({ min, max, unit }: Wrench): string =>
  unit === 'deg' ? 'degrees' : `${formatNumber(min)}–${formatNumber(max)} ${unit}`

/** The wrench to reach for: the plan's if it fits, else the first that does. */
export function proposedWrench(choices: readonly WrenchChoice[]): Wrench | undefined {
  return (choices.find(({ fits }) => fits) ?? choices[0])?.wrench
}

/** The scale entry that counts: this wrench, this joint, this pass, this person. As the rulebook has it. */
export function scaleInForce(
  job: PlannedJob,
  asked: { wrenchId: string; jointId: string; pass: number; by: string },
): ScaleEntry | undefined {
  const scale = job.scales[asked.wrenchId]
  const same = scale?.jointId === asked.jointId && scale.pass === asked.pass && scale.by === asked.by
  return same ? scale : undefined
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
export function heldUp(entry: ScaleEntry, targetNm: number | null): HeldUp | undefined {
  if (entry.slip)
    return { title: 'Stop: which unit is that?', sentences: slipSentences(entry.slip, targetNm) }
  const { band } = entry
  if (band?.kind !== 'torque' || inBand(entry.appliesNm, band)) return undefined
  const limits = [band.minNm, band.maxNm]
  const under = entry.appliesNm < band.minNm
  return {
    title: `Stop: the scale is set ${under ? 'under' : 'over'} the band.`,
    sentences: [
      `${formatNumber(entry.value)} ${entry.unit} applies ${showTorque(entry.appliesNm, 'N·m', limits)} N·m; the band is ${bandWords(band)}.`,
      ...(targetNm === null ? [] : [onThisScale(targetNm, entry.unit)]),
    ],
  }
}

/** “9 on this wrench is 9 lbf·ft = 12.2 N·m. The sheet asks 9 N·m, which is 6.64 on this scale.” */
export function slipSentences(slip: UnitSlip, targetNm: number | null): string[] {
  const { value, readAs, readNm, fitsAs } = slip
  return [
    `${formatNumber(value)} on this wrench is ${formatNumber(value)} ${readAs}${readAs === 'N·m' ? '' : ` = ${showTorque(readNm, 'N·m')} N·m`}.`,
    targetNm === null
      ? `${formatNumber(value)} ${fitsAs} would fit.`
      : `The sheet asks ${showTorque(targetNm, fitsAs)} ${fitsAs}, which is ${formatNumber(fromNm(targetNm, readAs), 1)} on this scale.`,
  ]
}

const onThisScale = (targetNm: number, unit: ScaleEntry['unit']): string =>
  `The sheet asks ${showTorque(targetNm, 'N·m')} N·m${unit === 'N·m' ? '' : `, which is ${formatNumber(fromNm(targetNm, unit), 1)} on this scale`}.`

export function bandWords(band: Band): string {
  return band.kind === 'torque'
    ? `${showTorque(band.minNm, 'N·m')}–${showTorque(band.maxNm, 'N·m')} N·m`
    : `${formatNumber(band.minDeg)}–${formatNumber(band.maxDeg)}°`
}

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
  unfit: WrenchChoice
  fit?: WrenchChoice
}

/** The wrench in hand does not fit: the first that does, the plan's before others. Nothing where it fits. */
export function wrenchOffer(
  choices: readonly WrenchChoice[],
  inHand: string | undefined,
): WrenchOffer | undefined {
  const unfit = choices.find(({ wrench, fits }) => wrench.id === inHand && !fits)
  if (!unfit) return undefined
  const fit = choices.find(({ fits }) => fits)
  return { unfit, ...(fit ? { fit } : {}) }
}
