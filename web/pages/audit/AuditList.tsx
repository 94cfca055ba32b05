/** A list of the audit and its entries: the step at the left, what is so, and beside it what can be done. */
import { type JSX, type ParentProps, Show } from 'solid-js'

interface ListProps {
  title: string
  count: number
  /** What would stand here, and how it comes about. */
  empty: string
  first?: boolean
  /** Below the entries, also of an empty list. */
  foot?: JSX.Element
  id?: string
}

export function List(props: ParentProps<ListProps>) {
  return (
    <section
      class="audit-list"
      id={props.id}
      classList={{ 'audit-first': props.first === true, 'audit-none': props.count === 0 }}
    >
      <h2>
        {props.title}{' '}
        <Show when={props.count > 0}>
          <span class="list-count">{props.count}</span>
        </Show>
      </h2>
      <Show when={props.count > 0} fallback={<p class="pencil">{props.empty}</p>}>
        <ol>{props.children}</ol>
      </Show>
      {props.foot}
    </section>
  )
}

interface EntryProps {
  id: string
  late?: boolean
  settled?: boolean
  /** Buttons and links. */
  ways?: JSX.Element
}

export function Entry(props: ParentProps<EntryProps>) {
  return (
    <li
      class="entry"
      classList={{ 'entry-late': props.late === true, 'entry-settled': props.settled === true }}
      data-open={props.settled ? undefined : ''}
      tabindex="-1"
    >
      <span class="entry-id">{props.id}</span>
      <div class="entry-say">{props.children}</div>
      <Show when={props.ways}>
        <div class="entry-ways cluster">{props.ways}</div>
      </Show>
    </li>
  )
}
