/**
 * One turn of the desk: everything that waited, decided in the order it came, each on what the ones before
 * it left. Nothing here writes or tells anybody; it only works out what is to be written.
 */
import type { Context } from '../../shared/job/context'
import { readsAs } from '../../shared/job/number'
import { type JobSummary, summarise } from '../../shared/job/summary'
import type { Job } from '../../shared/job/types'
import { type Instant, isRefusal, refuse } from '../../shared/log'
import type { Refused } from '../../shared/protocol'
import type { Shop } from '../../shared/shop/types'
import {
  type AnswerRow,
  type Append,
  type Batch,
  type PinToWrite,
  type SignOutToWrite,
  sha256Hex,
} from '../store'
import { answerRow, firstAnswer, type StoredAnswer } from './answers'
import type { ShareEvent } from './plans'
import { type AnyEvent, decideOn, type Fold, foldOn, inWords, jobIdOf, type StreamName } from './streams'
import type { Log, Submission } from './types'
import { changedReadings, summaryRow } from './views'
import { wordsOf } from './words'

/** A clock that runs this far ahead is a wrong clock, not a head start [DK9]. */
export const AHEAD_MOST_MS = 5 * 60_000

export type TurnOutcome =
  /** Answered before, in an earlier turn or earlier in this one. */
  | { kind: 'resend'; stream: StreamName; answer: StoredAnswer; inThisTurn: boolean }
  /** New in this turn: true only once the batch is committed. */
  | { kind: 'written'; stream: StreamName; from: number; version: number; events: AnyEvent[] }
  | { kind: 'refused'; answer: Refused }
  /** The stream cannot be read, or a decision broke: nobody else's business. */
  | { kind: 'broken'; cause: unknown }

export interface TurnInput {
  waiting: readonly Submission[]
  answers: ReadonlyMap<string, AnswerRow>
  /** The fold of every stream named, and the shop's; or why it could not be read. */
  folds: ReadonlyMap<StreamName, Fold | { broken: unknown }>
  numberTaken: (number: string, jobId: string) => boolean
  /** Hash of a stream's last event, for those a release in this turn asks for. */
  heads: ReadonlyMap<StreamName, string>
  bytesHere: (sha256: string) => boolean
  newId: () => string
  /** Takes the place of an event whose plan is known already. */
  shareEvent: ShareEvent
  log: Log
}

export interface Turn {
  outcomes: TurnOutcome[]
  batch: Batch
  after: Map<StreamName, Fold>
  summaries: JobSummary[]
}

const isBroken = (fold: Fold | { broken: unknown }): fold is { broken: unknown } => 'broken' in fold

