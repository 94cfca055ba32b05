/**
 * What changes on the board though nobody touches it: a cure ends, a window closes [DK13].
 *
 * One timer over all jobs, set for the next moment any summary names. It keeps no program running. At most a
 * minute ahead: a machine that slept counts its timers on from there, and a clock may be set.
 */
import type { Instant } from '../../shared/log'

/** Calls once after so many milliseconds; what it returns calls that off. */
export type After = (ms: number, call: () => void) => () => void

export const afterMs: After = (ms, call) => {
  const timer = setTimeout(call, ms)
  timer.unref()
  return () => clearTimeout(timer)
}

const AHEAD_MOST_MS = 60_000

export interface BoardClock {
  /** To be called whenever a summary is new: the moments are looked at again. */
  look(): void
  /** When what was begun is done; nothing more is made afterwards. */
  close(): Promise<void>
}

export function makeBoardClock(parts: {
  now: () => Instant
  after: After
  /** When the next summary changes by itself, if one does. */
  next: () => Instant | undefined
  /** Makes again whatever has run out. Does not throw. */
  run: () => Promise<void>
}): BoardClock {
  const { now, after, next, run } = parts
  let cancel: (() => void) | undefined
  let setFor: Instant | undefined
  let running: Promise<void> | undefined
  let closed = false

  function look() {
    const at = next()
    if (closed || running || (cancel && at === setFor)) return
    cancel?.()
    cancel = undefined
    setFor = at
    if (at === undefined) return
    cancel = after(Math.min(Math.max(at - now(), 0), AHEAD_MOST_MS), due)
  }

  function due() {
    cancel = undefined
    running = run().finally(() => {
      running = undefined
      look()
    })
  }

  return {
    look,
    async close() {
      closed = true
      cancel?.()
      await running
    },
  }
}
