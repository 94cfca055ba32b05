/**
 * The server's time as well as this device can tell it.
 *
 * It is learnt from answers that carry the server's clock; the one with the shortest round trip is the best, and is
 * replaced by a fresher one of like quality, or by any that shows it to be wrong. Facts are stamped with `now()` and
 * carry the offset. The demonstration's clock may be hurried or put forward: then the server says its pace.
 */
import type { Instant } from '../../shared/log'

export interface Clock {
  now(): Instant
  /** What is added to the device's clock. */
  offsetMs(): number
  learn(sentAt: number, serverNow: Instant): void
  /** From here on the server's clock makes `rate` seconds of one of the device's. */
  setPace(sentAt: number, serverNow: Instant, rate: number): void
}

const FRESH_MS = 10 * 60_000
/** Clocks are read in whole milliseconds, and a page may be busy for a few. */
const READING_MS = 50

export function makeClock(device: () => number = Date.now): Clock {
  // The server's time at a moment of the device's; until something is known, the device's own.
  let serverThen = 0
  let deviceThen = 0
  let rate = 1
  let best = { roundTripMs: Number.POSITIVE_INFINITY, at: 0 }
  const serverTimeAt = (at: number) => serverThen + (at - deviceThen) * rate

  function take(at: number, roundTripMs: number, serverNow: Instant) {
    best = { roundTripMs, at }
    serverThen = serverNow + (roundTripMs / 2) * rate
    deviceThen = at
  }

  return {
    now: () => Math.round(serverTimeAt(device())),
    offsetMs() {
      const at = device()
      return Math.round(serverTimeAt(at) - at)
    },
    learn(sentAt, serverNow) {
      const at = device()
      const roundTripMs = at - sentAt
      const worse = roundTripMs > best.roundTripMs * 1.5 + 20 && at - best.at < FRESH_MS
      // The server read its clock between the sending and now; an estimate outside of that is wrong.
      const slack = (best.roundTripMs / 2) * rate + READING_MS
      const possible =
        serverTimeAt(at) >= serverNow - slack && serverTimeAt(at) <= serverNow + roundTripMs * rate + slack
      if (!worse || !possible) take(at, roundTripMs, serverNow)
    },
    setPace(sentAt, serverNow, next) {
      rate = next
      const at = device()
      take(at, at - sentAt, serverNow)
    },
  }
}
