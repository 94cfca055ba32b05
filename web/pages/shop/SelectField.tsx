/** A labelled list to choose one of, with its hint. */
import { createUniqueId, For, Show } from 'solid-js'

export interface Option {
  value: string
  title: string
}

interface SelectFieldProps {
  label: string
  hint?: string
  error?: string | undefined
  value: string
  options: readonly Option[]
  onValue(value: string): void
}

export function SelectField(props: SelectFieldProps) {
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
