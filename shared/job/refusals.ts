/**
 * Why a word was refused: the codes, and the one sentence of each.
 *
 * A sentence says what is so, which one, and what to do next. A code without a sentence does not compile.
 */
import type { Refusal } from '../log'
import { listed, positionsInWords, type Words } from '../words'
import { flagWords } from './flags'
import type { Flag } from './types'

interface RefusalData {
  person_unknown: { by: string }
  job_not_open: Record<never, never>
  job_already_open: { number: string }
  number_taken: { number: string }
  role_needed: { what: string; roles: string[] }
  no_plan: Record<never, never>
  plan_not_found: { planId: string; edition: number }
  plan_already_adopted: { title: string; edition: number }
  step_not_found: { stepId: string }
  set_not_found: { stepId: string; setId: string; sets: string[] }
  joint_not_found: { jointId: string }
  position_not_found: { jointId: string; position: number; positions: number[] }
  pass_not_found: { jointId: string; pass: number; passes: number }
  value_missing: { jointId: string; position: number; how: string }
  wrench_not_found: { wrenchId: string }
  wrench_has_no_torque_scale: { wrenchId: string }
  reading_not_found: { readingId: string }
  measurement_not_found: { stepId: string; measurementId: string }
  place_not_found: { measurementId: string; place: string; places: string[] }
  entry_not_found: { entryId: string }
  gate_not_found: { stepId: string; gateId: string }
  gate_not_for_answering: { gateId: string; kind: string }
  not_yours_to_strike: { by: string }
  already_claimed: { stepId: string; by: string; since: number }
  step_already_signed: { stepId: string; by: string }
  needs_open: { stepId: string; needs: { id: string; title: string }[] }
  would_hide_unproven: { stepId: string; behind: { joint: string; title: string; positions?: number[] }[] }
  not_entitled: { stepId: string; class: string; family: string }
  not_your_step: { stepId: string; by?: string }
  sets_first: { stepId: string; sets: string[] }
  positions_open: { joint: string; title: string; positions: number[]; pass: number; passes: number }
  flags_stand: { joint: string; title: string; position: number; flags: Flag[] }
  measurement_missing: { title: string; places: string[] }
  measurement_out_of_limits: {
    title: string
    place: string
    value: number
    unit: string
    min?: number
    max?: number
  }
  gate_open: { text: string }
  no_second_asked: { stepId: string }
  not_signed_yet: { stepId: string; setId: string }
  already_second_signed: { stepId: string; by: string; at: number }
  own_work: { stepId: string; by: string }
  not_entitled_to_second: { stepId: string; class: string; family: string }
  changed_since_look: { stepId: string }
}

export type RefusalCode = keyof RefusalData

/** Refusals that are about who is asking, not about the engine: HTTP answers them 403. */
export const ABOUT_THE_PERSON: ReadonlySet<string> = new Set<RefusalCode>([
  'person_unknown',
  'role_needed',
  'not_entitled',
  'not_entitled_to_second',
])

type Sentences = { [Code in RefusalCode]: (data: RefusalData[Code], words: Words) => string }

const limits = (min?: number, max?: number): string =>
  min !== undefined && max !== undefined
    ? `${min} to ${max}`
    : min !== undefined
      ? `at least ${min}`
      : `at most ${max}`

