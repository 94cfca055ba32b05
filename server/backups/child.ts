/** A backup in a process of its own, so that the server goes on answering. Started by `in-child.ts` and by nobody else. */
import { setPriority } from 'node:os'
import { Refused } from '../settings'
import { type TakeParts, takeBackup } from './take'

/** The bench comes first. */
const NICE = 10

process.once('message', (parts: TakeParts) => {
  try {
    setPriority(NICE)
  } catch {
    // Not every system lets it.
  }
  takeBackup(parts).then(
    (taken) => end({ taken }),
    (error) => end({ refused: error instanceof Refused, message: (error as Error).message ?? String(error) }),
  )
})
// Whoever asked is gone, and with it whoever would tell of this backup. What was begun is removed by the next one.
process.once('disconnect', () => process.exit(1))

function end(answer: object) {
  process.send?.(answer, () => process.exit(0))
}
