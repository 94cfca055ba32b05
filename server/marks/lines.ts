/**
 * A mark as one line of text: how long the log was at a moment, and the root over all of it, signed.
 *
 * A line is canonical JSON, its signature (Ed25519 over the same line without it) as a member of its own. Two kinds: a key,
 * signed by itself, from which its marks are known; and a mark. Whatever byte of a line is changed, it is refused.
 */
import type { Instant } from '../../shared/log'
import { canonical } from '../store'
import { type SigningKey, signatureHolds } from './key'
import { makeTree } from './tree'

/** `second` and `closed` may go once a later one is kept; the others stay. */
export type Why = 'first' | 'hour' | 'release' | 'backup' | 'second' | 'closed'

/** A tree as a mark knows it. */
export interface Counted {
  count: number
  /** Hex. */
  root: string
  /** To go on from; only in marks that may go. */
  edge?: string[]
}

export interface Mark {
  v: 1
  at: Instant
  why: Why
  /** Another one after a restore: from there on the log goes its own way. */
  epoch: string
  /** The key's first 16 digits. */
  by: string
  /** Over the hashes of all events, in the order of the log. */
  entries: Counted
  /** Over all answers, in the order they were given. */
  answers: Counted
}

export interface KeyLine {
  v: 1
  at: Instant
  /** Public, hex. */
  key: string
}

export const nameOfKey = (publicKeyHex: string): string => publicKeyHex.slice(0, 16)

export const signedLine = (content: Mark | KeyLine, key: SigningKey): string =>
  canonical({ ...content, signature: key.sign(canonical(content)) })

export type ReadLine = { mark: Mark } | { key: KeyLine } | { problem: string }

/** `keys`: the public keys known so far, by name. */
export function readLine(line: string, keys: ReadonlyMap<string, string>): ReadLine {
  const content = parse(line)
  if (!content) return { problem: 'it is no line of this file' }
  const { signature, ...rest } = content
  const isKey = typeof rest.key === 'string'
  const publicKey = isKey ? String(rest.key) : keys.get(String(rest.by))
  if (publicKey === undefined) return { problem: 'its key is not named before it' }
  if (!HEX_32.test(publicKey) || !HEX_64.test(String(signature)))
    return { problem: 'its signature is no signature' }
  if (!signatureHolds(publicKey, canonical(rest), String(signature)))
    return { problem: 'its signature does not fit its content' }
  return isKey ? { key: rest as unknown as KeyLine } : markIn(rest as unknown as Mark)
}

function markIn(mark: Mark): ReadLine {
  for (const { count, root, edge } of [mark.entries, mark.answers])
    if (edge && makeTree({ size: count, edge }).root() !== root)
      return { problem: 'its edge does not lead to its root' }
  return { mark }
}

const HEX_32 = /^[0-9a-f]{64}$/
const HEX_64 = /^[0-9a-f]{128}$/

function parse(line: string): Record<string, unknown> | undefined {
  try {
    const value: unknown = JSON.parse(line)
    const isObject = typeof value === 'object' && value !== null && !Array.isArray(value)
    return isObject ? (value as Record<string, unknown>) : undefined
  } catch {
    return undefined
  }
}
