/** One field of the desk: what is typed goes into the address, and what is wrong with it stands beneath it. */
import { createContext, createUniqueId, For, type JSX, Show, useContext } from 'solid-js'
import type { BasisId } from '../../../shared/fastener'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { type Option, Select } from '../../ui/Select'
import type { Calculation } from './calculation'
import { type InputField, LABELS } from './inputs'

export interface Calculator {
  calculation(): Calculation
  set(field: InputField, value: string): void
  /** The number of a formula in the list at the foot of the paper. */
  refs(id: BasisId): number
}

const CalculatorContext = createContext<Calculator>()
export const CalculatorProvider = CalculatorContext.Provider

export function useCalculator(): Calculator {
  const calculator = useContext(CalculatorContext)
  if (!calculator) throw new Error('useCalculator is called outside CalculatorProvider')
  return calculator
}

interface TextInputProps {
  field: InputField
  hint?: string
  long?: boolean
  list?: readonly string[]
  inputMode?: JSX.InputHTMLAttributes<HTMLInputElement>['inputmode']
}

export function TextInput(props: TextInputProps) {
  const { calculation, set } = useCalculator()
  const id = createUniqueId()
  const value = () => calculation().inputs[props.field]
  const error = () => calculation().errors[props.field]
  return (
    <div class="ask" classList={{ 'ask-empty': value().trim() === '', 'ask-wrong': error() !== undefined }}>
      <Field
        label={LABELS[props.field]}
        value={value()}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        long={props.long === true}
        inputmode={props.inputMode}
        list={props.list && id}
        hint={props.hint}
        error={error()}
        onValue={(typed) => set(props.field, typed)}
      />
      <Show when={props.list}>
        {(list) => (
          <datalist id={id}>
            <For each={list()}>{(option) => <option value={option} />}</For>
          </datalist>
        )}
      </Show>
    </div>
  )
}

interface SelectInputProps {
  field: InputField
  options: readonly Option[]
  hint?: string
}

export function SelectInput(props: SelectInputProps) {
  const { calculation, set } = useCalculator()
  const value = () => calculation().inputs[props.field]
  const error = () => calculation().errors[props.field]
  // What an address names that is no choice is shown as what it is, and refused by the formulas.
  const options = () =>
    props.options.some((option) => option.value === value())
      ? props.options
      : [...props.options, { value: value(), title: `“${value()}”` }]
  return (
    <div
      class="ask"
      classList={{
        'ask-empty': value() === '' || value() === 'none',
        'ask-wrong': error() !== undefined,
      }}
    >
      <Select
        label={LABELS[props.field]}
        hint={props.hint}
        error={error()}
        value={value()}
        options={options()}
        onValue={(chosen) => set(props.field, chosen)}
      />
      <Show when={calculation().candidates[props.field]}>
        {(could) => (
          <div class="cluster roomy">
            <For each={could()}>
              {(id) => (
                <Button onClick={() => set(props.field, id)}>
                  {props.options.find(({ value }) => value === id)?.title ?? id}
                </Button>
              )}
            </For>
          </div>
        )}
      </Show>
    </div>
  )
}
