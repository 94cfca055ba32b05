/**
 * The queue of photos, loaded once it is known which shop this is, so that no first page waits for it. A page that takes
 * photos brings its code along, and what is asked of it before it is there is done when it is.
 */
import { createEffect, createSignal, getOwner, runWithOwner } from 'solid-js'
import type { PhotosNow } from './photo-queue'
import type { makePhotos, Photos } from './photos'

const NONE: PhotosNow = { waiting: [], refused: [], unheld: [] }

export function makeLatePhotos(parts: Parameters<typeof makePhotos>[0]): Photos {
  const owner = getOwner()
  const [photos, setPhotos] = createSignal<Photos>()
  let loading: Promise<Photos> | undefined

  async function load(): Promise<Photos> {
    const { makePhotos } = await import('./photos')
    const queue = runWithOwner(owner, () => makePhotos(parts)) as Photos
    setPhotos(queue)
    return queue
  }
  const loaded = (): Promise<Photos> => {
    loading ??= load().catch((error: unknown) => {
      loading = undefined
      throw error
    })
    return loading
  }
  // Out of reach just now: asked for again when the link is up, and by the first photo.
  const start = () => void loaded().catch(() => undefined)
  createEffect(() => parts.session.me() && start())
  parts.link.onUp(start)

  return {
    now: () => photos()?.now() ?? NONE,
    add: (...photo) => void loaded().then((queue) => queue.add(...photo)),
    retry: (sha256) => photos()?.retry(sha256),
    giveUp: (sha256) => photos()?.giveUp(sha256),
  }
}
