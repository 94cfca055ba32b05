/** Why nothing was reckoned: the codes of this room and the one sentence of each. */
import { type Refusal, refuse } from '../log'

interface WrenchRefusalData {
  torque_impossible: { value: number }
  lever_impossible: { wrenchMm: number; adapterMm: number; angleDeg: number }
  lever_reversed: { wrenchMm: number; adapterMm: number; angleDeg: number }
  check_impossible: { shown: number; reference: number }
}

export type WrenchRefusal = Refusal<keyof WrenchRefusalData>

export const refuseWrench = <Code extends keyof WrenchRefusalData>(
  code: Code,
  data: WrenchRefusalData[Code],
): WrenchRefusal => refuse(code, { ...data })

/** A number that was left out, or is none, has no figure to show. */
const figure = (value: number, unit: string) =>
  Number.isFinite(value) ? `${value}${unit}` : unit === '°' ? 'an unknown angle' : 'unknown length'

const SENTENCES: { [Code in keyof WrenchRefusalData]: (data: WrenchRefusalData[Code]) => string } = {
  torque_impossible: (d) =>
    Number.isFinite(d.value)
      ? `A torque of ${d.value} N·m cannot be set. Enter one above zero that a hand can pull.`
      : 'There is no torque to set. Enter one above zero.',
  lever_impossible: (d) =>
    `A wrench of ${figure(d.wrenchMm, ' mm')} with an adapter of ${figure(d.adapterMm, ' mm')} at ${figure(d.angleDeg, '°')} do not make a lever. Measure the wrench from the middle of its drive to the middle of its grip, the adapter from drive to fastener.`,
  lever_reversed: (d) =>
    `An adapter of ${d.adapterMm} mm at ${d.angleDeg}° on a wrench of ${d.wrenchMm} mm reaches back to the hand or beyond: no pull on the grip turns the fastener that way. Turn the adapter outward.`,
  check_impossible: (d) =>
    [d.shown, d.reference].every(Number.isFinite)
      ? `${d.shown} against a reference of ${d.reference} gives no deviation. Enter two readings above zero.`
      : 'One of the two readings is missing. Enter both, above zero.',
}

/** What is so, which one, what to do next. */
export function wrenchSentence(refusal: WrenchRefusal): string {
  const sentence = SENTENCES[refusal.refused] as (data: Record<string, unknown>) => string
  return sentence(refusal.data)
}
