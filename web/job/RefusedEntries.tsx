/** What the server refused of this device's entries for this job, until somebody has read it. */
import { For, Show } from 'solid-js'
import { jobCommandWords } from '../live/job-command-words'
import { Button } from '../ui/Button'
import { RefusedList } from '../ui/RefusedList'
import { keptUnderClaim } from './refused-words'
import { useJob } from './scope'

/** One line each, at the foot of the page: the sentence, and what was entered. */
export function RefusedEntries() {
  const scope = useJob()
  return (
    <RefusedList
      entries={scope.refused()}
      onDismiss={scope.dismiss}
      entered={({ command }) => jobCommandWords(command, scope.job().plan)}
      also={(entry) => keptUnderClaim(scope.job(), entry)}
    />
  )
}

/** In full, before the hand goes on. */
export function RefusedStops() {
  const scope = useJob()
  return (
    <For each={scope.refused()}>
      {(entry) => (
        <section class="stop stack" role="alert" aria-label="Refused">
          <p>
            <strong>{entry.refused.sentence}</strong>
          </p>
          <p>You entered: {jobCommandWords(entry.command, scope.job().plan)}.</p>
          <Show when={keptUnderClaim(scope.job(), entry)}>{(words) => <p>{words()}</p>}</Show>
          <div class="panel-buttons cluster">
            <Button onClick={() => scope.dismiss(entry.command.commandId)}>Dismiss</Button>
          </div>
        </section>
      )}
    </For>
  )
}
