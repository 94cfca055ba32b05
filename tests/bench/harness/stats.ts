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

/**
 * Runs every arm `rounds` times, in turn; the order is turned round each round, so that none always finds the machine
 * as the same neighbour left it. The rounds up to 0 warm up, every arm as often, and are thrown away.
 */
export async function inTurn<Name extends string | number, T>(
  rounds: number,
  arms: readonly Name[],
  run: (arm: Name, round: number) => Promise<T>,
  warmUps = 1,
): Promise<Map<Name, T[]>> {
  const got = new Map<Name, T[]>(arms.map((arm) => [arm, []]))
  for (let round = 1 - warmUps; round <= rounds; round++)
    for (const arm of round % 2 === 0 ? arms : arms.toReversed()) {
      const measured = await run(arm, round)
      if (round > 0) got.get(arm)?.push(measured)
    }
  return got
}

export interface Arms<T> {
  ours(round: number): Promise<T>
  reference(round: number): Promise<T>
}

/** Two arms in turn: ours and what stands beside it. */
export async function interleaved<T>(
  rounds: number,
  arms: Arms<T>,
  warmUps?: number,
): Promise<{ ours: T[]; reference: T[] }> {
  const got = await inTurn(rounds, ['ours', 'reference'] as const, (arm, round) => arms[arm](round), warmUps)
  return { ours: got.get('ours') ?? [], reference: got.get('reference') ?? [] }
}
