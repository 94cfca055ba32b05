/** What changed since the signed-in person looked, stored on this device and up to date while the board is open. */
import { createEffect, createMemo, createSignal, on, onCleanup } from 'solid-js'
import { reasonSentence } from '../../../shared/job/reason'
import type { JobSummary } from '../../../shared/job/summary'
import type { Board } from '../../live/board'
import { useLive } from '../../live/live'
import { perEngine } from './per-engine'
import {
  type Change,
  changeOf,
  keepLooked,
  keyOf,
  type Looked,
  lookAt,
  lookAtAll,
  newestFirst,
  readLooked,
} from './since'

/** Engines gone into from the board: whoever comes back from one has seen it. */
const visited = new Set<string>()
export const visit = (jobId: string): void => void visited.add(jobId)

/** `day`: today's, for what is said of days. */
export function useSince(board: Board, day: () => string) {
  const { session, clock } = useLive()
  const [looked, setLooked] = createSignal<Looked>()
  const sentenceOf = ({ reason }: JobSummary) => reasonSentence(reason, session.words)
  const me = createMemo(() => session.person()?.id)
  const summaries = () => board.ids().flatMap((id) => board.summary(id) ?? [])

  const keep = (next: Looked) => {
    const person = me()
    setLooked(next)
    if (person) keepLooked(localStorage, person, next)
  }
  const seeAll = () => keep(lookAtAll(summaries(), sentenceOf, clock.now()))

  createEffect(
    // What comes a moment after the others is not new for that.
    on([me, board.whole], ([person, whole]) => {
      if (!person || !whole) return
      const stored = readLooked(localStorage, person)
      // The first look on this device: everything is as it is.
      if (!stored) return seeAll()
      const back = summaries().filter(({ id }) => visited.has(id))
      visited.clear()
      if (back.length > 0) keep(back.reduce((now, summary) => lookAt(now, summary, sentenceOf), stored))
      else setLooked(stored)
    }),
  )
  // The same person looked in another tab.
  const elsewhere = ({ key }: StorageEvent) => {
    const person = me()
    if (person && key === keyOf(person)) setLooked(readLooked(localStorage, person))
  }
  addEventListener('storage', elsewhere)
  onCleanup(() => removeEventListener('storage', elsewhere))

  const changes = perEngine<Change>(board, (summary, before) => {
    const then = looked()
    day()
    return (then && changeOf(then, summary, sentenceOf, [before].flat()[0])) ?? []
  })
  return {
    at: () => looked()?.at,
    changes: createMemo(() => newestFirst(changes())),
    seeAll,
  }
}
