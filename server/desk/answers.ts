/**
 * Answers are kept by command id, so that a resend after a lost reply is answered as the first time.
 *
 * What was written is kept as its place in the stream and read again from the log: events never change, so
 * the answer is the same, and no event lies on disk twice. A refusal is kept whole, its sentence too.
 */
import { type CommandHead, commandFor, type Refused } from '../../shared/protocol'
import { type AnswerRow, canonical, sha256Hex } from '../store'
import type { StreamName } from './streams'
import type { Submission } from './types'

export type StoredAnswer = { ok: true; from: number; version: number } | Refused

/**
 * Of a command as version 1 has it: a resend may come after the server was renewed, with what it did not know before.
 * Throws `NotCanonical` for what JSON cannot hold, naming where.
 */
export const bodyHash = (stream: StreamName, received: object): string =>
  sha256Hex(canonical([stream, commandFor(1, received as CommandHead)]))

export function answerRow(
  { command, bodyHash, deviceId, receivedAt }: Submission,
  personId: string,
  answer: StoredAnswer,
): AnswerRow {
  const { commandId, entryNumber } = command
  const row: AnswerRow = { commandId, personId, bodyHash, answeredAt: receivedAt, answer }
  if (deviceId !== undefined && entryNumber !== undefined) Object.assign(row, { deviceId, entryNumber })
  return row
}

/** The first answer; `undefined` when another person or another body comes under the id. */
export function firstAnswer(
  row: AnswerRow,
  hash: string,
  person: string | undefined,
): StoredAnswer | undefined {
  const same = row.bodyHash === hash && (person === undefined || person === row.personId)
  return same ? (row.answer as StoredAnswer) : undefined
}
