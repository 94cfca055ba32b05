/** Words that need no typing: one press hands them to the field below. */
import { For } from 'solid-js'
import { Button } from './Button'

export function Presets(props: { options: readonly string[]; onValue(text: string): void }) {
  return (
    <div class="cluster whole">
      <For each={props.options}>{(text) => <Button onClick={() => props.onValue(text)}>{text}</Button>}</For>
    </div>
  )
}
