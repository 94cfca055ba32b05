/** What the server refused of this device's entries: its sentence, until somebody puts it aside. */
import { For } from 'solid-js'
import { Button } from '../ui/Button'
import { useJob } from './scope'

export function RefusedEntries() {
  const scope = useJob()
  return (
    <div class="refused-list" role="status">
      <For each={scope.refused()}>
        {(entry) => (
          <div class="refused">
            <p>{entry.sentence}</p>
            <Button variant="quiet" onClick={() => scope.dismiss(entry.id)}>
              Put aside
            </Button>
          </div>
        )}
      </For>
    </div>
  )
}
