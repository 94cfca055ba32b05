/**
 * Devices and who is signed in on them.
 *
 * A device is known by a cookie: an id, and a secret of which only the hash is kept. It has one open sign-in;
 * another person's closes the one before. Closed ones are kept, because an entry names the sign-in it was
 * made under, and may arrive a night later.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { and, eq, getTableColumns, isNull, sql } from 'drizzle-orm'
import type { Instant } from '../../shared/log'
import { AHEAD_MOST_MS } from '../desk/turn'
import { type ShopDatabase, setState, stateOf } from '../store'
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
  /** Counts up over all sign-ins, whatever the clock did. */
  place: number
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

/** The row of `state`: of every sign-in up to that place the clock was set since, and no order of its times shows it. */
const CLOCK_SET = 'clock_set_after_sign_in'

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

/** `monotonic`: milliseconds that only go forward, by which a clock that is set shows. */
export function makeSignIns(db: ShopDatabase, newId: () => string, monotonic: () => number): SignIns {
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

  const columns = { ...getTableColumns(signIn), place: sql<number>`rowid` }
  const fromRow = ({ closedAt, ...row }: typeof signIn.$inferSelect & { place: number }): SignIn =>
    closedAt === null ? row : { ...row, closedAt }

  const stamped = db
    .select({
      last: sql<number>`coalesce(max(rowid), 0)`,
      latest: sql<number>`coalesce(max(max(opened_at, coalesce(closed_at, 0))), 0)`,
    })
    .from(signIn)
    .get() as { last: number; latest: Instant }
  let clockSetAfter = Number(stateOf(db, CLOCK_SET) ?? 0)
  let seen: { now: Instant; steady: number } | undefined

  /** The clock goes on from where it was seen last; and it is not behind what it has stamped itself, in an earlier life too. */
  function lookAtClock(now: Instant): void {
    const steady = monotonic()
    const expected = seen ? seen.now + steady - seen.steady : now
    seen = { now, steady }
    const wasSet = Math.abs(now - expected) > CLOCK_SLACK_MS || now < stamped.latest - CLOCK_SLACK_MS
    if (wasSet && clockSetAfter < stamped.last) {
      clockSetAfter = stamped.last
      setState(db, CLOCK_SET, `${clockSetAfter}`)
    }
    stamped.latest = Math.max(stamped.latest, now)
  }

  function current(deviceId: string): SignIn | undefined {
    if (openOn.has(deviceId)) return openOn.get(deviceId)
    const row = db
      .select(columns)
      .from(signIn)
      .where(and(eq(signIn.deviceId, deviceId), isNull(signIn.closedAt)))
      .get()
    return remember(openOn, deviceId, row && fromRow(row))
  }

  function find(id: string): SignIn | undefined {
    const cached = byId.get(id)
    if (cached) return cached
    const row = db.select(columns).from(signIn).where(eq(signIn.id, id)).get()
    return row && remember(byId, id, fromRow(row))
  }

  function close(deviceId: string, now: Instant) {
    lookAtClock(now)
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
      const row: SignIn = { id: newId(), deviceId, personId, openedAt: now, place: 0 }
      db.transaction(() => {
        close(deviceId, now)
        row.place = Number(db.insert(signIn).values(row).run().lastInsertRowid)
        db.update(device).set({ lastSeenAt: now }).where(eq(device.id, deviceId)).run()
      })
      stamped.last = row.place
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
      lookAtClock(now)
      const candidate = find(signInId)
      if (candidate?.deviceId !== deviceId) return undefined
      const { closedAt = Number.POSITIVE_INFINITY } = candidate
      const after = moment > closedAt + CLOCK_SLACK_MS && moment <= now + AHEAD_MOST_MS
      if (!after || isOfAClockSet(candidate, now)) return candidate
      if (candidate.place > clockSetAfter) return undefined
      const { closedAt: _, ...asIfOpen } = candidate
      return asIfOpen
    },
  }
}
