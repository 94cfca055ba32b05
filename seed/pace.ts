/**
 * The shop clock's hands: they go at the pace they are given, can be put forward, and never go back.
 *
 * At rate 1 the clock goes as the one on the wall, at 60 an hour takes a minute, at 0 it stands.
 */
import type { Instant } from '../shared/log'

export interface Pace {
  now(): Instant
  /** Shop milliseconds for one millisecond of `device`. */
  rate(): number
  run(rate: number): void
  /** A moment that has passed already changes nothing. */
  forward(to: Instant): void
}

export function makePace(start: Instant, device: () => number): Pace {
  let base = start
  let at = device()
  let rate = 1
  const exact = () => base + Math.max(0, device() - at) * rate
  function rebase(to: number) {
    base = to
    at = device()
  }
  return {
    now: () => Math.floor(exact()),
    rate: () => rate,
    run(next) {
      rebase(exact())
      rate = next
    },
    forward(to) {
      if (to > exact()) rebase(to)
    },
  }
}
