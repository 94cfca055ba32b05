/** What a plan asks, in words: passes, bands and limits, which read the same on screen, in the trail and on paper. */
import { unitAfter } from '../units/show'
import { counted, type Figures, listed, upperFirst } from '../words'
import type { Band, Joint, Measurement, Pass, Sealant } from './types'

/** One pass: `65 N·m`, `+90°`, `slacken fully`, `wait 50 min`. */
export function passWords(pass: Pass, figures: Figures): string {
  const words = bareWords(pass, figures)
  return publishes(pass) ? `${words} N·m` : words
}

/** `50 → 105 N·m`, `30 → 65 N·m → +90° → +60°`, `no published torque`. */
export function passesWords(passes: readonly Pass[], figures: Figures): string {
  const lastTorque = passes.findLastIndex(publishes)
  return passes
    .map((pass, index) => (index === lastTorque ? passWords : bareWords)(pass, figures))
    .join(' → ')
}

const publishes = (pass: Pass): boolean => pass.kind === 'torque' && pass.torqueNm !== null

/** A torque as its bare number of N·m. */
function bareWords(pass: Pass, { torque, number, duration }: Figures): string {
  switch (pass.kind) {
    case 'torque':
      return pass.torqueNm === null ? 'no published torque' : torque(pass.torqueNm, 'N·m')
    case 'angle':
      return `+${number(pass.angleDeg)}°`
    case 'slacken':
      return pass.angleDeg === undefined ? 'slacken fully' : `slacken ${number(pass.angleDeg)}°`
    case 'wait':
      return `wait ${duration(pass.minutes)}`
  }
}

/** `class 8 nut`, `class 10.9 bolt`; what is no class stands as it is printed: `A4-70 stainless`, `bronze`. */
export const gradeWords = ({ grade, fastener }: Pick<Joint, 'grade' | 'fastener'>): string =>
  /^\d{1,2}(?:\.\d)?$/.test(grade) ? `class ${grade} ${fastener}` : grade

/** Whether a fastener may be fitted again. */
export function useWords({ use }: Pick<Joint, 'use'>): string {
  switch (use.kind) {
    case 'one_use':
      return 'one-use: never fitted twice'
    case 'reusable':
      return 'may be fitted again'
    case 'cycles':
      return `at most ${counted(use.limit, 'tightening')}`
  }
}

/** `20.9 to 23.1 N·m`, `85° to 95°`. */
export function bandWords(band: Band, { torque, number }: Figures): string {
  return band.kind === 'torque'
    ? `${torque(band.minNm, 'N·m', [band.maxNm])} to ${torque(band.maxNm, 'N·m', [band.minNm])} N·m`
    : `${number(band.minDeg)}° to ${number(band.maxDeg)}°`
}

/** As a plan prints limits: every number with as many decimals as the finest of them. */
export interface Limits {
  value?: number
  min?: number
  max?: number
}

const decimalsOf = (value: number): number => `${value}`.split('.')[1]?.length ?? 0

/** A number beside its limits: 0.1 as `0.10` where the other is 0.28. */
export function toDecimals(value: number, limits: Limits, { digits }: Pick<Figures, 'digits'>): string {
  const finest = Math.max(
    ...[limits.value, limits.min, limits.max].map((limit) => (limit === undefined ? 0 : decimalsOf(limit))),
  )
  // As many digits as it has; a number written with an exponent has none to show here.
  return digits(`${value}`.includes('e') ? `${value}` : value.toFixed(Math.min(finest, 100)))
}

/** `0.10 to 0.28 mm`, `at least 7 bar`; without any, `no limits, in mm`. */
export function limitsWords(
  limits: Limits & Pick<Measurement, 'unit'>,
  figures: Pick<Figures, 'digits'>,
): string {
  const { min, max, unit } = limits
  const shown = (limit: number) => toDecimals(limit, limits, figures)
  if (min !== undefined && max !== undefined) return `${shown(min)} to ${shown(max)}${unitAfter(unit)}`
  if (min !== undefined) return `at least ${shown(min)}${unitAfter(unit)}`
  return max === undefined ? `no limits, in ${unit}` : `at most ${shown(max)}${unitAfter(unit)}`
}

/** `Gasket paste: last fastener in within 8 min of the first bead; cures 1 h before C4 may begin.` */
export function sealantWords(sealant: Sealant, { duration }: Figures): string {
  const before = sealant.before.length > 0 ? ` before ${listed(sealant.before)} may begin` : ''
  return `${upperFirst(sealant.product)}: last fastener in within ${duration(sealant.closeWithinMinutes)} of the first bead; cures ${duration(sealant.cureMinutes)}${before}.`
}
