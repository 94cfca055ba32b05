/** Where photos' bytes lie: one file a picture, named by its own SHA-256, under the data folder [PH8 to PH10]. */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync } from 'node:fs'
import { open, readFile, rename, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { flush } from '../files'
import { lookAt, type Mime, mimeOf, type PictureFault } from './picture'

export const PHOTO_MOST_BYTES = 12 * 1024 * 1024

export type PhotoFault = 'wrong_hash' | PictureFault

export interface PhotoShelf {
  has(sha256: string): boolean
  put(sha256: string, bytes: Buffer): Promise<{ mime: Mime } | { fault: PhotoFault }>
  /** Nothing where it is not here; `damaged` where its bytes are not the ones it was kept by. */
  get(sha256: string): Promise<{ bytes: Buffer; mime: Mime } | { damaged: true } | undefined>
}

const NAME = /^[0-9a-f]{64}$/
const SUBFOLDER = /^[0-9a-f]{2}$/

/** Where a photo lies, within the folder of all of them. */
export const placeOfPhoto = (sha256: string): string => join(sha256.slice(0, 2), sha256)

/** The hashes of all photos in such a folder, in their order; what is being written has another kind of name. */
export function photosIn(folder: string): string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => SUBFOLDER.test(name))
    .flatMap((name) =>
      readdirSync(join(folder, name)).filter((file) => NAME.test(file) && file.startsWith(name)),
    )
    .sort()
}

const hashOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex')

export function photoShelf(folder: string): PhotoShelf {
  const placeOf = (sha256: string) => join(folder, placeOfPhoto(sha256))
  const has = (sha256: string) => NAME.test(sha256) && existsSync(placeOf(sha256))

  return {
    has,
    async put(sha256, bytes) {
      if (hashOf(bytes) !== sha256) return { fault: 'wrong_hash' }
      const picture = lookAt(bytes)
      if ('fault' in picture) return picture
      if (has(sha256) && hashOf(await readFile(placeOf(sha256))) === sha256) return picture
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
        // Its name too must be on the disk before anybody is told that it is there, and the folder's that was made for it.
        flush(dirname(place))
        flush(folder)
      } catch (error) {
        await rm(unfinished, { force: true })
        throw error
      }
      return picture
    },
    async get(sha256) {
      if (!has(sha256)) return undefined
      const bytes = await readFile(placeOf(sha256))
      if (hashOf(bytes) !== sha256) return { damaged: true }
      const mime = mimeOf(bytes)
      return mime && { bytes, mime }
    },
  }
}
