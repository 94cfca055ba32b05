/**
 * Keeps the marks of a shop while it is open: at each release, each backup, each hour in which something is entered, and
 * at most once a second while entries come in. Two trees stand for the log, one over the hashes of its events, one over
 * the answers that were given; a mark signs how far both reach, and their roots.
 *
 * It works behind the writer: what was committed is read from the database afterwards and added, so a commit waits for
 * nothing. It goes on from the edge the last mark left, also after a start, and never reads again what it marked: what was
 * altered in the database since is not in the trees, and no later mark vouches for it.
 *
 * Where the log is shorter than its marks, or is not what they say, no more are made: the ones there are the evidence.
 */
import { performance } from 'node:perf_hooks'
import type { Instant } from '../../shared/log'
import { counted } from '../../shared/words'
import type { After } from '../desk'
import type { Log } from '../desk/types'
import type { ShopDatabase } from '../store'
import { marksFolderIn, openBook, readBook } from './book'
import { signingKeyIn } from './key'
import { answerLeaf, entryLeaf, type StoredAnswer } from './leaves'
import { type Counted, type Mark, nameOfKey, signedLine, type Why } from './lines'
import { makeTree, type Tree } from './tree'

/** Two marks of seconds are at least so far apart. */
const SECOND_MS = 1000
const HOUR_MS = 3_600_000
/** Rows read at once: a few milliseconds, so that commands do not wait. */
const SLICE = 1000
/** Who stops the server does not wait for a log of ten years. */
const SLICES_AT_CLOSING = 20

export interface Marks {
  /** Something was committed; a release is marked at once. */
  written(released: boolean): void
  /** When it is on the disk; `undefined` where marks are no longer made. */
  mark(why: Extract<Why, 'release' | 'backup'>): Promise<Mark | undefined>
  /** Why no more are made. */
  stopped(): string | undefined
  /** Marks what is not marked yet. */
  close(): Promise<void>
}

export interface MarksParts {
  db: ShopDatabase
  dataFolder: string
  /** Where the key is, when not there: a backup is marked with the key of the shop it was made of. */
  keyFolder?: string
  epoch: string
  now: () => Instant
  log: Log
  after: After
  /** Milliseconds that only go forward. */
  monotonic?: () => number
}

interface Grown {
  name: 'entries' | 'answers'
  tree: Tree
  /** The next rows: their places, which count without gaps, and what is their leaf. */
  next(after: number, most: number): { place: number; leaf: Uint8Array }[]
  last(): number
}

