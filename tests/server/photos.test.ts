/** Photos' bytes on the server: under their own hash, pictures only, and none that says where it was taken. */
import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { portDrawing } from '../../seed/pictures'
import { photoShelf } from '../../server/photos/shelf'
import { plainJpeg } from '../../web/live/plain-jpeg'
import { browser, makeHouse } from './house'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'photos-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const hashOf = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex')
const put = (bytes: Buffer, sha256 = hashOf(bytes)) => photoShelf(folder).put(sha256, bytes)

/** Bytes that are walked as a picture is; nobody looks at them. */
const segment = (marker: number, content: string, fill = 0) => {
  const bytes = Buffer.from(content, 'latin1')
  const head = Buffer.from([...Array(fill + 1).fill(0xff), marker, 0, 0])
  head.writeUInt16BE(2 + bytes.length, head.length - 2)
  return Buffer.concat([head, bytes])
}
const SCAN = Buffer.concat([
  segment(0xda, '\x01'),
  Buffer.from([1, 2, 0xff, 0, 3, 0xff, 0xd0, 4, 0xff, 0xd9]),
])
const jpeg = (...segments: Buffer[]) =>
  Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    segment(0xe0, 'JFIF\0\x01'),
    ...segments,
    segment(0xdb, 'table'),
    SCAN,
  ])
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
const chunk = (name: string, content = '') => {
  const head = Buffer.alloc(4)
  head.writeUInt32BE(content.length)
  return Buffer.concat([head, Buffer.from(name + content, 'latin1'), Buffer.alloc(4)])
}
const png = (...chunks: Buffer[]) =>
  Buffer.concat([PNG, chunk('IHDR'), ...chunks, chunk('IDAT'), chunk('IEND')])
const webp = (...names: string[]) => {
  const bytes = Buffer.from(`RIFF\0\0\0\0WEBP${names.map((name) => `${name}\0\0\0\0`).join('')}`, 'latin1')
  bytes.writeUInt32LE(bytes.length - 8, 4)
  return bytes
}

const range = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, n) => from + n)

