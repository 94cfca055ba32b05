/**
 * PINs, as argon2id hashes keyed with a pepper that lies in a file beside the database, not in it: a stolen
 * database alone gives nobody's four digits away.
 *
 * Checking takes the same work whether or not anybody by that name has a PIN [PE2].
 */
import { randomBytes } from 'node:crypto'
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { hash, verify } from '@node-rs/argon2'
import { eq } from 'drizzle-orm'
import type { ShopDatabase } from '../store'
import { credential } from '../store/tables'

export const PIN_FORM = /^\d{4,12}$/
const PEPPER_BYTES = 32

export interface Pins {
  set(personId: string, pin: string, at: number): Promise<void>
  check(personId: string, pin: string): Promise<boolean>
  has(personId: string): boolean
}

export function makePins(db: ShopDatabase, pepper: Buffer): Pins {
  const options = { secret: pepper }
  // Hashed once, at the first need: what an unknown person's PIN is compared with.
  let decoyHash: Promise<string> | undefined
  const storedHash = (personId: string) =>
    db.select().from(credential).where(eq(credential.personId, personId)).get()?.pinHash

  return {
    async set(personId, pin, at) {
      const pinHash = await hash(pin, options)
      db.insert(credential)
        .values({ personId, pinHash, setAt: at })
        .onConflictDoUpdate({ target: credential.personId, set: { pinHash, setAt: at } })
        .run()
    },
    async check(personId, pin) {
      decoyHash ??= hash(randomBytes(16).toString('hex'), options)
      const pinHash = storedHash(personId)
      const matches = await verify(pinHash ?? (await decoyHash), pin, options)
      return pinHash !== undefined && matches
    },
    has: (personId) => storedHash(personId) !== undefined,
  }
}

/** The server's pepper, made at the first start; readable by its owner alone. */
export function pepperIn(folder: string): Buffer {
  const file = join(folder, 'pepper')
  if (!existsSync(file)) writeFileSync(file, randomBytes(PEPPER_BYTES), { mode: 0o600, flag: 'wx' })
  chmodSync(file, 0o600)
  const pepper = readFileSync(file)
  if (pepper.length === PEPPER_BYTES) return pepper
  throw new Error(
    `${file} is not the ${PEPPER_BYTES} bytes it was made with. Restore it from a backup, or delete it and set every PIN again.`,
  )
}
