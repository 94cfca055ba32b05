/** Why a typed torque or length was not taken: codes and their sentences. What is so, which one, what to do next. */
import { type Refusal, refuse } from '../log'
import { type Figures, listed } from '../words'

/** One way an unclear text can be read, written so that this room reads it back in that way only. */
export interface Reading {
  text: string
}

interface UnitRefusalData {
  nothing_entered: Record<never, never>
  not_a_torque: { text: string }
  not_a_length: { text: string }
  unclear: { text: string; why: Unclear; readings: Reading[] }
}
export type UnitRefusalCode = keyof UnitRefusalData

/** `no_unit`: a number alone. `decimal_sign`: the point or comma may be decimal or part thousands. */
export type Unclear = 'no_unit' | 'decimal_sign'

const UNCLEAR: Record<Unclear, string> = {
  no_unit: 'has no unit',
  decimal_sign: 'has a point or comma that may be decimal or mark thousands',
}

type Sentences = { [Code in UnitRefusalCode]: (data: UnitRefusalData[Code], figures: Figures) => string }

const SENTENCES: Sentences = {
  nothing_entered: () => 'Nothing is entered. Enter a number and its unit.',
  not_a_torque: (d) => `“${d.text}” is not one torque with its unit. Enter it as 47 N·m or 35 lbf·ft.`,
  not_a_length: (d, { number }) =>
    `“${d.text}” is not one length with its unit. Enter it as ${number(9.5)} mm or 3/8 in.`,
  unclear: (d, { digits }) =>
    `“${d.text}” ${UNCLEAR[d.why]}: ${listed(d.readings.map((reading) => digits(reading.text)))} are possible. Choose the one that is printed.`,
}

export function unitSentenceFor(refusal: Refusal, figures: Figures): string | undefined {
  const sentence = SENTENCES[refusal.refused as UnitRefusalCode] as
    | ((data: unknown, figures: Figures) => string)
    | undefined
  return sentence?.(refusal.data, figures)
}

/** A refusal of this room: the code and exactly the data its sentence needs. */
export function refuseUnit<Code extends UnitRefusalCode>(
  code: Code,
  data: UnitRefusalData[Code],
): Refusal<Code> {
  return refuse(code, { ...data })
}
