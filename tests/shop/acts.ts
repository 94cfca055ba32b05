/** What people in the test shop do, each with every default: `claim('caps')`, `shows('JH', 2, 30, { by: 'bo' })`. */

import { createHash } from 'node:crypto'
import type { JobCommand } from '../../shared/job/commands'
import type { Context } from '../../shared/job/context'
import type { JobEvent } from '../../shared/job/events'
import { lookedAt } from '../../shared/job/looked-at'
import type { NewPhoto, PlannedJob, Waived } from '../../shared/job/types'
import { signatureSets } from '../../shared/plan/read'

/** A command and who gives it; the n-th of a test happens n minutes after the start unless `at` says when. */
export interface Act extends Partial<Omit<Context, 'doneAt'>> {
  command: JobCommand
  by: string
  /** Minutes after the start. */
  at?: number
}

export type Given = Act | JobEvent | Given[]

export type But<T extends JobCommand['type']> = Partial<Omit<Extract<JobCommand, { type: T }>, 'type'>> &
  Partial<Omit<Act, 'command'>>

/** What a test says of the act around a command; all else is the command's own. */
const AROUND: ReadonlySet<string> = new Set([
  'at',
  'through',
  'sawVersion',
  'sawDigest',
  'pin',
  'sha256',
  'numberTaken',
  'clockOffsetMs',
  'commandId',
  'head',
  'bytesHere',
] satisfies (keyof Act)[])

/** Splits what a test says into the command's own fields and the act around them. */
function act<T extends JobCommand['type']>(
  type: T,
  defaults: Omit<Extract<JobCommand, { type: T }>, 'type'>,
  but: But<T>,
  by = 'ana',
): Act {
  const { by: who = by, ...rest } = but as Partial<Act>
  const isAround = ([name]: [string, unknown]) => AROUND.has(name)
  const said = Object.entries(rest).filter((entry) => isAround(entry) && entry[1] !== undefined)
  const own = Object.entries(rest).filter((entry) => !isAround(entry))
  return {
    command: { type, ...defaults, ...Object.fromEntries(own) } as unknown as JobCommand,
    by: who,
    ...Object.fromEntries(said),
  }
}

const engine = { model: 'Test engine', serial: 'T-1' }

export const open = (but: But<'OpenJob'> = {}): Act =>
  act('OpenJob', { number: 'E-1', engine, owner: 'An owner', agreed: 'Rebuild' }, but, 'wim')
export const adoptPlan = (but: But<'AdoptPlan'> = {}): Act =>
  act('AdoptPlan', { planId: 'test-engine', edition: 1 }, but, 'dee')
export const claim = (stepId: string, but: But<'ClaimStep'> = {}): Act => act('ClaimStep', { stepId }, but)
export const putDown = (stepId: string, but: But<'PutDownStep'> = {}): Act =>
  act('PutDownStep', { stepId }, but)
export const scale = (jointId: string, value: number, but: But<'EnterScale'> = {}): Act =>
  act('EnterScale', { jointId, pass: 1, wrenchId: 'click', value }, but)
export const click = (jointId: string, position: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 1, how: 'clicked', wrenchId: 'click' }, but)
export const shows = (jointId: string, position: number, value: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 1, how: 'indicated', wrenchId: 'dial', value }, but)
export const turn = (jointId: string, position: number, value: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 2, how: 'turned', wrenchId: 'gauge', value }, but)
export const slacken = (jointId: string, position: number, but: But<'TakeReading'> = {}): Act =>
  act('TakeReading', { jointId, position, pass: 1, how: 'slackened' }, but)
export const strike = (readingId: string, but: But<'StrikeReading'> = {}): Act =>
  act('StrikeReading', { readingId, reason: 'mistyped' }, but)
export const measure = (place: string, value: number, but: But<'TakeMeasurement'> = {}): Act =>
  act('TakeMeasurement', { stepId: 'caps', measurementId: 'gap', place, value, instrument: 'feeler' }, but)
export const strikeMeasured = (entryId: string, but: But<'StrikeMeasurement'> = {}): Act =>
  act('StrikeMeasurement', { entryId, reason: 'mistyped' }, but)
export const answer = (gateId: string, but: But<'AnswerGate'> = {}): Act =>
  act('AnswerGate', { stepId: 'caps', gateId }, but)
export const sign = (stepId: string, but: But<'SignStep'> = {}): Act => act('SignStep', { stepId }, but)
export const secondSign = (stepId: string, but: But<'SecondSignStep'> = {}): Act =>
  act('SecondSignStep', { stepId }, but, 'bo')

/** By a PIN that came sealed for what `saw` looked like; the server has found the PIN to be `pin`. */
export const sealedSecond = (
  saw: PlannedJob,
  pin: 'right' | 'wrong' | 'unreadable' | undefined,
  but: But<'SecondSignStep'> & { setId?: string; personId?: string } = {},
): Act => {
  const { personId = 'bo', stepId = 'head', setId = 'step', ...rest } = but
  const digest = digestOf(saw, stepId, setId)
  const by = pin === 'right' ? personId : 'ana'
  const around = { by, through: 'sealed' as const, sha256, ...(pin ? { pin } : {}), ...rest }
  return secondSign(stepId, { setId, look: { personId, digest }, ...around })
}
export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')
export const digestOf = (job: PlannedJob, stepId: string, setId: string): string => {
  const step = job.plan.steps.find(({ id }) => id === stepId)
  const set = step && signatureSets(step).find(({ id }) => id === setId)
  if (!step || !set) throw new Error(`${stepId} has no ${setId} to sign`)
  return sha256(lookedAt(job, step, set))
}

