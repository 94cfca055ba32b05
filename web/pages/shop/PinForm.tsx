/** A new PIN for somebody. It goes to the server and nowhere else: no event, no log, no shelf of this device. */
import { createSignal, Show } from 'solid-js'
import type { Person } from '../../../shared/shop/types'
import { ask, isFailure } from '../../live/http'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'
import { pinFault } from './people'

export function PinForm(props: { person: Person; onClose(): void; onSet(): void }) {
  const [pin, setPin] = createSignal('')
  const [again, setAgain] = createSignal('')
  const [why, setWhy] = createSignal<string>()
  const [busy, setBusy] = createSignal(false)

  async function set(event: SubmitEvent): Promise<void> {
    event.preventDefault()
    const fault = pinFault(pin(), again())
    setWhy(fault)
    if (fault) return
    setBusy(true)
    const said = await ask(`/api/people/${encodeURIComponent(props.person.id)}/pin`, { pin: pin() })
    setBusy(false)
    if (isFailure(said)) return void setWhy(said.sentence)
    props.onSet()
    props.onClose()
  }

  return (
    <Dialog open title={`A PIN for ${props.person.name}`} onClose={props.onClose}>
      <form class="sheet-form" onSubmit={set} onInput={() => setWhy()} novalidate>
        <p class="whole">
          Their PIN is their signature. Let them enter it themselves; a PIN set before no longer works.
        </p>
        <Field
          label="PIN"
          type="password"
          inputmode="numeric"
          autocomplete="new-password"
          hint="4 to 12 digits."
          maxLength={12}
          value={pin()}
          onValue={setPin}
        />
        <Field
          label="PIN again"
          type="password"
          inputmode="numeric"
          autocomplete="new-password"
          maxLength={12}
          value={again()}
          onValue={setAgain}
        />
        <Show when={why()}>
          <div class="whole">
            <Sentence against>{why()}</Sentence>
          </div>
        </Show>
        <Button type="submit" variant="main" disabled={busy()}>
          {busy() ? 'Setting…' : 'Set the PIN'}
        </Button>
      </form>
    </Dialog>
  )
}