const SENTENCES: Sentences = {
  person_unknown: (d) => `Nobody by the id ${d.by} works in this shop. Add the person first.`,
  job_not_open: () => 'No job is open here. Open it first.',
  job_already_open: (d) => `Job ${d.number} is open already. Use it, or open another under a new number.`,
  number_taken: (d) => `${d.number} is another engine's number. Choose one that is free.`,
  role_needed: (d) => `${d.what} is for the ${listed(d.roles)}. Ask one of them.`,
  no_plan: () => 'This job has no build plan yet. A supervisor adopts one on the engine page.',
  plan_not_found: (d) =>
    `The library has no plan ${d.planId}, edition ${d.edition}. Import it, or choose another.`,
  plan_already_adopted: (d) =>
    `This job follows ${d.title}, edition ${d.edition}. A job keeps the plan it adopted.`,
  step_not_found: (d) => `The plan has no step ${d.stepId}. Reload the engine and choose again.`,
  set_not_found: (d) => `Step ${d.stepId} is not signed by ${d.setId}. It is signed by ${listed(d.sets)}.`,
  joint_not_found: (d) => `The plan has no joint ${d.jointId}. Reload the engine and choose again.`,
  position_not_found: (d) =>
    `${d.jointId} has no position ${d.position}. It has ${positionsInWords(d.positions)}; look at the bolt map.`,
  pass_not_found: (d) =>
    `${d.jointId} has ${d.passes} passes; there is no pass ${d.pass}. Choose one on the bench.`,
  value_missing: (d) =>
    `${d.jointId} position ${d.position}: a reading ${d.how} needs its number. Enter what was shown.`,
  wrench_not_found: (d) =>
    `The crib has no wrench ${d.wrenchId}. Choose one from the crib, or have it added.`,
  wrench_has_no_torque_scale: (d) => `${d.wrenchId} has no torque scale. Take a torque wrench for this pass.`,
  reading_not_found: (d) =>
    `There is no reading ${d.readingId} on this job. Reload the record and choose again.`,
  measurement_not_found: (d) =>
    `Step ${d.stepId} asks for no measurement ${d.measurementId}. Reload and choose again.`,
  place_not_found: (d) =>
    `${d.measurementId} is not taken at ${d.place}. It is taken at ${listed(d.places)}.`,
  entry_not_found: (d) =>
    `There is no measurement ${d.entryId} on this step. Reload the record and choose again.`,
  gate_not_found: (d) => `Step ${d.stepId} has no gate ${d.gateId}. Reload the engine and choose again.`,
  gate_not_for_answering: (d) =>
    d.kind === 'photo'
      ? 'This gate asks for a photo; a word does not answer it.'
      : 'This gate is reckoned from the record; nobody answers it by hand.',
  not_yours_to_strike: (d, w) => `${w.person(d.by)} entered this. They or a supervisor can strike it.`,
  already_claimed: (d, w) =>
    `${w.person(d.by)} has had ${d.stepId} since ${w.moment(d.since)}. Ask for it, or take another step.`,
  step_already_signed: (d, w) => `${d.stepId} is signed by ${w.person(d.by)}. Nothing is left to do here.`,
  needs_open: (d) =>
    `${d.stepId} needs ${listed(d.needs.map((n) => `${n.id} ${n.title}`))} first. Do and sign that, then come back.`,
  would_hide_unproven: (d) =>
    `${d.stepId} hides ${listed(d.behind.map((b) => `${b.title} ${b.joint}${b.positions ? ` (${positionsInWords(b.positions)})` : ''}`))}, not proven yet. Have it tightened and signed by both before anything covers it.`,
  not_entitled: (d) =>
    `${d.stepId} has class ${d.class} joints on a ${d.family} engine, which you are not entered for. Take a step you may sign, or ask the supervisor.`,
  not_your_step: (d, w) =>
    d.by
      ? `${w.person(d.by)} has ${d.stepId}. The one who did it signs; take it over first if you go on with it.`
      : `Nobody has claimed ${d.stepId}. Claim it, look it over, then sign.`,
  sets_first: (d) => `Sign ${listed(d.sets)} first; the step itself is signed last.`,
  positions_open: (d) =>
    `${d.title} ${d.joint}: ${positionsInWords(d.positions)} ${d.positions.length === 1 ? 'has' : 'have'} pass ${d.pass} of ${d.passes} to go. Finish the pass, then sign.`,
  flags_stand: (d) =>
    `${d.title} ${d.joint}, position ${d.position}: ${listed(d.flags.map(flagWords))}. Put it right and record it again, or strike a wrong entry; then sign.`,
  measurement_missing: (d) =>
    `${d.title} is not measured at ${listed(d.places)}. Measure and enter it, then sign.`,
  measurement_out_of_limits: (d) =>
    `${d.title} at ${d.place} is ${d.value} ${d.unit}; the plan asks ${limits(d.min, d.max)} ${d.unit}. Put it right and measure again, or ask the supervisor.`,
  gate_open: (d) => `Still to do before signing: ${d.text}`,
  no_second_asked: (d) => `${d.stepId} asks for one signature only. Nothing is left to do.`,
  not_signed_yet: (d) =>
    `The doer has not signed ${d.stepId} yet. The second signature comes after the first.`,
  already_second_signed: (d, w) =>
    `${w.person(d.by)} second-signed ${d.stepId} at ${w.moment(d.at)}. Nothing is left to do.`,
  own_work: (d, w) =>
    `${w.person(d.by)} worked on ${d.stepId}. The second signature is another person's, who has looked.`,
  not_entitled_to_second: (d) =>
    `${d.stepId} asks for somebody who may second-sign class ${d.class} on a ${d.family} engine. Ask one of them to look.`,
  changed_since_look: (d) =>
    `Something on ${d.stepId} changed after the PIN was given. Look again and sign again.`,
}

/** The refusal in words fit to read aloud. A code this build does not know is said as such. */
export function sentenceFor(refusal: Refusal, words: Words): string {
  const sentence = SENTENCES[refusal.refused as RefusalCode] as
    | ((data: unknown, words: Words) => string)
    | undefined
  return sentence
    ? sentence(refusal.data, words)
    : `Refused: ${refusal.refused}. Reload the page; it may be out of date.`
}

export const REFUSAL_CODES = Object.keys(SENTENCES) as RefusalCode[]

/** The data each code carries, for those who build one. */
export type { RefusalData }
