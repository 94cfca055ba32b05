/** The command desk: the one writer of the log, as the rules DK1 to DK14 say. */
import { nextNumber, numbersMeant, readsAs } from '../../shared/job/number'
import { type JobSummary, summarise } from '../../shared/job/summary'
import type { Job } from '../../shared/job/types'
import type { Fault } from '../../shared/protocol'
import type { Shop } from '../../shared/shop/types'
import { diskSentence } from '../disk'
import { AnsweredTwice, ChainBroken, type CommitOutcome, type EventStore, JobNumberTaken } from '../store'
import { type After, afterMs, makeBoardClock } from './clock'
import { type Budget, makeFolds } from './folds'
import { missingIn } from './missing'
import { makePlanPool } from './plans'
import { type Fold, jobIdOf, jobStream, type StreamName, upcast } from './streams'
import { decideTurn, type Turn, type TurnOutcome } from './turn'
import type { Desk, Log, Publish, Reply, Submission } from './types'
import { finishedAt, finishedJob, summaryIn } from './views'
import { wordsOf } from './words'

export interface DeskParts {
  store: EventStore
  publish: Publish
  now: () => number
  newId: () => string
  log: Log
  /** Whether a photo's bytes are on disk. */
  bytesHere?: (sha256: string) => boolean
  /** Waits; a test may wait by hand. */
  after?: After
  /** Told of a stream that was found damaged. */
  damaged?: (stream: StreamName, number: string | undefined) => void
  /** Bytes of jobs held in memory beside the shop. */
  budget?: Budget
  /** Commands in one commit. */
  maxTurn?: number
}

const ATTEMPTS = 3

/** A thousand engines in work fit in as they are; what is put out takes about a third of that, packed. */
const BUDGET: Budget = { live: 240 * 2 ** 20, packed: 160 * 2 ** 20 }

/** How long an engine stays on the board once it has left the shop; after that it is looked up. */
const ON_BOARD_AFTER_MS = 42 * 86_400_000

