/**
 * Devices and who is signed in on them.
 *
 * A device is known by a cookie: an id, and a secret of which only the hash is kept. It has one open sign-in;
 * another person's closes the one before. Closed ones are kept, because an entry names the sign-in it was
 * made under, and may arrive a night later.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { and, eq, isNull } from 'drizzle-orm'
import type { Instant } from '../../shared/log'
import { AHEAD_MOST_MS } from '../desk/turn'
import type { ShopDatabase } from '../store'
import { device, signIn } from '../store/tables'

/** A device's clock is corrected by a measured offset, which is a little wrong itself. */
const CLOCK_SLACK_MS = 5000
const REMEMBERED = 5000

export interface SignIn {
  id: string
  deviceId: string
  personId: string
  openedAt: Instant
  closedAt?: Instant
}

export interface SignIns {
  /** A new device: its id, and the value of its cookie, which is not kept. */
  addDevice(now: Instant): { deviceId: string; cookie: string }
  /** The device of a cookie's value, if it is ours. */
  deviceOf(cookie: string): string | undefined
  /** Closes what is open on the device. */
  open(deviceId: string, personId: string, now: Instant): SignIn
  close(deviceId: string, now: Instant): void
  /**
   * Closes all that are a person's, but for one device's where it is named, also where a commit has closed them on disk
   * already; the devices they were open on, as far as any is in use.
   */
  closeAllOf(personId: string, now: Instant, except?: string): string[]
  current(deviceId: string): SignIn | undefined
  /**
   * A sign-in of this device that had not been closed by that moment. One before it was opened, and one that has not come yet,
   * were stamped by a clock that was set: nothing entered is lost by that.
   */
  at(deviceId: string, signInId: string, moment: Instant, now: Instant): SignIn | undefined
}

/** Its times were stamped by a server's clock that was set meanwhile: they say nothing. */
const isOfAClockSet = ({ openedAt, closedAt = Number.POSITIVE_INFINITY }: SignIn, now: Instant): boolean =>
  openedAt > now + CLOCK_SLACK_MS || closedAt < openedAt

/**
 * When something entered under a sign-in was done: as it says, where that was open then. Else its clock was set, and nothing
 * better is known than when it came, or when the sign-in was closed.
 */
export function doneUnder(signIn: SignIn, moment: Instant, receivedAt: Instant): Instant {
  const { openedAt, closedAt = Number.POSITIVE_INFINITY } = signIn
  const open = moment >= openedAt - CLOCK_SLACK_MS && moment <= closedAt + CLOCK_SLACK_MS
  return open || isOfAClockSet(signIn, receivedAt) ? moment : Math.min(receivedAt, closedAt)
}

const hashOf = (secret: string) => createHash('sha256').update(secret).digest('hex')

export function makeSignIns(db: ShopDatabase, newId: () => string): SignIns {
  // Every command asks; only this process writes these tables.
  const byId = new Map<string, SignIn>()
  const openOn = new Map<string, SignIn | undefined>()
  const secretHash = new Map<string, string>()

  function remember<V>(map: Map<string, V>, key: string, value: V): V {
    map.delete(key)
    map.set(key, value)
    for (const oldest of map.keys()) {
      if (map.size <= REMEMBERED) break
      map.delete(oldest)
    }
    return value
  }

  const fromRow = ({ closedAt, ...row }: typeof signIn.$inferSelect): SignIn =>
    closedAt === null ? row : { ...row, closedAt }

  function current(deviceId: string): SignIn | undefined {
    if (openOn.has(deviceId)) return openOn.get(deviceId)
    const row = db
      .select()
      .from(signIn)
      .where(and(eq(signIn.deviceId, deviceId), isNull(signIn.closedAt)))
      .get()
    return remember(openOn, deviceId, row && fromRow(row))
  }

  function find(id: string): SignIn | undefined {
    const cached = byId.get(id)
    if (cached) return cached
    const row = db.select().from(signIn).where(eq(signIn.id, id)).get()
    return row && remember(byId, id, fromRow(row))
  }

  function close(deviceId: string, now: Instant) {
    const open = current(deviceId)
    if (!open) return
    db.update(signIn)
      .set({ closedAt: now })
      .where(and(eq(signIn.deviceId, deviceId), isNull(signIn.closedAt)))
      .run()
    remember(byId, open.id, { ...open, closedAt: now })
    remember(openOn, deviceId, undefined)
  }

  return {
    addDevice(now) {
      const deviceId = newId()
      const secret = randomBytes(32).toString('base64url')
      db.insert(device)
        .values({ id: deviceId, secretHash: hashOf(secret), firstSeenAt: now, lastSeenAt: now })
        .run()
      return { deviceId, cookie: `${deviceId}.${secret}` }
    },
    deviceOf(cookie) {
      const [id = '', secret = '', ...rest] = cookie.split('.')
      if (!id || !secret || rest.length > 0) return undefined
      const hash = secretHash.get(id) ?? db.select().from(device).where(eq(device.id, id)).get()?.secretHash
      if (!hash) return undefined
      remember(secretHash, id, hash)
      return timingSafeEqual(Buffer.from(hash), Buffer.from(hashOf(secret))) ? id : undefined
    },
    open(deviceId, personId, now) {
      const row: SignIn = { id: newId(), deviceId, personId, openedAt: now }
      db.transaction(() => {
        close(deviceId, now)
        db.insert(signIn).values(row).run()
        db.update(device).set({ lastSeenAt: now }).where(eq(device.id, deviceId)).run()
      })
      remember(byId, row.id, row)
      remember(openOn, deviceId, row)
      return row
    },
    close,
    closeAllOf(personId, now, except) {
      const remembered = [...openOn].flatMap(([deviceId, open]) =>
        open?.personId === personId ? [deviceId] : [],
      )
      const onDisk = db
        .select({ deviceId: signIn.deviceId })
        .from(signIn)
        .where(and(eq(signIn.personId, personId), isNull(signIn.closedAt)))
        .all()
        .map(({ deviceId }) => deviceId)
      const devices = [...new Set([...remembered, ...onDisk])].filter((deviceId) => deviceId !== except)
      for (const deviceId of devices) close(deviceId, now)
      return devices
    },
    current,
    at(deviceId, signInId, moment, now) {
      const candidate = find(signInId)
      if (candidate?.deviceId !== deviceId) return undefined
      const { closedAt = Number.POSITIVE_INFINITY } = candidate
      const after = moment > closedAt + CLOCK_SLACK_MS && moment <= now + AHEAD_MOST_MS
      return after && !isOfAClockSet(candidate, now) ? undefined : candidate
    },
  }
}
