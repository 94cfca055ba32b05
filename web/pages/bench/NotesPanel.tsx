/** Notes and photos of this step, what the hands saw, for whoever comes after; and the press that puts it on hold. */
import { Show } from 'solid-js'
import { useJobDialogs } from '../../job/dialogs'
import { StepNotes } from '../../job/notes/Notes'
import { PhotoButton, PhotoNews } from '../../job/photos/PhotoButton'
import { StepPhotos } from '../../job/photos/Photos'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import './beside.css'

export function NotesPanel() {
  const bench = useBench()
  const open = useJobDialogs()
  const stepId = () => bench.step().id
  return (
    <section class="notes">
      <div class="panel-buttons cluster">
        <PhotoButton label="Add photo" camera about={{ stepId: stepId() }} />
        <Button onClick={() => open({ dialog: 'add_note', stepId: stepId() })}>Add note</Button>
        <Button onClick={() => open({ dialog: 'raise_hold', stepIds: [stepId()], compact: true })}>
          Put on hold
        </Button>
        <Show when={bench.mine() && bench.round()}>
          <Button aria-pressed={bench.pointing()} onClick={() => bench.setPointing(!bench.pointing())}>
            {bench.pointing() ? 'Tap the head it is about' : 'One fastener…'}
          </Button>
        </Show>
      </div>
      <PhotoNews />
      <StepNotes stepId={stepId()} />
      <StepPhotos stepId={stepId()} />
    </section>
  )
}
