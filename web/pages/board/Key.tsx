/** How to read a strip, drawn by the same hand as the strips. */
import { For } from 'solid-js'
import type { Cell } from '../../../shared/job/summary'
import { BuildStrip } from '../../drawings/BuildStrip'
import { useSession } from '../../live/live'

const SAMPLE_WIDTH = 44

export function Key() {
  const session = useSession()
  /** Two who sign at the bench, so that the key shows paints the strips show. */
  const signers = () => session.people().filter(({ roles }) => roles?.includes('technician'))
  const first = () => (signers()[0] ?? session.people()[0])?.id ?? ''
  const second = () => signers()[1]?.id ?? first()
  const samples = (): { words: string; cell: Partial<Cell> & Pick<Cell, 'standing'> }[] => [
    { words: 'not ready', cell: { standing: 'not_ready' } },
    { words: 'ready', cell: { standing: 'ready' } },
    { words: 'in work', cell: { standing: 'in_work', by: first() } },
    { words: 'needs a second signature', cell: { standing: 'awaiting_second', by: first() } },
    { words: 'signed, in the doer’s paint', cell: { standing: 'done', by: first() } },
    { words: 'signed twice', cell: { standing: 'done', by: first(), second: second() } },
    { words: 'on hold, its reason below', cell: { standing: 'on_hold' } },
    { words: 'interrupted: start again as the plan says', cell: { standing: 'stopped' } },
    { words: 'left out, due at a later step', cell: { standing: 'deferred', dueAt: [''] } },
    { words: 'notch: critical', cell: { standing: 'not_ready', critical: true } },
    { words: 'diamond: flagged', cell: { standing: 'in_work', by: first(), flagged: true } },
  ]
  return (
    <section class="key" aria-labelledby="key-title">
      <h2 id="key-title">How to read a strip</h2>
      <p class="pencil">One cell for each step, left to right, as wide as its share of the work.</p>
      <ul>
        <For each={samples()}>
          {({ words, cell }) => (
            <li>
              <span aria-hidden="true">
                <BuildStrip
                  people={session}
                  cells={[{ stepId: '', stage: 0, minutes: 1, ...cell }]}
                  stages={[]}
                  width={SAMPLE_WIDTH}
                />
              </span>
              {words}
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}