export async function openDesk(parts: DeskParts): Promise<Desk> {
  const { store, publish, now, newId, log, bytesHere = () => false, after = afterMs } = parts
  const { budget = BUDGET, maxTurn = 500 } = parts
  const damaged = (stream: StreamName) =>
    parts.damaged?.(stream, stream === 'shop' ? undefined : summaries.get(jobIdOf(stream))?.number)
  const shareEvent = makePlanPool()
  const folds = makeFolds(store, shareEvent, budget)
  const summaries = new Map<string, JobSummary>()
  const waiting: { submission: Submission; resolve: (answer: Reply) => void }[] = []
  let awake = false
  let closed = false
  let idle: (() => void) | undefined
  const clock = makeBoardClock({ now, after, next: nextChange, run: refreshExpiredSummaries })
  await readSummaries()
  await refreshExpiredSummaries()
  clock.look()

  async function readSummaries() {
    for (const row of await store.summaries(now() - ON_BOARD_AFTER_MS)) remember(summaryIn(row))
  }

  function remember(summary: JobSummary) {
    summaries.set(summary.id, summary)
  }

  function nextChange(): number | undefined {
    let next: number | undefined
    for (const { changesAt } of summaries.values())
      if (changesAt !== undefined && (next === undefined || changesAt < next)) next = changesAt
    return next
  }

  /** What ran out meanwhile, as it looks now. A job that was written to since has a summary of its own. */
  async function refreshExpiredSummaries() {
    const expired = [...summaries.values()].filter(
      ({ changesAt }) => changesAt !== undefined && changesAt <= now(),
    )
    for (const { id, version } of expired) {
      try {
        const job = (await folds.load(jobStream(id))) as Job
        if (summaries.get(id)?.version !== version || job.version !== version) continue
        const summary = summarise(job, now())
        remember(summary)
        notifySafely(() => publish.summary(summary))
      } catch (err) {
        log.error({ err, job: id }, 'A summary could not be made again.')
        const { changesAt: _, ...lasting } = summaries.get(id) as JobSummary
        remember(lasting)
      }
    }
  }

  /** Whoever is told must not undo what is written by failing to listen. */
  function notifySafely(notify: () => void) {
    try {
      notify()
    } catch (err) {
      log.error({ err }, 'Telling somebody of an entry failed; the entry is saved.')
    }
  }

  function wake() {
    if (awake) return
    awake = true
    // After the poll phase: whatever all sockets brought meanwhile is waiting by then.
    setImmediate(takeTurn)
  }

  async function takeTurn() {
    const batch = waiting.splice(0, turnLength())
    try {
      await answerAll(
        batch.map(({ submission }) => submission),
        (index, answer) => {
          const { submission, resolve } = batch[index] as (typeof batch)[number]
          notifySafely(() => submission.reply?.(answer))
          resolve(answer)
        },
      )
    } catch (err) {
      log.error({ err }, 'A turn of the desk broke.')
      for (const { resolve } of batch) resolve(NOT_SAVED)
    }
    awake = false
    if (waiting.length > 0) wake()
    else idle?.()
  }

  /** A release covers what is on disk, so it opens a turn: nothing before it in the same commit. */
  function turnLength(): number {
    const release = waiting.findIndex(({ submission }, index) => index > 0 && isRelease(submission))
    return Math.min(maxTurn, release === -1 ? waiting.length : release)
  }

  async function headsFor(submissions: Submission[]): Promise<Map<StreamName, string>> {
    const heads = new Map<StreamName, string>()
    for (const { stream } of submissions.filter(isRelease)) {
      const head = (await store.read(stream)).at(-1)
      if (head) heads.set(stream, head.hash)
    }
    return heads
  }

  async function answerAll(submissions: Submission[], answer: (index: number, reply: Reply) => void) {
    for (let attempt = 1; attempt <= ATTEMPTS; attempt++) {
      const turn = await decideAll(submissions)
      const outcome = await tryCommit(turn)
      if (outcome === 'again' || 'stale' in outcome) {
        if (outcome !== 'again') folds.drop(outcome.stale as StreamName[])
        continue
      }
      return deliver(submissions, turn, outcome, answer)
    }
    log.warn(
      { commands: submissions.length },
      'Another program keeps writing to the log; a turn was given up.',
    )
    submissions.forEach((_, index) => {
      answer(index, NOT_SAVED)
    })
  }

  async function decideAll(submissions: Submission[]): Promise<Turn> {
    const answers = await store.answers(submissions.map(({ command }) => command.commandId))
    const owners = await ownersOfNumbers(submissions)
    const streams = new Set<StreamName>(['shop'])
    for (const { stream } of submissions) streams.add(stream)
    const loadedFolds = new Map<StreamName, Fold | { broken: unknown }>()
    for (const stream of streams) {
      try {
        loadedFolds.set(stream, await folds.load(stream))
      } catch (broken) {
        log.error({ err: broken, stream }, 'A stream cannot be read.')
        if (broken instanceof ChainBroken) damaged(stream)
        loadedFolds.set(stream, { broken })
      }
    }
    return decideTurn({
      waiting: submissions,
      heads: await headsFor(submissions),
      bytesHere,
      answers,
      folds: loadedFolds,
      numberTaken: (number, jobId) => (owners.get(number) ?? jobId) !== jobId,
      shareEvent,
      newId,
      log,
    })
  }

  /** The jobs that carry the numbers somebody wants to open one under, or one that reads the same. */
  async function ownersOfNumbers(submissions: Submission[]): Promise<Map<string, string>> {
    const owners = new Map<string, string>()
    for (const { command } of submissions) {
      if (command.type !== 'OpenJob') continue
      const asked = readsAs(command.number)
      const same = (await store.numbers()).find((number) => readsAs(number) === asked)
      const owner = same === undefined ? undefined : await store.jobOfNumber(same)
      if (owner !== undefined) owners.set(command.number, owner)
    }
    return owners
  }

  async function tryCommit(turn: Turn): Promise<CommitOutcome | 'again' | { failed: Fault }> {
    if (turn.batch.answers.length === 0) return { committed: [], lastSeq: 0 }
    try {
      return await store.commit(turn.batch)
    } catch (err) {
      folds.drop(turn.after.keys())
      if (err instanceof AnsweredTwice || err instanceof JobNumberTaken) {
        await readSummaries()
        clock.look()
        return 'again'
      }
      log.error({ err, commands: turn.batch.answers.length }, 'A commit failed; nothing of it was saved.')
      return { failed: notSaved(err) }
    }
  }

  /** From here to the end without a pause: nobody sees a fold whose events were not published. */
  async function deliver(
    submissions: Submission[],
    turn: Turn,
    outcome: CommitOutcome | { failed: Fault },
    answer: (index: number, reply: Reply) => void,
  ) {
    const failed = 'failed' in outcome ? outcome.failed : undefined
    let seq = 'committed' in outcome ? outcome.lastSeq - eventsIn(turn) : 0
    const resendReplies = await repliesToResends(turn.outcomes)
    if (!failed) {
      for (const { stream, hash } of 'committed' in outcome ? outcome.committed : [])
        folds.put(stream as StreamName, turn.after.get(stream as StreamName) as Fold, hash)
      turn.summaries.forEach(remember)
      clock.look()
    }
    for (const [index, submission] of submissions.entries()) {
      const turnOutcome = turn.outcomes[index] as TurnOutcome
      if (turnOutcome.kind === 'written') seq += turnOutcome.events.length
      const reply =
        failed && !isFromEarlierTurn(turnOutcome)
          ? failed
          : replyFor(turnOutcome, submission, seq, resendReplies.get(index))
      answer(index, reply)
      if (turnOutcome.kind === 'written' && reply.ok && reply.events.length > 0)
        notifySafely(() =>
          publish.events(turnOutcome.stream, turnOutcome.from, reply.events, submission.sender),
        )
    }
    if (!failed) for (const summary of turn.summaries) notifySafely(() => publish.summary(summary))
  }

  /** Answers given before, with their events read again; by the place of the resend in the turn. */
  async function repliesToResends(outcomes: readonly TurnOutcome[]): Promise<Map<number, Reply>> {
    const replies = new Map<number, Reply>()
    for (const [index, outcome] of outcomes.entries()) {
      if (outcome.kind !== 'resend') continue
      const { answer, stream } = outcome
      if (!answer.ok) replies.set(index, answer)
      else {
        const { from, version } = answer
        try {
          const rows = from === version ? [] : await store.read(stream, from)
          // Fewer than were written: the first one, earlier in this very turn, was not saved either.
          if (rows.length < version - from) continue
          const own = rows.slice(0, version - from)
          replies.set(index, { ok: true, version, events: own.map(upcast), ...placeOf(own.at(-1)?.seq) })
        } catch (err) {
          log.error({ err, stream }, 'A kept answer cannot be read again.')
          replies.set(index, DAMAGED)
        }
      }
    }
    return replies
  }

  function replyFor(
    outcome: TurnOutcome,
    { receivedAt }: Submission,
    seq: number,
    resendReply: Reply | undefined,
  ): Reply {
    switch (outcome.kind) {
      case 'resend':
        return resendReply ?? NOT_SAVED
      case 'broken':
        return outcome.cause instanceof ChainBroken ? DAMAGED : NOT_SAVED
      case 'refused':
        return outcome.answer
      case 'written': {
        const { from, version } = outcome
        const events = outcome.events.map((event, n) => ({
          version: from + n + 1,
          recordedAt: receivedAt,
          event,
        }))
        return { ok: true, version, events, ...placeOf(events.length > 0 ? seq : undefined) }
      }
    }
  }

  async function eventsAfter(stream: StreamName, version: number) {
    return (await store.read(stream, version)).map(upcast)
  }

  const shop = async () => (await folds.load('shop')) as Shop

  function onBoard(): JobSummary[] {
    const since = now() - ON_BOARD_AFTER_MS
    for (const summary of summaries.values())
      if ((finishedAt(summary) ?? since) < since) summaries.delete(summary.id)
    return [...summaries.values()].sort((a, b) => (a.number < b.number ? -1 : 1))
  }

  const meantBy = async (number: string) => numbersMeant(number, await store.numbers())

  return {
    submit: (submission) =>
      new Promise((resolve) => {
        if (closed) return resolve(NOT_SAVED)
        waiting.push({ submission, resolve })
        wake()
      }),
    shop,
    async job(jobId) {
      const job = (await folds.load(jobStream(jobId))) as Job
      return job.version > 0 ? job : undefined
    },
    peek: folds.peek,
    head: (stream) => store.head(stream),
    isAnswered: async (commandId) => (await store.answers([commandId])).has(commandId),
    eventsAfter,
    chain: (stream) => store.chain(stream),
    summaries: onBoard,
    async finished(question) {
      const questions =
        'number' in question ? (await meantBy(question.number)).map((number) => ({ number })) : [question]
      const rows = await Promise.all(questions.map((each) => store.finished(each)))
      return rows.flat().map(finishedJob)
    },
    async jobsOfNumber(number) {
      const ids = await Promise.all((await meantBy(number)).map((each) => store.jobOfNumber(each)))
      return ids.filter((id) => id !== undefined)
    },
    nextNumber: async () =>
      nextNumber(
        onBoard().map(({ number }) => number),
        await store.numbers(),
      ),
    missingEntries: async (deviceId, counted) =>
      missingIn(await store.counted(deviceId, counted.since), counted),
    words: async () => wordsOf(await shop(), now()),
    async close() {
      closed = true
      if (awake) await new Promise<void>((resolve) => (idle = resolve))
      await clock.close()
    },
  }
}

/** Answered in an earlier turn: a commit that fails now takes nothing from it. */
const isFromEarlierTurn = (outcome: TurnOutcome) => outcome.kind === 'resend' && !outcome.inThisTurn

const isRelease = ({ command }: Submission): boolean => command.type === 'Release'

const eventsIn = ({ batch }: Turn): number =>
  batch.appends.reduce((sum, { events }) => sum + events.length, 0)

const placeOf = (seq: number | undefined): { seq?: number } => (seq === undefined ? {} : { seq })

/** Why it was not saved, where that is the disk's doing and somebody can put it right. */
export function notSaved(error: unknown): Fault {
  const sentence = diskSentence(error)
  return sentence === undefined ? NOT_SAVED : { ...NOT_SAVED, sentence }
}

export const NOT_SAVED: Fault = {
  ok: false,
  code: 'not_saved',
  sentence:
    'The server could not save this; nothing was recorded. It will be sent again, or make the entry again.',
}

const DAMAGED: Fault = {
  ok: false,
  code: 'not_saved',
  sentence:
    'The record of this engine is damaged on disk and is not written to any more. Tell the supervisor: ' +
    '"npm run verify" says what is wrong, and the last good backup restores it.',
}
