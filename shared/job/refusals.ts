/**
 * Why a word was refused: the codes, and the one sentence of each.
 *
 * A sentence says what is so, which one, and what to do next. A code without a sentence does not compile.
 */
import type { Refusal } from '../log'
import { unitAfter } from '../units'
import { listed, positionsInWords, type Words } from '../words'
import { againstWords } from './against'
import { flagWords } from './flags'
import { HOLD_WORDS } from './hold-words'
import { limitsInWords, toDecimals } from './limit-words'
import type { Against } from './release'
import type { Flag, HoldKind } from './types'
import type { FastenerFault } from './verdicts'

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
  on_hold: { stepId: string; kind: HoldKind; what: string; expectedAt?: number }
  still_curing: { stepId: string; of: string; title: string; until: number }
  asks_before_hiding: { stepId: string; behind: { joint: string; title: string; positions?: number[] }[] }
  receiver_not_entitled: { stepId: string; to: string; class: string; family: string }
  every_head: { joint: string; title: string }
  count_differs: { title: string; counted: number; open: number[] }
  fastener_not_right: { joint: string; title: string; position: number; fault: FastenerFault }
  sealant_open: { stepId: string; state: 'not_started' | 'open' | 'late'; product: string; minutes: number }
  no_sealant_asked: { stepId: string }
  sealant_not_started: { stepId: string }
  deferrals_due: { stepId: string; what: string[] }
  already_deferred: { what: string; dueStepId: string }
  already_fitted: { joint: string; title: string; position: number }
  round_broken_off: { joint: string; title: string }
  due_too_early: { stepId: string; dueStepId: string }
  due_already_signed: { dueStepId: string }
  not_entitled_to_defer: { class: string }
  deferral_not_found: { deferralId: string }
  signed_without_it: { stepId: string }
  hold_not_found: { holdId: string }
  hold_cleared: { what: string; by: string }
  nothing_to_accept: { what: string }
  value_published: { title: string; pass: number }
  limits_miss_value: { torqueNm: number; minNm: number; maxNm: number }
  proposal_refused: { title: string; why: string }
  proposal_differs: { title: string; torqueNm: number }
  above_proposal: { maxNm: number; ceilingNm: number }
  recheck_not_allowed: { stepId: string; why: 'off' | 'class_a' | 'not_the_doer' }
  recheck_too_soon: { stepId: string; from: number }
  photo_not_found: { photoId: string }
  photo_not_here: { photoId: string }
  no_such_release: { kind: 'to_fitting' | 'to_owner' }
  stands_against_release: { kind: 'to_fitting' | 'to_owner'; against: Against[] }
  needs_the_server: Record<never, never>
  not_released: Record<never, never>
}

export type RefusalCode = keyof RefusalData

/** Refusals that are about who is asking, not about the engine: HTTP answers them 403. */
export const ABOUT_THE_PERSON: ReadonlySet<string> = new Set<RefusalCode>([
  'person_unknown',
  'role_needed',
  'not_entitled',
  'not_entitled_to_second',
  'not_entitled_to_defer',
])

type Sentences = { [Code in RefusalCode]: (data: RefusalData[Code], words: Words) => string }

const joints = (behind: { joint: string; title: string; positions?: number[] }[]): string =>
  listed(
    behind.map((b) => `${b.title} ${b.joint}${b.positions ? ` (${positionsInWords(b.positions)})` : ''}`),
  )

export const FASTENER_FAULTS: Record<FastenerFault, string> = {
  not_declared: 'nobody has said whether it is new. Say what is fitted',
  temporary: 'a temporary one stands there. Fit the right one',
  hand_tight: 'it is only hand-tight. Tighten and record it',
  removed: 'it was taken out. Fit one',
  fitted_twice: 'a one-use fastener was fitted again. Fit a new one',
  cycles_spent: 'it has had its cycles. Fit a new one',
  bottoms_out:
    'its end meets the bottom of this hole before it clamps. Fit a length that is right here and say which',
  hole_impossible: 'what was recorded of its hole cannot be. Measure it again and record it',
  too_short: 'too little thread would hold it in this hole. Fit a length that is right here and say which',
  hole_stripped: 'its thread is stripped. Have it renewed and record how',
}

