/** A new PIN for somebody. It goes to the server and nowhere else: no event, no log, no shelf of this device. */
import { createSignal, Show } from 'solid-js'
import { PIN_WORDS } from '../../../shared/pin'
import type { Person } from '../../../shared/shop/types'
import { ask, isFailure } from '../../live/http'
import { pinFault } from '../../people/pin-fault'
import { Field } from '../../ui/Field'
import { FormDialog } from '../../ui/Form'

/** `own`: whoever is signed in sets their own, and says their PIN until now. */
export function PinForm(props: { person: Person; own: boolean; onClose(): void; onSet(): void }) {
  const [before, setBefore] = createSignal('')
  const [pin, setPin] = createSignal('')
  const [again, setAgain] = createSignal('')

  async function set(): Promise<string | undefined> {
    const fault = pinFault(pin(), again())
    if (fault) return fault
    const reply = await ask(`/api/people/${encodeURIComponent(props.person.id)}/pin`, {
      pin: pin(),
      ...(props.own ? { before: before() } : {}),
    })
    return isFailure(reply) ? reply.sentence : undefined
  }

  return (
    <FormDialog
      title={props.own ? 'Your new PIN' : `A PIN for ${props.person.name}`}
      submitLabel="Set PIN"
      busyLabel="Setting…"
      onSubmit={set}
      onDone={() => {
        props.onSet()
        props.onClose()
      }}
      onClose={props.onClose}
    >
      <Show
        when={props.own}
        fallback={
          <p>
            Their PIN is their signature. Let them enter it themselves; a PIN set before no longer works, and
            they are signed out everywhere. The shop’s log tells that you set it.
          </p>
        }
      >
        <p>Your PIN is your signature. A new one signs you out on every other device.</p>
        <PinField
          label="Your PIN until now"
          autocomplete="current-password"
          value={before()}
          onValue={setBefore}
        />
      </Show>
      <PinField
        label={props.own ? 'New PIN' : 'PIN'}
        hint={`${PIN_WORDS}; no run, no year, no pattern of the keys.`}
        value={pin()}
        onValue={setPin}
      />
      <PinField label={props.own ? 'New PIN again' : 'PIN again'} value={again()} onValue={setAgain} />
    </FormDialog>
  )
}

const PinField = (props: {
  label: string
  hint?: string
  autocomplete?: 'current-password'
  value: string
  onValue(value: string): void
}) => (
  <Field
    label={props.label}
    hint={props.hint}
    type="password"
    inputmode="numeric"
    autocomplete={props.autocomplete ?? 'new-password'}
    maxLength={12}
    value={props.value}
    onValue={props.onValue}
  />
)
