/** A photo gate's places, what each still lacks, and the camera for it as one press. */
import { Index, Show } from 'solid-js'
import type { AdoptedStep, Gate } from '../../../shared/plan/types'
import { useLive } from '../../live/live'
import { useJob } from '../scope'
import { PhotoButton } from './PhotoButton'
import { PLACE_WORDS, photoPlaces } from './photos'

interface PhotoPlacesProps {
  step: AdoptedStep
  gate: Extract<Gate, { kind: 'photo' }>
  /** The step is mine: a place that has its photo may have another. */
  mine: boolean
}

export function PhotoPlaces(props: PhotoPlacesProps) {
  const { planned } = useJob()
  const { photos } = useLive()
  const refused = () => new Set(photos.now().refused.map(({ sha256 }) => sha256))
  const places = () => photoPlaces(planned(), props.step, props.gate, refused())
  return (
    <>
      <ul class="stack">
        <Index each={places()}>
          {(place) => (
            <li class="photo-place cluster ends" classList={{ done: place().state === 'here' }}>
              <span>
                <strong>{place().place}</strong>{' '}
                <span class={place().state === 'refused' ? 'against-words' : 'pencil'}>
                  {PLACE_WORDS[place().state]}
                </span>
              </span>
              <Show when={props.mine || place().state !== 'here'}>
                <PhotoButton
                  label={place().state === 'open' ? `Add photo of ${place().place}` : 'Add another photo'}
                  camera
                  {...(place().state === 'open' ? { variant: 'main' as const } : {})}
                  about={{ stepId: props.step.id, gateId: props.gate.id, place: place().place }}
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
