/** The little arithmetic of the bench: medians, percentiles, and runs of two arms that take turns. */

export function percentile(values: readonly number[], share: number): number {
  if (values.length === 0) throw new RangeError('A percentile needs at least one value.')
  const sorted = [...values].sort((a, b) => a - b)
  // Nearest rank: always a value that was measured.
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] as number
}

/** The middle value, or the mean of the two in the middle. */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('A median needs at least one value.')
  const sorted = [...values].sort((a, b) => a - b)
  const half = sorted.length / 2
  return Number.isInteger(half)
    ? ((sorted[half - 1] as number) + (sorted[half] as number)) / 2
    : (sorted[Math.floor(half)] as number)
}

export interface Arms<T> {
  ours(round: number): Promise<T>
  reference(round: number): Promise<T>
}

/**
 * Runs both arms `rounds` times, in turn; who goes first alternates, so that neither always finds the machine
 * as the other left it. Round 0 warms up and is thrown away.
 */
export async function interleaved<T>(rounds: number, arms: Arms<T>): Promise<{ ours: T[]; reference: T[] }> {
  const ours: T[] = []
  const reference: T[] = []
  for (let round = 0; round <= rounds; round++) {
    const first = round % 2 === 0 ? 'ours' : 'reference'
    const second = first === 'ours' ? 'reference' : 'ours'
    const got = { [first]: await arms[first](round), [second]: await arms[second](round) } as Record<
      'ours' | 'reference',
      T
    >
    if (round === 0) continue
    ours.push(got.ours)
    reference.push(got.reference)
  }
  return { ours, reference }
}
