/** A fastener left out on purpose: until which later step, and why. What was left out here stays listed. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { indexPlan } from '../../../shared/plan/read'
import { positionsInWords } from '../../../shared/words'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Field } from '../../ui/Field'
import { useBench } from './bench'
import { laterSteps, leftOutOf } from './left-out'
import './beside.css'

const REASONS = ['In the way of a later fit', 'Part not here yet', 'Set together with the next part'] as const

export function LeaveOut(props: { position: number; onDone: () => void }) {
  const bench = useBench()
  const scope = useJob()
  const [open, setOpen] = createSignal(false)
  const [dueStepId, setDue] = createSignal('')
  const [reason, setReason] = createSignal('')
  const joint = () => bench.round()?.joint
  const command = () => ({
    type: 'Defer' as const,
    what: { kind: 'fasteners' as const, joint: joint()?.id ?? '', positions: [props.position] },
    dueStepId: dueStepId() || (later()[0]?.id ?? ''),
    reason: reason().trim() || '-',
  })
  const later = createMemo(() => {
    const own = joint() && indexPlan(scope.planned().plan).stepOfJoint.get(joint()?.id ?? '')
    return own ? laterSteps(scope.planned(), own.id) : []
  })
  const stopped = createMemo(() =>
    later().length > 0 ? scope.may(command())?.sentence : 'No later step is open.',
  )
  return (
    <Show
      when={open()}
      fallback={
        <Button variant="quiet" onClick={() => setOpen(true)}>
          Leave it out on purpose…
        </Button>
      }
    >
      <section class="declare" aria-label="Leave it out">
        <Show when={!stopped()} fallback={<p class="sentence against">{stopped()}</p>}>
          <div class="field">
            <label for="leave-until">Due at which later step</label>
            <select id="leave-until" onChange={(event) => setDue(event.currentTarget.value)}>
              <For each={later()}>
                {(step) => (
                  <option value={step.id} selected={step.id === dueStepId()}>
                    {step.id} {step.title}
                  </option>
                )}
              </For>
            </select>
          </div>
          <div class="panel-buttons">
            <For each={REASONS}>{(text) => <Button onClick={() => setReason(text)}>{text}</Button>}</For>
          </div>
          <Field label="Why" value={reason()} maxLength={200} onValue={setReason} />
          <Button
            variant="main"
            wide
            disabled={reason().trim() === ''}
            onClick={() => {
              void scope.send(command())
              props.onDone()
            }}
          >
            {reason().trim() === '' ? 'Say why' : `Left out until ${command().dueStepId}`}
          </Button>
          <p class="small pencil">That step cannot be signed before this one is tightened.</p>
        </Show>
      </section>
    </Show>
  )
}

/** What was left out of this step, where it is due, and the way back. */
export function LeftOutHere() {
  const bench = useBench()
  const scope = useJob()
  const items = createMemo(() => leftOutOf(scope.planned(), bench.step()))
  return (
    <Show when={items().length > 0}>
      <section>
        <h2>Left out on purpose</h2>
        <For each={items()}>
          {({ deferral, title, positions }) => {
            const back = () => ({
              type: 'WithdrawDeferral' as const,
              deferralId: deferral.id,
              reason: 'Fitted here after all',
            })
            return (
              <div class="left-out">
                <p>
                  <strong>
                    {title} {positionsInWords(positions)}
                  </strong>
                  , due at {deferral.dueStepId}: {deferral.reason} <Stripe person={deferral.made.by} />
                </p>
                <Show when={!scope.may(back())}>
                  <Button onClick={() => void scope.send(back())}>Fitted here after all</Button>
                </Show>
              </div>
            )
          }}
        </For>
      </section>
    </Show>
  )
}
