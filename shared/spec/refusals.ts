/**
 * Why a printed text was not read as a torque specification: codes and their sentences.
 *
 * `not_a_torque` names what it is instead, where that is known; `unclear` brings the readings to choose from,
 * each in words `readSpec` reads in that way only.
 */
import { type Refusal, refuse } from '../log'
import { type Figures, listed } from '../words'
import { noteSentenceFor } from './remark'
import type { Spec } from './types'

interface SpecRefusalData {
  nothing_printed: Record<never, never>
  not_a_torque: { text: string; what: OtherThing; part?: string }
  not_understood: { text: string; part: string; readings: SpecReading[]; note?: string }
  unclear: { text: string; why: Unclear; part?: string; readings: SpecReading[]; note?: string }
}
export type SpecRefusalCode = keyof SpecRefusalData
export type SpecRefusal = Refusal<SpecRefusalCode>

/** One way to read an unclear text: written so that it is clear, and what that then says. */
export interface SpecReading {
  text: string
  spec: Spec
}

export type OtherThing = 'words' | 'designation' | 'length' | 'quantity' | 'zero' | 'other_torque'

const OTHER: Record<OtherThing, string> = {
  words: 'has no torque in it',
  designation: 'is a thread or a part number',
  length: 'is a length',
  quantity: 'is something other than a torque',
  other_torque: 'is not a torque to tighten to',
  zero: 'asks for nothing to be tightened',
}

export type Unclear =
  | 'no_unit'
  | 'half_a_unit'
  | 'decimal_sign'
  | 'spaced_number'
  | 'fraction_or_two'
  | 'range'
  | 'limits'
  | 'wide'
  | 'slash'
  | 'list'
  | 'falls'
  | 'repeats'
  | 'misprint'
  | 'one_or_two'
  | 'numbering'
  | 'not_parted'
  | 'adds_to_torque'

const UNCLEAR: Record<Unclear, string> = {
  no_unit: 'has a number without a unit',
  half_a_unit: 'has only half a unit',
  decimal_sign: 'has a point or comma that may be decimal or mark thousands',
  spaced_number: 'has a gap between digits: one number or two',
  fraction_or_two: 'has a slash: a fraction, or two passes',
  range: 'has two numbers that may not be a range',
  limits: 'has limits that do not enclose the value',
  wide: 'has a tolerance too wide for its value',
  slash: 'has torques with a slash between them: a range, passes, or one for each of several fasteners',
  list: 'has torques with a comma between them: passes, or one for each of several fasteners',
  repeats: 'has a count behind an angle: as many passes, or as many fasteners',
  falls: 'has a torque lower than the one before it, and no slackening between them',
  misprint: 'has a unit that is no torque and may be a misprint',
  one_or_two: 'has two torques: one in two units, or two passes',
  numbering: 'numbers its passes out of sequence',
  not_parted: 'has passes with nothing between them',
  adds_to_torque: 'adds something to a torque: a second pass or a limit',
}

type Sentences = { [Code in SpecRefusalCode]: (data: SpecRefusalData[Code], figures: Figures) => string }

const SENTENCES: Sentences = {
  nothing_printed: () => 'Nothing is printed here. Enter the torque as the manual gives it.',
  not_a_torque: (d) => `“${d.text}” ${OTHER[d.what]}. Enter the torque with its unit, or leave it open.`,
  not_understood: (d, { digits }) => {
    const [only, ...more] = d.readings.map(({ text }) => `“${digits(text)}”`)
    if (!only)
      return `“${d.part}” in “${d.text}” was not understood. Enter only torques and angles here, and the rest as a note.`
    return more.length > 0
      ? `“${d.text}” has several torques: ${listed([only, ...more])}. Choose the one for this fastener.`
      : `“${d.text}” may say ${only}, with the note “${d.note ?? d.part}”. Look at the page, then choose that or enter the torque.`
  },
  unclear: (d, { digits }) =>
    `“${d.text}” ${UNCLEAR[d.why]}. ${
      d.readings.length > 0
        ? `It may say ${listed(
            d.readings.map(({ text }) => `“${digits(text)}”`),
            'or',
          )}: choose what is printed.`
        : 'Look at the page and enter it in full.'
    }${d.note ? ` ${noteSentenceFor(d.note)}` : ''}`,
}

export function specSentenceFor(refusal: Refusal, figures: Figures): string | undefined {
  const sentence = SENTENCES[refusal.refused as SpecRefusalCode] as
    | ((data: unknown, figures: Figures) => string)
    | undefined
  return sentence?.(refusal.data, figures)
}

export const SPEC_REFUSAL_CODES = Object.keys(SENTENCES) as SpecRefusalCode[]

/** A refusal of this room: the code and exactly the data its sentence needs. */
export function refuseSpec<Code extends SpecRefusalCode>(
  code: Code,
  data: SpecRefusalData[Code],
): Refusal<Code> {
  return refuse(code, { ...data })
}
