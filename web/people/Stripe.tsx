/** A person's mark: a dab of their paint, their initials beside it, so that nothing depends on colour. */
import { createContext, Show, useContext } from 'solid-js'
import { useSession } from '../live/live'
import { paintColour } from '../ui/paint'

/** On a paper of another day: what people were called then, where it is known. */
export const CalledThen = createContext<(person: string) => { name: string; initials: string } | undefined>(
  () => undefined,
)

interface StripeProps {
  person: string
  /** The whole name after the initials, or in their place. */
  name?: 'after' | 'instead'
}

export function Stripe(props: StripeProps) {
  const { cardOf, nameOf } = useSession()
  const calledThen = useContext(CalledThen)
  const card = () => cardOf(props.person)
  const called = () => calledThen(props.person)
  const name = () => called()?.name ?? nameOf(props.person)
  return (
    <span class="stripe" style={{ '--paint': paintColour(card()?.paint) }} title={name()}>
      <span class="stripe-paint" aria-hidden="true" />
      <Show when={props.name !== 'instead'}>
        <span class="stripe-initials">{called()?.initials ?? card()?.initials ?? props.person}</span>
      </Show>
      <Show when={props.name}>
        <span>{name()}</span>
      </Show>
    </span>
  )
}
