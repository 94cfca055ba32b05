/** Whose values are made up says so wherever they are shown. */
import { Show } from 'solid-js'

export const Invented = (props: { plan: { invented?: boolean | undefined } }) => (
  <Show when={props.plan.invented}>
    <span class="invented">values invented</span>
  </Show>
)
