/** The geometry of a band bar: every limit and tick as a share of its width. Pure. */
interface BandScale {
  /** 0 at the left end, 100 at the right, per cent. */
  at(value: number): number
  min: number
  max: number
  /** Beyond either end: drawn at the end, with an arrow. */
  beyond(value: number): -1 | 0 | 1
}

/**
 * The band takes the middle half of the bar. A value far outside would make a sliver of the band, so the
 * bar ends one and a half bands away and what lies farther stands at its end.
 */
export function bandScale(
  min: number | undefined,
  max: number | undefined,
  values: readonly number[],
): BandScale {
  const low = min ?? Math.min(0, ...values, max ?? 0)
  const known = max ?? Math.max(low * 1.5, ...values.map((value) => value * 1.1), low + 1)
  const high = known > low ? known : low + 1
  const band = high - low
  const reach = (side: number) => Math.min(Math.max(band / 2, side + band * 0.15), band * 1.5)
  const left = min === undefined ? low : low - reach(Math.max(0, ...values.map((value) => low - value)))
  const right = max === undefined ? high : high + reach(Math.max(0, ...values.map((value) => value - high)))
  const at = (value: number) => Math.min(100, Math.max(0, ((value - left) / (right - left)) * 100))
  return {
    at,
    min: at(low),
    max: at(high),
    beyond: (value) => (value < left ? -1 : value > right ? 1 : 0),
  }
}

/** Like values stand as one tick with their number. */
export function gather<T extends { value: number }>(ticks: readonly T[]): { value: number; ticks: T[] }[] {
  const groups = new Map<number, T[]>()
  for (const tick of ticks) groups.set(tick.value, [...(groups.get(tick.value) ?? []), tick])
  return [...groups].map(([value, list]) => ({ value, ticks: list })).sort((a, b) => a.value - b.value)
}
