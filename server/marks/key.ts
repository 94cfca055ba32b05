/**
 * The key that marks are signed with (Ed25519), in a file of its own beside the pepper: whoever has the database and the
 * marks, but not this file, cannot make a mark. Kept with the secrets; a shop restored without them makes a new one.
 */
import {
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto'
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

export const keyFileIn = (dataFolder: string): string => join(dataFolder, 'marks.key')

export interface SigningKey {
  /** 32 bytes as hex. */
  public: string
  /** 64 bytes as hex. */
  sign(text: string | Uint8Array): string
}

/** The shop's, made where there is none; readable by its owner alone. Throws for a file that is no such key. */
export function signingKeyIn(dataFolder: string): SigningKey {
  const file = keyFileIn(dataFolder)
  if (!existsSync(file)) {
    const { privateKey } = generateKeyPairSync('ed25519')
    writeFileSync(file, privateKey.export({ type: 'pkcs8', format: 'pem' }), { mode: 0o600, flag: 'wx' })
  }
  chmodSync(file, 0o600)
  return signingKey(readKey(file))
}

/** The public half of the shop's key; `undefined` where there is no key file. */
export const publicKeyIn = (dataFolder: string): string | undefined =>
  existsSync(keyFileIn(dataFolder)) ? publicHex(readKey(keyFileIn(dataFolder))) : undefined

function readKey(file: string): KeyObject {
  try {
    const key = createPrivateKey(readFileSync(file))
    if (key.asymmetricKeyType === 'ed25519') return key
  } catch {
    // Said below, for both.
  }
  throw new Error(
    `${file} is not the key it was made as. Restore it from the secrets of a backup; or move it away: a new one is made at the next start, and verify tells of both.`,
  )
}

export const signingKey = (key: KeyObject): SigningKey => ({
  public: publicHex(key),
  sign: (text) => sign(null, Buffer.from(text), key).toString('hex'),
})

/** The last 32 bytes of the DER form are the key itself (RFC 8410). */
const publicHex = (key: KeyObject): string =>
  createPublicKey(key).export({ type: 'spki', format: 'der' }).subarray(-32).toString('hex')

const SPKI_ED25519 = Buffer.from('302a300506032b6570032100', 'hex')

export function signatureHolds(
  publicKeyHex: string,
  text: string | Uint8Array,
  signatureHex: string,
): boolean {
  const der = Buffer.concat([SPKI_ED25519, Buffer.from(publicKeyHex, 'hex')])
  const key = createPublicKey({ key: der, type: 'spki', format: 'der' })
  return verify(null, Buffer.from(text), key, Buffer.from(signatureHex, 'hex'))
}
