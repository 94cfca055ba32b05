/** A person's mark: a dab of their paint, their initials beside it, so that nothing depends on colour. */
import { Show } from 'solid-js'
import { useSession } from '../live/live'

/** For SVG fills and inline styles. */
export const paintOf = (paint: string | undefined): string => (paint ? `var(--paint-${paint})` : 'var(--ink)')

interface StripeProps {
  person: string
  /** The whole name after the initials, or in their place. */
  name?: 'after' | 'instead'
}

export function Stripe(props: StripeProps) {
  const { cardOf, nameOf } = useSession()
  const card = () => cardOf(props.person)
  return (
    <span class="stripe" style={{ '--paint': paintOf(card()?.paint) }} title={nameOf(props.person)}>
      <span class="stripe-paint" aria-hidden="true" />
      <Show when={props.name !== 'instead'}>
        <span class="stripe-initials">{card()?.initials ?? props.person}</span>
      </Show>
      <Show when={props.name}>
        <span>{nameOf(props.person)}</span>
      </Show>
    </span>
  )
}
