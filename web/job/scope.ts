/**
 * One job as every page sees it. `JobView` is what can be read, on a screen and on a printed record alike; `JobScope`
 * adds what can be done: ask the rules whether a command may be given, see what it would record, send it.
 *
 * Asking and sending go through the rules the server runs, so that a screen never has a rule of its own.
 */
import { createContext, useContext } from 'solid-js'
import type { JobCommand } from '../../shared/job/commands'
import { decide } from '../../shared/job/decide'
import type { JobEvent } from '../../shared/job/events'
import { type RefusalCode, type RefusalData, sentenceFor } from '../../shared/job/refusals'
import type { Job, PlannedJob } from '../../shared/job/types'
import { type Instant, isRefusal } from '../../shared/log'
import type { Answer, Fault, Here } from '../../shared/protocol'
import type { Shop } from '../../shared/shop/types'
import type { Words } from '../../shared/words'
import type { LinkState } from '../live/link'
import type { RefusedJobCommand } from '../live/outbox'
import { contextOf, type JobStreamEvent, type Pending } from '../live/replica'
import type { SealedSecond } from '../live/sealed-seconds'
import { authorOf, type Grant } from '../live/session'

export interface JobView {
  /** With everything pending on top. */
  job(): Job
  /** The job once it has a plan: for parts that are drawn only then. */
  planned(): PlannedJob
  shop(): Shop
  words: Words
  /** The id of who is signed in here. */
  me(): string | undefined
  now(): Instant
}

/** A rule's no, with the data and the sentence of its code. */
type CommandRefusal = {
  [Code in RefusalCode]: { code: Code; data: RefusalData[Code]; sentence: string }
}[RefusalCode]

/** What a command would record now, or the rule against it. */
export type Preview =
  | { events: readonly JobEvent[]; refusal?: undefined }
  | { events: readonly []; refusal: CommandRefusal }

/** For whom the rules are asked: another person, or a second signer by their grant; else who is signed in. */
export interface Asker {
  as?: string
  grant?: Grant
}

export interface JobScope extends JobView {
  /** A supervisor or the owner is signed in: their word may be asked for. */
  leads(): boolean
  /** What the server has confirmed, without what is pending. */
  confirmed(): Job
  link(): LinkState
  /** Who else has this job open. */
  here(): readonly Here[]
  pending(): readonly Pending[]
  /** Of one that is pending: whether it would still be here after a reload. */
  isKept(commandId: string): boolean
  /** What is shown is of then, and not of now. */
  asOf(): number | undefined
  refused(): readonly RefusedJobCommand[]
  /** What came after a version, up to what is shown; nothing where it must be asked for. */
  since(version: number): readonly JobStreamEvent[] | undefined
  dismiss(commandId: string): void
  preview(command: JobCommand, asker?: Asker): Preview
  /** The rule that would refuse it; nothing when it may be given. */
  may(command: JobCommand, asker?: Asker): CommandRefusal | undefined
  send(command: JobCommand, grant?: Grant): Promise<Answer | Fault>
  /** Whether a second signer's PIN can be sealed here, for when there is signal again. */
  sealing(): boolean
  /** Their second signature, to be checked then; the sentence that says why not, where the device cannot keep it. */
  sealSecond(second: SealedSecond): Promise<string | undefined>
  /** Sends it when it may be given; else the sentence that says why not. */
  sendOrExplain(command: JobCommand): string | undefined
}

export function previewCommand(
  view: Omit<JobView, 'planned'>,
  command: JobCommand,
  { as, grant }: Asker = {},
): Preview {
  const head = { commandId: 'preview', doneAt: view.now(), ...(grant ? { grantId: grant.id } : {}) }
  const outcome = decide(view.job(), command, {
    ...contextOf({ command: head, ...authorOf(as ?? view.me(), grant) }, view.shop()),
    // A release asks for the log's hash, which only the server has: any will do to ask whether one may.
    head: 'preview',
  })
  if (!isRefusal(outcome)) return { events: outcome }
  const { refused: code, data } = outcome
  return { events: [], refusal: { code, data, sentence: sentenceFor(outcome, view.words) } as CommandRefusal }
}

/** Whether it would be recorded as a word on the same person's work. */
export const ownWork = ({ events }: Preview): boolean =>
  events.some((event) => 'ownWork' in event && event.ownWork === true)

/** Who could second-sign a set, person by person. */
export function whoMaySecond(view: Omit<JobView, 'planned'>, stepId: string, setId: string): string[] {
  return Object.keys(view.shop().people).filter(
    (as) => previewCommand(view, { type: 'SecondSignStep', stepId, setId }, { as }).events.length > 0,
  )
}

export const JobContext = createContext<JobView>()

/** The job as it can be read: for parts that also stand on a printed record. */
export function useJobView(): JobView {
  const view = useContext(JobContext)
  if (!view) throw new Error('useJobView is for parts inside a JobProvider')
  return view
}

export function useJob(): JobScope {
  const view = useJobView()
  if (!('send' in view)) throw new Error('A printed record is read only: use useJobView there')
  return view as JobScope
}
