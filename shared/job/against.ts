/** What stands against a release, in words: what is so, which one, the way out. */
import { positionsInWords, type Words } from '../words'
import { FASTENER_FAULTS } from './refusals'
import type { Against } from './release'

type Sentences = { [A in Against as A['code']]: (against: A, words: Words) => string }

const SENTENCES: Sentences = {
  not_signed: (a) => `${a.stepId} ${a.title} is not signed: do it and sign it.`,
  second_missing: (a, w) =>
    `${a.stepId} ${a.set}: ${w.person(a.signedBy)} signed, the second signature is missing. Have it looked at, or waive it with a reason.`,
  not_final: (a) =>
    `${a.jointTitle} ${a.joint} ${positionsInWords(a.positions)} (class ${a.class}) in ${a.stepId} is not final: put it right, record and sign it again.`,
  hold_open: (a) => `“${a.what}” still holds ${a.stepIds.join(', ')}: clear it.`,
  deferral_open: (a, w) =>
    `${a.what}, left out since ${w.moment(a.since)}, is due at ${a.dueStepId}: close it there.`,
  photo_missing: (a) =>
    a.waiting
      ? `The photo of ${a.place} for ${a.stepId} is taken but not here yet: switch on the device that has it.`
      : `The photo of ${a.place} for ${a.stepId} is missing: take it, or waive it with a reason.`,
  no_value: (a) =>
    `${a.jointTitle} ${a.joint}, pass ${a.pass} has no published value: settle one with a reason.`,
  hole_wrong: (a) => `${a.jointTitle} ${a.joint}, hole ${a.position}: ${FASTENER_FAULTS[a.fault]}.`,
  curing: (a, w) => `The sealant of ${a.stepId} cures until ${w.moment(a.until)}: wait for it.`,
  warranty_open: (a, w) =>
    `The warranty case of ${w.moment(a.since)}, “${a.complaint}”, is not answered: do and sign the work, or record what was found.`,
  not_released_to_fitting: () => 'The engine is not released to fitting: that release comes first.',
}

export const againstWords = (against: Against, words: Words): string =>
  (SENTENCES[against.code] as (against: Against, words: Words) => string)(against, words)
