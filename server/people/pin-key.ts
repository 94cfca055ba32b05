/**
 * The key that devices seal PINs to while there is no signal [PE10]: its public half goes to every device that somebody is
 * signed in on, its private half lies in a file of its own beside the pepper.
 *
 * Made when it is first asked for. Where it is lost, or is no key any more, another is made and no start stops for it:
 * what was sealed to the one before can then not be opened, and is told so entry by entry (SS22).
 */
import {
  constants,
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPair,
  type KeyObject,
  privateDecrypt,
  timingSafeEqual,
} from 'node:crypto'
import { chmodSync, existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { PIN_KEY_BITS, type SealedTerms, sealedFor, TERMS_BYTES } from '../../shared/sealed-pin'
import type { Log } from '../desk/types'
import { writeWhole } from '../files'

export const pinKeyFileIn = (dataFolder: string): string => join(dataFolder, 'pins.key')

export interface PinKey {
  /** The public half, SPKI in base64; nothing where none can be kept here. */
  public(): Promise<string | undefined>
  /** The PIN, where it was sealed to this key for just this. */
  open(sealed: string, terms: SealedTerms): string | undefined
}

export function makePinKey(dataFolder: string, log: Pick<Log, 'warn'>): PinKey {
  const file = pinKeyFileIn(dataFolder)
  let known: KeyObject | undefined
  let making: Promise<KeyObject> | undefined

  function read(): KeyObject | undefined {
    if (known || !existsSync(file)) return known
    try {
      const key = createPrivateKey(readFileSync(file))
      if (key.asymmetricKeyType !== 'rsa') throw new Error(`${file} is a key of another kind.`)
      known = key
      chmodSync(file, 0o600)
    } catch (err) {
      if (!known)
        log.warn({ err }, 'The key that PINs are sealed to (pins.key) cannot be read; another one is made.')
    }
    return known
  }

  async function make(): Promise<KeyObject> {
    const { privateKey } = await promisify(generateKeyPair)('rsa', { modulusLength: PIN_KEY_BITS })
    writeWhole(file, privateKey.export({ type: 'pkcs8', format: 'pem' }))
    known = privateKey
    return privateKey
  }

  return {
    async public() {
      try {
        making ??= read() ? undefined : make()
        const key = read() ?? (await making)
        return key && createPublicKey(key).export({ type: 'spki', format: 'der' }).toString('base64')
      } catch (err) {
        making = undefined
        log.warn({ err }, 'No key could be made that PINs are sealed to; without signal no PIN is taken.')
        return undefined
      }
    },
    open(sealed, terms) {
      const key = read()
      if (!key) return undefined
      try {
        const padding = { padding: constants.RSA_PKCS1_OAEP_PADDING, oaepHash: 'sha256' }
        const opened = privateDecrypt({ key, ...padding }, Buffer.from(sealed, 'base64'))
        const asked = createHash('sha256').update(sealedFor(terms)).digest()
        const isForThis = timingSafeEqual(asked, opened.subarray(0, TERMS_BYTES))
        return isForThis ? opened.subarray(TERMS_BYTES).toString('utf8') : undefined
      } catch {
        // Sealed to another key, cut short, or never sealed at all.
        return undefined
      }
    },
  }
}
