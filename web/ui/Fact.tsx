/** One line of a list of facts: what it is called, and what is so. */
import type { ParentProps } from 'solid-js'

export function Fact(props: ParentProps<{ term: string; class?: string }>) {
  return (
    <div class={props.class}>
      <dt>{props.term}</dt>
      <dd>{props.children}</dd>
    </div>
  )
}