export const handOver = (stepId: string, to: string, but: But<'HandOverStep'> = {}): Act =>
  act('HandOverStep', { stepId, to }, but)
export const count = (jointId: string, n: number, but: But<'CountRound'> = {}): Act =>
  act('CountRound', { jointId, pass: 1, wrenchId: 'click', count: n }, but)
export const restart = (jointId: string, position: number, but: But<'RestartRound'> = {}): Act =>
  act('RestartRound', { jointId, position, how: 'again' }, but)
export const place = (jointId: string, positions: number[], but: But<'PlaceFasteners'> = {}): Act =>
  act('PlaceFasteners', { jointId, positions, condition: 'new' }, but)
export const hole = (jointId: string, position: number, but: But<'RecordHole'> = {}): Act =>
  act('RecordHole', { jointId, position, condition: 'stripped' }, but)
export const bead = (stepId: string, but: But<'StartSealant'> = {}): Act =>
  act('StartSealant', { stepId }, but)
export const closed = (stepId: string, but: But<'CloseSealant'> = {}): Act =>
  act('CloseSealant', { stepId }, but)
export const look = (stepId: string, personId: string, but: But<'NoteLook'> = {}): Act =>
  act('NoteLook', { stepId, personId }, but)
export const recheck = (stepId: string, but: But<'RecheckOwnWork'> = {}): Act =>
  act('RecheckOwnWork', { stepId }, but)
export const raise = (stepIds: string[], but: But<'RaiseHold'> = {}): Act =>
  act('RaiseHold', { kind: 'part', stepIds, what: 'a shim' }, but)
export const changeHold = (holdId: string, but: But<'ChangeHold'> = {}): Act =>
  act('ChangeHold', { holdId }, but)
export const clear = (holdId: string, but: But<'ClearHold'> = {}): Act =>
  act('ClearHold', { holdId, how: 'it came' }, but)
export const leaveOut = (
  joint: string,
  positions: number[],
  dueStepId: string,
  but: But<'Defer'> = {},
): Act =>
  act(
    'Defer',
    { what: { kind: 'fasteners', joint, positions }, dueStepId, reason: 'the eye is there' },
    but,
    'dee',
  )
export const leaveStep = (stepId: string, dueStepId: string, but: But<'Defer'> = {}): Act =>
  act('Defer', { what: { kind: 'step', stepId }, dueStepId, reason: 'no room yet' }, but, 'dee')
export const withdraw = (deferralId: string, but: But<'WithdrawDeferral'> = {}): Act =>
  act('WithdrawDeferral', { deferralId, reason: 'fitted after all' }, but, 'dee')
export const settle = (jointId: string, torqueNm: number, but: But<'SettleValue'> = {}): Act =>
  act(
    'SettleValue',
    {
      jointId,
      pass: 1,
      torqueNm,
      minNm: torqueNm - 1,
      maxNm: torqueNm + 1,
      basis: { kind: 'word', competence: 'thirty years of bronze' },
      reason: 'bronze, low pressure',
    },
    but,
    'dee',
  )
export const waive = (what: Waived, but: But<'Waive'> = {}): Act =>
  act('Waive', { what, reason: 'seen and accepted' }, but, 'dee')
export const release = (kind: 'to_fitting' | 'to_owner', but: But<'Release'> = {}): Act =>
  act('Release', { kind }, { head: 'a'.repeat(64), ...but }, 'dee')
export const warranty = (but: But<'OpenWarranty'> = {}): Act =>
  act('OpenWarranty', { complaint: 'weeps at the filter' }, but, 'wim')
export const closeWarranty = (but: But<'CloseWarranty'> = {}): Act =>
  act('CloseWarranty', { finding: 'no fault found: dry after an hour’s run' }, but, 'dee')
export const takeOff = (stepId: string, but: But<'TakeOff'> = {}): Act => act('TakeOff', { stepId }, but)
export const promise = (date: string, but: But<'PromiseDate'> = {}): Act =>
  act('PromiseDate', { date, reason: 'the shim' }, but, 'wim')
export const note = (text: string, but: But<'AddNote'> = {}): Act => act('AddNote', { text }, but)
export const photo = (
  id: string,
  some: Partial<NewPhoto> = {},
  but: Partial<Omit<Act, 'command'>> = {},
): Act =>
  act(
    'AddPhoto',
    {
      photo: {
        id,
        sha256: 'b'.repeat(64),
        bytes: 9000,
        mime: 'image/webp',
        widthPx: 1600,
        heightPx: 1200,
        ...some,
      },
    },
    but,
  )
export const arrived = (photoId: string, but: But<'ConfirmPhoto'> = {}): Act =>
  act('ConfirmPhoto', { photoId }, { bytesHere: () => true, ...but })
