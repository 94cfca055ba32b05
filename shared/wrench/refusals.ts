/** Why nothing was reckoned: the codes of this room and the one sentence of each. */
import { type Refusal, refuse } from '../log'
import { exact, type Figures } from '../words'

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
const figure = (value: number, unit: string, f: Figures) =>
  Number.isFinite(value) ? `${exact(value, f)}${unit}` : unit === '°' ? 'an unknown angle' : 'unknown length'

const SENTENCES: {
  [Code in keyof WrenchRefusalData]: (data: WrenchRefusalData[Code], figures: Figures) => string
} = {
  torque_impossible: (d, f) =>
    Number.isFinite(d.value)
      ? `A torque of ${exact(d.value, f)} N·m cannot be set. Enter one above zero that a hand can pull.`
      : 'There is no torque to set. Enter one above zero.',
  lever_impossible: (d, f) =>
    `A wrench of ${figure(d.wrenchMm, ' mm', f)} with an adapter of ${figure(d.adapterMm, ' mm', f)} at ${figure(d.angleDeg, '°', f)} does not make a lever. Measure the wrench from the middle of its drive to the middle of its grip, the adapter from drive to fastener.`,
  lever_reversed: (d, f) =>
    `An adapter of ${figure(d.adapterMm, ' mm', f)} at ${figure(d.angleDeg, '°', f)} on a wrench of ${figure(d.wrenchMm, ' mm', f)} reaches back to the hand or beyond: no pull on the grip turns the fastener that way. Turn the adapter outward.`,
  check_impossible: (d, f) =>
    [d.shown, d.reference].every(Number.isFinite)
      ? `${exact(d.shown, f)} against a reference of ${exact(d.reference, f)} gives no deviation. Enter two readings above zero.`
      : 'One of the two readings is missing. Enter both, above zero.',
}

/** What is so, which one, what to do next. */
export function wrenchSentence(refusal: WrenchRefusal, figures: Figures): string {
  const sentence = SENTENCES[refusal.refused] as (data: Record<string, unknown>, figures: Figures) => string
  return sentence(refusal.data, figures)
}
