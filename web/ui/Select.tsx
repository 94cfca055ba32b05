/** A labelled list to choose one of, with its hint. */
import { createUniqueId, For, Show } from 'solid-js'
import './fields.css'

export interface Option {
  value: string
  title: string
}

interface SelectProps {
  label: string
  hint?: string
  error?: string
  value: string
  options: readonly Option[]
  /** What the empty choice says, which stands first; without it there is none. */
  empty?: string
  onValue(value: string): void
}

export function Select(props: SelectProps) {
  const id = createUniqueId()
  const more = () => props.error ?? props.hint
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <select
        id={id}
        aria-describedby={more() ? `${id}-more` : undefined}
        aria-invalid={props.error ? true : undefined}
        onChange={(event) => props.onValue(event.currentTarget.value)}
      >
        <Show when={props.empty}>
          <option value="" selected={props.value === ''}>
            {props.empty}
          </option>
        </Show>
        <For each={props.options}>
          {(option) => (
            <option value={option.value} selected={option.value === props.value}>
              {option.title}
            </option>
          )}
        </For>
      </select>
      <Show when={more()}>
        <p id={`${id}-more`} class="small pencil">
          {more()}
        </p>
      </Show>
    </div>
  )
}
