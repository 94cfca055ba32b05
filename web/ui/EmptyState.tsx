/** What would be here, and how to make it. */
import type { ParentProps } from 'solid-js'

export function EmptyState(props: ParentProps<{ title: string }>) {
  return (
    <section class="empty">
      <h2>{props.title}</h2>
      {props.children}
    </section>
  )
}
