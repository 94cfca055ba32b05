/** What somebody entered, in their words: shown beside the sentence that refused it. A new command does not compile without. */
import type { CommandOf, JobCommand } from '../../shared/job/commands'
import { FASTENER_CONDITIONS, HOLD_KINDS, HOLE_CONDITIONS, RESTARTS } from '../../shared/job/kinds'
import { RELEASES } from '../../shared/plan/kinds'
import { indexPlan } from '../../shared/plan/read'
import type { AdoptedPlan } from '../../shared/plan/types'
import { fastenersInWords, positionsInWords } from '../../shared/words'
import { format } from '../format'

/** How the plan calls a joint, and positions of it: nobody chose a joint's id. */
interface Called {
  joint(jointId: string): string
  fasteners(jointId: string, positions: readonly number[]): string
}

type EntryWords = { [T in JobCommand['type']]: (command: CommandOf<T>, called: Called) => string }

const WORDS: EntryWords = {
  OpenJob: (c) => `job ${c.number}`,
  AdoptPlan: (c) => `the plan ${c.planId}`,
  ClaimStep: (c) => `the claim of ${c.stepId}`,
  PutDownStep: (c) => `leaving ${c.stepId}`,
  HandOverStep: (c) => `handing over ${c.stepId}`,
  EnterScale: (c) => `${format.number(c.value)} on the scale of ${c.wrenchId}`,
  TakeReading: (c, called) =>
    `${called.fasteners(c.jointId, [c.position])}, pass ${c.pass}: ${c.how}${c.value === undefined ? '' : ` ${format.number(c.value)}`}`,
  CountRound: (c, called) => `${called.joint(c.jointId)}, pass ${c.pass}: round done, ${c.count} counted`,
  RestartRound: (c, called) => `${called.joint(c.jointId)}: started again${RESTARTS[c.how].after}`,
  StrikeReading: (c) => `a crossing out: ${c.reason}`,
  PlaceFasteners: (c, called) =>
    `${called.fasteners(c.jointId, c.positions)}: ${FASTENER_CONDITIONS[c.condition]}${c.lengthMm === undefined ? '' : `, ${format.number(c.lengthMm)} mm`}`,
  RecordHole: (c, called) =>
    `${called.joint(c.jointId)}, hole ${c.position}: ${HOLE_CONDITIONS[c.condition]}`,
  TakeMeasurement: (c) => `${format.number(c.value, 4)} at ${c.place}`,
  StrikeMeasurement: (c) => `a crossing out: ${c.reason}`,
  StartSealant: (c) => `the first bead of ${c.stepId}`,
  CloseSealant: (c) => `the last fastener over the sealant of ${c.stepId}`,
  AnswerGate: (c) => (c.count === undefined ? 'a look' : `${c.count} counted`),
  TakeOff: (c) => `${c.stepId} taken off again`,
  NoteLook: (c) => `a look at ${c.stepId}`,
  AddNote: (c) => `a note: ${c.text}`,
  AddPhoto: (c) => `a photo${c.photo.place ? ` of ${c.photo.place}` : ''}`,
  ConfirmPhoto: () => 'that a photo is here',
  SignStep: (c) => `the signature of ${c.stepId}`,
  SecondSignStep: (c) => `the second signature of ${c.stepId}`,
  RecheckOwnWork: (c) => `your second signature on your own work, ${c.stepId}`,
  Defer: (c) => `leaving out until ${c.dueStepId}: ${c.reason}`,
  WithdrawDeferral: (c) => `fitted after all: ${c.reason}`,
  SettleValue: (c, called) =>
    `${format.number(c.torqueNm)} N·m for ${called.joint(c.jointId)}, pass ${c.pass}`,
  Waive: (c) => `an acceptance: ${c.reason}`,
  Release: (c) => `the ${RELEASES[c.kind].word}`,
  OpenWarranty: (c) => `a complaint: ${c.complaint}`,
  CloseWarranty: (c) => `a finding: ${c.finding}`,
  RaiseHold: (c) => `a hold (${HOLD_KINDS[c.kind].word}): ${c.what}`,
  ChangeHold: (c) =>
    `a change of a hold${c.what ? `: ${c.what}` : ''}${c.expectedAt === null ? ', no date' : ''}`,
  ClearHold: (c) => `a hold cleared: ${c.how}`,
  PromiseDate: (c) => `a promise for ${c.date}: ${c.reason}`,
}

export function jobCommandWords(command: JobCommand, plan: AdoptedPlan | undefined): string {
  const jointOf = (id: string) => plan && indexPlan(plan).jointById.get(id)
  const called: Called = {
    joint: (id) => jointOf(id)?.title ?? id,
    fasteners: (id, positions) => {
      const joint = jointOf(id)
      return joint
        ? `${joint.title}, ${fastenersInWords(joint.fastener, positions)}`
        : `${id}, number ${positionsInWords(positions)}`
    },
  }
  return (WORDS[command.type] as (command: JobCommand, called: Called) => string)(command, called)
}
