/** Names and their figures, as a list of what is so. */
import { For } from 'solid-js'

export function Facts(props: { of: readonly (readonly string[])[] }) {
  return (
    <dl class="desk-facts">
      <For each={props.of}>
        {([name, value]) => (
          <div>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        )}
      </For>
    </dl>
  )
}
