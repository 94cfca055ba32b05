/** What was left out on purpose: what, where it is due, why, for how long; leaving out a step, and withdrawing. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Deferred } from '../../../shared/job/types'
import { isSigned } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'
import { Stripe } from '../../ui/Stripe'
import { goTo } from './bring-up'
import { planned, useDesk } from './desk'
import { sayOrHear, useForms } from './office'
import { ageWords, deferralViews } from './office-view'
import { useNow } from './use-now'

export function Deferrals() {
  const desk = useDesk()
  const open = useForms()
  const now = useNow(60_000)
  const views = createMemo(() => deferralViews(planned(desk)))
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
                  <span class="pencil">, left out {ageWords(view.since, now())}</span>
                </Show>
              </p>
              <p class="pencil small">
                {view.reason} <Stripe person={view.by} /> {desk.words.moment(view.since)}
              </p>
              <Show when={!view.closed}>
                <div class="office-do">
                  <Button look="quiet" onClick={() => open({ form: 'withdraw', deferralId: view.id })}>
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

export function LeaveOut(props: { stepId: string | undefined; onClose(): void }) {
  const desk = useDesk()
  const steps = () => planned(desk).plan.steps.filter((step) => !isSigned(planned(desk), step))
  const [stepId, setStepId] = createSignal(props.stepId ?? steps()[0]?.id ?? '')
  /** Empty: the whole step. */
  const [jointId, setJointId] = createSignal('')
  const [positions, setPositions] = createSignal<number[]>([])
  const [dueStepId, setDueStepId] = createSignal('')
  const [reason, setReason] = createSignal('')
  const [why, setWhy] = createSignal<string>()
  const step = (): AdoptedStep | undefined => steps().find(({ id }) => id === stepId())
  const joint = () => step()?.joints.find(({ id }) => id === jointId())
  const later = () => {
    const all = planned(desk).plan.steps
    const after = all.findIndex(({ id }) => id === stepId())
    return all.slice(after + 1).filter((one) => !isSigned(planned(desk), one))
  }
  const leave = (event: SubmitEvent) => {
    event.preventDefault()
    const one = joint()
    if (one && positions().length === 0) return setWhy('Tick the positions that are left out.')
    if (!dueStepId()) return setWhy('Choose the step where it is due.')
    if (!reason().trim()) return setWhy('Say why it is left out.')
    const what: Deferred = one
      ? { kind: 'fasteners', joint: one.id, positions: positions() }
      : { kind: 'step', stepId: stepId() }
    const said = sayOrHear(desk, { type: 'Defer', what, dueStepId: dueStepId(), reason: reason().trim() })
    if (said) setWhy(said)
    else props.onClose()
  }
  return (
    <Dialog open title="Leave out, due later" onClose={props.onClose}>
      <form class="sheet-form" onSubmit={leave} novalidate>
        <Choose
          label="Step"
          value={stepId()}
          onValue={(id) => {
            setStepId(id)
            setJointId('')
            setPositions([])
            setDueStepId('')
          }}
        >
          {steps()}
        </Choose>
        <div class="field">
          <label for="left-out-joint">What of it</label>
          <select
            id="left-out-joint"
            onChange={(event) => {
              setJointId(event.currentTarget.value)
              setPositions([])
            }}
          >
            <option value="" selected={jointId() === ''}>
              the whole step
            </option>
            <For each={step()?.joints ?? []}>
              {(one) => <option value={one.id}>some of {one.title}</option>}
            </For>
          </select>
        </div>
        <Show when={joint()}>
          {(one) => (
            <fieldset class="kinds whole">
              <legend>Positions of {one().title}</legend>
              <For each={one().positions}>
                {({ n, label }) => (
                  <label class="kind">
                    <input
                      type="checkbox"
                      checked={positions().includes(n)}
                      onChange={(event) =>
                        setPositions(
                          event.currentTarget.checked
                            ? [...positions(), n].sort((a, b) => a - b)
                            : positions().filter((other) => other !== n),
                        )
                      }
                    />
                    {n}
                    {label ? ` ${label}` : ''}
                  </label>
                )}
              </For>
            </fieldset>
          )}
        </Show>
        <div class="whole">
          <Choose label="Due at" value={dueStepId()} onValue={setDueStepId} none="choose a later step">
            {later()}
          </Choose>
        </div>
        <div class="whole">
          <Field label="Reason" value={reason()} onValue={setReason} required maxLength={300} />
        </div>
        <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        <Button type="submit" look="main">
          Leave it out
        </Button>
      </form>
    </Dialog>
  )
}

interface ChooseProps {
  label: string
  value: string
  onValue(id: string): void
  none?: string
  children: readonly AdoptedStep[]
}

function Choose(props: ChooseProps) {
  const id = () => `choose-${props.label.toLowerCase().replaceAll(' ', '-')}`
  return (
    <div class="field">
      <label for={id()}>{props.label}</label>
      <select id={id()} onChange={(event) => props.onValue(event.currentTarget.value)}>
        <Show when={props.none}>
          <option value="" selected={props.value === ''}>
            {props.none}
          </option>
        </Show>
        <For each={props.children}>
          {(step) => (
            <option value={step.id} selected={props.value === step.id}>
              {step.id} {step.title}
            </option>
          )}
        </For>
      </select>
    </div>
  )
}

export function Withdraw(props: { deferralId: string; onClose(): void }) {
  const desk = useDesk()
  const view = () => deferralViews(planned(desk)).find(({ id }) => id === props.deferralId)
  const [reason, setReason] = createSignal('')
  const [why, setWhy] = createSignal<string>()
  const withdraw = (event: SubmitEvent) => {
    event.preventDefault()
    if (!reason().trim()) return setWhy('Say why it is done in its place after all.')
    const said = sayOrHear(desk, {
      type: 'WithdrawDeferral',
      deferralId: props.deferralId,
      reason: reason().trim(),
    })
    if (said) setWhy(said)
    else props.onClose()
  }
  return (
    <Dialog open title="Not left out after all" onClose={props.onClose}>
      <form class="sheet-form" onSubmit={withdraw} novalidate>
        <p>
          {view()?.what}, due at {view()?.due.id} {view()?.due.title}.
        </p>
        <div class="whole">
          <Field label="Reason" value={reason()} onValue={setReason} required maxLength={300} />
        </div>
        <Show when={why()}>{(sentence) => <Sentence against>{sentence()}</Sentence>}</Show>
        <Button type="submit" look="main">
          Withdraw it
        </Button>
      </form>
    </Dialog>
  )
}
