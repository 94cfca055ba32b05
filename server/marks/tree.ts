/**
 * A Merkle tree as in RFC 9162, section 2.1.1, that only grows: of all that was added it keeps the right edge, one hash
 * for each whole subtree, so that adding and asking for the root cost no more than the logarithm of its size.
 *
 * A leaf is SHA-256(0x00, data), a node SHA-256(0x01, left, right). Whoever goes on from an edge goes on from exactly
 * those leaves: its next roots stand for them too, whatever became of what they were made from.
 */
import { hash } from 'node:crypto'

export const HASH_BYTES = 32

export interface Tree {
  size(): number
  add(data: Uint8Array): void
  /** As hex; of an empty tree the hash of nothing. */
  root(): string
  /** The whole subtrees from the left, as hex. */
  edge(): string[]
}

const sha256 = (bytes: Uint8Array): Uint8Array => hash('sha256', bytes, 'buffer')

function leaf(data: Uint8Array): Uint8Array {
  const bytes = Buffer.alloc(1 + data.length)
  bytes.set(data, 1)
  return sha256(bytes)
}

const pair = Buffer.alloc(1 + 2 * HASH_BYTES, 1)
function node(left: Uint8Array, right: Uint8Array): Uint8Array {
  pair.set(left, 1)
  pair.set(right, 1 + HASH_BYTES)
  return sha256(pair)
}

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex')

/** How many whole subtrees a tree of that size has: the ones in its size as binary. */
export const edgeLength = (size: number): number => size.toString(2).replaceAll('0', '').length

/** Empty, or going on from an edge; which throws where it is not one of that size. */
export function makeTree(from: { size: number; edge: readonly string[] } = { size: 0, edge: [] }): Tree {
  if (from.edge.length !== edgeLength(from.size))
    throw new RangeError(
      `A tree of ${from.size} has ${edgeLength(from.size)} whole subtrees, not ${from.edge.length}.`,
    )
  const edge: Uint8Array[] = from.edge.map((hex) => Buffer.from(hex, 'hex'))
  let size = from.size
  return {
    size: () => size,
    add(data) {
      let right = leaf(data)
      // Each one at the end of the size's binary is a subtree as large as the one that is now whole.
      for (let rest = size; rest % 2 === 1; rest = (rest - 1) / 2)
        right = node(edge.pop() as Uint8Array, right)
      edge.push(right)
      size += 1
    },
    root() {
      const whole =
        edge.length === 0 ? sha256(Buffer.alloc(0)) : edge.reduceRight((right, left) => node(left, right))
      return hex(whole)
    },
    edge: () => edge.map(hex),
  }
}
