/** Photos' bytes, by their hash: they come and go apart from the log, which says what they are of. */
import { Hono } from 'hono'
import type { PhotoFault } from '../photos/shelf'
import { signedIn } from './guard'
import { type Env, notFound, problem, type Rooms } from './parts'

const FAULTS: Record<PhotoFault, string> = {
  wrong_hash: 'The bytes do not have the hash they were announced with. Send the photo again.',
  not_a_picture:
    'This is not a JPEG, PNG or WebP picture from its first byte to its last. Send the photo as the camera page makes it.',
  carries_camera_data:
    'This picture still carries the camera’s own data, perhaps the place it was taken at. Send it from the photo button, which takes that out.',
}

export function photoRoutes({ photos, damage }: Rooms) {
  return new Hono<Env>()
    .put('/photos/:sha256', signedIn, async (c) => {
      const stored = await photos.put(c.req.param('sha256'), Buffer.from(await c.req.arrayBuffer()))
      if ('fault' in stored) return problem(c, 400, stored.fault, FAULTS[stored.fault])
      // With the hash, so that the sender lets go of the bytes for this answer and no other.
      return c.json({ ok: true, sha256: c.req.param('sha256'), mime: stored.mime }, 201)
    })
    .get('/photos/:sha256', signedIn, async (c) => {
      const photo = await photos.get(c.req.param('sha256'))
      if (!photo)
        return notFound(
          c,
          'This photo is not here yet. The device that took it sends it when it is on the network.',
        )
      if ('damaged' in photo) {
        damage.add({ sentence: 'A photo is damaged: its bytes are not the ones that were taken.' })
        return problem(
          c,
          500,
          'damaged',
          'This photo is damaged on the server’s disk: its bytes are not the ones that were taken. Tell whoever keeps the shop’s computer; a backup has it.',
        )
      }
      // Its name is its hash: it never changes.
      c.header('Cache-Control', 'private, max-age=31536000, immutable')
      c.header('Content-Type', photo.mime)
      c.set('answerBytes', photo.bytes.byteLength)
      return c.body(new Uint8Array(photo.bytes))
    })
}
