/**
 * Where a friction band and what a torque makes of it lie on their two scales, as shares of the width. Pure.
 *
 * Both scales begin at nothing, so that the eye compares lengths and not only positions.
 */

export interface FrictionBandGiven {
  /** Torque for full use of the bolt, N·m, at the slipperiest and at the roughest of the band. */
  lowNm: number
  highNm: number
  /** The torque looked at, N·m: the recommended one, or one that was printed. */
  torqueNm: number
  /** The preload it makes, N, at the roughest and at the slipperiest. */
  preloadLowN: number
  preloadHighN: number
  /** Preload at which the bolt is used as far as asked, N, and at which it yields under pull alone. */
  fullN: number
  yieldN: number
}

interface FrictionBandAt {
  torque: { low: number; high: number; at: number }
  preload: { low: number; high: number; full: number; yields: number }
}

/** Room at the right end, so that a mark at the highest value is not at the edge. */
const HEADROOM = 1.12

export function frictionBandAt(given: FrictionBandGiven): FrictionBandAt {
  const torqueEnd = HEADROOM * Math.max(given.highNm, given.torqueNm)
  const preloadEnd = HEADROOM * Math.max(given.yieldN, given.preloadHighN)
  const share = (value: number, end: number) =>
    end > 0 ? Math.min(100, Math.max(0, (value / end) * 100)) : 0
  return {
    torque: {
      low: share(given.lowNm, torqueEnd),
      high: share(given.highNm, torqueEnd),
      at: share(given.torqueNm, torqueEnd),
    },
    preload: {
      low: share(given.preloadLowN, preloadEnd),
      high: share(given.preloadHighN, preloadEnd),
      full: share(given.fullN, preloadEnd),
      yields: share(given.yieldN, preloadEnd),
    },
  }
}
