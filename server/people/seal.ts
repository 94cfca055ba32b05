/**
 * PIN rows under seal: each carries a MAC keyed from the pepper, and one more over all of them stands in `state`.
 *
 * Whoever can write to the database but has not the pepper cannot put one person's PIN under another's name, take a row
 * out or put one in, without it being found. Not found is the whole set of an earlier day, put back with its seal.
 * The pepper itself lies in the same folder: from somebody who has that too, nothing here protects.
 */
import { createHmac, hkdfSync, timingSafeEqual } from 'node:crypto'

/** The row of `state` with the seal over all PIN rows; where it is, no row is without a MAC. */
export const PINS_SEAL = 'pins_seal'

export interface PinRow {
  personId: string
  pinHash: string
  setAt: number
  mac: string | null
}

export interface Seals {
  macOf(row: Omit<PinRow, 'mac'>): string
  holds(row: PinRow): boolean
  /** Over all rows, in whatever order they come. */
  sealOf(rows: readonly PinRow[]): string
}

export function makeSeals(pepper: Uint8Array): Seals {
  const key = Buffer.from(hkdfSync('sha256', pepper, '', 'PIN rows', 32))
  const hmac = (text: string) => createHmac('sha256', key).update(text).digest('hex')
  const macOf: Seals['macOf'] = ({ personId, pinHash, setAt }) =>
    hmac(JSON.stringify(['row', personId, pinHash, setAt]))
  return {
    macOf,
    holds: (row) => row.mac !== null && sameText(row.mac, macOf(row)),
    sealOf: (rows) => hmac(JSON.stringify(['all', ...rows.map(({ mac }) => mac).sort()])),
  }
}

function sameText(a: string, b: string): boolean {
  const [one, other] = [Buffer.from(a), Buffer.from(b)]
  return one.length === other.length && timingSafeEqual(one, other)
}
