/**
 * Drawings that stand where a shop would have photos: the plan asks for one at a port, and a release counts it.
 *
 * Made here from nothing, byte for byte the same on every machine, and captioned as what they are.
 */
import { createHash } from 'node:crypto'
import type { NewPhoto } from '../shared/job/types'

export interface Picture {
  photo: NewPhoto
  bytes: Buffer
}

const WIDTH = 120
const HEIGHT = 80

/** A port seen from the front, its bore dark; the place tells which. */
export function portDrawing(photo: Pick<NewPhoto, 'id' | 'stepId' | 'gateId' | 'place'>): Picture {
  const bytes = png((x, y) => {
    const fromMiddle = Math.hypot(x - WIDTH / 2, y - HEIGHT / 2)
    return fromMiddle < 22 ? 40 : fromMiddle < 30 ? 120 : 190
  }, photo.id)
  return {
    bytes,
    photo: {
      ...photo,
      sha256: createHash('sha256').update(bytes).digest('hex'),
      bytes: bytes.length,
      mime: 'image/png',
      widthPx: WIDTH,
      heightPx: HEIGHT,
      caption: `${photo.place ?? 'Port'}, clear. A drawing in place of a photo; invented.`,
    },
  }
}

/** Greyscale, stored without compression, so that no library's version shows in the bytes. */
function png(greyAt: (x: number, y: number) => number, title: string): Buffer {
  const rows = Buffer.alloc((WIDTH + 1) * HEIGHT)
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) rows[y * (WIDTH + 1) + 1 + x] = greyAt(x, y)
  const header = Buffer.alloc(13)
  header.writeUInt32BE(WIDTH, 0)
  header.writeUInt32BE(HEIGHT, 4)
  header.set([8, 0, 0, 0, 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('tEXt', Buffer.from(`Title\0${title}`, 'latin1')),
    chunk('IDAT', stored(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data])
  const length = Buffer.alloc(4)
  length.writeUInt32BE(data.length)
  const check = Buffer.alloc(4)
  check.writeUInt32BE(crc32(body))
  return Buffer.concat([length, body, check])
}

/** One stored block in a zlib envelope; it holds up to 65,535 bytes. */
function stored(data: Buffer): Buffer {
  const head = Buffer.from([0x78, 0x01, 0x01, 0, 0, 0, 0])
  head.writeUInt16LE(data.length, 3)
  head.writeUInt16LE(~data.length & 0xffff, 5)
  let a = 1
  let b = 0
  for (const byte of data) {
    a = (a + byte) % 65_521
    b = (b + a) % 65_521
  }
  const adler = Buffer.alloc(4)
  adler.writeUInt32BE(b * 65_536 + a)
  return Buffer.concat([head, data, adler])
}

function crc32(data: Buffer): number {
  let crc = 0xffffffff
  for (const byte of data) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  }
  return ~crc >>> 0
}
