/** Who is at which device, and how they proved it, as the rules PE1 to PE18 say. */
import { type Instant, isRefusal, type Refusal } from '../../shared/log'
import type { Fault } from '../../shared/protocol'
import type { SealedTerms } from '../../shared/sealed-pin'
import type { Asker } from '../desk/types'
import type { PinToWrite, ShopDatabase, SignOutToWrite } from '../store'
import { GRANT_MS, type GrantTerms, makeGrants } from './grants'
import type { PinKey } from './pin-key'
import { makePins } from './pins'
import { makeSignIns, type SignIn } from './sign-ins'
import { makeSlowing } from './slowing'

export type PinCheck = { ok: true } | { ok: false; waitMs?: number }

/** What became of a PIN that came sealed; or how long it is to wait. */
export type SealedCheck = 'right' | 'wrong' | 'unreadable' | { waitMs: number }

export interface People {
  /** Without an entry, for a shop that is made up. People's own are set by `server/access.ts`. */
  setPin(personId: string, pin: string): Promise<void>
  /** What is kept of a PIN, to be committed with the entry that tells of it; that and the row have the same time. */
  pinToWrite(personId: string, pin: string, at: Instant): Promise<PinToWrite>
  pinToDrop(personId: string): PinToWrite
  hasPin(personId: string): boolean
  /** `from` is the device, or the address where there is none yet. */
  prove(personId: string, pin: string, from: string): Promise<PinCheck>
  /** What devices seal a PIN to; nothing where there is no key. */
  pinKey(): Promise<string | undefined>
  /** A PIN that came sealed with an entry from a device, for what its terms say. */
  proveSealed(sealed: string | undefined, terms: SealedTerms, from: string): Promise<SealedCheck>
  addDevice(): { deviceId: string; cookie: string }
  deviceOf(cookie: string | undefined): string | undefined
  signIn(deviceId: string, personId: string): SignIn
  signOut(deviceId: string): void
  /** Ends every sign-in of a person that is open, wherever, but for one device's where it is named. */
  signOutEverywhere(signOut: SignOutToWrite): void
  current(deviceId: string): SignIn | undefined
  /** Whose command this is. */
  signInFor(deviceId: string | undefined, signInId: string | undefined, doneAt: Instant): SignIn | Fault
  giveGrant(terms: GrantTerms): { grantId: string; expiresAt: Instant }
  takeGrant(grantId: string, use: GrantUse): Asker | Refusal
  /** Told after the person on a device changed or left. */
  onChange(listener: (deviceId: string) => void): void
}

export type GrantUse = { commandId: string; deviceId: string; jobId: string; stepId: string }

export interface PeopleParts {
  db: ShopDatabase
  pepper: Buffer
  /** Without one no PIN comes sealed. */
  pinKey?: PinKey
  /** PIN rows without a seal are sealed as they are; see `pins.ts`. */
  sealPins: boolean
  now: () => Instant
  /** Milliseconds that only go forward: waits and grants are not shortened or lengthened by a clock that is set. */
  monotonic: () => number
  newId: () => string
}

export function makePeople({ db, pepper, pinKey, sealPins, now, monotonic, newId }: PeopleParts): People {
  const pins = makePins(db, pepper, sealPins)
  const slowing = makeSlowing()
  const signIns = makeSignIns(db, newId, monotonic)
  const grants = makeGrants(newId)
  const listeners: ((deviceId: string) => void)[] = []
  const changed = (deviceId: string) => {
    for (const listener of listeners) listener(deviceId)
  }

  async function prove(personId: string, pin: string, from: string): Promise<PinCheck> {
    const keys = [`person ${personId}`, `from ${from}`]
    const waitMs = slowing.begin(keys, monotonic())
    if (waitMs > 0) return { ok: false, waitMs }
    if (!(await pins.check(personId, pin))) return { ok: false }
    slowing.succeed(keys)
    return { ok: true }
  }

  return {
    setPin: (personId, pin) => pins.set(personId, pin, now()),
    pinToWrite: pins.toWrite,
    pinToDrop: pins.toDrop,
    hasPin: pins.has,
    prove,
    pinKey: async () => pinKey?.public(),
    async proveSealed(sealed, terms, from) {
      const pin = sealed === undefined ? undefined : pinKey?.open(sealed, terms)
      if (pin === undefined) return 'unreadable'
      const check = await prove(terms.personId, pin, from)
      if (check.ok) return 'right'
      return check.waitMs ? { waitMs: check.waitMs } : 'wrong'
    },
    addDevice: () => signIns.addDevice(now()),
    deviceOf: (cookie) => (cookie === undefined ? undefined : signIns.deviceOf(cookie)),
    signIn(deviceId, personId) {
      const signIn = signIns.open(deviceId, personId, now())
      changed(deviceId)
      return signIn
    },
    signOut(deviceId) {
      signIns.close(deviceId, now())
      changed(deviceId)
    },
    signOutEverywhere({ personId, at, except }) {
      for (const deviceId of signIns.closeAllOf(personId, at, except)) changed(deviceId)
    },
    current: signIns.current,
    signInFor(deviceId, signInId, doneAt) {
      if (deviceId === undefined) return SIGNED_OUT
      if (signInId === undefined) return signIns.current(deviceId) ?? SIGNED_OUT
      return signIns.at(deviceId, signInId, doneAt, now()) ?? NOT_THIS_DEVICE
    },
    giveGrant: (terms) => ({
      grantId: grants.give(terms, monotonic()),
      expiresAt: now() + GRANT_MS,
    }),
    takeGrant(grantId, use) {
      const grant = grants.take(grantId, use, monotonic())
      return isRefusal(grant)
        ? grant
        : {
            person: grant.personId,
            through: 'grant',
            ...(grant.digest === undefined ? { sawVersion: grant.version } : { sawDigest: grant.digest }),
          }
    },
    onChange: (listener) => listeners.push(listener),
  }
}

export const SIGNED_OUT: Fault = {
  ok: false,
  code: 'signed_out',
  sentence: 'Nobody is signed in on this device. Sign in with your PIN; what you entered is kept until then.',
}

export const NOT_THIS_DEVICE: Fault = {
  ok: false,
  code: 'not_this_device',
  sentence:
    'The sign-in this entry was made under was not open on this device then. Sign in here and make the entry again.',
}
