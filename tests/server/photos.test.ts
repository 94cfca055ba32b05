/** Photos' bytes on the server: under their own hash, pictures only, and none that says where it was taken. */
import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { photoShelf } from '../../server/photos/shelf'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'photos-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const hashOf = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex')
const put = (bytes: Buffer, sha256 = hashOf(bytes)) => photoShelf(folder).put(sha256, bytes)

const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
const JPEG = Buffer.from([0xff, 0xd8])
const END = Buffer.from([0xff, 0xda, 0, 2])
const pngChunk = (name: string) =>
  Buffer.concat([Buffer.from([0, 0, 0, 0]), Buffer.from(name), Buffer.alloc(4)])
const app1 = (content: string) =>
  Buffer.concat([Buffer.from([0xff, 0xe1, 0, 2 + content.length]), Buffer.from(content, 'latin1')])
const webp = (name: string) => Buffer.from(`RIFF\0\0\0\0WEBP${name}\0\0\0\0`, 'latin1')

describe('a photo on the server', () => {
  test('[PH8] lies under its own hash and no other, and is there for the next who opens the folder', async () => {
    const bytes = Buffer.concat([PNG, pngChunk('IDAT')])
    expect(await put(bytes, hashOf(PNG))).toEqual({ fault: 'wrong_hash' })
    expect(photoShelf(folder).has(hashOf(PNG))).toBe(false)
    expect(await put(bytes)).toEqual({ mime: 'image/png' })
    expect(await photoShelf(folder).get(hashOf(bytes))).toEqual({ bytes, mime: 'image/png' })
    expect(await photoShelf(folder).get('../../etc')).toBeUndefined()
  })
  test('[PH9] is a picture by its own first bytes', async () => {
    expect(await put(Buffer.from('<svg>image/png</svg>'))).toEqual({ fault: 'not_a_picture' })
    expect(await put(Buffer.concat([JPEG, END]))).toEqual({ mime: 'image/jpeg' })
    expect(await put(webp('VP8 '))).toEqual({ mime: 'image/webp' })
  })
  test('[PH10] with a camera’s data block is refused, in each of its kinds', async () => {
    const fault = { fault: 'carries_camera_data' }
    expect(await put(Buffer.concat([JPEG, app1('Exif\0\0'), END]))).toEqual(fault)
    expect(await put(Buffer.concat([PNG, pngChunk('eXIf')]))).toEqual(fault)
    expect(await put(webp('EXIF'))).toEqual(fault)
    expect(await put(Buffer.concat([JPEG, app1('other'), END]))).toEqual({ mime: 'image/jpeg' })
  })
})
