/**
 * PINs, as argon2id hashes keyed with a pepper that lies in a file beside the database, not in it: a stolen
 * database alone gives nobody's four digits away.
 *
 * Checking takes the same work whether or not anybody by that name has a PIN [PE2]. A row whose seal does not hold
 * (`seal.ts`) is nobody's PIN.
 */
import { randomBytes } from 'node:crypto'
import { chmodSync, existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { hash, verify } from '@node-rs/argon2'
import { eq } from 'drizzle-orm'
import { writeWhole } from '../files'
import { Refused } from '../settings'
import { type PinToWrite, type ShopDatabase, setState, stateOf } from '../store'
import { credential, state } from '../store/tables'
import { makeSeals, PINS_SEAL, type PinRow } from './seal'

const PEPPER = 'pepper'
const PEPPER_BYTES = 32

export interface Pins {
  /** Without an entry in the log. */
  set(personId: string, pin: string, at: number): Promise<void>
  /** What is kept of a PIN, for whoever writes more along with it; the seal is over all PINs that are set now. */
  toWrite(personId: string, pin: string, at: number): Promise<PinToWrite>
  /** The same for somebody whose PIN goes. */
  toDrop(personId: string): PinToWrite
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
  const sealNow = () => seals.sealOf(db.select().from(credential).all())
  if (takeAsTheyAre && stateOf(db, PINS_SEAL) === undefined)
    db.transaction(() => {
      for (const row of db.select().from(credential).all())
        db.update(credential)
          .set({ mac: seals.macOf(row) })
          .where(eq(credential.personId, row.personId))
          .run()
      setState(db, PINS_SEAL, sealNow())
    })

  async function rowOf(personId: string, pin: string, at: number) {
    const bare = { personId, pinHash: await hash(pin, options), setAt: at }
    return { ...bare, mac: seals.macOf(bare) }
  }
  const sealOver = (...rows: PinRow[]) => ({ name: PINS_SEAL, value: seals.sealOf(rows) })
  const othersThan = (personId: string) =>
    db
      .select()
      .from(credential)
      .all()
      .filter((other) => other.personId !== personId)

  return {
    async set(personId, pin, at) {
      const row = await rowOf(personId, pin, at)
      const { personId: _, ...set } = row
      db.transaction(() => {
        db.insert(credential).values(row).onConflictDoUpdate({ target: credential.personId, set }).run()
        // Over the rows as they are by now: another PIN may have been set while this one was hashed.
        setState(db, PINS_SEAL, sealNow())
      })
    },
    async toWrite(personId, pin, at) {
      const row = await rowOf(personId, pin, at)
      return { row, seal: sealOver(...othersThan(personId), row) }
    },
    toDrop: (personId) => ({ gone: personId, seal: sealOver(...othersThan(personId)) }),
    async check(personId, pin) {
      decoyHash ??= hash(randomBytes(16).toString('hex'), options)
      const pinHash = storedHash(personId)
      const matches = await verify(pinHash ?? (await decoyHash), pin, options)
      // It may have been set anew, or taken away, while this was compared.
      return pinHash !== undefined && matches && storedHash(personId) === pinHash
    },
    has: (personId) => storedHash(personId) !== undefined,
  }
}

/**
 * The server's pepper, made at the first start; readable by its owner alone. Where PINs were set under one that is gone
 * another would only make every PIN wrong, so the start stops.
 */
export function pepperIn(folder: string, pinsAreSet: boolean): Buffer {
  const file = join(folder, PEPPER)
  if (!existsSync(file)) {
    if (pinsAreSet)
      throw new Refused(
        `The file ${file} is missing, and without it no PIN that was set can be right. Put it back from the secrets of a backup; if it is gone for good, set every PIN anew, beginning with "npm run pin -- NAME --all-anew".`,
      )
    writeWhole(file, randomBytes(PEPPER_BYTES))
  }
  chmodSync(file, 0o600)
  const pepper = readFileSync(file)
  if (pepper.length === PEPPER_BYTES) return pepper
  throw new Refused(
    `${file} is not the ${PEPPER_BYTES} bytes it was made with. Put it back from the secrets of a backup; if it is gone for good, delete it and set every PIN anew, beginning with "npm run pin -- NAME --all-anew".`,
  )
}

export const arePinsSet = (db: ShopDatabase): boolean =>
  db.select({ one: credential.personId }).from(credential).limit(1).get() !== undefined

/** Every PIN is forgotten: none can be right any more. */
export function forgetPins(db: ShopDatabase): void {
  db.transaction(() => {
    db.delete(credential).run()
    db.delete(state).where(eq(state.name, PINS_SEAL)).run()
  })
}
