/** The very first page of a new shop: its name, and the person who enters everybody else. */
import { createSignal, Show } from 'solid-js'
import { usePageTitle } from '../../frame/title'
import { useSession } from '../../live/live'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'

const SHORTEST_PIN = 4

export function OpenShop() {
  const session = useSession()
  usePageTitle(() => 'Open the shop')
  const [name, setName] = createSignal('')
  const [person, setPerson] = createSignal('')
  const [initials, setInitials] = createSignal<string>()
  const [pin, setPin] = createSignal('')
  const [again, setAgain] = createSignal('')
  const [why, setWhy] = createSignal<string>()
  const [busy, setBusy] = createSignal(false)

  const shownInitials = () =>
    initials() ??
    person()
      .split(/\s+/)
      .map((word) => word.charAt(0))
      .join('')
      .slice(0, 3)
      .toUpperCase()
  const missing = () => {
    if (!name().trim() || !person().trim() || !shownInitials())
      return 'Fill in the shop’s name, yours, and your initials.'
    if (!/^\d+$/.test(pin()) || pin().length < SHORTEST_PIN)
      return `A PIN is ${SHORTEST_PIN} digits or more. Choose one.`
    if (pin() !== again()) return 'The two PINs differ. Enter the same one twice.'
    return undefined
  }

  async function open(event: SubmitEvent): Promise<void> {
    event.preventDefault()
    const fault = missing()
    setWhy(fault)
    if (fault) return
    setBusy(true)
    setWhy(
      await session.openShop({
        shopName: name().trim(),
        name: person().trim(),
        initials: shownInitials(),
        pin: pin(),
      }),
    )
    setBusy(false)
  }

  return (
    <form class="page sheet-form first-run" onSubmit={open} onInput={() => setWhy()} novalidate>
      <h1>Open the shop</h1>
      <p class="pencil">
        You are entered as its owner and can then enter the others, the wrenches and the plans.
      </p>
      <div class="whole">
        <Field
          label="Name of the shop"
          value={name()}
          onValue={setName}
          required
          maxLength={60}
          autocomplete="organization"
        />
      </div>
      <Field
        label="Your name"
        value={person()}
        onValue={setPerson}
        required
        maxLength={60}
        autocomplete="name"
      />
      <Field
        label="Your initials"
        hint="They stand beside every mark of your paint."
        value={shownInitials()}
        onValue={(value) => setInitials(value.toUpperCase())}
        required
        maxLength={3}
      />
      <Field
        label="PIN"
        type="password"
        inputmode="numeric"
        autocomplete="new-password"
        value={pin()}
        onValue={setPin}
      />
      <Field
        label="PIN again"
        type="password"
        inputmode="numeric"
        autocomplete="new-password"
        value={again()}
        onValue={setAgain}
      />
      <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
      <Button type="submit" look="main" disabled={busy()}>
        Open the shop
      </Button>
    </form>
  )
}
