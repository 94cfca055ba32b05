/**
 * Why a word was refused: the codes, and the one sentence of each.
 *
 * A sentence says what is so, which one, and what to do next. A code without a sentence does not compile.
 */
import { doubtsInWords } from '../fastener/doubts'
import type { TorqueJudgement } from '../fastener/judge'
import { type ProposalRefusal, proposalSentence } from '../fastener/proposal-refusals'
import type { Refusal } from '../log'
import type { ReleaseKind } from '../plan/kinds'
import { limitsWords, toDecimals } from '../plan/words'
import { somebodyOf } from '../shop/entitlement'
import type { Role } from '../shop/kinds'
import { unitAfter } from '../units/show'
import { counted, ended, fastenersInWords, listed, unended, type Words } from '../words'
import { againstWords } from './against'
import { type FastenerFault, faultAndRemedy } from './fastener-faults'
import { type Flag, flagWords, HOLD_KINDS, type HoldKind, holdWords } from './kinds'
import type { Against } from './release'

/** A joint by its title, its fasteners by their noun: "Head bolts, bolt 3". */
interface AtJoint {
  joint: string
  title: string
  fastener: string
}

interface RefusalData {
  person_unknown: { by: string }
  job_not_open: Record<never, never>
  job_already_open: { number: string }
  number_taken: { number: string }
  role_needed: { what: string; roles: Role[] }
  no_plan: Record<never, never>
  plan_not_found: { planId: string; edition: number }
  plan_already_adopted: { title: string; edition: number }
  step_not_found: { stepId: string }
  set_not_found: { stepId: string; setId: string; sets: string[] }
  joint_not_found: { jointId: string }
  position_not_found: AtJoint & { position: number; positions: number[] }
  pass_not_found: { jointId: string; title: string; pass: number; passes: number }
  value_missing: AtJoint & { position: number; how: 'indicated' | 'turned' }
  wrench_not_found: { wrenchId: string }
  wrench_has_no_torque_scale: { wrenchId: string }
  reading_not_found: { readingId: string }
  measurement_not_found: { stepId: string; measurementId: string }
  place_not_found: { what: string; place: string; places: string[] }
  entry_not_found: { entryId: string }
  gate_not_found: { stepId: string; gateId: string }
  gate_not_for_answering: { gateId: string; kind: string }
  not_yours_to_strike: { by: string }
  /** `wished`: when the one who asks claimed it, where that was earlier. */
  already_claimed: { stepId: string; by: string; since: number; wished?: number }
  step_already_signed: { stepId: string; by: string }
  needs_open: { stepId: string; needs: { id: string; title: string }[] }
  would_hide_unproven: { stepId: string; behind: (AtJoint & { positions?: number[] })[] }
  not_entitled: { stepId: string; class: string; family: string }
  not_your_step: { stepId: string; by?: string }
  sets_first: { stepId: string; sets: string[] }
  positions_open: AtJoint & { positions: number[]; pass: number; passes: number }
  flags_stand: AtJoint & { position: number; flags: Flag[] }
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
  not_entitled_to_second: { stepId: string; by: string; class: string; family: string }
  changed_since_look: { stepId: string }
  on_hold: { stepId: string; kind: HoldKind; what: string; expectedAt?: number }
  still_curing: { stepId: string; of: string; title: string; until: number }
  asks_before_hiding: { stepId: string; behind: (AtJoint & { positions?: number[] })[] }
  receiver_not_entitled: { stepId: string; to: string; class: string; family: string }
  every_head: AtJoint
  count_differs: AtJoint & { counted: number; open: number[] }
  fastener_not_right: AtJoint & { position: number; fault: FastenerFault }
  sealant_open: { stepId: string; state: 'not_started' | 'open' | 'late'; product: string; minutes: number }
  no_sealant_asked: { stepId: string }
  sealant_not_started: { stepId: string }
  deferrals_due: { stepId: string; what: string[] }
  already_deferred: { what: string; dueStepId: string }
  already_fitted: AtJoint & { position: number }
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
  /** With `planTitle`: of a plan to adopt; else a torque somebody decides. */
  torque_impossible: {
    stepId: string
    title: string
    pass: number
    judged: TorqueJudgement
    planTitle?: string
  }
  proposal_refused: { title: string; reasons: ProposalRefusal[] }
  proposal_differs: { title: string; torqueNm: number }
  above_proposal: { maxNm: number; ceilingNm: number }
  recheck_not_allowed: { stepId: string; why: 'off' | 'class_a' | 'not_the_doer' }
  recheck_too_soon: { stepId: string; from: number }
  photo_not_found: { photoId: string }
  photo_not_here: { photoId: string }
  no_such_release: { kind: ReleaseKind }
  stands_against_release: { kind: ReleaseKind; against: Against[] }
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

/** `Oil cooler bolts`, `Rod cap bolts (bolts 5, 6)`: what a step covers. */
const joints = (behind: (AtJoint & { positions?: number[] })[]): string =>
  listed(
    behind.map(({ title, fastener, positions }) =>
      positions ? `${title} (${fastenersInWords(fastener, positions)})` : title,
    ),
  )

/** `Rocker box stud nuts, nut 3`. */
const at = ({ title, fastener, position }: AtJoint & { position: number }): string =>
  `${title}, ${fastener} ${position}`

const SEALANT: Record<RefusalData['sealant_open']['state'], (d: RefusalData['sealant_open']) => string> = {
  not_started: (d) =>
    `No ${d.product} is recorded on ${d.stepId}. Enter when the bead was laid and when the last fastener went in, then sign.`,
  open: (d) => `The last fastener over the ${d.product} on ${d.stepId} is not recorded. Enter it, then sign.`,
  late: (d) =>
    `The ${d.product} on ${d.stepId} was open for longer than ${counted(d.minutes, 'minute')}. Clean it off and lay a new bead, or ask the supervisor.`,
}

const RECHECK: Record<RefusalData['recheck_not_allowed']['why'], (stepId: string) => string> = {
  off: () => 'In this shop nobody second-signs their own work. Ask another person to look.',
  class_a: (stepId) =>
    `${stepId} has class A joints, and nobody second-signs their own class A work. Ask another person to look.`,
  not_the_doer: (stepId) =>
    `You did not sign ${stepId}, so it is not your own work. Sign as the second person instead.`,
}

const SENTENCES: Sentences = {
  person_unknown: (d) => `Nobody by the id ${d.by} works here. Add the person first.`,
  job_not_open: () => 'There is no job here. Open one first.',
  job_already_open: (d) => `Job ${d.number} is open already. Use it, or open another with a new number.`,
  number_taken: (d) => `${d.number} is the number of another engine. Choose a free one.`,
  role_needed: (d) => `Only ${somebodyOf(d.roles)} can ${d.what}. Ask one of them.`,
  no_plan: () => 'This job has no build plan yet. A supervisor adopts one on the engine page.',
  plan_not_found: (d) =>
    `The library has no plan ${d.planId}, edition ${d.edition}. Add it, or choose another.`,
  plan_already_adopted: (d) =>
    `This job already has the plan ${d.title}, edition ${d.edition}, and keeps it. Open another job for another plan.`,
  step_not_found: (d) => `The plan has no step ${d.stepId}. Reload the engine and choose again.`,
  set_not_found: (d) =>
    `Step ${d.stepId} has nothing called ${d.setId} to sign. Choose ${listed(d.sets, 'or')}.`,
  joint_not_found: (d) => `The plan has no joint ${d.jointId}. Reload the engine and choose again.`,
  position_not_found: (d) =>
    `${d.title}: there is no ${d.fastener} ${d.position}, only ${fastenersInWords(d.fastener, d.positions)}. Look at the bolt map.`,
  pass_not_found: (d) =>
    `${d.title}: there is no pass ${d.pass}, only ${counted(d.passes, 'pass', 'passes')}. Choose one on the bench.`,
  value_missing: (d) =>
    `${at(d)}: ${d.how === 'turned' ? 'the angle' : 'the number on the wrench'} is missing. Enter it.`,
  wrench_not_found: (d) => `There is no wrench ${d.wrenchId} in the crib. Choose another, or have it added.`,
  wrench_has_no_torque_scale: (d) =>
    `${d.wrenchId} has no torque scale. Choose a torque wrench for this pass.`,
  reading_not_found: (d) =>
    `There is no reading ${d.readingId} on this job. Reload the record and choose again.`,
  measurement_not_found: (d) =>
    `Step ${d.stepId} has no measurement ${d.measurementId}. Reload and choose again.`,
  place_not_found: (d) =>
    `${d.what}: “${d.place}” is not one of its places. Choose ${listed(d.places, 'or')}.`,
  entry_not_found: (d) =>
    `There is no measurement ${d.entryId} on this step. Reload the record and choose again.`,
  gate_not_found: (d) => `Step ${d.stepId} has no check ${d.gateId}. Reload the engine and choose again.`,
  gate_not_for_answering: (d) =>
    d.kind === 'photo'
      ? 'This check needs a photo. Take one.'
      : 'This check is answered by the record itself. Record and sign what it names.',
  not_yours_to_strike: (d, w) => `${w.person(d.by)} entered this. Ask them or a supervisor to cross it out.`,
  already_claimed: (d, w) =>
    `${w.person(d.by)} claimed ${d.stepId} at ${w.moment(d.since)}. ${
      d.wished === undefined
        ? ''
        : `Your claim was of ${w.moment(d.wished)}, before that, but theirs reached the shop first, and the first there gets the step. `
    }Ask them for it, or claim another step.`,
  step_already_signed: (d, w) =>
    `${w.person(d.by)} has signed ${d.stepId} already. Choose another step; a second signature, where it needs one, is somebody else’s.`,
  needs_open: (d) =>
    `${d.stepId} comes after ${listed(d.needs.map((n) => `${n.id} ${n.title}`))}. Do and sign that first.`,
  would_hide_unproven: (d) =>
    `${d.stepId} covers ${joints(d.behind)}, not signed off yet. Have that tightened and signed by both people first.`,
  not_entitled: (d) =>
    `${d.stepId} is class ${d.class} work on a ${d.family} engine, and you may not sign that. Claim another step, or ask the supervisor.`,
  not_your_step: (d, w) =>
    d.by
      ? `${w.person(d.by)} has ${d.stepId}, and whoever has a step signs it. Ask them to hand it over to you.`
      : `Nobody has claimed ${d.stepId}. Claim it, look it over, then sign.`,
  sets_first: (d) => `Sign ${listed(d.sets)} first. The rest of the step is signed last.`,
  positions_open: (d) =>
    `${d.title}: ${fastenersInWords(d.fastener, d.positions)} ${d.positions.length === 1 ? 'still needs' : 'still need'} ${d.passes === 1 ? 'tightening' : `pass ${d.pass} of ${d.passes}`}. Finish that, then sign.`,
  flags_stand: (d) =>
    `${at(d)}: ${listed(d.flags.map(flagWords))}. Put it right and record it again, or cross out a wrong entry; then sign.`,
  measurement_missing: (d) =>
    `${d.title} is not measured at ${listed(d.places)}. Measure and enter it, then sign.`,
  measurement_out_of_limits: (d, w) =>
    `${d.title} at ${d.place} is ${toDecimals(d.value, d, w)}${unitAfter(d.unit)}; the plan says ${limitsWords(d, w)}. Put it right and measure again, or ask the supervisor.`,
  gate_open: (d) => `Do this before you sign: ${ended(d.text)}`,
  no_second_asked: (d) => `${d.stepId} needs one signature only. There is nothing left to do.`,
  not_signed_yet: (d) => `${d.stepId} is not signed by the one who did it. That signature comes first.`,
  already_second_signed: (d, w) =>
    `${w.person(d.by)} second-signed ${d.stepId} at ${w.moment(d.at)}. There is nothing left to do.`,
  own_work: (d, w) =>
    `${w.person(d.by)} worked on ${d.stepId}. Somebody else has to look and give the second signature.`,
  not_entitled_to_second: (d, w) =>
    `${w.person(d.by)} may not give the second signature for class ${d.class} on a ${d.family} engine. Ask somebody who may.`,
  changed_since_look: (d) =>
    `Something on ${d.stepId} changed after the PIN was entered. Look again and sign again.`,
  on_hold: (d, w) =>
    `${d.stepId} is on hold (${HOLD_KINDS[d.kind].word}): ${holdWords(d, w)} Clear the hold once that is settled, or claim another step.`,
  still_curing: (d, w) =>
    `The sealant of ${d.of} ${d.title} cures until ${w.moment(d.until)}. ${d.stepId} can begin then; claim another step meanwhile.`,
  asks_before_hiding: (d) =>
    `${d.stepId} covers ${joints(d.behind)}, not signed off yet. Have that finished first, or confirm that you know and claim the step.`,
  receiver_not_entitled: (d, w) =>
    `${w.person(d.to)} may not sign class ${d.class} joints on a ${d.family} engine. Hand ${d.stepId} to somebody who may, or leave the step.`,
  every_head: (d) =>
    `${d.title}: class A, so every ${d.fastener} is recorded on its own. Tap each one as it is done.`,
  count_differs: (d) =>
    `${d.title}: you counted ${d.counted}, but ${fastenersInWords(d.fastener, d.open)} ${d.open.length === 1 ? 'is' : 'are'} open. Count again, or tap them one by one.`,
  fastener_not_right: (d) => `${at(d)}: ${faultAndRemedy(d.fault)}, then sign.`,
  sealant_open: (d) => SEALANT[d.state](d),
  no_sealant_asked: (d) => `The plan has no sealant in ${d.stepId}. Write a note if you used some.`,
  sealant_not_started: (d) => `No sealant is recorded on ${d.stepId}. Enter the first bead first.`,
  deferrals_due: (d) =>
    `${listed(d.what)} ${d.what.length === 1 ? 'was left out and is' : 'were left out and are'} due at ${d.stepId}. Finish that, then sign.`,
  already_deferred: (d) =>
    `${d.what} is left out already, due at ${d.dueStepId}. To make it due elsewhere, enter first that it is no longer left out.`,
  already_fitted: (d) => `${at(d)} has readings, so it was not left out. Finish it, or remove it first.`,
  round_broken_off: (d) =>
    `${d.title}: a pass was interrupted. Do what the bench says about that first, then leave out what is to be left out.`,
  due_too_early: (d) => `${d.dueStepId} does not come after ${d.stepId} in the plan. Choose a later step.`,
  due_already_signed: (d) => `${d.dueStepId} is signed already. Choose a step that is still to come.`,
  not_entitled_to_defer: (d) =>
    d.class === 'A'
      ? 'Only a supervisor can leave out a class A joint. Ask one.'
      : `You may not leave out a class ${d.class} joint. Ask somebody who may, or the supervisor.`,
  deferral_not_found: (d) =>
    `Nothing on this job is left out under the id ${d.deferralId}. Reload and choose again.`,
  signed_without_it: (d) =>
    `${d.stepId} was signed without it, so it stays due at its later step. Finish it there.`,
  hold_not_found: (d) => `There is no hold ${d.holdId} on this job. Reload and choose again.`,
  hold_cleared: (d, w) =>
    `${w.person(d.by)} has cleared the hold “${unended(d.what)}”. Put the step on hold again if it has to wait again.`,
  nothing_to_accept: (d) =>
    `Nothing is wrong with ${d.what}, so there is nothing to accept. Reload and look again.`,
  value_published: (d) =>
    `${d.title}, pass ${d.pass} has a torque in the plan, and it stays. A supervisor can accept a different reading with a reason.`,
  limits_miss_value: (d, w) =>
    `${w.torque(d.torqueNm, 'N·m', [d.minNm, d.maxNm])} N·m is not between ${w.torque(d.minNm, 'N·m')} and ${w.torque(d.maxNm, 'N·m')} N·m. Enter limits on both sides of the torque.`,
  torque_impossible: (d, w) =>
    `${d.stepId} ${d.title}, pass ${d.pass}: ${doubtsInWords(d.judged, w).join(' ')} ${
      d.planTitle
        ? `Put it right in a new edition of ${d.planTitle}, or take it there as printed, with its page as a photo.`
        : 'Check the unit, the thread and the grade, and decide a lower torque or upper limit.'
    }`,
  proposal_refused: (d, w) =>
    `No torque can be computed for ${d.title}: ${d.reasons.map((reason) => proposalSentence(reason, w)).join(' ')} Decide it by a source or a competent person’s word.`,
  proposal_differs: (d, w) =>
    `The torque computed for ${d.title} is now ${w.torque(d.torqueNm, 'N·m')} N·m, because the job or the shop has changed since. Look at it again and decide that one.`,
  above_proposal: (d, w) =>
    `The upper limit of ${w.torque(d.maxNm, 'N·m', [d.ceilingNm])} N·m is above ${w.torque(d.ceilingNm, 'N·m', [d.maxNm])} N·m, where something gives way. Lower it, or decide the torque by a source or a competent person’s word.`,
  recheck_not_allowed: (d) => RECHECK[d.why](d.stepId),
  recheck_too_soon: (d, w) =>
    `You can look at your own work on ${d.stepId} again from ${w.moment(d.from)}. Come back then, or ask another person.`,
  photo_not_found: (d) => `There is no photo ${d.photoId} on this job. Add it first.`,
  photo_not_here: (d) =>
    `Photo ${d.photoId} has not been sent yet. Keep the device that took it switched on.`,
  no_such_release: (d) =>
    d.kind === 'to_fitting'
      ? 'The plan has no release to fitting. Release the engine to its owner.'
      : 'The plan has no release to the owner. Release the engine to fitting.',
  stands_against_release: (d, w) =>
    `The engine cannot be released: ${d.against.length === 1 ? '1 thing is' : `${d.against.length} things are`} open. ${d.against.map((a) => againstWords(a, w)).join(' ')}`,
  needs_the_server: () => 'Only the shop’s server can write a release. Wait until the connection is back.',
  not_released: () => 'This engine is not released to its owner; its job is still open. Continue that job.',
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
