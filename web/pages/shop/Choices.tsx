/** Cards of a choice: one of several, or any of several. A word each, and what it means beneath. */
import { createUniqueId, For, type JSX, Show } from 'solid-js'

interface Choice<Id extends string> {
  id: Id
  title: JSX.Element
  means?: string
}

interface ChoicesProps<Id extends string> {
  label: string
  choices: readonly Choice<Id>[]
  chosen: readonly Id[]
  /** Any number of them; without it exactly one. */
  any?: boolean
  hint?: JSX.Element
  onChange(chosen: Id[]): void
}

export function Choices<Id extends string>(props: ChoicesProps<Id>) {
  const name = createUniqueId()
  const press = (id: Id, on: boolean) => {
    if (!props.any) props.onChange([id])
    else props.onChange(on ? [...props.chosen, id] : props.chosen.filter((one) => one !== id))
  }
  return (
    <fieldset class="choices" aria-describedby={props.hint ? `${name}-hint` : undefined}>
      <legend>{props.label}</legend>
      <div class="choices-row">
        <For each={props.choices}>
          {(choice) => (
            <label class="choice">
              <input
                type={props.any ? 'checkbox' : 'radio'}
                name={name}
                checked={props.chosen.includes(choice.id)}
                onChange={(event) => press(choice.id, event.currentTarget.checked)}
              />
              <span>
                {choice.title}
                <Show when={choice.means}>
                  <span class="choice-means">{choice.means}</span>
                </Show>
              </span>
            </label>
          )}
        </For>
      </div>
      <Show when={props.hint}>
        <p id={`${name}-hint`} class="small pencil">
          {props.hint}
        </p>
      </Show>
    </fieldset>
  )
}
