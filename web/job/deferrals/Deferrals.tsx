/** What was left out on purpose. Full: what, where it is due, why, how it ended; compact: what of one step, and the way back. */
import { createMemo, For, type JSX, Show } from 'solid-js'
import type { Deferral } from '../../../shared/job/types'
import { format } from '../../format'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { useJobDialogs } from '../dialogs'
import { useJob } from '../scope'
import { type DeferralView, dueTitle, endedWords, leftOutOf, takeBackLabel } from './deferrals'

interface DeferralProps {
  view: DeferralView
  /** Where it is due, as a link where the page has one. */
  due?: JSX.Element
}

export function DeferralWords(props: DeferralProps) {
  const { words } = useJob()
  const now = useNow(60_000)
  const made = () => props.view.deferral.made
  const isOpen = () => props.view.state === 'open'
  return (
    <>
      <p class="kept-what">{props.view.what}</p>
      <p>
        {isOpen() ? 'due at ' : 'was due at '}
        {props.due ?? dueTitle(props.view)}
        <Show when={isOpen()}>
          <span class="pencil">, left out {format.age(made().doneAt, now())}</span>
        </Show>
      </p>
      <Show when={endedWords(props.view, words)}>{(text) => <p>{text()}</p>}</Show>
      <p class="pencil small">
        {props.view.deferral.reason} <Stripe person={made().by} /> {words.moment(made().doneAt)}
      </p>
    </>
  )
}

const useMayTakeBack = () => {
  const { may } = useJob()
  return ({ id }: Deferral): boolean => !may({ type: 'WithdrawDeferral', deferralId: id, reason: '–' })
}

export function TakeBackButton(props: { view: DeferralView }) {
  const open = useJobDialogs()
  const mayTakeBack = useMayTakeBack()
  const deferral = () => props.view.deferral
  return (
    <Show when={props.view.state === 'open' && mayTakeBack(deferral())}>
      <Button variant="quiet" onClick={() => open({ dialog: 'take_back', deferralId: deferral().id })}>
        {takeBackLabel(deferral())}
        <span class="unseen"> {props.view.what}</span>
      </Button>
    </Show>
  )
}

/** What was left out of the step in work, and the press that takes it back. */
export function StepDeferrals(props: { stepId: string }) {
  const { planned, send } = useJob()
  const mayTakeBack = useMayTakeBack()
  const views = createMemo(() => leftOutOf(planned(), props.stepId))
  return (
    <Show when={views().length > 0}>
      <section>
        <h2>Left out on purpose</h2>
        <For each={views()}>
          {(view) => (
            <div class="left-out">
              <p>
                <strong>{view.what}</strong>, due at {view.due.id}: {view.deferral.reason}{' '}
                <Stripe person={view.deferral.made.by} />
              </p>
              <Show when={mayTakeBack(view.deferral)}>
                <Button
                  onClick={() =>
                    void send({
                      type: 'WithdrawDeferral',
                      deferralId: view.deferral.id,
                      reason: 'Done in its place after all',
                    })
                  }
                >
                  {takeBackLabel(view.deferral)}
                </Button>
              </Show>
            </div>
          )}
        </For>
      </section>
    </Show>
  )
}
