/** Notes and photos of this step: what the hands saw, for whoever comes after. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { PhotoButton, PhotoNews } from '../../ui/Photo'
import { useBench } from './bench'
import { RaiseHold } from './HoldPanel'
import './beside.css'
import './photos.css'

export function NotesPanel() {
  const bench = useBench()
  const scope = useJob()
  const [writing, setWriting] = createSignal(false)
  const [holding, setHolding] = createSignal(false)
  const [text, setText] = createSignal('')
  const notes = createMemo(() => scope.planned().notes.filter(({ stepId }) => stepId === bench.step().id))
  const photos = createMemo(() => scope.planned().photos.filter(({ stepId }) => stepId === bench.step().id))
  const add = () => {
    if (text().trim() === '') return
    void scope.send({ type: 'AddNote', text: text().trim(), stepId: bench.step().id })
    setText('')
    setWriting(false)
  }
  return (
    <section class="notes">
      <div class="panel-buttons">
        <PhotoButton
          label="Photo"
          camera
          jobId={scope.planned().id}
          about={{ stepId: bench.step().id }}
          send={scope.send}
        />
        <Button onClick={() => setWriting(true)}>Note</Button>
        <Button onClick={() => setHolding(true)}>Hold…</Button>
        <Show when={bench.mine() && bench.round()}>
          <Button aria-pressed={bench.pointing()} onClick={() => bench.point(!bench.pointing())}>
            {bench.pointing() ? 'Tap the head it is about' : 'One fastener…'}
          </Button>
        </Show>
      </div>
      <PhotoNews jobId={scope.planned().id} />
      <For each={notes()}>
        {(note) => (
          <p class="note">
            {note.text} <Stripe person={note.by} />{' '}
            <span class="pencil">{scope.words.moment(note.doneAt)}</span>
          </p>
        )}
      </For>
      <Show when={photos().length > 0}>
        <ul class="photos">
          <For each={photos()}>
            {(photo) => (
              <li>
                <Show when={photo.arrived} fallback={<span class="photo-waits">on its way</span>}>
                  <a href={`/api/photos/${photo.sha256}`} target="_blank" rel="noreferrer">
                    <img
                      src={`/api/photos/${photo.sha256}`}
                      alt={photo.caption ?? `Photo${photo.place ? ` of ${photo.place}` : ''}`}
                      width={photo.widthPx}
                      height={photo.heightPx}
                      loading="lazy"
                    />
                  </a>
                </Show>
                <span class="small pencil">
                  {photo.place ? `${photo.place}, ` : ''}
                  {scope.words.moment(photo.doneAt)}
                </span>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Dialog open={writing()} title={`Note on ${bench.step().id}`} onClose={() => setWriting(false)}>
        <Field label="What is to be known" long value={text()} maxLength={1000} onValue={setText} />
        <Button variant="main" wide disabled={text().trim() === ''} onClick={add}>
          {text().trim() === '' ? 'Write it first' : 'Leave this note'}
        </Button>
      </Dialog>
      <RaiseHold open={holding()} onClose={() => setHolding(false)} />
    </section>
  )
}
