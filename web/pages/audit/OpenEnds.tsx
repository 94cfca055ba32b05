/** What is still open on this engine by somebody's word: deferrals and where they are due; holds with what they wait for. */
import { For, Show } from 'solid-js'
import { DeferralWords, TakeBackButton } from '../../job/deferrals/Deferrals'
import { deferralViews } from '../../job/deferrals/deferrals'
import { HoldButtons, HoldWords } from '../../job/holds/Holds'
import { isLate, openHolds } from '../../job/holds/holds'
import { useJob } from '../../job/scope'
import { createSame } from '../../ui/same'
import { Entry, List } from './AuditList'
import { ToBench } from './EntryWays'

export function Deferrals() {
  const { planned } = useJob()
  const views = createSame(() => deferralViews(planned()))
  const open = () => views().filter(({ state }) => state === 'open').length
  return (
    <List
      title={views().length > 0 && open() === 0 ? 'Left out on purpose, all closed' : 'Left out on purpose'}
      count={open() || views().length}
      empty="Nothing is left out. What is left out on the engine page or at the bench stands here until it is closed where it is due."
    >
      <For each={views()}>
        {(view) => (
          <Entry
            id={view.due.id}
            settled={view.state !== 'open'}
            ways={
              <Show when={view.state === 'open'}>
                <ToBench stepId={view.due.id} />
                <TakeBackButton view={view} />
              </Show>
            }
          >
            <DeferralWords view={view} />
          </Entry>
        )}
      </For>
    </List>
  )
}

export function Holds() {
  const { job, now } = useJob()
  const holds = createSame(() => openHolds(job()))
  return (
    <List
      title="On hold"
      count={holds().length}
      empty="No step is on hold. One put on hold on the engine page or at the bench stands here until the hold is cleared."
    >
      <For each={holds()}>
        {(hold) => (
          <Entry id={hold.stepIds[0] ?? ''} late={isLate(hold, now())} ways={<HoldButtons hold={hold} />}>
            <HoldWords hold={hold} />
          </Entry>
        )}
      </For>
    </List>
  )
}