export function decideTurn(input: TurnInput): Turn {
  const { waiting, answers, folds, numberTaken, heads, bytesHere, newId, shareEvent, log } = input
  const after = new Map<StreamName, Fold>()
  const newAnswers = new Map<string, AnswerRow>()
  const appends: Append[] = []
  /** Of this turn's new jobs, by what their number reads as. */
  const numbers = new Map<string, string>()
  const recordedAt = new Map<StreamName, Instant>()
  let pin: PinToWrite | undefined
  const signOuts: SignOutToWrite[] = []

  function decideSubmission(submission: Submission): TurnOutcome {
    const { stream, command, bodyHash, asker, receivedAt } = submission
    const { commandId } = command
    const earlier = answers.get(commandId)
    const before = earlier ?? newAnswers.get(commandId)
    // A sealed PIN makes it another's, or not; a resend need not carry it any more.
    const person = isRefusal(asker) || asker.through === 'sealed' ? undefined : asker.person

    const shop = after.get('shop') ?? folds.get('shop')
    const fold = after.get(stream) ?? folds.get(stream)
    if (!shop || !fold || isBroken(shop))
      return { kind: 'broken', cause: shop && isBroken(shop) && shop.broken }
    if (isBroken(fold)) return { kind: 'broken', cause: fold.broken }
    const words = () => wordsOf(shop as Shop, receivedAt)
    if (before) {
      const answer = firstAnswer(before, bodyHash, person) ?? inWords(refuse('command_id_reused'), words())
      return { kind: 'resend', stream, answer, inThisTurn: !earlier }
    }
    // Not kept: a grant says nothing of the engine, and the same entry may come again under a good one.
    if (isRefusal(asker)) return { kind: 'refused', answer: inWords(asker, words()) }

    const context: Context = {
      shop: shop as Shop,
      by: asker.person,
      doneAt: doneAt(command.doneAt, receivedAt),
      ...(command.clockOffsetMs === undefined ? {} : { clockOffsetMs: command.clockOffsetMs }),
      commandId,
      through: asker.through,
      ...(asker.sawDigest === undefined ? {} : { sawDigest: asker.sawDigest }),
      ...(asker.sawVersion === undefined ? {} : { sawVersion: asker.sawVersion }),
      ...(asker.pin === undefined ? {} : { pin: asker.pin }),
      sha256: sha256Hex,
      numberTaken: (number) =>
        stream !== 'shop' &&
        ((numbers.get(readsAs(number)) ?? jobIdOf(stream)) !== jobIdOf(stream) ||
          numberTaken(number, jobIdOf(stream))),
      head: heads.get(stream),
      bytesHere,
      ...(submission.pin === undefined ? {} : { withPin: true }),
    }
    const outcome = decideOn(stream, fold, command, context)
    const keep = (answer: StoredAnswer) =>
      newAnswers.set(commandId, answerRow(submission, asker.person, answer))
    if (isRefusal(outcome)) {
      const answer = inWords(outcome, words())
      keep(answer)
      return { kind: 'refused', answer }
    }
    const next = foldOn(stream, fold, outcome.map(shareEvent))
    const from = fold.version
    if (outcome.length > 0) {
      after.set(stream, next)
      recordedAt.set(stream, receivedAt)
      if (stream !== 'shop') numbers.set(readsAs((next as Job).number), jobIdOf(stream))
      appends.push({
        stream,
        expectedVersion: from,
        commandId,
        recordedAt: receivedAt,
        events: outcome.map((event) => ({ id: newId(), event })),
      })
      pin ??= submission.pin
      if (submission.signOut) signOuts.push(submission.signOut)
    }
    keep({ ok: true, from, version: next.version })
    return { kind: 'written', stream, from, version: next.version, events: outcome }
  }

  const outcomes = waiting.map((submission) => {
    try {
      return decideSubmission(submission)
    } catch (cause) {
      // A bug in one decision must not take its neighbours along [DK11].
      log.error({ err: cause, commandId: submission.command.commandId }, 'A decision broke.')
      return { kind: 'broken', cause } as const
    }
  })
  // What was only looked at must still be so when the answers are written.
  const guards: Append[] = []
  for (const [stream, fold] of folds) {
    if (isBroken(fold) || appends.some((append) => append.stream === stream)) continue
    const { version: expectedVersion } = fold
    guards.push({ stream, expectedVersion, commandId: '', recordedAt: 0, events: [] })
  }
  const jobs = [...after].filter(([stream]) => stream !== 'shop') as [StreamName, Job][]
  // As of the log's own time [DK13], so that the same log always makes the same row.
  const summaries = jobs.map(([stream, job]) => summarise(job, recordedAt.get(stream)))
  const readings = jobs.flatMap(([stream, job]) => changedReadings(folds.get(stream) as Job, job))
  return {
    outcomes,
    batch: {
      appends: newAnswers.size > 0 ? [...guards, ...appends] : [],
      answers: [...newAnswers.values()],
      summaries: summaries.map(summaryRow),
      readings,
      ...(pin ? { pin } : {}),
      ...(signOuts.length > 0 ? { signOuts } : {}),
    },
    after,
    summaries,
  }
}

/** The bench's own time; a time that has not come yet is taken as the time of arrival [DK9]. */
export function doneAt(claimed: Instant | undefined, receivedAt: Instant): Instant {
  return claimed === undefined || claimed > receivedAt + AHEAD_MOST_MS ? receivedAt : claimed
}
