/** A number typed on the pad: what stands so far, its unit, and the keys. */
import { createSignal, Show, splitProps } from 'solid-js'
import { NumberPad } from '../../ui/NumberPad'
import { padText } from '../../ui/pad-text'
import './entry.css'

export function createNumber() {
  const [text, setText] = createSignal('')
  return {
    text,
    setText,
    isEmpty: () => text() === '',
    value: () => Number(text()),
    clear: () => setText(''),
  }
}

interface NumberEntryProps {
  number: ReturnType<typeof createNumber>
  unit?: string | undefined
  label: string
  maxLength: number
  decimal?: boolean
  onEnter?(): void
}

export function NumberEntry(props: NumberEntryProps) {
  const [own, pad] = splitProps(props, ['number', 'unit'])
  return (
    <>
      <p class="entry-display" aria-live="polite">
        <span>{padText(own.number.text()) || '–'}</span>{' '}
        <Show when={own.unit}>
          <span class="entry-unit">{own.unit}</span>
        </Show>
      </p>
      <NumberPad value={own.number.text()} onChange={own.number.setText} {...pad} />
    </>
  )
}
