/**
 * PINs, as argon2id hashes keyed with a pepper that lies in a file beside the database, not in it: a stolen
 * database alone gives nobody's four digits away.
 *
 * Checking takes the same work whether or not anybody by that name has a PIN [PE2]. A row whose seal does not hold
 * (`seal.ts`) is nobody's PIN.
 */
import { randomBytes } from 'node:crypto'
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { hash, verify } from '@node-rs/argon2'
import { eq } from 'drizzle-orm'
import { type ShopDatabase, setState, stateOf } from '../store'
import { credential } from '../store/tables'
import { makeSeals, PINS_SEAL } from './seal'

export const PIN_FORM = /^\d{4,12}$/
const PEPPER_BYTES = 32

export interface Pins {
  set(personId: string, pin: string, at: number): Promise<void>
  check(personId: string, pin: string): Promise<boolean>
  has(personId: string): boolean
}

/** `takeAsTheyAre`: the rows that are there have no seal yet, because no build that seals them ever opened this folder. */
export function makePins(db: ShopDatabase, pepper: Buffer, takeAsTheyAre: boolean): Pins {
  const options = { secret: pepper }
  const seals = makeSeals(pepper)
  // Hashed once, at the first need: what an unknown person's PIN is compared with.
  let decoyHash: Promise<string> | undefined
  const storedHash = (personId: string) => {
    const row = db.select().from(credential).where(eq(credential.personId, personId)).get()
    return row && seals.holds(row) ? row.pinHash : undefined
  }
  const seal = () => setState(db, PINS_SEAL, seals.sealOf(db.select().from(credential).all()))
  if (takeAsTheyAre && stateOf(db, PINS_SEAL) === undefined)
    db.transaction(() => {
      for (const row of db.select().from(credential).all())
        db.update(credential)
          .set({ mac: seals.macOf(row) })
          .where(eq(credential.personId, row.personId))
          .run()
      seal()
    })

  return {
    async set(personId, pin, at) {
      const pinHash = await hash(pin, options)
      const mac = seals.macOf({ personId, pinHash, setAt: at })
      db.transaction(() => {
        db.insert(credential)
          .values({ personId, pinHash, setAt: at, mac })
          .onConflictDoUpdate({ target: credential.personId, set: { pinHash, setAt: at, mac } })
          .run()
        seal()
      })
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
