/** A sentence said aloud by a screen reader when it changes; `against` for what stands in the way. */
import type { ParentProps } from 'solid-js'

export function Sentence(props: ParentProps<{ against?: boolean }>) {
  return (
    <p class="sentence" classList={{ against: props.against }} role="status">
      {props.children}
    </p>
  )
}
