/** Draws that are the same for the same seed: mulberry32, as its author Tommy Ettinger put it in the public domain (from memory). */
export interface Draw {
  /** From 0 up to 1, and not 1. */
  share(): number
  below(count: number): number
  pick<T>(from: readonly T[]): T
}

export function drawFrom(seed: number): Draw {
  let state = seed >>> 0
  function share(): number {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  const below = (count: number) => Math.floor(share() * count)
  return { share, below, pick: (from) => from[below(from.length)] as (typeof from)[number] }
}
