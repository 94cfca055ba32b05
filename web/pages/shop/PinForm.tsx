/** A new PIN for somebody. It goes to the server and nowhere else: no event, no log, no shelf of this device. */
import { createSignal } from 'solid-js'
import { PIN_WORDS } from '../../../shared/pin'
import type { Person } from '../../../shared/shop/types'
import { ask, isFailure } from '../../live/http'
import { pinFault } from '../../people/pin-fault'
import { Field } from '../../ui/Field'
import { FormDialog } from '../../ui/Form'

export function PinForm(props: { person: Person; onClose(): void; onSet(): void }) {
  const [pin, setPin] = createSignal('')
  const [again, setAgain] = createSignal('')

  async function set(): Promise<string | undefined> {
    const fault = pinFault(pin(), again())
    if (fault) return fault
    const reply = await ask(`/api/people/${encodeURIComponent(props.person.id)}/pin`, { pin: pin() })
    return isFailure(reply) ? reply.sentence : undefined
  }

  return (
    <FormDialog
      title={`A PIN for ${props.person.name}`}
      submitLabel="Set PIN"
      busyLabel="Setting…"
      onSubmit={set}
      onDone={() => {
        props.onSet()
        props.onClose()
      }}
      onClose={props.onClose}
    >
      <p>Their PIN is their signature. Let them enter it themselves; a PIN set before no longer works.</p>
      <Field
        label="PIN"
        type="password"
        inputmode="numeric"
        autocomplete="new-password"
        hint={`${PIN_WORDS}.`}
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
    </FormDialog>
  )
}
