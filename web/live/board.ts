/**
 * Every open engine as the board shows it. One signal a row, so that a change draws that row and no other; the
 * order is a list of ids that changes only when a row has to move.
 */
import { createSignal, type Signal } from 'solid-js'
import { ATTENTION } from '../../shared/job/reason'
import type { JobSummary } from '../../shared/job/summary'
import { format } from '../format'
import type { Link, Watcher } from './link'

export type Board = ReturnType<typeof makeBoard>

const urgencyOf = (summary: JobSummary): number => ATTENTION.indexOf(summary.reason.code)

/** Most urgent first, then by number. */
export function inOrder(summaries: Iterable<JobSummary>): JobSummary[] {
  return [...summaries].sort((a, b) => urgencyOf(a) - urgencyOf(b) || format.compare(a.number, b.number))
}

export function makeBoard(link: Link) {
  const rows = new Map<string, Signal<JobSummary>>()
  const [ids, setIds] = createSignal<readonly string[]>([])
  const [known, setKnown] = createSignal(false)

  function put(summary: JobSummary): void {
    const row = rows.get(summary.id)
    if (!row) rows.set(summary.id, createSignal<JobSummary>(summary))
    // An older one may come late; one of the same version may say more (a cure that ended).
    else if (summary.version >= row[0]().version) row[1](summary)
  }

  function arrange(): void {
    const next = inOrder([...rows.values()].map(([summary]) => summary())).map(({ id }) => id)
    const same = next.length === ids().length && next.every((id, index) => ids()[index] === id)
    if (!same) setIds(next)
  }

  const watcher: Watcher = {
    room: 'board',
    have: () => undefined,
    watched(answer) {
      if (!('summaries' in answer)) return
      const listed = new Set(answer.summaries.map(({ id }) => id))
      for (const id of rows.keys()) if (!listed.has(id)) rows.delete(id)
      for (const summary of answer.summaries) put(summary)
      arrange()
      setKnown(true)
    },
  }

  link.on('summary', (summary) => {
    if (!known()) return
    put(summary)
    arrange()
  })

  return {
    ids,
    /** False until the server has answered once. */
    known,
    summary: (id: string) => rows.get(id)?.[0](),
    watch: () => link.watch(watcher),
  }
}
