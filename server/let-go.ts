/**
 * For programs that read a whole log: left to itself, Node keeps a hundred megabytes of engines that were done with
 * before it looks for them.
 */
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'

const LET_GO_EVERY = 10_000

/** To be told how many events were read; lets go of them now and then. */
export function makeLetGo(): (events: number) => void {
  setFlagsFromString('--expose-gc')
  const letGo = runInNewContext('gc') as () => void
  let held = 0
  return (events) => {
    held += events
    if (held < LET_GO_EVERY) return
    held = 0
    letGo()
  }
}
