/** A specification in words `readSpec` reads back to the same: N·m and degrees, the limits in brackets. */
import { unambiguous } from '../units'
import { PLAIN_RANGE } from './quantity'
import type { Spec, SpecPass, TorqueSpec } from './types'

/**
 * `30 N·m (27–33 N·m), then +90°, then slacken 180°`. Two units that differ are printed as they stood in the text; a
 * torque below the one before it, as `then down to`.
 */
export function printSpec(spec: Spec): string {
  const two = spec.contradiction ?? spec.remark
  let before: TorqueSpec | undefined
  return spec.passes
    .map((pass, i) => {
      const falls = pass.kind === 'torque' && before !== undefined && levelOf(pass) < levelOf(before)
      if (pass.kind === 'torque') before = pass
      if (pass.kind === 'slacken') before = undefined
      const join = i === 0 ? '' : falls ? ', then down to ' : ', then '
      return join + (two?.pass === i ? `${two.first.text} (${two.second.text})` : printPass(pass))
    })
    .join('')
}

/** What a torque is held against the one before it by. */
const levelOf = ({ nominalNm, minNm, maxNm }: TorqueSpec) => nominalNm ?? maxNm ?? minNm ?? 0

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
  const range = min !== undefined && max !== undefined && min < max && max <= min * PLAIN_RANGE
  const limits = range
    ? shown(`${unambiguous(min)}–${unambiguous(max)}`)
    : [min === undefined ? '' : `min ${at(min)}`, max === undefined ? '' : `max ${at(max)}`]
        .filter(Boolean)
        .join(', ')
  if (nominal === undefined) return limits
  return limits ? `${at(nominal)} (${limits})` : at(nominal)
}
