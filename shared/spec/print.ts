/** A specification in words `readSpec` reads back to the same: N·m and degrees, the limits in brackets. */
import { unambiguous } from '../units'
import { WIDEST } from './quantity'
import type { Spec, SpecPass } from './types'

/** `30 N·m (27–33 N·m), then +90°, then slacken 180°`. A contradiction is printed as it stood in the text. */
export function printSpec(spec: Spec): string {
  return spec.passes
    .map((pass, i) => {
      const { contradiction } = spec
      return contradiction?.pass === i
        ? `${contradiction.first.text} (${contradiction.second.text})`
        : printPass(pass)
    })
    .join(', then ')
}

function printPass(pass: SpecPass): string {
  if (pass.kind === 'torque') return values(pass.nominalNm, pass.minNm, pass.maxNm, (value) => `${value} N·m`)
  const angle = values(pass.nominalDeg, pass.minDeg, pass.maxDeg, (value) => `${value}°`)
  if (pass.kind === 'angle') return `+${angle}`
  return angle === '' ? 'slacken fully' : `slacken ${angle}`
}

function values(
  nominal: number | undefined,
  min: number | undefined,
  max: number | undefined,
  shown: (value: string) => string,
): string {
  const at = (value: number) => shown(unambiguous(value))
  const range = min !== undefined && max !== undefined && min < max && max <= min * WIDEST
  const limits = range
    ? shown(`${unambiguous(min)}–${unambiguous(max)}`)
    : [min === undefined ? '' : `min ${at(min)}`, max === undefined ? '' : `max ${at(max)}`]
        .filter(Boolean)
        .join(', ')
  if (nominal === undefined) return limits
  return limits ? `${at(nominal)} (${limits})` : at(nominal)
}
