/** What changed since the signed-in person looked, stored on this device and up to date while the board is open. */
import { createEffect, createMemo, createSignal } from 'solid-js'
import { reasonSentence } from '../../../shared/job/reason'
import type { JobSummary } from '../../../shared/job/summary'
import { useLive } from '../../live/live'
import { changesSince, keepLooked, type Looked, lookAt, lookAtAll, readLooked } from './since'

/** Engines gone into from the board: whoever comes back from one has seen it. */
const visited = new Set<string>()
export const visit = (jobId: string): void => void visited.add(jobId)

export function useSince(summaries: () => readonly JobSummary[], known: () => boolean) {
  const { session, clock } = useLive()
  const [looked, setLooked] = createSignal<Looked>()
  const sentenceOf = ({ reason }: JobSummary) => reasonSentence(reason, session.words)
  const me = () => session.person()?.id

  const keep = (next: Looked) => {
    const person = me()
    setLooked(next)
    if (person) keepLooked(localStorage, person, next)
  }
  const seeAll = () => keep(lookAtAll(summaries(), sentenceOf, clock.now()))

  createEffect(() => {
    const person = me()
    if (!person || !known()) return
    const stored = readLooked(localStorage, person)
    // The first look on this device: everything is as it is.
    if (!stored) return seeAll()
    const back = summaries().filter(({ id }) => visited.has(id))
    visited.clear()
    if (back.length > 0) keep(back.reduce((now, summary) => lookAt(now, summary, sentenceOf), stored))
    else if (looked()?.at !== stored.at) setLooked(stored)
  })

  return {
    at: () => looked()?.at,
    changes: createMemo(() => {
      const now = looked()
      return now ? changesSince(now, summaries(), sentenceOf) : []
    }),
    seeAll,
  }
}