describe('a photo on the server', () => {
  test('[PH8] lies under its own hash and no other, and is there for the next who opens the folder', async () => {
    const bytes = png()
    expect(await put(bytes, hashOf(PNG))).toEqual({ fault: 'wrong_hash' })
    expect(photoShelf(folder).has(hashOf(PNG))).toBe(false)
    expect(await put(bytes)).toEqual({ mime: 'image/png' })
    expect(await photoShelf(folder).get(hashOf(bytes))).toEqual({ bytes, mime: 'image/png' })
    expect(await photoShelf(folder).get('../../etc')).toBeUndefined()
  })

  test('[PH8] one whose bytes were changed on the disk is said to be damaged, and mended by sending it again', async () => {
    const bytes = png()
    await put(bytes)
    const place = join(folder, hashOf(bytes).slice(0, 2), hashOf(bytes))
    writeFileSync(place, Buffer.concat([bytes, Buffer.from('<script>')]))
    expect(await photoShelf(folder).get(hashOf(bytes))).toEqual({ damaged: true })
    expect(await put(bytes)).toEqual({ mime: 'image/png' })
    expect(readFileSync(place).equals(bytes)).toBe(true)
  })

  test('[PH8] over HTTP a damaged one is answered in a sentence, not in bytes, and told on the board', async () => {
    const house = await makeHouse()
    try {
      const page = browser(house.app)
      await page.signIn('ana')
      const bytes = jpeg()
      await house.shop.photos.put(hashOf(bytes), bytes)
      expect((await page.get(`/api/photos/${hashOf(bytes)}`)).status).toBe(200)
      const place = join(house.rooms.web.folder, '..', 'photos', hashOf(bytes).slice(0, 2), hashOf(bytes))
      writeFileSync(place, bytes.subarray(1))
      const { status, json } = await page.get(`/api/photos/${hashOf(bytes)}`)
      expect([status, json.code]).toEqual([500, 'damaged'])
      expect(json.sentence).toMatch(/^This photo is damaged on the server’s disk: .*a backup has it\.$/)
      expect(house.shop.damage.now()).toEqual([{ sentence: expect.stringContaining('A photo is damaged') }])
    } finally {
      await house.close()
    }
  })

  test('[PH9] is a picture by its own bytes, from the first to the last', async () => {
    const none = { fault: 'not_a_picture' }
    expect(await put(Buffer.from('<svg>image/png</svg>'))).toEqual(none)
    expect(await put(Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.from('<html>')]))).toEqual(none)
    expect(await put(Buffer.concat([jpeg(), Buffer.from('<html>')]))).toEqual(none)
    expect(await put(jpeg().subarray(0, -1))).toEqual(none)
    expect(await put(Buffer.from([0xff, 0xd8, 0xff, 0xd9]))).toEqual(none)
    expect(await put(Buffer.concat([png(), Buffer.from('<html>')]))).toEqual(none)
    expect(await put(Buffer.concat([PNG, chunk('IHDR'), chunk('IEND')]))).toEqual(none)
    expect(await put(Buffer.concat([webp('VP8 '), Buffer.from('<html>')]))).toEqual(none)
    expect(await put(webp('ICCP'))).toEqual(none)
    // Each frame of a moving one has chunks of its own, where anything may stand.
    expect(await put(webp('VP8X', 'ANIM', 'ANMF'))).toEqual(none)
    expect(await put(jpeg())).toEqual({ mime: 'image/jpeg' })
    expect(await put(Buffer.concat([jpeg().subarray(0, -2), segment(0xc4, 'more'), SCAN]))).toEqual({
      mime: 'image/jpeg',
    })
    expect(await put(webp('VP8 '))).toEqual({ mime: 'image/webp' })
    expect(await put(portDrawing({ id: 'port' }).bytes)).toEqual({ mime: 'image/png' })
  })

  test('[PH10] with anything that is not the picture’s own is refused, in each of its kinds', async () => {
    const camera = { fault: 'carries_camera_data' }
    const blocks = {
      exif: segment(0xe1, 'Exif\0\0'),
      'exif behind fill bytes': segment(0xe1, 'Exif\0\0', 3),
      xmp: segment(0xe1, 'http://ns.adobe.com/xap/1.0/\0<x:xmpmeta exif:GPSLatitude="1"/>'),
      iptc: segment(0xed, 'Photoshop 3.0\x008BIM\x04\x04'),
      'another program’s': segment(0xe5, 'anything'),
      'in the place of a profile': segment(0xe2, 'MPF\0'),
      comment: segment(0xfe, '54.3 N 10.1 E'),
    }
    for (const [name, block] of Object.entries(blocks))
      expect([name, await put(jpeg(block))]).toEqual([name, camera])
    // Behind the first scan of several.
    expect(await put(Buffer.concat([jpeg().subarray(0, -2), blocks.exif, SCAN]))).toEqual(camera)
    expect(await put(png(chunk('eXIf')))).toEqual(camera)
    expect(await put(png(chunk('zTXt', 'Raw profile type exif\0\0')))).toEqual(camera)
    expect(await put(png(chunk('tEXt', 'Raw profile type APP1\0')))).toEqual(camera)
    expect(await put(png(chunk('iTXt', 'XML:com.adobe.xmp\0')))).toEqual(camera)
    expect(await put(webp('VP8 ', 'EXIF'))).toEqual(camera)
    expect(await put(webp('VP8 ', 'XMP '))).toEqual(camera)
    expect(await put(jpeg(segment(0xe2, 'ICC_PROFILE\0'), segment(0xee, 'Adobe\0')))).toEqual({
      mime: 'image/jpeg',
    })
  })

  test('[PH10] of the markers of a JPEG only the picture’s own are let in, whatever is written behind another', async () => {
    // ITU-T T.81, table B.1: SOF, DHT, JPG, DAC; DQT, DNL, DRI, DHP, EXP. SOS, SOI, EOI and those without a length have their own tests.
    const own = new Set([...range(0xc0, 0xcf), 0xdb, 0xdc, 0xdd, 0xde, 0xdf])
    for (const marker of [...range(0x02, 0xcf), ...range(0xdb, 0xfe)])
      expect([marker, await put(jpeg(segment(marker, '54.3 N 10.1 E')))]).toEqual([
        marker,
        own.has(marker) ? { mime: 'image/jpeg' } : { fault: 'carries_camera_data' },
      ])
  })

  test('[PH9] [PH10] a picture cut short, anywhere, and one with anything behind its end or before its beginning is none', async () => {
    const whole = {
      jpeg: jpeg(segment(0xc4, 'table'), segment(0xe2, 'ICC_PROFILE\0')),
      png: png(chunk('gAMA', 'abcd')),
      webp: webp('VP8X', 'VP8 ', 'ICCP'),
    }
    const strangers = [
      Buffer.from('<html>'),
      Buffer.from('PK\x03\x04'),
      Buffer.from('%PDF-1.7'),
      Buffer.from([0]),
    ]
    for (const [name, bytes] of Object.entries(whole)) {
      expect([name, await put(bytes)]).toEqual([name, { mime: `image/${name}` }])
      for (let length = 0; length < bytes.length; length++)
        expect([name, length, await put(bytes.subarray(0, length))]).toEqual([
          name,
          length,
          { fault: expect.stringMatching(/^not_a_picture$|^carries_camera_data$/) },
        ])
      for (const stranger of [...strangers, ...Object.values(whole)]) {
        expect(await put(Buffer.concat([bytes, stranger]))).toEqual({ fault: 'not_a_picture' })
        expect('fault' in (await put(Buffer.concat([stranger, bytes])))).toBe(true)
      }
    }
  })

  test('[PH10] the device takes out whatever an encoder wrote beside the picture', async () => {
    const written = jpeg(
      segment(0xe1, 'Exif\0\0'),
      segment(0xe2, 'ICC_PROFILE\0'),
      segment(0xed, 'Photoshop 3.0'),
      segment(0xfe, 'by'),
    )
    const plain = Buffer.from(plainJpeg(written))
    expect(plain.equals(jpeg(segment(0xe2, 'ICC_PROFILE\0')))).toBe(true)
    expect(await put(plain)).toEqual({ mime: 'image/jpeg' })
    expect(Buffer.from(plainJpeg(jpeg())).equals(jpeg())).toBe(true)
    expect(Buffer.from(plainJpeg(Buffer.from('no picture'))).toString()).toBe('no picture')
  })
})
