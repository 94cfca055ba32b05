/** The log against its marks: whether all of it is there, in its order, and is what was marked. */
import { counted, listed } from '../../shared/words'
import { format } from '../format'
import { entryLeaf, type Mark, makeTree, type Read } from '../marks'
import { OPEN_SINCE } from '../store'
import type { Reader } from './reader'
import { type Fault, RESTORE } from './report'

const PAGE = 2000
const NAMED_MOST = 5
/** A server marks once a second; this much later it has either marked or cannot. */
const UNMARKED_MOST_MS = 60_000

export interface LogCheck {
  lastSeq: number
  faults: Fault[]
  /** The streams that have entries where the log is not what was marked; told only where no chain says more. */
  altered?: { streams: string[]; fault: Fault }
  /** The newest mark that holds. */
  newest?: Mark
}

export async function checkLog(
  reader: Reader,
  { marks }: Pick<Read, 'marks'>,
  told: (entries: number) => Promise<void>,
): Promise<LogCheck> {
  const faults: Fault[] = []
  const lastSeq = reader.lastSeq()
  const tree = makeTree()
  const byCount = [...marks].sort((a, b) => a.entries.count - b.entries.count)
  const gaps: [number, number][] = []
  let before: Mark | undefined
  let wrong: Mark | undefined
  let next = 0
  const compare = () => {
    for (; byCount[next]?.entries.count === tree.size(); next++) {
      const mark = byCount[next] as Mark
      if (wrong || gaps.length > 0) continue
      if (mark.entries.root === tree.root()) before = mark
      else wrong = mark
    }
  }
  compare()
  let seq = 0
  for (;;) {
    // What has come since is not looked at. In a damaged table a place beyond the last may also stand in the midst of the others.
    const rows = reader.entries(seq, PAGE).filter((row) => row.seq <= lastSeq)
    if (rows.length === 0) break
    for (const row of rows) {
      if (row.seq !== seq + 1) gaps.push([seq + 1, row.seq - 1])
      seq = row.seq
      tree.add(entryLeaf(row.hash))
      compare()
    }
    await told(rows.length)
  }
  if (seq < lastSeq) gaps.push([seq + 1, lastSeq])
  if (gaps.length > 0) faults.push(missing(gaps))
  const furthest = byCount.at(-1)
  if (furthest && furthest.entries.count > lastSeq) faults.push(cut(reader, lastSeq, furthest))
  else if (furthest) faults.push(...unmarked(reader, lastSeq, furthest))
  return {
    lastSeq,
    faults,
    ...(before ? { newest: before } : {}),
    ...(wrong ? { altered: alteredBetween(reader, before, wrong) } : {}),
  }
}

function missing(gaps: [number, number][]): Fault {
  const places = gaps.reduce((sum, [from, to]) => sum + to - from + 1, 0)
  const ranges = gaps.slice(0, NAMED_MOST).map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`))
  const more = gaps.length > NAMED_MOST ? [`${gaps.length - NAMED_MOST} more`] : []
  return {
    kind: 'missing',
    sentence: `${counted(places, 'entry', 'entries')} of the log ${places === 1 ? 'is' : 'are'} missing, ${places === 1 ? 'place' : 'places'} ${listed([...ranges, ...more])}: a whole stream, or the end of one, was taken out together with the record of its end. ${RESTORE}`,
  }
}

function cut(reader: Reader, lastSeq: number, furthest: Mark): Fault {
  const gone = furthest.entries.count - lastSeq
  const last = reader.recordedAt(lastSeq)
  const since = last === undefined ? '' : `, all that was entered after ${format.dateAndTime(last)}`
  return {
    kind: 'cut',
    sentence: `The end of the log is missing: it has ${counted(lastSeq, 'entry', 'entries')}, and the mark of ${format.dateAndTime(furthest.at)} counts ${furthest.entries.count}, so the last ${gone === 1 ? 'one is' : `${gone} are`} gone${since}. ${RESTORE}`,
  }
}

/** Marks that were taken away, or a server that could not make any. */
function unmarked(reader: Reader, lastSeq: number, furthest: Mark): Fault[] {
  const count = lastSeq - furthest.entries.count
  if (count === 0) return []
  const first = reader.recordedAt(furthest.entries.count + 1)
  const last = reader.recordedAt(lastSeq)
  const late = first !== undefined && last !== undefined && last - first > UNMARKED_MOST_MS
  const isClosed = reader.state(OPEN_SINCE) === undefined
  if (!late && !isClosed) return []
  return [
    {
      kind: 'marks',
      sentence: `The last ${count === 1 ? 'entry carries' : `${count} entries carry`} no mark, though the server marks once a second and when it stops: marks were taken away, could not be written, or an older version of Paintmark wrote these entries. Start and stop the server once; if it stays so, compare with a backup.`,
    },
  ]
}

function alteredBetween(reader: Reader, before: Mark | undefined, wrong: Mark): LogCheck['altered'] {
  const from = (before?.entries.count ?? 0) + 1
  const to = wrong.entries.count
  const streams = new Set<string>()
  for (let seq = from - 1; seq < to; ) {
    const rows = reader.entries(seq, PAGE).filter((row) => row.seq <= to)
    for (const { stream } of rows) streams.add(stream)
    seq = rows.at(-1)?.seq ?? to
  }
  const names = [...streams].map((stream) => nameOf(reader, stream))
  const named =
    names.length > NAMED_MOST ? [...names.slice(0, NAMED_MOST), `${names.length - NAMED_MOST} more`] : names
  return {
    streams: [...streams],
    fault: {
      kind: 'altered',
      sentence: `Entries ${from} to ${to} of the log (${listed(named)}) are not those that were marked on ${format.dateAndTime(wrong.at)}: somebody wrote one or more of them anew, with check numbers that fit. Compare the printed records of these engines. ${RESTORE}`,
    },
  }
}

/** As people call it: the job's number. */
export function nameOf(reader: Reader, stream: string): string {
  if (stream === 'shop') return 'the shop’s own log'
  return reader.summary(stream.slice('job:'.length))?.number ?? stream
}
