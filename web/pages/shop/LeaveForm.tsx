/** Somebody leaves the shop: what ends, and what stays. */
import type { Person } from '../../../shared/shop/types'
import { useShopSend } from '../../shop/scope'
import { FormDialog } from '../../ui/Form'

export function LeaveForm(props: { person: Person; onDone(): void; onClose(): void }) {
  const send = useShopSend()
  return (
    <FormDialog
      title={`${props.person.name} leaves the shop`}
      submitLabel="Leaves the shop"
      busyLabel="Writing…"
      onSubmit={() => send({ type: 'LeaveShop', personId: props.person.id })}
      onDone={props.onDone}
      onClose={props.onClose}
    >
      <p>
        {props.person.name} is signed out everywhere at once, the PIN is gone, and nobody can choose them any
        more. What they did keeps their name and paint.
      </p>
      <p>
        A step they still hold can be claimed by whoever may do it. What one of their tablets has not sent yet
        is still taken as they entered it; a signature that comes after this is not.
      </p>
    </FormDialog>
  )
}
