/** What the office and the bench tell each other about this engine: holds, what was left out, notes, photos. */
import { For, Show } from 'solid-js'
import { DeferralWords, TakeBackButton } from '../../job/deferrals/Deferrals'
import { deferralViews, dueTitle } from '../../job/deferrals/deferrals'
import { useJobDialogs } from '../../job/dialogs'
import { HoldButtons, HoldWords } from '../../job/holds/Holds'
import { isLate, openHolds } from '../../job/holds/holds'
import { Notes } from '../../job/notes/Notes'
import { Photos } from '../../job/photos/Photos'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { goTo } from '../../ui/bring-up'
import { useNow } from '../../ui/clock'
import { createSame } from '../../ui/same'
import './office.css'

export function Office() {
  return (
    <div class="office">
      <Holds />
      <Deferrals />
      <Photos />
      <Notes />
    </div>
  )
}

function Holds() {
  const { job } = useJob()
  const open = useJobDialogs()
  const now = useNow(60_000)
  const holds = createSame(() => openHolds(job()))
  const cleared = () => job().holds.length - holds().length
  return (
    <section aria-labelledby="holds-head">
      <header>
        <h2 id="holds-head">On hold</h2>
        <Button onClick={() => open({ dialog: 'raise_hold', stepIds: [] })}>Put on hold</Button>
      </header>
      <ul class="office-list">
        <For
          each={holds()}
          fallback={
            <li class="pencil">
              Nothing waits. When a part, a tool, an approval or an answer is missing, put the steps that wait
              for it on hold: they cannot be claimed, and the board says why.
            </li>
          }
        >
          {(hold) => (
            <li class="hold" classList={{ late: isLate(hold, now()) }}>
              <HoldWords hold={hold} />
              <div class="office-do cluster">
                <HoldButtons hold={hold} />
              </div>
            </li>
          )}
        </For>
      </ul>
      <Show when={cleared() > 0}>
        <p class="pencil small">{cleared()} cleared: see “What happened”.</p>
      </Show>
    </section>
  )
}

function Deferrals() {
  const { planned } = useJob()
  const open = useJobDialogs()
  const views = createSame(() => deferralViews(planned()).filter(({ state }) => state !== 'withdrawn'))
  return (
    <section aria-labelledby="deferrals-head">
      <header>
        <h2 id="deferrals-head">Left out on purpose</h2>
        <Button onClick={() => open({ dialog: 'leave_out' })}>Leave out</Button>
      </header>
      <ul class="office-list">
        <For
          each={views()}
          fallback={
            <li class="pencil">
              Nothing is left out. What cannot be done in its place may be left out on purpose, due at a later
              step, which cannot be signed before it is done.
            </li>
          }
        >
          {(view) => (
            <li>
              <DeferralWords
                view={view}
                due={
                  <a href={`#step-${view.due.id}`} onClick={(event) => goTo(event, `step-${view.due.id}`)}>
                    {dueTitle(view)}
                  </a>
                }
              />
              <div class="office-do cluster">
                <TakeBackButton view={view} />
              </div>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}
