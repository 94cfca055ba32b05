/** Files that must be whole or not there, and on the disk before anybody is told. */
import { createHash } from 'node:crypto'
import { closeSync, createReadStream, fsyncSync, openSync, renameSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { pipeline } from 'node:stream/promises'

/** Puts a small file in place at once: also a power cut leaves the old one or the new one. Readable by its owner alone. */
export function writeWhole(file: string, content: string | Uint8Array): void {
  const unfinished = `${file}.new`
  writeFileSync(unfinished, content, { mode: 0o600 })
  flush(unfinished)
  renameSync(unfinished, file)
  flush(dirname(file))
}

/** A file's bytes, or a folder's names, onto the disk. */
export function flush(path: string): void {
  const handle = openSync(path, 'r')
  try {
    fsyncSync(handle)
  } catch (error) {
    // Some systems do not flush folders; they need not.
    if (!['EINVAL', 'EPERM', 'EISDIR'].includes((error as { code?: string }).code ?? '')) throw error
  } finally {
    closeSync(handle)
  }
}

export async function sha256OfFile(path: string): Promise<string> {
  const hash = createHash('sha256')
  await pipeline(createReadStream(path), hash)
  return hash.digest('hex')
}
