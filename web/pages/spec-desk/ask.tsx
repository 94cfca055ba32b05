/** One field of the desk: what is typed goes into the address, and what is wrong with it stands beneath it. */
import { createContext, createUniqueId, For, type JSX, Show, useContext } from 'solid-js'
import type { BasisId } from '../../../shared/fastener'
import { Field } from '../../ui/Field'
import { type AskedField, LABELS } from './asked'
import type { Desk } from './desk'

export interface DeskPage {
  desk(): Desk
  set(field: AskedField, value: string): void
  /** The number of a formula in the list at the foot of the paper. */
  refs(id: BasisId): number
}

const DeskContext = createContext<DeskPage>()
export const DeskProvider = DeskContext.Provider

export function useDesk(): DeskPage {
  const page = useContext(DeskContext)
  if (!page) throw new Error('useDesk is called outside DeskProvider')
  return page
}

interface AskProps {
  field: AskedField
  hint?: string
  long?: boolean
  list?: readonly string[]
  inputMode?: JSX.InputHTMLAttributes<HTMLInputElement>['inputmode']
}

export function Ask(props: AskProps) {
  const { desk, set } = useDesk()
  const id = createUniqueId()
  const value = () => desk().asked[props.field]
  return (
    <div
      class="ask"
      classList={{ 'ask-empty': value().trim() === '', 'ask-wrong': desk().wrong[props.field] !== undefined }}
    >
      <Field
        label={LABELS[props.field]}
        value={value()}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        long={props.long === true}
        {...(props.inputMode ? { inputmode: props.inputMode } : {})}
        {...(props.list ? { list: id } : {})}
        {...(props.hint ? { hint: props.hint } : {})}
        {...(desk().wrong[props.field] ? { error: desk().wrong[props.field] as string } : {})}
        onValue={(typed) => set(props.field, typed)}
      />
      <Show when={props.list}>
        {(list) => (
          <datalist id={id}>
            <For each={list()}>{(one) => <option value={one} />}</For>
          </datalist>
        )}
      </Show>
    </div>
  )
}

interface ChooseProps {
  field: AskedField
  choices: readonly (readonly [value: string, words: string])[]
  hint?: string
}

export function Choose(props: ChooseProps) {
  const { desk, set } = useDesk()
  const id = createUniqueId()
  const value = () => desk().asked[props.field]
  const more = () => desk().wrong[props.field] ?? props.hint
  // What an address names that is no choice is shown as what it is, and refused by the formulas.
  const choices = () =>
    props.choices.some(([one]) => one === value())
      ? props.choices
      : [...props.choices, [value(), `“${value()}”`] as const]
  return (
    <div
      class="ask"
      classList={{
        'ask-empty': value() === '' || value() === 'none',
        'ask-wrong': desk().wrong[props.field] !== undefined,
      }}
    >
      <div class="field">
        <label for={id}>{LABELS[props.field]}</label>
        <select
          id={id}
          aria-describedby={more() ? `${id}-more` : undefined}
          aria-invalid={desk().wrong[props.field] ? true : undefined}
          onChange={(event) => set(props.field, event.currentTarget.value)}
        >
          <For each={choices()}>
            {([one, words]) => (
              <option value={one} selected={one === value()}>
                {words}
              </option>
            )}
          </For>
        </select>
        <Show when={more()}>
          {(words) => (
            <p id={`${id}-more`} class="small pencil">
              {words()}
            </p>
          )}
        </Show>
      </div>
    </div>
  )
}