const SEALANT: Record<RefusalData['sealant_open']['state'], (d: RefusalData['sealant_open']) => string> = {
  not_started: (d) =>
    `No bead of ${d.product} is recorded on ${d.stepId}. Record when it was laid and closed, then sign.`,
  open: (d) =>
    `The ${d.product} on ${d.stepId} is not recorded as closed. Record the last fastener, then sign.`,
  late: (d) =>
    `The ${d.product} on ${d.stepId} was open longer than ${d.minutes} minutes. Strip it and lay a new bead, or ask the supervisor.`,
}

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
    `${d.stepId} hides ${joints(d.behind)}, not proven yet. Have it tightened and signed by both before anything covers it.`,
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
    `${d.title} at ${d.place} is ${toDecimals(d.value, d)}${unitAfter(d.unit)}; the plan asks ${limitsInWords(d)}${unitAfter(d.unit)}. Put it right and measure again, or ask the supervisor.`,
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
  on_hold: (d, w) =>
    `${d.stepId} is on hold (${HOLD_WORDS[d.kind]}): ${d.what}${d.expectedAt ? `, expected ${w.moment(d.expectedAt)}` : ''}. Clear the hold when that is settled, or take another step.`,
  still_curing: (d, w) =>
    `The sealant of ${d.of} ${d.title} cures until ${w.moment(d.until)}. ${d.stepId} can begin then; take another step meanwhile.`,
  asks_before_hiding: (d) =>
    `${d.stepId} hides ${joints(d.behind)}, not proven yet. Say that you know it and go on, or have them finished first.`,
  receiver_not_entitled: (d, w) =>
    `${w.person(d.to)} may not sign class ${d.class} joints on a ${d.family} engine. Give ${d.stepId} to somebody who may, or put it down.`,
  every_head: (d) =>
    `${d.title} ${d.joint} is class A: every head is recorded on its own. Tap each as it is done.`,
  count_differs: (d) =>
    `${d.title}: ${d.counted} counted, and ${d.open.length} are open (${positionsInWords(d.open)}). Count again, or tap the heads one by one.`,
  fastener_not_right: (d) =>
    `${d.title} ${d.joint}, position ${d.position}: ${FASTENER_FAULTS[d.fault]}, then sign.`,
  sealant_open: (d) => SEALANT[d.state](d),
  no_sealant_asked: (d) => `The plan asks for no sealant in ${d.stepId}. Note it if some was used.`,
  sealant_not_started: (d) => `No bead is recorded on ${d.stepId}. Start the clock at the first bead.`,
  deferrals_due: (d) =>
    `${listed(d.what)} ${d.what.length === 1 ? 'is' : 'are'} due at ${d.stepId}. Close that first, then sign.`,
  already_deferred: (d) =>
    `${d.what} is deferred to ${d.dueStepId} already. Withdraw that deferral before making another.`,
  already_fitted: (d) =>
    `${d.title} ${d.joint}, position ${d.position} has readings: it was not left out. Finish it or take it out first.`,
  round_broken_off: (d) =>
    `${d.title} ${d.joint} was broken off in the middle of a pass. Follow what its interruption rule asks, then leave out what is to be left out.`,
  due_too_early: (d) => `${d.dueStepId} does not come after ${d.stepId} in the plan. Choose a later step.`,
  due_already_signed: (d) => `${d.dueStepId} is signed already. Choose a step that is still to come.`,
  not_entitled_to_defer: (d) =>
    d.class === 'A'
      ? 'A class A joint is left out on a supervisor’s word only. Ask one.'
      : `Leaving out a class ${d.class} joint is for somebody who may do it. Ask one, or the supervisor.`,
  deferral_not_found: (d) => `There is no deferral ${d.deferralId} on this job. Reload and choose again.`,
  signed_without_it: (d) =>
    `${d.stepId} was signed without it, so it stays due where it was deferred to. Close it there.`,
  hold_not_found: (d) => `There is no hold ${d.holdId} on this job. Reload and choose again.`,
  hold_cleared: (d, w) => `${w.person(d.by)} has cleared “${d.what}”. Raise a new hold if it is back.`,
  nothing_to_accept: (d) =>
    `Nothing stands against ${d.what}. A waiver is given once there is something to accept.`,
  value_published: (d) =>
    `${d.title}, pass ${d.pass} has a value in the plan. A supervisor waives a deviation; the value stays.`,
  limits_miss_value: (d) =>
    `${d.torqueNm} N·m is not between ${d.minNm} and ${d.maxNm}. Enter limits around the value.`,
  proposal_refused: (d) =>
    `No torque can be computed for ${d.title}: ${d.why} Settle it by a source or a competent person’s word.`,
  proposal_differs: (d) =>
    `What was computed for ${d.title} does not come out again: as job and shop stand now it is ${d.torqueNm} N·m. Look at the proposal again and settle that.`,
  above_proposal: (d) =>
    `The highest limit of ${d.maxNm} N·m is above the ${d.ceilingNm} N·m at which something gives. Lower it, or settle it by a source or a competent person’s word.`,
  recheck_not_allowed: (d) =>
    d.why === 'off'
      ? 'This shop does not take the doer’s own second look. Ask another person.'
      : d.why === 'class_a'
        ? `${d.stepId} has class A joints: another person looks, never the doer. Ask one.`
        : `Only the one who signed ${d.stepId} can declare their own second look. Sign as second person instead.`,
  recheck_too_soon: (d, w) =>
    `Your own second look at ${d.stepId} counts from ${w.moment(d.from)}. Come back then, or ask another person.`,
  photo_not_found: (d) => `There is no photo ${d.photoId} on this job. Add it first.`,
  photo_not_here: (d) =>
    `The bytes of photo ${d.photoId} are not here yet. Keep the device on until they are sent.`,
  no_such_release: (d) =>
    `The plan has no ${d.kind === 'to_fitting' ? 'release to fitting' : 'release to the owner'}. The other release is the one to give.`,
  stands_against_release: (d, w) =>
    `${d.against.length} ${d.against.length === 1 ? 'thing stands' : 'things stand'} against it. ${d.against.map((a) => againstWords(a, w)).join(' ')}`,
  needs_the_server: () => 'A release is written by the shop’s server. Wait until the connection is back.',
  not_released: () => 'This engine is not released to its owner. Its job is still open; go on with it.',
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
