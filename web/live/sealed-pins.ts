/**
 * A second signer's PIN that waits for the shop: sealed to the server's key as soon as it is given, and kept apart from the
 * entry it belongs to, under its command id. It goes with that entry, is on no screen and in no file, and is thrown away
 * with the answer, whatever that says [PE11]. Nothing on this device can open or check it.
 */
import { type SealedTerms, sealedFor, TERMS_BYTES } from '../../shared/sealed-pin'
import { type DeviceStore, openDeviceStore } from './device-store'
import { hashText } from './hash'

interface Kept {
  sealed: string
  /** By this device's clock. */
  at: number
}

export interface SealedPins {
  /** Rejects where this device has no room. */
  keep(commandId: string, sealed: string): Promise<void>
  of(commandId: string): Promise<string | undefined>
  drop(commandId: string): Promise<void>
  /** Throws away what belongs to no entry that waits: a page was closed between the answer and the throwing away. */
  sweep(waiting: ReadonlySet<string>): Promise<void>
}

/** Another page of this device may be about to put the entry of what is as new as that. */
const NEW_MS = 3_600_000

/** Where this browser keeps nothing they are held by the page, as its entries are. */
export async function openSealedPins(shopKey: string, now: () => number = Date.now): Promise<SealedPins> {
  const store = await openDeviceStore<Kept>(`paintmark-sealed-${shopKey}`, 'pins').catch(memoryStore)
  return {
    keep: (commandId, sealed) => store.put(commandId, { sealed, at: now() }),
    of: async (commandId) => (await store.get(commandId))?.sealed,
    drop: store.drop,
    async sweep(waiting) {
      for (const [commandId, { at }] of await store.entries())
        if (!waiting.has(commandId) && Math.abs(now() - at) > NEW_MS) await store.drop(commandId)
    },
  }
}

function memoryStore(): Pick<DeviceStore<Kept>, 'put' | 'get' | 'drop' | 'entries'> {
  const kept = new Map<string, Kept>()
  return {
    put: async (key, value) => void kept.set(key, value),
    get: async (key) => kept.get(key),
    drop: async (key) => void kept.delete(key),
    entries: async () => [...kept],
  }
}

/** In base64. `key` is the server's, SPKI in base64. Needs what `canHash` says is here. */
export async function sealPin(pin: string, terms: SealedTerms, key: string): Promise<string> {
  const algorithm = { name: 'RSA-OAEP', hash: 'SHA-256' }
  const serverKey = await crypto.subtle.importKey('spki', bytesOf(key), algorithm, false, ['encrypt'])
  const digits = new TextEncoder().encode(pin)
  const plain = new Uint8Array(TERMS_BYTES + digits.length)
  const asked = await hashText(sealedFor(terms))
  for (let at = 0; at < TERMS_BYTES; at++) plain[at] = Number.parseInt(asked.slice(2 * at, 2 * at + 2), 16)
  plain.set(digits, TERMS_BYTES)
  return base64Of(await crypto.subtle.encrypt(algorithm, serverKey, plain))
}

const bytesOf = (base64: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(base64), (char) => char.charCodeAt(0))
const base64Of = (bytes: ArrayBuffer): string => btoa(String.fromCharCode(...new Uint8Array(bytes)))
