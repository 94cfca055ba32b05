/**
 * Ids that come out the same at every start, in the form of a UUID of version 7.
 *
 * Only for the demonstration's own past: whatever happens after it opens takes ids from chance.
 */

/** A small generator with a known start: the same numbers in the same order. */
function numbersFrom(start: number): () => number {
  let state = start >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = state
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return (mixed ^ (mixed >>> 14)) >>> 0
  }
}

/** Rising, so that they sort in the order they were given, and ending in what looks like chance. */
export function idsFrom(start: number): () => string {
  const next = numbersFrom(start)
  let count = 0
  return () => {
    count += 1
    const time = count.toString(16).padStart(12, '0')
    const chance = [next(), next(), next()].map((n) => n.toString(16).padStart(8, '0')).join('')
    const variant = '89ab'[Number.parseInt(chance[3] ?? '0', 16) % 4]
    return `${time.slice(0, 8)}-${time.slice(8)}-7${chance.slice(0, 3)}-${variant}${chance.slice(4, 7)}-${chance.slice(7, 19)}`
  }
}
