/**
 * The server's time as well as this device can tell it.
 *
 * The offset is learnt from answers that carry the server's clock; the one with the shortest round trip is the
 * best, and is replaced by a fresher one of like quality. Facts are stamped with `now()` and carry the offset.
 */
import type { Instant } from '../../shared/log'

export interface Clock {
  now(): Instant
  /** What is added to the device's clock. */
  offsetMs(): number
  learn(sentAt: number, serverNow: Instant): void
}

const FRESH_MS = 10 * 60_000

export function makeClock(device: () => number = Date.now): Clock {
  let offset = 0
  let best = { roundTripMs: Number.POSITIVE_INFINITY, at: 0 }
  return {
    now: () => Math.round(device() + offset),
    offsetMs: () => Math.round(offset),
    learn(sentAt, serverNow) {
      const at = device()
      const roundTripMs = at - sentAt
      if (roundTripMs > best.roundTripMs * 1.5 + 20 && at - best.at < FRESH_MS) return
      best = { roundTripMs, at }
      offset = serverNow + roundTripMs / 2 - at
    },
  }
}
