/**
 * Photos with their captions. Full: every one of the engine; compact: those of one step, small. One whose bytes still
 * wait on a device says so and is never a hole.
 */
import { createEffect, createMemo, createSignal, For, Show } from 'solid-js'
import type { Photo } from '../../../shared/job/types'
import { Stripe } from '../../people/Stripe'
import { Dialog } from '../../ui/Dialog'
import { useJobDialogs } from '../dialogs'
import { useJob } from '../scope'
import { PhotoButton, PhotoNews } from './PhotoButton'
import { photoAddress, photosOf, photoTitle } from './photos'

export function Photos() {
  const { job } = useJob()
  const photos = createMemo(() => photosOf(job()))
  return (
    <section aria-labelledby="photos-head">
      <header>
        <h2 id="photos-head">Photos</h2>
        <PhotoButton label="Add photo" />
      </header>
      <PhotoNews />
      <Show
        when={photos().length > 0}
        fallback={
          <ul class="office-list">
            <li class="pencil">
              No photo yet. Add one here or at the bench; it is made small and its place data taken out on
              this device.
            </li>
          </ul>
        }
      >
        <PhotoList photos={photos()} />
      </Show>
    </section>
  )
}

export function StepPhotos(props: { stepId: string }) {
  const { job } = useJob()
  const photos = createMemo(() => photosOf(job(), props.stepId))
  return (
    <Show when={photos().length > 0}>
      <PhotoList photos={photos()} compact />
    </Show>
  )
}

function PhotoList(props: { photos: readonly Photo[]; compact?: boolean }) {
  const { words, link } = useJob()
  const open = useJobDialogs()
  return (
    <ul class="photos" classList={{ compact: props.compact }}>
      <For each={props.photos}>
        {(photo) => {
          const title = photoTitle(photo)
          const [failed, setFailed] = createSignal(false)
          // Out of reach is not lost: it is asked for again.
          createEffect(() => link() === 'live' && setFailed(false))
          return (
            <li>
              <Show
                when={photo.arrived && !failed()}
                fallback={
                  <div class="photo-waits" style={{ 'aspect-ratio': `${photo.widthPx} / ${photo.heightPx}` }}>
                    {!photo.arrived
                      ? 'not here yet'
                      : link() === 'live'
                        ? 'damaged, or lost on the shop’s server'
                        : 'not kept on this device; no signal'}
                  </div>
                }
              >
                <button
                  type="button"
                  class="photo"
                  aria-haspopup="dialog"
                  onClick={() => open({ dialog: 'photo', photoId: photo.id })}
                >
                  <img src={photoAddress(photo)} alt={title} loading="lazy" onError={() => setFailed(true)} />
                </button>
              </Show>
              <p class="small">{title}</p>
              <p class="small pencil">
                <Stripe person={photo.by} /> {words.moment(photo.doneAt)}
              </p>
            </li>
          )
        }}
      </For>
    </ul>
  )
}

export function LargePhoto(props: { photoId: string; onClose(): void }) {
  const { job, words } = useJob()
  const photo = () => job().photos.find(({ id }) => id === props.photoId)
  return (
    <Show when={photo()}>
      {(photo) => (
        <Dialog open broad title={photoTitle(photo())} onClose={props.onClose}>
          <img
            class="photo-large"
            src={photoAddress(photo())}
            alt={photoTitle(photo())}
            width={photo().widthPx}
            height={photo().heightPx}
          />
          <p class="pencil">
            <Stripe person={photo().by} name="after" /> {words.moment(photo().doneAt)}
          </p>
        </Dialog>
      )}
    </Show>
  )
}