export function openMarks(parts: MarksParts): Marks {
  const { db, dataFolder, epoch, now, log, after, monotonic = () => performance.now() } = parts
  const folder = marksFolderIn(dataFolder)
  const key = signingKeyIn(parts.keyFolder ?? dataFolder)
  const { marks, keys, faults, torn } = readBook(folder)
  const book = openBook(folder)
  if (keys.at(-1)?.key !== key.public) book.keep(signedLine({ v: 1, at: now(), key: key.public }, key))
  const newest = newestOf(marks)
  const start = newestOf(marks.filter(({ entries, answers }) => entries.edge && answers.edge))
  const grown = grownFrom(db, start)
  const expected = expectedOf(marks)

  let isFirst = newest === undefined
  let marked = { entries: newest?.entries.count ?? 0, answers: newest?.answers.count ?? 0 }
  let stopped: string | undefined
  let lastSecond = Number.NEGATIVE_INFINITY
  let lastKept = monotonic()
  let cancel: (() => void) | undefined
  let queue: Promise<unknown> = Promise.resolve()
  let slicesLeft = Number.POSITIVE_INFINITY
  for (const name of torn)
    log.warn(
      { file: name },
      'The last line of the marks was cut short, as a power cut does; it was taken off.',
    )
  for (const { file, line, problem } of faults)
    log.error({ file, line }, `A mark does not hold: ${problem}. Run "npm run verify".`)

  /** All that is on the disk by now goes into the trees; false where that would take too long. */
  async function catchUp(): Promise<boolean> {
    for (const { name, tree, next, last } of grown) {
      if (last() < Math.max(tree.size(), marked[name]))
        return stop(
          `the log ends before its marks: ${counted(Math.max(tree.size(), marked[name]) - last(), name === 'entries' ? 'entry' : 'answer', name)} missing at its end`,
        )
      for (;;) {
        if (--slicesLeft < 0) return false
        const rows = next(tree.size(), SLICE)
        for (const { place, leaf } of rows) {
          if (place !== tree.size() + 1) return stop(`place ${tree.size() + 1} of the ${name} is missing`)
          tree.add(leaf)
          const root = expected[name].get(tree.size())
          if (root !== undefined && root !== tree.root())
            return stop(`${name} up to ${tree.size()} are not those that were marked`)
        }
        if (rows.length < SLICE) break
        await new Promise((resolve) => setImmediate(resolve))
      }
    }
    return true
  }

  function stop(why: string): false {
    stopped = `No more marks are made: ${why}. Run "npm run verify" and restore the last good backup.`
    log.error({}, stopped)
    return false
  }

  const counting = ({ tree }: Grown, edge: boolean): Counted => ({
    count: tree.size(),
    root: tree.root(),
    ...(edge ? { edge: tree.edge() } : {}),
  })

  const [entries, answers] = grown

  async function make(asked: Why): Promise<Mark | undefined> {
    if (stopped || !(await catchUp())) return undefined
    const isDue = monotonic() - lastKept >= HOUR_MS
    const why = isFirst ? 'first' : asked === 'second' && isDue ? 'hour' : asked
    const passing = why === 'second' || why === 'closed'
    const isNew = entries.tree.size() > marked.entries || answers.tree.size() > marked.answers
    if (passing && !isNew) return undefined
    const of = (edge: boolean): Mark => ({
      v: 1,
      at: now(),
      why,
      epoch,
      by: nameOfKey(key.public),
      entries: counting(entries, edge),
      answers: counting(answers, edge),
    })
    const mark = of(true)
    if (passing) book.second(signedLine(mark, key))
    else {
      book.keep(signedLine(of(false), key), signedLine(mark, key))
      lastKept = monotonic()
    }
    isFirst = false
    marked = { entries: mark.entries.count, answers: mark.answers.count }
    return mark
  }

  /** One at a time. */
  function inTurn(why: Why): Promise<Mark | undefined> {
    const made = queue.then(() => make(why))
    queue = made.catch((err) => log.error({ err }, 'A mark could not be written; the entries are saved.'))
    return made
  }

  const second = () => {
    cancel = undefined
    lastSecond = monotonic()
    void inTurn('second').catch(() => undefined)
  }
  second()

  return {
    written(released) {
      if (released) void inTurn('release').catch(() => undefined)
      else cancel ??= after(Math.max(0, lastSecond + SECOND_MS - monotonic()), second)
    },
    mark: inTurn,
    stopped: () => stopped,
    async close() {
      cancel?.()
      slicesLeft = SLICES_AT_CLOSING
      await inTurn('closed').catch(() => undefined)
    },
  }
}

/** The furthest; of those that reach as far, the last written. */
const newestOf = (marks: readonly Mark[]): Mark | undefined =>
  marks.reduce<Mark | undefined>(
    (most, mark) =>
      most && most.entries.count + most.answers.count > mark.entries.count + mark.answers.count ? most : mark,
    undefined,
  )

function expectedOf(marks: readonly Mark[]) {
  return {
    entries: new Map(marks.map(({ entries }) => [entries.count, entries.root])),
    answers: new Map(marks.map(({ answers }) => [answers.count, answers.root])),
  }
}

function grownFrom({ $client: client }: ShopDatabase, start: Mark | undefined): [Grown, Grown] {
  const entryRows = client.prepare('select seq, hash from event where seq > ? order by seq limit ?')
  const lastEntry = client.prepare('select max(seq) from event').pluck()
  // Rows are only ever added, so a row's own number is its place.
  const answerRows = client.prepare(
    `select rowid as place, command_id as commandId, person_id as personId, body_hash as bodyHash,
       answered_at as answeredAt, answer, device_id as deviceId, entry_number as entryNumber
     from answer where rowid > ? order by rowid limit ?`,
  )
  const lastAnswer = client.prepare('select max(rowid) from answer').pluck()
  const treeOf = (counted: Counted | undefined) =>
    makeTree(counted?.edge ? { size: counted.count, edge: counted.edge } : undefined)
  return [
    {
      name: 'entries',
      tree: treeOf(start?.entries),
      next: (from, most) =>
        (entryRows.all(from, most) as { seq: number; hash: string }[]).map(({ seq, hash }) => ({
          place: seq,
          leaf: entryLeaf(hash),
        })),
      last: () => Number(lastEntry.get() ?? 0),
    },
    {
      name: 'answers',
      tree: treeOf(start?.answers),
      next: (from, most) =>
        (answerRows.all(from, most) as (StoredAnswer & { place: number })[]).map(({ place, ...row }) => ({
          place,
          leaf: answerLeaf(row),
        })),
      last: () => Number(lastAnswer.get() ?? 0),
    },
  ]
}
