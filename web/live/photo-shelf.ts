/**
 * Where photos' bytes outlive a reload: a store of this browser, one for each shop and address, named by the shop's
 * own log, so that a demonstration and a real shop at one address never see each other's. Nothing of it leaves this
 * device but to that shop's server.
 */
import { createStore, del, get, keys, set, type UseStore, values } from 'idb-keyval'
import { memoryPhotoShelf, type PhotoShelf, type QueuedPhoto } from './photo-queue'

/** Bytes as a plain buffer: some browsers lose a Blob's content over a restart. */
type StoredPhoto = Omit<QueuedPhoto, 'bytes'> & { bytes: ArrayBuffer; mime: string; keptAt: number }

/** Memory instead, with `lasting: false`, where this browser has no such store or will not open it. */
export async function openPhotoShelf(shopKey: string, now: () => number = Date.now): Promise<PhotoShelf> {
  try {
    const store = createStore(`paintmark-photos-${shopKey}`, 'waiting')
    await keys(store)
    return shelfIn(store, now)
  } catch {
    return memoryPhotoShelf()
  }
}

function shelfIn(store: UseStore, now: () => number): PhotoShelf {
  return {
    lasting: true,
    async load() {
      const stored = await values<StoredPhoto>(store)
      return stored
        .sort((a, b) => a.keptAt - b.keptAt)
        .map(({ bytes, mime, keptAt: _, ...rest }) => ({ ...rest, bytes: new Blob([bytes], { type: mime }) }))
    },
    async put({ bytes, ...rest }) {
      const before = await get<StoredPhoto>(rest.sha256, store)
      const stored: StoredPhoto = {
        ...rest,
        bytes: await bytes.arrayBuffer(),
        mime: bytes.type,
        keptAt: before?.keptAt ?? now(),
      }
      await set(rest.sha256, stored, store)
    },
    drop: (sha256) => del(sha256, store),
  }
}
