/**
 * Wrong PINs make the next try wait, for the person and for the device alike [PE3].
 *
 * Three tries are free; then the wait doubles from two seconds up to five minutes. A try counts as wrong from
 * the moment it begins, so that many at once gain nothing; a right one wipes the slate. Kept in memory: a
 * restart forgets it, and nobody outside can restart the shop's box.
 */
const FREE = 3
const FIRST_MS = 2000
const LONGEST_MS = 5 * 60_000
const REMEMBERED = 10_000

interface Failures {
  count: number
  until: number
}

export interface Slowing {
  /** `now`: milliseconds of a clock that only goes forward. Milliseconds to wait, or 0: then the try is counted as wrong until `right`. */
  begin(keys: string[], now: number): number
  succeed(keys: string[]): void
}

export function makeSlowing(): Slowing {
  const failures = new Map<string, Failures>()

  return {
    begin(keys, now) {
      const wait = Math.max(0, ...keys.map((key) => (failures.get(key)?.until ?? 0) - now))
      if (wait > 0) return wait
      for (const key of keys) {
        const count = (failures.get(key)?.count ?? 0) + 1
        const penalty = count < FREE ? 0 : Math.min(FIRST_MS * 2 ** (count - FREE), LONGEST_MS)
        failures.delete(key)
        failures.set(key, { count, until: now + penalty })
      }
      // The oldest go first, so that made-up names cannot fill the memory.
      for (const key of failures.keys()) {
        if (failures.size <= REMEMBERED) break
        failures.delete(key)
      }
      return 0
    },
    succeed(keys) {
      for (const key of keys) failures.delete(key)
    },
  }
}
