/** What a figure is given, and what it gives back. */
import type { Ending } from '../harness/ending'
import type { HostLink } from '../harness/host-link'
import type { Outcome } from '../harness/table'

export interface Bench {
  rounds: number
  /** For development: smaller loads, said in the notes. */
  quick: boolean
  /** Ten years of a busy shop, where a figure is of a long log. */
  history: boolean
  ending: Ending
  /** The server process, the same for every figure that needs one. */
  host(): HostLink
  /** Progress, on stderr. */
  say(sentence: string): void
}

export interface Figure {
  name: string
  what: string
  /** Given up after this long. */
  atMostSeconds: number
  run(bench: Bench): Promise<Outcome[]>
}
