/** What a server counts while it runs, for `/metrics`; from nothing at each start. */
import type { Intake } from '../intake'

export interface Tally {
  /** By the first digit of their status. */
  requests: Map<string, number>
  requestSeconds: number
  /** By what they were answered, over HTTP and sockets alike. */
  commands: Map<'written' | 'nothing_to_do' | 'not_taken', number>
  /** Pages whose socket is open now. */
  sockets: number
  /** Asked too much at once, and told to wait. */
  heldBack: number
}

export const makeTally = (): Tally => ({
  requests: new Map(),
  requestSeconds: 0,
  commands: new Map(),
  sockets: 0,
  heldBack: 0,
})

export const countOne = <K>(counts: Map<K, number>, key: K): void =>
  void counts.set(key, (counts.get(key) ?? 0) + 1)

/** The way in, with its answers counted. */
export function counting(intake: Intake): { tally: Tally; intake: Intake } {
  const tally = makeTally()
  return {
    tally,
    async intake(received) {
      const answer = await intake(received)
      const kind = !answer.ok ? 'not_taken' : answer.events.length > 0 ? 'written' : 'nothing_to_do'
      countOne(tally.commands, kind)
      return answer
    },
  }
}
