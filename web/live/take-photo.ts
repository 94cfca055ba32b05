/**
 * A picture made ready on this device: shrunk and encoded anew, which drops the camera's own data and with it the
 * place, freed of what the encoder wrote beside it, and named by its hash.
 */
import { v7 as uuid } from 'uuid'
import type { NewPhoto } from '../../shared/job/types'
import { canHash, hashBytes } from './hash'
import { plainJpeg } from './plain-jpeg'

const LONGEST_SIDE_PX = 1600
const QUALITY = 0.8

/** The size a picture is shrunk to: never enlarged, its longest side at most 1600 px. */
export function sizeWithin(width: number, height: number): { width: number; height: number } {
  const factor = Math.min(1, LONGEST_SIDE_PX / Math.max(width, height, 1))
  return { width: Math.max(1, Math.round(width * factor)), height: Math.max(1, Math.round(height * factor)) }
}

export interface PreparedPhoto {
  photo: Pick<NewPhoto, 'id' | 'sha256' | 'bytes' | 'mime' | 'widthPx' | 'heightPx'>
  bytes: Blob
}

/** A sentence where this file, or this way to the page, gives no photo. */
export async function takePhoto(file: Blob): Promise<PreparedPhoto | { sentence: string }> {
  if (!canHash())
    return {
      sentence:
        'Photos can be taken only over a secure connection. Open Paintmark by its address with https.',
    }
  try {
    return await prepare(file)
  } catch {
    return {
      sentence: 'This file is not a picture that can be read here. Take the photo again, or choose another.',
    }
  }
}

async function prepare(file: Blob): Promise<PreparedPhoto> {
  const picture = await createImageBitmap(file)
  const { width, height } = sizeWithin(picture.width, picture.height)
  const canvas = document.createElement('canvas')
  canvas.width = width
  canvas.height = height
  canvas.getContext('2d')?.drawImage(picture, 0, 0, width, height)
  picture.close()
  const encoded = await new Promise<Blob>((resolve, reject) =>
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/jpeg', QUALITY),
  )
  const plain = plainJpeg(new Uint8Array(await encoded.arrayBuffer()))
  const sha256 = await hashBytes(plain.buffer)
  const bytes = new Blob([plain], { type: 'image/jpeg' })
  return {
    photo: { id: uuid(), sha256, bytes: bytes.size, mime: 'image/jpeg', widthPx: width, heightPx: height },
    bytes,
  }
}
