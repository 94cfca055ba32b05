/** Opens a job when an engine comes in. Waits for the server's word; what was entered stays until it is taken. */
import { useNavigate } from '@solidjs/router'
import { createMemo, createSignal, Show } from 'solid-js'
import { v7 as uuid } from 'uuid'
import { useLive, useSendAndWait } from '../live/live'
import { Button } from '../ui/Button'
import { Dialog } from '../ui/Dialog'
import { createDraft } from '../ui/draft'
import { Field } from '../ui/Field'
import { Sentence } from '../ui/Sentence'
import { nextNumber } from './next-number'

export default function NewJob(props: { onClose(): void }) {
  const { board, link } = useLive()
  const sendAndWait = useSendAndWait()
  const navigate = useNavigate()
  const free = createMemo(() => nextNumber(board.ids().flatMap((id) => board.summary(id)?.number ?? [])))
  const { trimmed, Entry } = createDraft({ model: '', serial: '', drives: '', owner: '', agreed: '' })
  const [number, setNumber] = createSignal<string>()
  const [why, setWhy] = createSignal<string>()
  const [busy, setBusy] = createSignal(false)
  const shownNumber = () => number() ?? free()

  async function open(event: SubmitEvent): Promise<void> {
    event.preventDefault()
    const number = shownNumber().trim()
    const { model, serial, drives, owner, agreed } = trimmed()
    if (![number, model, serial, owner, agreed].every(Boolean)) {
      setWhy('Fill in number, engine, serial, owner and the agreed work; only what it drives may stay empty.')
      return
    }
    setBusy(true)
    setWhy(
      link.state() === 'live' ? undefined : 'No signal: the job is opened as soon as the server answers.',
    )
    const id = uuid()
    const answer = await sendAndWait(id, {
      type: 'OpenJob',
      number,
      engine: { model, serial, ...(drives ? { drives } : {}) },
      owner,
      agreed,
    })
    setBusy(false)
    if (!answer.ok) return void setWhy(answer.sentence)
    props.onClose()
    navigate(`/jobs/${id}`)
  }

  return (
    <Dialog open title="New job" onClose={props.onClose}>
      <form class="sheet-form" onSubmit={open} novalidate>
        <Field
          label="Job number"
          value={shownNumber()}
          onValue={setNumber}
          required
          maxLength={24}
          autocomplete="off"
        />
        <Entry of="model" label="Engine model" required maxLength={120} autocomplete="off" />
        <Entry of="serial" label="Serial number" required maxLength={80} autocomplete="off" />
        <Entry of="drives" label="What it drives, if known" maxLength={200} autocomplete="off" />
        <div class="whole">
          <Entry of="owner" label="Owner" required maxLength={120} autocomplete="off" />
        </div>
        <div class="whole">
          <Entry of="agreed" label="Agreed work" long required maxLength={2000} />
        </div>
        <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        <Button type="submit" variant="main" disabled={busy()}>
          {busy() ? 'Opening…' : 'Open the job'}
        </Button>
      </form>
    </Dialog>
  )
}
