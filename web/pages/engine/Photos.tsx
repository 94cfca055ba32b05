/** The engine's photos with their captions. One whose bytes still wait on a device says so and is never a hole. */
import { createMemo, For, Show } from 'solid-js'
import type { Photo } from '../../../shared/job/types'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Dialog } from '../../ui/Dialog'
import { PhotoButton, PhotoNews } from '../../ui/Photo'
import { useForms } from './office'
import { photoWords } from './office-view'

const addressOf = ({ sha256 }: Photo): string => `/api/photos/${sha256}`

export function Photos() {
  const scope = useJob()
  const open = useForms()
  const photos = createMemo(() => scope.job().photos.toSorted((a, b) => b.doneAt - a.doneAt))
  return (
    <section aria-labelledby="photos-head">
      <header>
        <h2 id="photos-head">Photos</h2>
        <PhotoButton label="Add a photo" jobId={scope.job().id} send={scope.send} />
      </header>
      <PhotoNews jobId={scope.job().id} />
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
                <Stripe person={photo.by} /> {scope.words.moment(photo.doneAt)}
              </p>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}

export function LargePhoto(props: { photoId: string; onClose(): void }) {
  const scope = useJob()
  const photo = () => scope.job().photos.find(({ id }) => id === props.photoId)
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
            <Stripe person={one().by} name="after" /> {scope.words.moment(one().doneAt)}
          </p>
        </Dialog>
      )}
    </Show>
  )
}
