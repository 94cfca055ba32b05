/** A printed pass in words, each number with its limits. */
import type { TorqueUnit } from '../units'
import type { Figures } from '../words'
import type { PrintedTorque, SpecPass } from './types'

/** `30 N·m`, `27 to 33 N·m`, `30 N·m (27 to 33 N·m)`, `+90°`, `slacken fully`. */
export function specPassWords(pass: SpecPass, figures: Figures, unit: TorqueUnit = 'N·m'): string {
  if (pass.kind === 'torque') return torqueWords(pass, figures, unit)
  const turned = spanWords(pass.nominalDeg, pass.minDeg, pass.maxDeg, (deg) => figures.number(deg, 2), '°')
  if (pass.kind === 'angle') return `+${turned}`
  return turned === '' ? 'slacken fully' : `slacken ${turned}`
}

export function torqueWords(
  { nominalNm, minNm, maxNm }: Pick<PrintedTorque, 'nominalNm' | 'minNm' | 'maxNm'>,
  figures: Figures,
  unit: TorqueUnit = 'N·m',
): string {
  const beside = [nominalNm, minNm, maxNm].filter((nm) => nm !== undefined)
  return spanWords(nominalNm, minNm, maxNm, (nm) => figures.torque(nm, unit, beside), ` ${unit}`)
}

function spanWords(
  nominal: number | undefined,
  min: number | undefined,
  max: number | undefined,
  shown: (value: number) => string,
  unit: string,
): string {
  const band =
    min !== undefined && max !== undefined
      ? `${shown(min)} to ${shown(max)}${unit}`
      : min !== undefined
        ? `at least ${shown(min)}${unit}`
        : max !== undefined
          ? `at most ${shown(max)}${unit}`
          : ''
  if (nominal === undefined) return band
  return `${shown(nominal)}${unit}${band ? ` (${band})` : ''}`
}
