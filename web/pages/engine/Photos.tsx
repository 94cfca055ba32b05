/** The engine's photos with their captions. One whose bytes still wait on a device says so and is never a hole. */
import { createMemo, For, Show } from 'solid-js'
import type { Photo } from '../../../shared/job/types'
import { Dialog } from '../../ui/Dialog'
import { PhotoButton, PhotoNews } from '../../ui/Photo'
import { Stripe } from '../../ui/Stripe'
import { useDesk } from './desk'
import { useForms } from './office'
import { photoWords } from './office-view'

const addressOf = ({ sha256 }: Photo): string => `/api/photos/${sha256}`

export function Photos() {
  const desk = useDesk()
  const open = useForms()
  const photos = createMemo(() => desk.job().photos.toSorted((a, b) => b.doneAt - a.doneAt))
  return (
    <section aria-labelledby="photos-head">
      <header>
        <h2 id="photos-head">Photos</h2>
        <PhotoButton label="Add a photo" jobId={desk.job().id} send={desk.send} />
      </header>
      <PhotoNews jobId={desk.job().id} />
      <ul class="photos">
        <For
          each={photos()}
          fallback={
            <li class="pencil photos-none">
              No photo yet. Add one here or at the bench; it is made small and its place data taken out on
              this device.
            </li>
          }
        >
          {(photo) => (
            <li>
              <Show
                when={photo.arrived}
                fallback={
                  <div class="photo-waits" style={{ 'aspect-ratio': `${photo.widthPx} / ${photo.heightPx}` }}>
                    not here yet
                  </div>
                }
              >
                <button
                  type="button"
                  class="photo"
                  aria-haspopup="dialog"
                  onClick={() => open({ form: 'photo', photoId: photo.id })}
                >
                  <img src={addressOf(photo)} alt={photoWords(photo)} loading="lazy" />
                </button>
              </Show>
              <p class="small">{photoWords(photo)}</p>
              <p class="small pencil">
                <Stripe person={photo.by} /> {desk.words.moment(photo.doneAt)}
              </p>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}

export function LargePhoto(props: { photoId: string; onClose(): void }) {
  const desk = useDesk()
  const photo = () => desk.job().photos.find(({ id }) => id === props.photoId)
  return (
    <Show when={photo()}>
      {(one) => (
        <Dialog open broad title={photoWords(one())} onClose={props.onClose}>
          <img
            class="photo-large"
            src={addressOf(one())}
            alt={photoWords(one())}
            width={one().widthPx}
            height={one().heightPx}
          />
          <p class="pencil">
            <Stripe person={one().by} name="after" /> {desk.words.moment(one().doneAt)}
          </p>
        </Dialog>
      )}
    </Show>
  )
}
