/** Ids for what the server names: UUIDv7 (RFC 9562), so that they sort by when they were given. */
import { randomFillSync } from 'node:crypto'
import { v7 } from 'uuid'

const BYTES = 16
/** Asking the system for sixteen bytes costs as much as for four thousand. */
const pool = new Uint8Array(256 * BYTES)
let used = pool.length

export function newId(): string {
  if (used === pool.length) {
    randomFillSync(pool)
    used = 0
  }
  const random = pool.slice(used, used + BYTES)
  used += BYTES
  return v7({ random })
}
