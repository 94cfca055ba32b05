/**
 * Each stream is one hash chain, by the arithmetic of `shared/chain.ts`. A row keeps `body`, the envelope as
 * canonical JSON, and `hash`, over the hash before it and the body.
 *
 * A row is believed only after its bytes were hashed again, its columns compared with its body, and its
 * place found right after the row before. Where a stream should end is kept beside it (`StreamHead`),
 * because a chain alone cannot show that its last links are gone. A release names the head it was given on, so
 * that entries written anew before it, with hashes that fit, still show.
 */
import { createHash, hash as digest } from 'node:crypto'
import { BEFORE_THE_FIRST, type ChainRow, headFault, readBody } from '../../shared/chain'
import { canonical } from './canonical'
import { ChainBroken } from './errors'
import type { Append, Envelope, Recorded, StreamHead } from './port'

export { BEFORE_THE_FIRST }

export interface StoredRow {
  seq: number
  stream: string
  version: number
  body: string | Uint8Array
  hash: string
}

export interface SealedRow extends StoredRow {
  body: string
}

/** In one call where it is all text, which costs half of an object that is fed and asked. */
export function sha256Hex(...parts: (string | Uint8Array)[]): string {
  if (parts.every((part) => typeof part === 'string')) return digest('sha256', parts.join(''), 'hex')
  const hash = createHash('sha256')
  for (const part of parts) hash.update(part)
  return hash.digest('hex')
}

/** Turns an append into the rows that follow `head`, and the head they leave. */
export function seal(append: Append, head: StreamHead, lastSeq: number) {
  const rows: SealedRow[] = []
  let { version, hash } = head
  for (const { id, event } of append.events) {
    const { stream, commandId, causeId, recordedAt } = append
    version += 1
    const seq = lastSeq + rows.length + 1
    const envelope: Envelope = { stream, version, seq, id, commandId, recordedAt, event }
    if (causeId !== undefined) envelope.causeId = causeId
    const body = canonical(envelope)
    hash = sha256Hex(hash, body)
    rows.push({ seq, stream, version, body, hash })
  }
  return { rows, head: { stream: append.stream, version, hash } }
}

/** One row, checked against the hash before it. */
export function unseal(row: StoredRow, previousHash: string): Recorded {
  const broken = (problem: string) => new ChainBroken(row.stream, row.version, problem)
  if (typeof row.body !== 'string' && !(row.body instanceof Uint8Array)) throw broken('its body is missing')
  if (sha256Hex(previousHash, row.body) !== row.hash) {
    throw broken('its hash does not fit its content and the entry before it')
  }
  const envelope = readBody(asText(row.body)) as Envelope | undefined
  if (!envelope) throw broken('its body is not an entry')
  if (envelope.stream !== row.stream) throw broken(`its body belongs to stream "${envelope.stream}"`)
  if (envelope.version !== row.version) throw broken(`its body belongs to version ${envelope.version}`)
  if (envelope.seq !== row.seq) throw broken(`its body belongs to place ${envelope.seq} of the log`)
  const releaseProblem = headFault(envelope.event, previousHash)
  if (releaseProblem) throw broken(releaseProblem)
  return { ...envelope, hash: row.hash }
}

/**
 * The rows of one stream after `afterVersion`, in order. When that is above 0, the row at that version
 * comes first: it is not given back, its hash is what the next one builds on.
 */
export function unsealStream(
  stream: string,
  afterVersion: number,
  rows: StoredRow[],
  head: StreamHead | undefined,
): Recorded[] {
  if (!head) {
    if (rows.length === 0) return []
    throw new ChainBroken(
      stream,
      rows[0]?.version ?? 1,
      'entries are there, but the record of its end is not',
    )
  }
  const anchored = afterVersion > 0 && afterVersion <= head.version
  let version = afterVersion
  let hash = BEFORE_THE_FIRST
  const rest = anchored ? rows.slice(1) : rows
  if (anchored) {
    if (rows[0]?.version !== afterVersion)
      throw new ChainBroken(stream, afterVersion, 'this entry is missing')
    hash = rows[0].hash
  }
  const recorded: Recorded[] = []
  for (const row of rest) {
    if (row.version > head.version) {
      throw new ChainBroken(stream, row.version, `the stream ended at version ${head.version}`)
    }
    if (row.version !== version + 1) throw new ChainBroken(stream, version + 1, 'this entry is missing')
    recorded.push(unseal(row, hash))
    version = row.version
    hash = row.hash
  }
  if (version < head.version) {
    throw new ChainBroken(
      stream,
      version + 1,
      `this entry is missing; the stream ended at version ${head.version}`,
    )
  }
  if (version === head.version && hash !== head.hash) {
    throw new ChainBroken(stream, version, 'its hash is not the one the stream ended with')
  }
  return recorded
}

/** The rows of a whole stream as their stored texts, once they are checked. */
export function textsOf(stream: string, rows: StoredRow[], head: StreamHead | undefined): ChainRow[] {
  unsealStream(stream, 0, rows, head)
  return rows.map(({ version, body, hash }) => ({ version, body: asText(body), hash }))
}

/** A page of the whole log: each row with the hash of the one before it in its stream. */
export function unsealLog(
  afterSeq: number,
  rows: (StoredRow & { previousHash: string | null })[],
): Recorded[] {
  let seq = afterSeq
  return rows.map(({ previousHash, ...row }) => {
    if (row.seq !== seq + 1) {
      throw new ChainBroken(
        row.stream,
        row.version,
        `the log jumps from place ${seq} to ${row.seq} before it`,
      )
    }
    seq = row.seq
    if (row.version !== 1 && previousHash === null) {
      throw new ChainBroken(row.stream, row.version - 1, 'this entry is missing')
    }
    return unseal(row, row.version === 1 ? BEFORE_THE_FIRST : (previousHash ?? ''))
  })
}

const asText = (body: string | Uint8Array): string =>
  typeof body === 'string' ? body : Buffer.from(body).toString('utf8')
