/** What is reckoned of every engine on the board, kept for each: when one changes it is reckoned again, and no other. */
import { type Accessor, createMemo, mapArray } from 'solid-js'
import type { JobSummary } from '../../../shared/job/summary'
import type { Board } from '../../live/board'
import { keepAlike } from '../../ui/same'

/** What each engine gives, one thing or several, in the board's order as one list: the same until one gives something else. `before`: what it gave last. */
export function perEngine<T>(
  board: Pick<Board, 'ids' | 'summary'>,
  of: (summary: JobSummary, before: T | T[]) => T | T[],
): Accessor<T[]> {
  const lists = createMemo(
    mapArray(board.ids, (id) =>
      createMemo<T | T[]>((before) => {
        const summary = board.summary(id)
        return keepAlike(before, summary ? of(summary, before) : [])
      }, []),
    ),
  )
  return createMemo(() => lists().flatMap((list) => list()))
}
