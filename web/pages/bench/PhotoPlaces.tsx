/** A photo gate's places, what each still lacks, and the camera for it as one press. */
import { Index, Show } from 'solid-js'
import type { Gate } from '../../../shared/plan/types'
import { useJob } from '../../job/scope'
import { useLive } from '../../live/live'
import { PhotoButton } from '../../ui/Photo'
import { useBench } from './bench'
import { PHOTO_WORDS, photoPlaces } from './photo-places'
import './photos.css'

export function PhotoPlaces(props: { gate: Extract<Gate, { kind: 'photo' }> }) {
  const bench = useBench()
  const scope = useJob()
  const { photos } = useLive()
  const refused = () => new Set(photos.now().refused.map(({ sha256 }) => sha256))
  const places = () => photoPlaces(scope.planned(), bench.step(), props.gate, refused())
  return (
    <>
      <ul class="photo-places">
        <Index each={places()}>
          {(one) => (
            <li class="photo-place" classList={{ done: one().state === 'here' }}>
              <span>
                <strong>{one().place}</strong>{' '}
                <span class={one().state === 'refused' ? 'against-words' : 'pencil'}>
                  {PHOTO_WORDS[one().state]}
                </span>
              </span>
              <Show when={bench.mine() || one().state !== 'here'}>
                <PhotoButton
                  label={one().state === 'open' ? `Photo of ${one().place}` : 'Another'}
                  camera
                  {...(one().state === 'open' ? { variant: 'main' as const } : {})}
                  jobId={scope.planned().id}
                  about={{ stepId: bench.step().id, gateId: props.gate.id, place: one().place }}
                  send={scope.send}
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
