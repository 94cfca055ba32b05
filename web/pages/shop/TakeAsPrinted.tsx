/** A torque the fastener cannot bear, taken all the same: a supervisor says why, with the page as a photo. */
import { createSignal, Show } from 'solid-js'
import type { AsPrinted } from '../../../shared/plan/types'
import { sendPhoto } from '../../live/photos'
import { takePhoto } from '../../live/take-photo'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'
import { createSubmission } from '../../ui/submission'
import '../../ui/unfold.css'

export function TakeAsPrinted(props: { onTaken(page: Omit<AsPrinted, 'torqueNm'>): void }) {
  const [reason, setReason] = createSignal('')
  const [page, setPage] = createSignal<File>()
  const taking = createSubmission(async () => {
    const file = page()
    if (!file) return 'The photo of the page is missing. Choose it.'
    if (reason().trim() === '') return 'Say why the printed value is taken.'
    const taken = await takePhoto(file)
    if ('sentence' in taken) return taken.sentence
    const refused = await sendPhoto(taken.photo.sha256, taken.bytes)
    if (refused) return refused
    props.onTaken({ photo: taken.photo.sha256, reason: reason().trim() })
  })
  return (
    <details class="unfold">
      <summary>It is printed so: take it, with the page as a photo</summary>
      <div class="stack">
        <label class="field">
          Photo of the page
          <input
            type="file"
            accept="image/*"
            onChange={(event) => setPage(event.currentTarget.files?.[0] ?? undefined)}
          />
        </label>
        <Field label="Why this value is taken" long value={reason()} maxLength={400} onValue={setReason} />
        <Button disabled={taking.busy()} onClick={() => taking.submit()}>
          {taking.busy() ? 'Sending the photo…' : 'Take it as printed: I answer for it'}
        </Button>
        <Show when={taking.error()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
      </div>
    </details>
  )
}
