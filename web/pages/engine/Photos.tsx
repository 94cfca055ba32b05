/** The engine's photos with their captions. One whose bytes still wait on a device says so and is never a hole. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Photo } from '../../../shared/job/types'
import { takePhoto, usePhotos } from '../../live/photos'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Sentence } from '../../ui/Sentence'
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
        <AddPhoto />
      </header>
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

function AddPhoto() {
  const desk = useDesk()
  const queue = usePhotos()
  const [said, setSaid] = createSignal<string>()
  let picker: HTMLInputElement | undefined
  const chosen = async () => {
    const file = picker?.files?.[0]
    if (picker) picker.value = ''
    if (!file) return
    setSaid(undefined)
    try {
      const { photo, bytes } = await takePhoto(file)
      // The fact first: the log knows of it even if this device is switched off before the bytes are gone.
      desk.send({ type: 'AddPhoto', photo })
      queue.add({ jobId: desk.job().id, photoId: photo.id, sha256: photo.sha256, bytes })
    } catch {
      setSaid('This file is no picture that can be read here. Choose another.')
    }
  }
  return (
    <>
      <input
        ref={picker}
        class="unseen"
        type="file"
        accept="image/*"
        tabIndex={-1}
        aria-hidden="true"
        onChange={() => void chosen()}
      />
      <Button onClick={() => picker?.click()}>Add a photo</Button>
      <Show when={said()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
    </>
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
