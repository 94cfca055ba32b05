/** Open holds. Full: each with what it waits for, when, which steps; compact: those of one step, cleared with one press. */
import { createMemo, For, Show } from 'solid-js'
import { HOLD_KINDS, holdWords } from '../../../shared/job/kinds'
import type { Hold } from '../../../shared/job/types'
import { ended, lowerFirst, upperFirst } from '../../../shared/words'
import { format } from '../../format'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { useJobDialogs } from '../dialogs'
import { useJob } from '../scope'
import { expectedWords, HOLD_FORMS, isLate, openHolds } from './holds'

export function HoldWords(props: { hold: Hold }) {
  const { words } = useJob()
  const now = useNow(60_000)
  return (
    <>
      <p class="kept-what">
        <span class="hold-kind">{HOLD_KINDS[props.hold.kind].word}</span> {props.hold.what}
      </p>
      <p>
        <span classList={{ against: isLate(props.hold, now()) }}>
          {expectedWords(props.hold, now(), words)}
        </span>
        <span class="pencil">, holds {props.hold.stepIds.join(', ')}</span>
      </p>
      <p class="pencil small">
        <Stripe person={props.hold.raised.by} /> {words.moment(props.hold.raised.doneAt)}, on hold{' '}
        {format.age(props.hold.raised.doneAt, now())}
      </p>
    </>
  )
}

export function HoldButtons(props: { hold: Hold }) {
  const open = useJobDialogs()
  return (
    <>
      <Button variant="quiet" onClick={() => open({ dialog: 'change_hold', holdId: props.hold.id })}>
        Change hold<span class="unseen"> {props.hold.what}</span>
      </Button>
      <Button onClick={() => open({ dialog: 'clear_hold', holdId: props.hold.id })}>
        Clear hold<span class="unseen"> {props.hold.what}</span>
      </Button>
    </>
  )
}

/** On the step in work: the hold on top, and the press that clears it. */
export function StepHolds(props: { stepId: string }) {
  const { job, words, send } = useJob()
  const now = useNow(60_000)
  const holds = createMemo(() => openHolds(job(), props.stepId))
  return (
    <For each={holds()}>
      {(hold) => (
        <section class="stop stack" aria-label="On hold">
          <h2>On hold: {HOLD_KINDS[hold.kind].word}</h2>
          <p>
            {upperFirst(
              isLate(hold, now())
                ? `${ended(hold.what)} ${upperFirst(expectedWords(hold, now(), words))}.`
                : holdWords(hold, words),
            )}{' '}
            <Stripe person={hold.raised.by} /> {words.moment(hold.raised.doneAt)}
          </p>
          <p class="small">Until the hold is cleared nobody can claim or sign the step.</p>
          <Show
            when={HOLD_FORMS[hold.kind].cleared}
            fallback={
              <p>The office clears it on the engine page and enters who agreed, when and to what amount.</p>
            }
          >
            {(how) => (
              <div class="panel-buttons cluster">
                <Button onClick={() => void send({ type: 'ClearHold', holdId: hold.id, how: how() })}>
                  Clear hold: {lowerFirst(how())}
                </Button>
              </div>
            )}
          </Show>
        </section>
      )}
    </For>
  )
}
