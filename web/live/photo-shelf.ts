/** Where photos' bytes outlive a reload. */
import { openPageShelf } from './page-shelf'
import { memoryPhotoShelf, type PhotoShelf, type QueuedPhoto } from './photo-queue'

/** Bytes as a plain buffer: some browsers lose a Blob's content over a restart. */
type StoredPhoto = Omit<QueuedPhoto, 'bytes'> & { bytes: ArrayBuffer; mime: string }

/** Memory instead, with `lasting: false`, where this browser has no such store or will not open it. */
export async function openPhotoShelf(shopKey: string): Promise<PhotoShelf> {
  try {
    return await openPageShelf<QueuedPhoto, StoredPhoto>(`paintmark-photos-${shopKey}`, {
      keyOf: ({ sha256 }) => sha256,
      pack: async ({ bytes, ...rest }) => ({ ...rest, bytes: await bytes.arrayBuffer(), mime: bytes.type }),
      unpack: ({ bytes, mime, ...rest }) => ({ ...rest, bytes: new Blob([bytes], { type: mime }) }),
      lift: (old) => (isWithoutPage(old) ? { stored: old, page: '', place: old.keptAt } : undefined),
    })
  } catch {
    return memoryPhotoShelf()
  }
}

/** Until pages had names, what was kept was the photo itself, with the time it was first kept at. */
const isWithoutPage = (old: unknown): old is StoredPhoto & { keptAt: number } =>
  typeof old === 'object' && old !== null && 'keptAt' in old
