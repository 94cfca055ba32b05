/** The very first page of a new shop: its name, and the person who enters everybody else. */
import { createSignal } from 'solid-js'
import { usePageTitle } from '../../frame/title'
import { useSession } from '../../live/live'
import { createDraft } from '../../ui/draft'
import { Field } from '../../ui/Field'
import { Form } from '../../ui/Form'
import './first-run.css'
import { FIELD_WORDS } from '../../../shared/format/field-words'
import { pinFault } from '../../people/pin-fault'

export function OpenShop() {
  const session = useSession()
  usePageTitle(() => 'Open the shop')
  const { draft, trimmed, Entry } = createDraft({ code: '', name: '', person: '', pin: '', again: '' })
  const [initials, setInitials] = createSignal<string>()

  const shownInitials = () =>
    initials() ??
    draft()
      .person.split(/\s+/)
      .map((word) => word.charAt(0))
      .join('')
      .slice(0, 3)
      .toUpperCase()
  const missing = () => {
    const { code, name, person, pin, again } = trimmed()
    if (!code) return 'Enter the code that the server printed in its window when it was started.'
    if (!name || !person || !shownInitials()) return 'Fill in the shop’s name, yours, and your initials.'
    return pinFault(pin, again)
  }

  function open() {
    const { code, name: shopName, person: name, pin } = trimmed()
    return missing() ?? session.openShop({ shopName, name, initials: shownInitials(), pin, code })
  }

  return (
    <Form class="page sheet-form first-run" submitLabel="Open the shop" onSubmit={open}>
      <h1>Open the shop</h1>
      <p class="pencil">
        You are entered as its owner and can then enter the others, the wrenches and the plans.
      </p>
      <div class="whole">
        <Entry
          of="code"
          label={FIELD_WORDS.code}
          hint="Eight digits, printed in the server’s window: only somebody at its machine can open the shop."
          required
          inputmode="numeric"
          autocomplete="off"
        />
      </div>
      <div class="whole">
        <Entry of="name" label={FIELD_WORDS.shopName} required maxLength={60} autocomplete="organization" />
      </div>
      <Entry of="person" label="Your name" required maxLength={60} autocomplete="name" />
      <Field
        label="Your initials"
        hint="They appear beside every mark of your paint."
        value={shownInitials()}
        onValue={(value) => setInitials(value.toUpperCase())}
        required
        maxLength={3}
      />
      <Entry of="pin" label="PIN" type="password" inputmode="numeric" autocomplete="new-password" />
      <Entry of="again" label="PIN again" type="password" inputmode="numeric" autocomplete="new-password" />
    </Form>
  )
}
