/**
 * What may happen next to one engine: `decide(job, command, context)` gives the events, or says why not.
 *
 * Facts (a reading, a measurement, a scale entry, a bead of sealant) are never refused: they are recorded, with
 * flags. Words (open, claim, sign, waive, release) may be. An empty list means "nothing to do": a second tap by
 * the same hand changes nothing. Never throws for anything a person can send. The order of the checks is
 * RULES.md's; the first that fails is the answer. Start here, then `evolve.ts`.
 */
import type { CommandOf, JobCommand } from './commands'
import { type Context, no, type Outcome, personOf } from './context'
import { claimStep, handOverStep, putDownStep } from './decide/claim'
import { defer, withdrawDeferral } from './decide/defer'
import { placeFasteners } from './decide/fasteners'
import { changeHold, clearHold, raiseHold } from './decide/hold'
import { recordHole } from './decide/hole'
import { answerGate, strikeMeasurement, takeMeasurement } from './decide/measure'
import { addNote, addPhoto, confirmPhoto, promiseDate } from './decide/notes'
import { adoptPlan, openJob } from './decide/open'
import { strikeReading, takeReading } from './decide/reading'
import { closeWarranty, openWarranty, release } from './decide/release'
import { withRework } from './decide/rework'
import { countRound, restartRound } from './decide/round'
import { enterScale } from './decide/scale'
import { closeSealant, startSealant } from './decide/sealant'
import { settleValue } from './decide/settle'
import { noteLook, recheckOwnWork, secondSignStep, signStep } from './decide/sign'
import { takeOff } from './decide/take-off'
import { waive } from './decide/waive'
import type { Job, PlannedJob } from './types'

type Rules = {
  [T in Exclude<JobCommand['type'], 'OpenJob' | 'AdoptPlan'>]: (
    job: PlannedJob,
    command: CommandOf<T>,
    context: Context,
  ) => Outcome
}

/** One rule a command. They need a plan; opening and adopting come before it. */
const RULES: Rules = {
  ClaimStep: claimStep,
  PutDownStep: putDownStep,
  HandOverStep: handOverStep,
  EnterScale: enterScale,
  TakeReading: takeReading,
  CountRound: countRound,
  RestartRound: restartRound,
  StrikeReading: strikeReading,
  PlaceFasteners: placeFasteners,
  RecordHole: recordHole,
  TakeMeasurement: takeMeasurement,
  StrikeMeasurement: strikeMeasurement,
  StartSealant: startSealant,
  CloseSealant: closeSealant,
  AnswerGate: answerGate,
  TakeOff: takeOff,
  SignStep: signStep,
  SecondSignStep: secondSignStep,
  NoteLook: noteLook,
  RecheckOwnWork: recheckOwnWork,
  RaiseHold: raiseHold,
  ChangeHold: changeHold,
  ClearHold: clearHold,
  Defer: defer,
  WithdrawDeferral: withdrawDeferral,
  SettleValue: settleValue,
  Waive: waive,
  Release: release,
  OpenWarranty: openWarranty,
  CloseWarranty: closeWarranty,
  PromiseDate: promiseDate,
  AddNote: addNote,
  AddPhoto: addPhoto,
  ConfirmPhoto: confirmPhoto,
}

/** What is said of an engine as it comes in, before anybody has chosen its plan. */
const WITHOUT_PLAN: ReadonlySet<JobCommand['type']> = new Set([
  'PromiseDate',
  'AddNote',
  'AddPhoto',
  'ConfirmPhoto',
])

export function decide(job: Job, command: JobCommand, context: Context): Outcome {
  if (!personOf(context)) return no('person_unknown', { by: context.by })
  if (command.type === 'OpenJob') return openJob(job, command, context)
  if (job.version === 0) return no('job_not_open', {})
  if (command.type === 'AdoptPlan') return adoptPlan(job, command, context)
  if (!job.plan && !WITHOUT_PLAN.has(command.type)) return no('no_plan', {})
  const rule = RULES[command.type] as (job: PlannedJob, command: JobCommand, context: Context) => Outcome
  const outcome = rule(job as PlannedJob, command, context)
  return job.plan ? withRework(job as PlannedJob, outcome, context) : outcome
}
