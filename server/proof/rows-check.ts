/**
 * What lies beside the log in the database, against the log: the rows made from it, by the code that makes them anew,
 * and the answers, as far as the log can say what they were.
 */
import { isDeepStrictEqual } from 'node:util'
import { counted } from '../../shared/words'
import type { JobStream } from '../desk/streams'
import { viewsOf } from '../desk/views-of'
import { format } from '../format'
import { answerLeaf, type Mark, makeTree } from '../marks'
import type { ReadingRow, Recorded } from '../store'
import type { AnswerPlace, Reader } from './reader'
import { type Fault, RESTORE } from './report'

const REBUILD = 'Stop the server and run "npm run rebuild", which makes it again from the log.'

/** A job's rows on the board and among the readings. Gives the job as the log has it too. */
export function checkViews(reader: Reader, stream: JobStream, recorded: readonly Recorded[]) {
  const made = viewsOf(stream, recorded)
  const { job } = made
  const about = { jobId: job.id, number: job.number }
  const faults: Fault[] = []
  const [summary] = made.summaries
  const kept = reader.summary(job.id)
  if (!isDeepStrictEqual(kept, summary)) {
    const what = kept ? 'is not what its log amounts to' : 'is missing'
    faults.push({
      kind: 'view',
      ...about,
      sentence: `The row of ${job.number} on the board ${what}. ${REBUILD}`,
    })
  }
  const odd = differing(reader.readings(job.id), made.readings)
  if (odd > 0)
    faults.push({
      kind: 'view',
      ...about,
      sentence: `${counted(odd, 'row')} in the table of readings of ${job.number} ${odd === 1 ? 'is' : 'are'} not what the log says. ${REBUILD}`,
    })
  return { job, faults }
}

function differing(kept: readonly ReadingRow[], made: readonly ReadingRow[]): number {
  const left = new Map(kept.map((row) => [row.readingId, row]))
  let odd = 0
  for (const row of made) {
    if (!isDeepStrictEqual(left.get(row.readingId), row)) odd += 1
    left.delete(row.readingId)
  }
  return odd + left.size
}

/** Rows of jobs that the log does not have. */
export function checkStrayViews(reader: Reader, jobs: ReadonlySet<string>): Fault[] {
  const stray = reader.jobsInViews().filter((jobId) => !jobs.has(jobId))
  return stray.map((jobId) => {
    const number = reader.summary(jobId)?.number ?? jobId
    return {
      kind: 'view',
      jobId,
      number,
      sentence: `Board or readings have rows of ${number}, of which the log has no entry: either its entries were taken out, or somebody put the rows in. If the log is whole otherwise, stop the server and run "npm run rebuild".`,
    }
  })
}

export interface AnswersCheck {
  /** A stream whose chain holds: every command in it has its answer. */
  of(recorded: readonly Recorded[]): Fault[]
  /** When all streams were given, of which `all` says whether none was left out. */
  rest(all: boolean, marks: readonly Mark[]): Fault[]
}

const PAGE = 2000

export function makeAnswersCheck(reader: Reader): AnswersCheck {
  const last = reader.lastAnswer()
  // A bit for each answer that entries of the log belong to.
  const found = new Uint8Array(Math.ceil((last + 1) / 8))
  const isFound = (place: number) => ((found[place >> 3] ?? 0) & (1 << (place & 7))) !== 0

  function ofCommand(rows: readonly Recorded[]): Fault[] {
    const [first] = rows
    if (!first) return []
    const { commandId, recordedAt, event } = first
    const answer = reader.answerTo(commandId)
    const what = `the entry of ${format.dateAndTime(recordedAt)} (command ${commandId})`
    if (!answer) return [fault(`The answer that was given to ${what} is missing`)]
    if (answer.place <= last)
      found[answer.place >> 3] = (found[answer.place >> 3] ?? 0) | (1 << (answer.place & 7))
    const { by } = event as { by?: unknown }
    const told = contentOf(answer)
    const agrees =
      told?.ok === true &&
      told.from === first.version - 1 &&
      told.version === first.version - 1 + rows.length &&
      answer.answeredAt === recordedAt &&
      (typeof by !== 'string' || by === answer.personId)
    return agrees ? [] : [fault(`The answer kept for ${what} is not the one that its entries were given`)]
  }

  return {
    of(recorded) {
      const faults: Fault[] = []
      for (let from = 0; from < recorded.length; ) {
        let to = from + 1
        while (to < recorded.length && recorded[to]?.commandId === recorded[from]?.commandId) to++
        faults.push(...ofCommand(recorded.slice(from, to)))
        from = to
      }
      return faults
    },
    rest(all, marks) {
      const tree = makeTree()
      const byCount = [...marks].sort((a, b) => a.answers.count - b.answers.count)
      let before = 0
      let wrong: Mark | undefined
      let next = 0
      const compare = () => {
        for (; byCount[next]?.answers.count === tree.size(); next++) {
          const mark = byCount[next] as Mark
          if (wrong) continue
          if (mark.answers.root === tree.root()) before = mark.answers.count
          else wrong = mark
        }
      }
      compare()
      const faults: Fault[] = []
      let unread = 0
      let unknown = 0
      let firstUnknown: AnswerPlace | undefined
      for (let place = 0; place < last; ) {
        const rows = reader.answers(place, PAGE)
        if (rows.length === 0) break
        for (const row of rows) {
          place = row.place
          if (place > last) break
          tree.add(answerLeaf(row))
          compare()
          const told = contentOf(row)
          if (!told) unread += 1
          else if (all && told.ok && Number(told.version) > Number(told.from) && !isFound(place)) {
            unknown += 1
            firstUnknown ??= row
          }
        }
      }
      if (unread > 0) faults.push(fault(`${counted(unread, 'kept answer')} cannot be read`))
      if (firstUnknown)
        faults.push(
          fault(
            `${counted(unknown, 'kept answer')} ${unknown === 1 ? 'speaks' : 'speak'} of entries that the log does not have, the first of ${format.dateAndTime(firstUnknown.answeredAt)} (command ${firstUnknown.commandId}): the entries are gone, or the answers are false`,
          ),
        )
      const furthest = byCount.at(-1)
      if (furthest && furthest.answers.count > tree.size())
        faults.push(
          fault(
            `${counted(furthest.answers.count - tree.size(), 'kept answer')} of those counted on ${format.dateAndTime(furthest.at)} ${furthest.answers.count - tree.size() === 1 ? 'is' : 'are'} missing`,
          ),
        )
      if (wrong)
        faults.push(
          fault(
            `A kept answer ${before > 0 ? `after the first ${before}` : 'among the first ones'} is not the one that was marked by ${format.dateAndTime(wrong.at)}`,
          ),
        )
      return faults
    },
  }
}

const fault = (what: string): Fault => ({
  kind: 'answer',
  sentence: `${what}, so an entry that a tablet sends again could be answered falsely. ${RESTORE}`,
})

/** The parts of an answer that can be compared; nothing where it is none. */
function contentOf({ answer, bodyHash }: AnswerPlace): Record<string, unknown> | undefined {
  try {
    const value = JSON.parse(answer) as Record<string, unknown>
    const isWhole =
      /^[0-9a-f]{64}$/.test(bodyHash) &&
      (value.ok === true
        ? Number.isSafeInteger(value.from) && Number.isSafeInteger(value.version)
        : value.ok === false && typeof value.code === 'string' && typeof value.sentence === 'string')
    return isWhole ? value : undefined
  } catch {
    return undefined
  }
}
