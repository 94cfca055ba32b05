/** Which entries of a device never came: it counts them, and what is lost on it leaves a gap in the count. */
import type { EntriesCounted, EntriesMissing } from '../../shared/protocol'
import type { CountedEntry } from '../store'

/** `counted` in the order of the device's count; what waits on it still is no gap. */
export function missingIn(
  counted: readonly CountedEntry[],
  { upTo, waiting, since }: EntriesCounted,
): EntriesMissing[] {
  const still = new Set(waiting)
  const missing: EntriesMissing[] = []
  let after: CountedEntry | undefined
  let expected = since + 1
  function gap(until: number, before?: CountedEntry): void {
    let [first, last] = [expected, until]
    while (first <= until && still.has(first)) first += 1
    while (last >= first && still.has(last)) last -= 1
    if (first > last) return
    const within = [...still].filter((number) => number > first && number < last).length
    missing.push({
      first,
      last,
      count: last - first + 1 - within,
      ...(after ? { after: after.answeredAt } : {}),
      ...(before ? { before: before.answeredAt } : {}),
    })
  }
  for (const entry of counted) {
    if (entry.entryNumber > upTo) break
    if (entry.entryNumber > since) gap(entry.entryNumber - 1, entry)
    expected = Math.max(expected, entry.entryNumber + 1)
    after = entry
  }
  gap(upTo)
  return missing
}
