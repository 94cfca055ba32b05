/** Taking a photo as one press, and what the device must say of photos that have not gone. */
import { createSignal, For, Show } from 'solid-js'
import { useLive } from '../../live/live'
import type { PhotoTarget } from '../../live/photos'
import { takePhoto } from '../../live/take-photo'
import { unheldWords } from '../../live/unheld'
import { Button } from '../../ui/Button'
import { Sentence } from '../../ui/Sentence'
import { useJob } from '../scope'
import './photo-refused.css'

interface PhotoButtonProps {
  label: string
  /** Where it belongs; nothing for the engine as a whole. */
  about?: PhotoTarget
  /** Straight to the camera; else a picture may also be chosen. */
  camera?: boolean
  variant?: 'main'
}

export function PhotoButton(props: PhotoButtonProps) {
  const { photos } = useLive()
  const { job, send } = useJob()
  const [error, setError] = createSignal<string>()
  let picker: HTMLInputElement | undefined
  const chosen = async () => {
    const file = picker?.files?.[0]
    if (picker) picker.value = ''
    if (!file) return
    setError(undefined)
    const { id } = job()
    const about = props.about ?? {}
    const taken = await takePhoto(file)
    if ('sentence' in taken) setError(taken.sentence)
    else photos.add(id, taken, about, (command) => void send(command))
  }
  return (
    <>
      <input
        ref={picker}
        class="unseen"
        type="file"
        accept="image/*"
        {...(props.camera ? { capture: 'environment' as const } : {})}
        tabIndex={-1}
        aria-hidden="true"
        onChange={() => void chosen()}
      />
      <Button {...(props.variant ? { variant: props.variant } : {})} onClick={() => picker?.click()}>
        {props.label}
      </Button>
      <Show when={error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
    </>
  )
}

/** Photos of one engine that the server would not take, each with its way out; and photos only this page holds. */
export function PhotoNews() {
  const { photos } = useLive()
  const { job } = useJob()
  const refused = () =>
    photos.now().refused.filter(({ facts }) => facts.some(({ jobId }) => jobId === job().id))
  return (
    <>
      <Show when={unheldWords(photos.now().unheld, 'photo')}>
        {(words) => <Sentence against>{words()}</Sentence>}
      </Show>
      <For each={refused()}>
        {(photo) => (
          <div class="photo-refused">
            <Sentence against>A photo was not taken over. {photo.refused}</Sentence>
            <RefusedButtons sha256={photo.sha256} />
          </div>
        )}
      </For>
    </>
  )
}

function RefusedButtons(props: { sha256: string }) {
  const { photos } = useLive()
  const [sure, setSure] = createSignal(false)
  return (
    <div>
      <Button onClick={() => photos.retry(props.sha256)}>Send again</Button>
      <Button variant="quiet" onClick={() => (sure() ? photos.giveUp(props.sha256) : setSure(true))}>
        {sure() ? 'Yes, delete this photo' : 'Delete photo'}
      </Button>
    </div>
  )
}
