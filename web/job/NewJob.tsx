/** Opens a job when an engine comes in. Waits for the server's word; what was entered stays until it is taken. */

import { useNavigate } from '@solidjs/router'
import { createSignal, onMount } from 'solid-js'
import { v7 as uuid } from 'uuid'
import { FIELD_WORDS } from '../../shared/format/field-words'
import { nextNumber } from '../../shared/job/number'
import { engineHref } from '../hrefs'
import { ask, isFailure } from '../live/http'
import { useLive, useSendAndWait } from '../live/live'
import { createDraft } from '../ui/draft'
import { Field } from '../ui/Field'
import { FormDialog } from '../ui/Form'

export default function NewJob(props: { onClose(): void }) {
  const { board, link } = useLive()
  const sendAndWait = useSendAndWait()
  const navigate = useNavigate()
  const ofBoard = () => nextNumber(board.ids().flatMap((id) => board.summary(id)?.number ?? []))
  // The server also knows those that left the board.
  const [offered, setOffered] = createSignal<string>()
  onMount(async () => {
    const offer = await ask<{ number: string }>('/api/next-number')
    if (!isFailure(offer)) setOffered(offer.number)
  })
  const { trimmed, Entry } = createDraft({ model: '', serial: '', drives: '', owner: '', agreed: '' })
  const [number, setNumber] = createSignal<string>()
  let id = ''
  const shownNumber = () => number() ?? offered() ?? ofBoard()

  async function open(): Promise<string | undefined> {
    const number = shownNumber().trim()
    const { model, serial, drives, owner, agreed } = trimmed()
    if (![number, model, serial, owner, agreed].every(Boolean))
      return 'Fill in number, engine, serial number, owner and agreed work. Only what it drives may stay empty.'
    id = uuid()
    const answer = await sendAndWait(id, {
      type: 'OpenJob',
      number,
      engine: { model, serial, ...(drives ? { drives } : {}) },
      owner,
      agreed,
    })
    return answer.ok ? undefined : answer.sentence
  }

  return (
    <FormDialog
      title="Open job"
      submitLabel="Open job"
      busyLabel="Opening…"
      busyMessage={
        link.state() === 'live' ? undefined : 'No signal: the job is opened as soon as the server answers.'
      }
      onSubmit={open}
      onDone={() => {
        props.onClose()
        navigate(engineHref(id))
      }}
      onClose={props.onClose}
    >
      <Field
        label={FIELD_WORDS.number}
        value={shownNumber()}
        onValue={setNumber}
        required
        maxLength={24}
        autocomplete="off"
      />
      <Entry of="model" label={FIELD_WORDS.model} required maxLength={120} autocomplete="off" />
      <Entry of="serial" label={FIELD_WORDS.serial} required maxLength={80} autocomplete="off" />
      <Entry of="drives" label="What it drives, if known" maxLength={200} autocomplete="off" />
      <div class="whole">
        <Entry of="owner" label={FIELD_WORDS.owner} required maxLength={120} autocomplete="off" />
      </div>
      <div class="whole">
        <Entry of="agreed" label={FIELD_WORDS.agreed} long required maxLength={2000} />
      </div>
    </FormDialog>
  )
}
