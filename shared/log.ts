/**
 * What every stream of the log shares: the envelope around an event, and the word of a refusal.
 *
 * A job is one stream, the shop another. Events are facts and are never edited; `version` counts them
 * within their stream from 1. The client sees `StreamEvent`; the store keeps `Recorded`, which also
 * carries the hash chain.
 */

/** Milliseconds since 1970-01-01T00:00:00Z. */
export type Instant = number

export interface StreamEvent<E> {
  version: number
  /** When the server wrote it; `event.doneAt` says when it happened at the bench. */
  recordedAt: Instant
  event: E
}

/** A rule said no: a code, and what its sentence needs to name. */
export interface Refusal<Code extends string = string> {
  refused: Code
  data: Record<string, unknown>
}

export function isRefusal(outcome: unknown): outcome is Refusal {
  return typeof outcome === 'object' && outcome !== null && 'refused' in outcome
}

export const refuse = <Code extends string>(
  refused: Code,
  data: Record<string, unknown> = {},
): Refusal<Code> => ({
  refused,
  data,
})
