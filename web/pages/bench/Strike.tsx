/** Why an entry is crossed out: a press for the usual reasons, words for the rest. Both stay readable. */
import { createSignal, For, Show } from 'solid-js'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import './head.css'

const REASONS = ['wrong one tapped', 'tapped twice', 'wrong number entered', 'not really done']

/** The press that asks for the reason first, so that nothing is struck by one slip of a glove. */
export function StrikeEntry(props: { onStrike: (reason: string) => void }) {
  const [asking, setAsking] = createSignal(false)
  return (
    <Show
      when={asking()}
      fallback={
        <Button variant="quiet" onClick={() => setAsking(true)}>
          Cross out entry
        </Button>
      }
    >
      <StrikeForm
        onStrike={(reason) => {
          props.onStrike(reason)
          setAsking(false)
        }}
        onKeep={() => setAsking(false)}
      />
    </Show>
  )
}

function StrikeForm(props: { onStrike: (reason: string) => void; onKeep: () => void }) {
  const [words, setWords] = createSignal('')
  return (
    <fieldset class="strike stack">
      <legend>Why is it wrong?</legend>
      <div class="panel-buttons cluster">
        <For each={REASONS}>
          {(reason) => <Button onClick={() => props.onStrike(reason)}>{reason}</Button>}
        </For>
      </div>
      <Field label="Or in your words" value={words()} maxLength={200} onValue={setWords} />
      <div class="panel-buttons cluster">
        <Button
          variant="rust"
          disabled={words().trim() === ''}
          onClick={() => props.onStrike(words().trim())}
        >
          Cross out
        </Button>
        <Button variant="quiet" onClick={props.onKeep}>
          Cancel
        </Button>
      </div>
    </fieldset>
  )
}
