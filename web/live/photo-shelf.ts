/**
 * Where photos' bytes outlive a reload: a store of this browser, one for each shop and address, named by the shop's
 * own log, so that a demonstration and a real shop at one address never see each other's. Nothing of it leaves this
 * device but to that shop's server.
 */
import { createStore, del, get, keys, set, type UseStore, values } from 'idb-keyval'
import { type KeptPhoto, memoryPhotoShelf, type PhotoShelf } from './photo-queue'

/** Bytes as a plain buffer: some browsers lose a Blob's content over a restart. */
type OnShelf = Omit<KeptPhoto, 'bytes'> & { bytes: ArrayBuffer; mime: string; keptAt: number }

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
    async all() {
      const kept = await values<OnShelf>(store)
      return kept
        .sort((a, b) => a.keptAt - b.keptAt)
        .map(({ bytes, mime, keptAt: _, ...rest }) => ({ ...rest, bytes: new Blob([bytes], { type: mime }) }))
    },
    async put({ bytes, ...rest }) {
      const before = await get<OnShelf>(rest.sha256, store)
      const kept: OnShelf = {
        ...rest,
        bytes: await bytes.arrayBuffer(),
        mime: bytes.type,
        keptAt: before?.keptAt ?? now(),
      }
      await set(rest.sha256, kept, store)
    },
    drop: (sha256) => del(sha256, store),
  }
}
