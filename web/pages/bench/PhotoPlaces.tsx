/** The camera as one press, and a photo gate's places with what each still lacks. */
import { createSignal, For, Index, Show } from 'solid-js'
import type { Gate } from '../../../shared/plan/types'
import { takePhoto, usePhotos } from '../../live/photos'
import { useBench } from './bench'
import { PHOTO_WORDS, photoPlaces } from './photo-places'
import './photos.css'

interface PhotoButtonProps {
  label: string
  main?: boolean
  gateId?: string
  place?: string
  wide?: boolean
}

export function PhotoButton(props: PhotoButtonProps) {
  const bench = useBench()
  const photos = usePhotos()
  const [said, setSaid] = createSignal<string>()
  let picker: HTMLInputElement | undefined
  const chosen = async () => {
    const file = picker?.files?.[0]
    if (picker) picker.value = ''
    if (!file) return
    setSaid(undefined)
    try {
      const { photo, bytes } = await takePhoto(file)
      // The fact first; the bytes follow as the signal allows.
      void bench.send({
        type: 'AddPhoto',
        photo: {
          ...photo,
          stepId: bench.step().id,
          ...(props.gateId === undefined ? {} : { gateId: props.gateId }),
          ...(props.place === undefined ? {} : { place: props.place }),
        },
      })
      photos.add({ jobId: bench.job().id, photoId: photo.id, sha256: photo.sha256, bytes })
    } catch {
      setSaid('This file is no picture that can be read here. Take the photo again.')
    }
  }
  return (
    <>
      <input
        ref={picker}
        class="unseen"
        type="file"
        accept="image/*"
        capture="environment"
        tabIndex={-1}
        aria-hidden="true"
        onChange={() => void chosen()}
      />
      <button
        type="button"
        class="button"
        classList={{ main: props.main === true, wide: props.wide === true }}
        onClick={() => picker?.click()}
      >
        {props.label}
      </button>
      <Show when={said()}>
        <p class="sentence against" role="alert">
          {said()}
        </p>
      </Show>
    </>
  )
}

export function PhotoPlaces(props: { gate: Extract<Gate, { kind: 'photo' }> }) {
  const bench = useBench()
  const places = () => photoPlaces(bench.job(), bench.step(), props.gate)
  return (
    <>
      <ul class="photo-places">
        <Index each={places()}>
          {(one) => (
            <li class="photo-place" classList={{ done: one().state === 'here' }}>
              <span>
                <strong>{one().place}</strong> <span class="pencil">{PHOTO_WORDS[one().state]}</span>
              </span>
              <Show when={bench.mine() || one().state !== 'here'}>
                <PhotoButton
                  label={one().state === 'open' ? `Photo of ${one().place}` : 'Another'}
                  main={one().state === 'open'}
                  gateId={props.gate.id}
                  place={one().place}
                />
              </Show>
            </li>
          )}
        </Index>
      </ul>
      <p class="small pencil">
        Shrunk on this device, without the camera’s own data. They do not stop the signature; the release
        waits until they are here.
      </p>
    </>
  )
}

/** Pictures of this step whose bytes the server would not take. */
export function RefusedPhotos() {
  const bench = useBench()
  const photos = usePhotos()
  return (
    <For each={photos.refused().filter(({ jobId }) => jobId === bench.job().id)}>
      {(one) => (
        <p class="sentence against" role="alert">
          A photo was not taken over. {one.sentence}
        </p>
      )}
    </For>
  )
}
