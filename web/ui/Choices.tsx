/** Cards of a choice: one of several, or any of several. A word each, and what it means beneath. */
import { createUniqueId, For, type JSX, Show } from 'solid-js'
import './choices.css'

export interface Choice<Id extends string | number> {
  id: Id
  title: JSX.Element
  /** What it means, beneath its title. */
  hint?: string
}

interface GroupProps<Id extends string | number> {
  label: string
  options: readonly Choice<Id>[]
  hint?: JSX.Element
  error?: string
  /** Side by side, each as wide as its words. */
  compact?: boolean
}

interface OneProps<Id extends string | number> extends GroupProps<Id> {
  multiple?: false
  value: Id | undefined
  onValue(value: Id): void
}

interface AnyProps<Id extends string | number> extends GroupProps<Id> {
  multiple: true
  value: readonly Id[]
  onValue(value: Id[]): void
}

export function Choices<Id extends string | number>(props: OneProps<Id> | AnyProps<Id>) {
  const name = createUniqueId()
  const more = () => props.error ?? props.hint
  const chosen = (id: Id) => (props.multiple ? props.value.includes(id) : props.value === id)
  const choose = (id: Id, on: boolean) => {
    if (!props.multiple) props.onValue(id)
    else props.onValue(on ? [...props.value, id] : props.value.filter((other) => other !== id))
  }
  return (
    <fieldset
      class="choices whole"
      aria-describedby={more() ? `${name}-more` : undefined}
      aria-invalid={props.error ? true : undefined}
    >
      <legend>{props.label}</legend>
      <div class="choices-row" classList={{ compact: props.compact }}>
        <For each={props.options}>
          {(option) => (
            <label class="choice">
              <input
                type={props.multiple ? 'checkbox' : 'radio'}
                name={name}
                checked={chosen(option.id)}
                onChange={(event) => choose(option.id, event.currentTarget.checked)}
              />
              <span>
                {option.title}
                <Show when={option.hint}>
                  <span class="choice-hint">{option.hint}</span>
                </Show>
              </span>
            </label>
          )}
        </For>
      </div>
      <Show when={more()}>
        <p id={`${name}-more`} class="small pencil">
          {more()}
        </p>
      </Show>
    </fieldset>
  )
}
