/** Where photos' bytes lie: one file a picture, named by its own SHA-256, under the data folder [PH8 to PH10]. */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync } from 'node:fs'
import { open, readFile, rename, rm } from 'node:fs/promises'
import { join } from 'node:path'

export const PHOTO_MOST_BYTES = 12 * 1024 * 1024

export type PhotoFault = 'wrong_hash' | 'not_a_picture' | 'carries_camera_data'
export type Mime = 'image/jpeg' | 'image/png' | 'image/webp'

export interface PhotoShelf {
  has(sha256: string): boolean
  put(sha256: string, bytes: Buffer): Promise<{ mime: Mime } | { fault: PhotoFault }>
  get(sha256: string): Promise<{ bytes: Buffer; mime: Mime } | undefined>
}

const NAME = /^[0-9a-f]{64}$/

export function photoShelf(folder: string): PhotoShelf {
  const placeOf = (sha256: string) => join(folder, sha256.slice(0, 2), sha256)
  const has = (sha256: string) => NAME.test(sha256) && existsSync(placeOf(sha256))

  return {
    has,
    async put(sha256, bytes) {
      if (createHash('sha256').update(bytes).digest('hex') !== sha256) return { fault: 'wrong_hash' }
      const mime = mimeOf(bytes)
      if (!mime) return { fault: 'not_a_picture' }
      if (carriesCameraData(bytes, mime)) return { fault: 'carries_camera_data' }
      if (has(sha256)) return { mime }
      mkdirSync(join(folder, sha256.slice(0, 2)), { recursive: true, mode: 0o700 })
      const place = placeOf(sha256)
      // Under another name until it is whole: a name that exists is a promise.
      const unfinished = `${place}.${process.pid}.${Date.now()}`
      try {
        const file = await open(unfinished, 'wx', 0o600)
        try {
          await file.writeFile(bytes)
          await file.sync()
        } finally {
          await file.close()
        }
        await rename(unfinished, place)
      } catch (error) {
        await rm(unfinished, { force: true })
        throw error
      }
      return { mime }
    },
    async get(sha256) {
      if (!has(sha256)) return undefined
      const bytes = await readFile(placeOf(sha256))
      const mime = mimeOf(bytes)
      return mime && { bytes, mime }
    },
  }
}

function mimeOf(bytes: Buffer): Mime | undefined {
  if (bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return 'image/jpeg'
  if (bytes.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])))
    return 'image/png'
  if (bytes.toString('latin1', 0, 4) === 'RIFF' && bytes.toString('latin1', 8, 12) === 'WEBP')
    return 'image/webp'
  return undefined
}

/** Segments before the picture itself: JPEG's APP1 "Exif", PNG's eXIf, WebP's EXIF chunk. */
function carriesCameraData(bytes: Buffer, mime: Mime): boolean {
  if (mime === 'image/jpeg')
    return jpegSegments(bytes).some((start) => bytes.toString('latin1', start, start + 4) === 'Exif')
  return chunks(bytes, mime).some((name) => name === 'eXIf' || name === 'EXIF')
}

function jpegSegments(bytes: Buffer): number[] {
  const starts: number[] = []
  let at = 2
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1] ?? 0
    // The picture's own data begins; no more segments of this kind follow.
    if (marker === 0xda || marker === 0xd9) break
    starts.push(at + 4)
    at += 2 + bytes.readUInt16BE(at + 2)
  }
  return starts
}

function chunks(bytes: Buffer, mime: Mime): string[] {
  const names: string[] = []
  const png = mime === 'image/png'
  let at = png ? 8 : 12
  while (at + 8 <= bytes.length) {
    const length = png ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at + 4)
    names.push(bytes.toString('latin1', png ? at + 4 : at, png ? at + 8 : at + 4))
    at += png ? 12 + length : 8 + length + (length % 2)
  }
  return names
}
