/**
 * What a backup must not carry in the open: the pepper, without which the PINs' hashes are of no use to anybody, and
 * the private keys. They are one more file, encrypted under a passphrase that the shop gives.
 *
 * scrypt (RFC 7914) makes the key, AES-256-GCM (NIST SP 800-38D) encrypts; what belongs to the file's head is
 * authenticated with it. Work factor and salt stand in the file, so that they can be raised later.
 */
import { createCipheriv, createDecipheriv, randomBytes, scryptSync } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { writeWhole } from '../files'
import { keyFileIn } from '../marks'
import { pinKeyFileIn } from '../people/pin-key'
import { Refused } from '../settings'

/** Files and folders of the data folder that are secret. */
const secretPaths = (dataFolder: string) => [
  'pepper',
  'tls',
  basename(keyFileIn(dataFolder)),
  basename(pinKeyFileIn(dataFolder)),
]
/** Shorter ones are guessed however slow each guess is. */
const SHORTEST_PASSPHRASE = 12

interface Sealed {
  format: 1
  /** scrypt's: N = 2^logN. */
  kdf: { logN: number; r: number; p: number; salt: string }
  iv: string
  tag: string
  data: string
}

const KDF = { logN: 16, r: 8, p: 1 }
const BASE = 'base64'

export function refuseWeak(passphrase: string): void {
  if (passphrase.length < SHORTEST_PASSPHRASE)
    throw new Refused(
      `The passphrase for the backup’s secrets is shorter than ${SHORTEST_PASSPHRASE} characters. Give a longer one, and keep it where the backups are not.`,
    )
}

/** Every secret file of a data folder, by its path in it; in base64. */
export function secretsIn(dataFolder: string): Record<string, string> {
  const found: Record<string, string> = {}
  const walk = (path: string) => {
    const full = join(dataFolder, path)
    if (!existsSync(full)) return
    if (statSync(full).isDirectory()) for (const name of readdirSync(full).sort()) walk(`${path}/${name}`)
    else found[path] = readFileSync(full).toString(BASE)
  }
  for (const path of secretPaths(dataFolder)) walk(path)
  return found
}

/** `label` binds the file to its backup: another backup's secrets do not open under it. */
export function seal(secrets: Record<string, string>, passphrase: string, label: string): string {
  refuseWeak(passphrase)
  const salt = randomBytes(16)
  const iv = randomBytes(12)
  const kdf = { ...KDF, salt: salt.toString(BASE) }
  const cipher = createCipheriv('aes-256-gcm', keyOf(passphrase, kdf), iv)
  cipher.setAAD(Buffer.from(label))
  const data = Buffer.concat([cipher.update(JSON.stringify(secrets), 'utf8'), cipher.final()])
  const sealed: Sealed = {
    format: 1,
    kdf,
    iv: iv.toString(BASE),
    tag: cipher.getAuthTag().toString(BASE),
    data: data.toString(BASE),
  }
  return `${JSON.stringify(sealed)}\n`
}

export function unseal(text: string, passphrase: string, label: string): Record<string, string> {
  try {
    const { kdf, iv, tag, data } = JSON.parse(text) as Sealed
    const decipher = createDecipheriv('aes-256-gcm', keyOf(passphrase, kdf), Buffer.from(iv, BASE), {
      authTagLength: 16,
    })
    decipher.setAAD(Buffer.from(label))
    decipher.setAuthTag(Buffer.from(tag, BASE))
    const plain = Buffer.concat([decipher.update(Buffer.from(data, BASE)), decipher.final()])
    return JSON.parse(plain.toString('utf8')) as Record<string, string>
  } catch {
    throw new Refused(
      'The passphrase does not open the backup’s secrets, or they are not what was written. Give the one they were made under in BACKUP_PASSPHRASE, or restore without them: --without-secrets.',
    )
  }
}

/** Puts them where they were. */
export function putSecrets(dataFolder: string, secrets: Record<string, string>): void {
  for (const [path, content] of Object.entries(secrets)) {
    const file = join(dataFolder, path)
    mkdirSync(dirname(file), { recursive: true, mode: 0o700 })
    writeWhole(file, Buffer.from(content, BASE))
  }
}

function keyOf(passphrase: string, { logN, r, p, salt }: Sealed['kdf']): Buffer {
  const N = 2 ** Math.min(logN, 20)
  // What scrypt needs is 128 · N · r bytes.
  return scryptSync(passphrase.normalize('NFKC'), Buffer.from(salt, BASE), 32, {
    N,
    r,
    p,
    maxmem: 256 * N * r,
  })
}
