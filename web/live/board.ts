/**
 * Every engine in the shop as the board shows it. One signal a row, so that a change draws that row and no other, and in
 * it only what is otherwise than before; the order is a list of ids that changes only when a row has to move.
 */
import { batch, createSignal, type Signal } from 'solid-js'
import { ATTENTION, isFinished } from '../../shared/job/reason'
import type { JobSummary } from '../../shared/job/summary'
import type { DamageNotice } from '../../shared/protocol'
import { format } from '../format'
import { keepAlike } from '../ui/same'
import { ask, type Failure, isFailure } from './http'
import type { Link, Watcher } from './link'
import type { Seen } from './seen'

export type Board = ReturnType<typeof makeBoard>

const urgencyOf = (summary: JobSummary): number => ATTENTION.indexOf(summary.reason.code)

/** Most urgent first, then by number. */
const compare = (a: JobSummary, b: JobSummary): number =>
  urgencyOf(a) - urgencyOf(b) || format.compare(a.number, b.number)

const isHere = (summary: JobSummary): boolean => !isFinished(summary)

const sameOrder = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((id, index) => b[index] === id)

/** What has left the shop is asked for when the others are drawn: with the years there is more and more of it. */
const LEFT_AFTER_MS = 300
const AGAIN_AFTER_MS = 5000

const later = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

type AskLeft = () => Promise<{ summaries: JobSummary[] } | Failure>

async function askForLeft(): ReturnType<AskLeft> {
  await later(LEFT_AFTER_MS)
  return ask('/api/board?left')
}

export function makeBoard(link: Link, seen: Seen, askLeft: AskLeft = askForLeft) {
  const rows = new Map<string, Signal<JobSummary>>()
  const [ids, setIds] = createSignal<readonly string[]>([], { equals: sameOrder })
  const [known, setKnown] = createSignal(false)
  const [whole, setWhole] = createSignal(false)
  /** Told while the answer with all of them was on its way, which may be older. */
  const early = new Map<string, JobSummary>()
  /** When it stood so, until the server says how it stands now. */
  const [seenAt, setSeenAt] = createSignal<number>()
  const [damage, setDamage] = createSignal<readonly DamageNotice[]>([])

  const shown = (id: string): JobSummary | undefined => rows.get(id)?.[0]()

  /** Says whether its row must be placed. */
  function put(summary: JobSummary): boolean {
    const row = rows.get(summary.id)
    if (!row) {
      rows.set(summary.id, createSignal<JobSummary>(summary))
      return true
    }
    const before = row[0]()
    // An older one may come late; one of the same version may say more (a cure that ended).
    if (summary.version < before.version) return false
    const after = keepAlike(before, summary)
    row[1](after)
    return compare(before, after) !== 0
  }

  /** Among the others, which stand in their order. */
  function place(summary: JobSummary): void {
    const others = ids().filter((id) => id !== summary.id)
    let [from, to] = [0, others.length]
    while (from < to) {
      const middle = (from + to) >> 1
      const other = shown(others[middle] as string) as JobSummary
      if (compare(other, summary) < 0) from = middle + 1
      else to = middle
    }
    setIds(others.toSpliced(from, 0, summary.id))
  }

  function placeAll(): void {
    const all = [...rows.values()].map(([summary]) => summary())
    setIds(all.sort(compare).map(({ id }) => id))
  }

  const watcher: Watcher = {
    room: 'board',
    have: () => undefined,
    watched(answer) {
      if (!('summaries' in answer)) return
      batch(() => {
        setSeenAt()
        takeAll(answer.summaries, answer.leftLater ? isHere : undefined)
        if (!answer.leftLater) setWhole(true)
      })
      setDamage(answer.damage ?? [])
      if (answer.leftLater) void takeLeft(++asked)
      seen.keep('board', summaries)
    },
  }
  const summaries = () => [...rows.values()].map(([summary]) => summary())
  const [looked, setLooked] = createSignal(false)
  void seen.load('board').then((sight) => {
    if (sight && !known())
      batch(() => {
        setSeenAt(sight.at)
        takeAll(sight.state as JobSummary[])
        setWhole(true)
      })
    setLooked(true)
  })

  /** How often the board was told: what was asked for an earlier telling is no longer waited for. */
  let asked = 0
  async function takeLeft(turn: number): Promise<void> {
    const answer = await askLeft()
    if (turn !== asked) return
    if (!isFailure(answer))
      return batch(() => {
        takeAll(answer.summaries, isFinished)
        setWhole(true)
      })
    await later(AGAIN_AFTER_MS)
    if (turn === asked) await takeLeft(turn)
  }

  /** `isOfThem`: which of the rows are listed where they still are so. */
  function takeAll(all: readonly JobSummary[], isOfThem = (_: JobSummary) => true): void {
    const listed = new Set(all.map(({ id }) => id))
    batch(() => {
      for (const [id, [row]] of rows) if (!listed.has(id) && isOfThem(row())) rows.delete(id)
      for (const summary of [...all, ...early.values()]) put(summary)
      early.clear()
      placeAll()
      setKnown(true)
    })
  }

  link.on('damage', ({ notices }) => setDamage(notices))
  link.on('summary', (summary) => {
    if (!known()) return void early.set(summary.id, summary)
    batch(() => {
      if (put(summary)) place(summary)
    })
    seen.keep('board', summaries)
  })

  return {
    ids,
    /**
     * False until the server has answered once, or this device had kept it; a board with nothing on it, until that is
     * all there is.
     */
    known: () => known() && (whole() || ids().length > 0),
    /** With what has left the shop. */
    whole,
    /** Whether this device has looked for what it kept. */
    looked,
    /** What is shown is of then, and not of now. */
    asOf: () => seenAt() ?? link.lostAt(),
    summary: shown,
    /** What is damaged on the server's disk. */
    damage,
    watch: () => link.watch(watcher),
  }
}
