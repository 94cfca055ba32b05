/** What stands against a release, in words: what is so, which one, the way out. */
import { fastenersInWords, listed, unended, type Words } from '../words'
import { faultAndRemedy } from './fastener-faults'
import type { Against } from './release'

type Sentences = { [A in Against as A['code']]: (against: A, words: Words) => string }

const SENTENCES: Sentences = {
  not_signed: (a) => `${a.stepId} ${a.title} is not signed. Do it and sign it.`,
  second_missing: (a, w) =>
    `${a.stepId} ${a.set}: the second signature is missing; ${w.person(a.signedBy)} gave the first. Have somebody look and sign, or accept it with a reason.`,
  not_final: (a) =>
    `${a.jointTitle}, ${fastenersInWords(a.fastener, a.positions)} (class ${a.class}, ${a.stepId}): not final. Put that right, record it and sign again.`,
  hold_open: (a) =>
    `${listed(a.stepIds)} ${a.stepIds.length === 1 ? 'is' : 'are'} on hold: “${unended(a.what)}”. Clear the hold.`,
  deferral_open: (a, w) =>
    `${a.what}: left out ${w.moment(a.since)}, due at ${a.dueStepId}. Finish it there.`,
  photo_missing: (a) =>
    a.waiting
      ? `The photo of ${a.place} for ${a.stepId} has not been sent yet. Switch on the device that took it.`
      : `The photo of ${a.place} for ${a.stepId} is missing. Take it, or accept that with a reason.`,
  no_value: (a) => `${a.jointTitle}, pass ${a.pass}: no torque is published. Decide one, with a reason.`,
  hole_wrong: (a) => `${a.jointTitle}, hole ${a.position}: ${faultAndRemedy(a.fault)}.`,
  curing: (a, w) => `The sealant of ${a.stepId} cures until ${w.moment(a.until)}. Wait for it.`,
  warranty_open: (a, w) =>
    `The warranty case of ${w.moment(a.since)}, “${unended(a.complaint)}”, has no answer yet. Do the work and sign it, or record what was found.`,
  not_released_to_fitting: () => 'The engine is not released to fitting. That release comes first.',
}

export const againstWords = (against: Against, words: Words): string =>
  (SENTENCES[against.code] as (against: Against, words: Words) => string)(against, words)
