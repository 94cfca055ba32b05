/**
 * Big keys for a number, gloves on. The page holds the text; keys of a keyboard work wherever the focus is
 * within the pad's page, as long as no field has it.
 */
import { For, onCleanup, onMount } from 'solid-js'
import { format } from '../format'
import './pad.css'

interface NumberPadProps {
  value: string
  onChange(value: string): void
  /** Enter on a keyboard. */
  onEnter?(): void
  /** Of a key for it; without it the pad has none, because the page has its own button. */
  enterLabel?: string
  /** Offers a point. */
  decimal?: boolean
  maxLength?: number
  disabled?: boolean
  label?: string
}

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9']

export function NumberPad(props: NumberPadProps) {
  let pad: HTMLFieldSetElement | undefined
  const press = (key: string) => {
    if (props.disabled || props.value.length >= (props.maxLength ?? 8)) return
    if (key === '.' && (!props.decimal || props.value.includes('.'))) return
    props.onChange(key === '.' && props.value === '' ? '0.' : props.value + key)
  }
  const back = () => props.onChange(props.value.slice(0, -1))

  const type = (event: KeyboardEvent) => {
    const target = event.target as HTMLElement
    if (event.ctrlKey || event.metaKey || event.altKey || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName))
      return
    // A dialog on top has its own pad; the page's one below it stays still.
    const dialog = document.querySelector('dialog[open]')
    if (dialog && !dialog.contains(pad ?? null)) return
    if (/^\d$/.test(event.key)) press(event.key)
    else if (event.key === '.' || event.key === ',') press('.')
    else if (event.key === 'Backspace') back()
    else if (event.key === 'Enter' && target.tagName !== 'BUTTON' && target.tagName !== 'A') props.onEnter?.()
    else return
    event.preventDefault()
  }
  onMount(() => window.addEventListener('keydown', type))
  onCleanup(() => window.removeEventListener('keydown', type))

  return (
    <fieldset class="pad" aria-label={props.label ?? 'Number pad'} ref={pad}>
      <For each={DIGITS}>
        {(digit) => (
          <button type="button" disabled={props.disabled} onClick={() => press(digit)}>
            {digit}
          </button>
        )}
      </For>
      <button
        type="button"
        class="word"
        aria-label="Delete the last digit"
        disabled={props.disabled}
        onClick={back}
      >
        Delete
      </button>
      <button type="button" disabled={props.disabled} onClick={() => press('0')}>
        0
      </button>
      {props.decimal ? (
        <button
          type="button"
          aria-label={format.shop.decimalMark === ',' ? 'comma' : 'point'}
          disabled={props.disabled}
          onClick={() => press('.')}
        >
          {format.shop.decimalMark}
        </button>
      ) : props.enterLabel ? (
        <button type="button" class="word" disabled={props.disabled} onClick={() => props.onEnter?.()}>
          {props.enterLabel}
        </button>
      ) : (
        <span />
      )}
    </fieldset>
  )
}
