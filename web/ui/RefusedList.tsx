/** What the server refused of this device's entries: its sentence, until somebody puts it aside. */
import { For, Show } from 'solid-js'
import { Button } from './Button'
import './refused.css'

interface RefusedListProps<E> {
  entries: readonly E[]
  onDismiss(commandId: string): void
  /** What was entered, where the sentence alone would not say what it is about. */
  entered?(entry: E): string
  /** What became of what hung on it. */
  also?(entry: E): string | undefined
}

export function RefusedList<E extends { command: { commandId: string }; refused: { sentence: string } }>(
  props: RefusedListProps<E>,
) {
  return (
    <div class="refused-list" role="status">
      <For each={props.entries}>
        {(entry) => (
          <div class="refused">
            <p>
              {entry.refused.sentence}
              <Show when={props.entered}>{(entered) => <> You entered: {entered()(entry)}.</>}</Show>
              <Show when={props.also?.(entry)}>{(words) => <> {words()}</>}</Show>
            </p>
            <Button variant="quiet" onClick={() => props.onDismiss(entry.command.commandId)}>
              Dismiss
            </Button>
          </div>
        )}
      </For>
    </div>
  )
}
