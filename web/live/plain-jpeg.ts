/**
 * A JPEG without anything beside the picture: some browsers' encoders write blocks of their own, and the server lets in none
 * that could be a camera's. Kept are JFIF's, the colour profile and Adobe's word on colours. What is no JPEG comes back as it is.
 */
const BEGINS: Record<number, string> = { 224: 'JF', 226: 'ICC_PROFILE', 238: 'Adobe' }
const COMMENT = 0xfe
const SCAN = 0xda

export function plainJpeg(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = [bytes.subarray(0, 2)]
  let at = 2
  while (bytes[at] === 0xff && at + 4 <= bytes.length) {
    const marker = bytes[at + 1] as number
    const end = at + 2 + ((bytes[at + 2] as number) << 8) + (bytes[at + 3] as number)
    if (marker === SCAN || marker === 0xff || end > bytes.length) break
    if (isOfThePicture(marker, bytes.subarray(at + 4, end))) parts.push(bytes.subarray(at, end))
    at = end
  }
  parts.push(bytes.subarray(at))
  const plain = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0))
  let to = 0
  for (const part of parts) {
    plain.set(part, to)
    to += part.length
  }
  return plain
}

function isOfThePicture(marker: number, content: Uint8Array): boolean {
  if (marker === COMMENT) return false
  if ((marker & 0xf0) !== 0xe0) return true
  const begins = BEGINS[marker]
  return begins !== undefined && [...begins].every((letter, i) => content[i] === letter.charCodeAt(0))
}
