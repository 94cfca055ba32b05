/** Deferrals with their age and where they are due; holds with what they wait for. */
import { createMemo, For, Show } from 'solid-js'
import { HOLD_WORDS } from '../../../shared/job/hold-words'
import { listed } from '../../../shared/words'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { Entry, List } from './AuditList'
import { useAsk } from './ask'
import { deferralLines, openHolds, overdue } from './open-ends'
import { ToBench } from './ReleaseLists'

export function Deferrals() {
  const scope = useJob()
  const { ask } = useAsk()
  const lines = createMemo(() => deferralLines(scope.planned()))
  const open = () => lines().filter(({ state }) => state === 'open').length
  const mayWithdraw = (deferralId: string) =>
    scope.may({ type: 'WithdrawDeferral', deferralId, reason: '–' }) === undefined
  return (
    <List
      title={lines().length > 0 && open() === 0 ? 'Deferrals, all closed' : 'Left out on purpose'}
      count={open() || lines().length}
      empty="Nothing is left out. What is deferred at the engine or the bench stands here until it is closed where it is due."
    >
      <For each={lines()}>
        {({ deferral, title, dueTitle, state, closedBy }) => (
          <Entry
            id={deferral.dueStepId}
            settled={state !== 'open'}
            ways={
              <Show when={state === 'open'}>
                <ToBench stepId={deferral.dueStepId} />
                <Show when={mayWithdraw(deferral.id)}>
                  <Button
                    variant="quiet"
                    onClick={() => ask({ do: 'withdraw', deferralId: deferral.id, title })}
                  >
                    Withdraw<span class="unseen"> {title}</span>
                  </Button>
                </Show>
              </Show>
            }
          >
            <p>
              <b>{title}</b>, due at {dueTitle}
            </p>
            <p class="pencil">
              “{deferral.reason}” {scope.words.person(deferral.made.by)},{' '}
              {scope.words.moment(deferral.made.doneAt)}
              {state === 'open' ? `; open ${format.age(deferral.made.doneAt, scope.now())}` : ''}
            </p>
            <Show when={closedBy}>
              {(by) => (
                <p>
                  Closed: signed by {scope.words.person(by().by)}, {scope.words.moment(by().doneAt)}.
                </p>
              )}
            </Show>
            <Show when={deferral.withdrawn}>
              {(gone) => (
                <p>
                  Withdrawn by {scope.words.person(gone().by)}, {scope.words.moment(gone().doneAt)}:{' '}
                  {gone().reason}
                </p>
              )}
            </Show>
          </Entry>
        )}
      </For>
    </List>
  )
}

export function Holds() {
  const scope = useJob()
  const { ask } = useAsk()
  const holds = createMemo(() => openHolds(scope.planned()))
  return (
    <List
      title="On hold"
      count={holds().length}
      empty="No step is on hold. A hold raised on the engine page stands here until it is cleared."
    >
      <For each={holds()}>
        {(hold) => (
          <Entry
            id={hold.stepIds[0] ?? ''}
            late={overdue(hold.expectedAt, scope.now())}
            ways={
              <Button onClick={() => ask({ do: 'clear', holdId: hold.id, what: hold.what })}>
                Clear<span class="unseen"> {hold.what}</span>
              </Button>
            }
          >
            <p>
              <b>{hold.what}</b> <span class="pencil">({HOLD_WORDS[hold.kind]})</span>
            </p>
            <p class="pencil">
              holds {listed(hold.stepIds)}; {scope.words.person(hold.raised.by)},{' '}
              {format.age(hold.raised.doneAt, scope.now())}
              <Show when={hold.expectedAt}>
                {(at) => (
                  <span classList={{ against: overdue(at(), scope.now()) }}>
                    , {overdue(at(), scope.now()) ? 'was expected' : 'expected'} {scope.words.moment(at())}
                  </span>
                )}
              </Show>
            </p>
          </Entry>
        )}
      </For>
    </List>
  )
}
