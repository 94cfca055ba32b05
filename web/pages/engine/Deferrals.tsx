/** What was left out on purpose: what, where it is due, why, for how long; and withdrawing it. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { JobCommand } from '../../../shared/job/commands'
import { format } from '../../format'
import { CommandDialog } from '../../job/CommandDialog'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { goTo } from '../../ui/bring-up'
import { useNow } from '../../ui/clock'
import { Field } from '../../ui/Field'
import { useForms } from './office'
import { deferralViews } from './office-view'

export function Deferrals() {
  const scope = useJob()
  const open = useForms()
  const now = useNow(60_000)
  const views = createMemo(() => deferralViews(scope.planned()))
  return (
    <section aria-labelledby="deferrals-head">
      <header>
        <h2 id="deferrals-head">Left out, due later</h2>
        <Button onClick={() => open({ form: 'leave_out' })}>Leave out</Button>
      </header>
      <ul class="office-list">
        <For
          each={views()}
          fallback={
            <li class="pencil">
              Nothing is left out. What cannot be done in its place may be left out on purpose, due at a later
              step, which cannot be signed until it is closed.
            </li>
          }
        >
          {(view) => (
            <li>
              <p class="office-what">{view.what}</p>
              <p>
                {view.closed ? 'closed, was due at ' : 'due at '}
                <a href={`#step-${view.due.id}`} onClick={(event) => goTo(event, `step-${view.due.id}`)}>
                  {view.due.id} {view.due.title}
                </a>
                <Show when={!view.closed}>
                  <span class="pencil">, left out {format.age(view.since, now())}</span>
                </Show>
              </p>
              <p class="pencil small">
                {view.reason} <Stripe person={view.by} /> {scope.words.moment(view.since)}
              </p>
              <Show when={!view.closed}>
                <div class="office-do">
                  <Button variant="quiet" onClick={() => open({ form: 'withdraw', deferralId: view.id })}>
                    Withdraw<span class="unseen"> {view.what}</span>
                  </Button>
                </div>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  )
}

export function Withdraw(props: { deferralId: string; onClose(): void }) {
  const scope = useJob()
  const view = () => deferralViews(scope.planned()).find(({ id }) => id === props.deferralId)
  const [reason, setReason] = createSignal('')
  const withdraw = (): JobCommand | string =>
    reason().trim()
      ? { type: 'WithdrawDeferral', deferralId: props.deferralId, reason: reason().trim() }
      : 'Say why it is done in its place after all.'
  return (
    <CommandDialog
      title="Not left out after all"
      submitLabel="Withdraw it"
      command={withdraw}
      onClose={props.onClose}
    >
      <p>
        {view()?.what}, due at {view()?.due.id} {view()?.due.title}.
      </p>
      <div class="whole">
        <Field label="Reason" value={reason()} onValue={setReason} required maxLength={300} />
      </div>
    </CommandDialog>
  )
}
