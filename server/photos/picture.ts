/**
 * What the bytes of a picture are, by themselves: its kind, and whether they carry what a camera wrote beside it, perhaps the
 * place it was taken at [PH9, PH10].
 *
 * JPEG, PNG and WebP are walked segment by segment, chunk by chunk, from the first byte to the last: what cannot be
 * walked, has no picture in it, or goes on behind its end, is no picture. Beside the picture's own data only what shows it
 * rightly is let in; all else could be a camera's: Exif, XMP, IPTC, a maker's own blocks, texts.
 */

export type Mime = 'image/jpeg' | 'image/png' | 'image/webp'
export type PictureFault = 'not_a_picture' | 'carries_camera_data'

export function lookAt(bytes: Buffer): { mime: Mime } | { fault: PictureFault } {
  const mime = mimeOf(bytes)
  const parts = mime && PARTS[mime](bytes)
  if (!mime || !parts?.some(IS_PICTURE[mime])) return { fault: 'not_a_picture' }
  return parts.every(MAY_BE_THERE[mime]) ? { mime } : { fault: 'carries_camera_data' }
}

/** By its first bytes. */
export function mimeOf(bytes: Buffer): Mime | undefined {
  if (bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return 'image/jpeg'
  if (bytes.subarray(0, 8).equals(PNG_BEGINS)) return 'image/png'
  if (text(bytes, 0, 4) === 'RIFF' && text(bytes, 8, 12) === 'WEBP') return 'image/webp'
  return undefined
}

const PNG_BEGINS = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
const text = (bytes: Buffer, from: number, to: number) => bytes.toString('latin1', from, to)

/** A segment of a JPEG by its marker, a chunk of the others by its name; with what it begins with. */
interface Part {
  name: string
  begins: string
}

/** Nothing where the bytes are not such a picture from the first to the last. */
const PARTS: Record<Mime, (bytes: Buffer) => Part[] | undefined> = {
  'image/jpeg': jpegParts,
  'image/png': pngParts,
  'image/webp': webpParts,
}

const isScan = ({ name }: Part) => name === 'da'
const IS_PICTURE: Record<Mime, (part: Part) => boolean> = {
  'image/jpeg': isScan,
  'image/png': ({ name }) => name === 'IDAT',
  'image/webp': ({ name }) => name === 'VP8 ' || name === 'VP8L',
}

const PNG_CHUNKS = new Set(
  'IHDR PLTE IDAT IEND tRNS cHRM gAMA iCCP sBIT sRGB cICP mDCV cLLI bKGD hIST pHYs sPLT acTL fcTL fdAT'.split(
    ' ',
  ),
)
const WEBP_CHUNKS = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ICCP'])

/** Tables, frames, scans, restarts (ITU-T T.81, table B.1). */
const JPEG_OWN = /^(?:c[0-9a-f]|d[a-f])$/

const MAY_BE_THERE: Record<Mime, (part: Part) => boolean> = {
  // APP0 is JFIF's, APP2 a colour profile, APP14 Adobe's word on colours; a comment, all other APPn and what is reserved are a
  // camera's or a program's.
  'image/jpeg': ({ name, begins }) =>
    name === 'e0'
      ? /^(?:JFIF|JFXX)\0/.test(begins)
      : name === 'e2'
        ? begins.startsWith('ICC_PROFILE\0')
        : name === 'ee'
          ? begins.startsWith('Adobe')
          : JPEG_OWN.test(name),
  // A title is let in; every other text may be a profile or a place.
  'image/png': ({ name, begins }) =>
    PNG_CHUNKS.has(name) || (name === 'tEXt' && begins.startsWith('Title\0')),
  'image/webp': ({ name }) => WEBP_CHUNKS.has(name),
}

/** Markers that stand alone, without a length: TEM, RST0 to RST7. */
const ALONE = /^(?:01|d[0-7])$/
const BEGINS = 16

function jpegParts(bytes: Buffer): Part[] | undefined {
  const parts: Part[] = []
  let at = 2
  for (;;) {
    if (bytes[at] !== 0xff) return undefined
    // Any number of fill bytes may stand before a marker.
    while (bytes[at] === 0xff) at += 1
    const name = bytes[at]?.toString(16).padStart(2, '0')
    at += 1
    if (name === undefined || name === '00' || name === 'd8') return undefined
    if (name === 'd9') return at === bytes.length ? parts : undefined
    if (ALONE.test(name)) continue
    if (at + 2 > bytes.length) return undefined
    const length = bytes.readUInt16BE(at)
    if (length < 2 || at + length > bytes.length) return undefined
    parts.push({ name, begins: text(bytes, at + 2, Math.min(at + length, at + 2 + BEGINS)) })
    at += length
    if (name === 'da') at = endOfScan(bytes, at)
  }
}

/** The picture's own data: up to the next marker that is neither a stuffed 0xff nor a restart. */
function endOfScan(bytes: Buffer, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1]
    if (next !== 0x00 && next !== 0xff && !(next !== undefined && next >= 0xd0 && next <= 0xd7)) return at
  }
  return bytes.length
}

function pngParts(bytes: Buffer): Part[] | undefined {
  const parts: Part[] = []
  let at = PNG_BEGINS.length
  while (at + 12 <= bytes.length) {
    const length = bytes.readUInt32BE(at)
    const name = text(bytes, at + 4, at + 8)
    parts.push({ name, begins: text(bytes, at + 8, at + 8 + Math.min(length, BEGINS)) })
    at += 12 + length
    if (name === 'IEND') return at === bytes.length ? parts : undefined
  }
  return undefined
}

/** A file of the RIFF kind says its own length. */
function webpParts(bytes: Buffer): Part[] | undefined {
  const parts: Part[] = []
  let at = 12
  while (at + 8 <= bytes.length) {
    const length = bytes.readUInt32LE(at + 4)
    parts.push({ name: text(bytes, at, at + 4), begins: '' })
    at += 8 + length + (length % 2)
  }
  const told = 8 + bytes.readUInt32LE(4)
  return at === bytes.length && told === bytes.length ? parts : undefined
}
