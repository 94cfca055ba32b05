/** What the entries share: a refusal is one sentence on stderr, and a signal ends the program in order. */
import { diskProblem, onDisk } from './disk'
import { Refused } from './settings'
import { ChainBroken, DatabaseRefused, RowDamaged } from './store'

export const say = (sentence: string) => process.stderr.write(`${sentence}\n`)

/** Runs an entry; what a person can put right is told without a stack. */
export async function run(entry: () => Promise<void>): Promise<void> {
  try {
    await entry()
  } catch (error) {
    const isExpected = [Refused, DatabaseRefused, ChainBroken, RowDamaged].some(
      (kind) => error instanceof kind,
    )
    const problem = isExpected ? undefined : diskProblem(error)
    const place = (error as { path?: string }).path
    say(
      isExpected
        ? (error as Error).message
        : problem
          ? onDisk(place ?? 'the data folder', problem)
          : `${error instanceof Error ? error.stack : error}`,
    )
    process.exit(1)
  }
}

/** Stops in order at SIGTERM or Ctrl-C; at once when asked twice, or after five seconds. */
export function stopWhenAsked(stop: () => Promise<void>): void {
  let stopping = false
  for (const signal of ['SIGTERM', 'SIGINT'] as const)
    process.on(signal, () => {
      if (stopping) process.exit(1)
      stopping = true
      setTimeout(() => process.exit(1), 5000).unref()
      stop().then(
        () => process.exit(0),
        (error) => {
          say(`Stopping failed: ${error instanceof Error ? error.message : error}`)
          process.exit(1)
        },
      )
    })
}
