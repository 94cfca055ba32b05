/** Leaving something out on purpose: a step, or some heads of a joint, due at a later step. */
import { createSignal, For, Show } from 'solid-js'
import type { JobCommand } from '../../../shared/job/commands'
import type { Deferred } from '../../../shared/job/types'
import { isSigned } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import { CommandDialog } from '../../job/CommandDialog'
import { useJob } from '../../job/scope'
import { Field } from '../../ui/Field'

export function LeaveOut(props: { stepId: string | undefined; onClose(): void }) {
  const scope = useJob()
  const steps = () => scope.planned().plan.steps.filter((step) => !isSigned(scope.planned(), step))
  const [stepId, setStepId] = createSignal(props.stepId ?? steps()[0]?.id ?? '')
  /** Empty: the whole step. */
  const [jointId, setJointId] = createSignal('')
  const [positions, setPositions] = createSignal<number[]>([])
  const [dueStepId, setDueStepId] = createSignal('')
  const [reason, setReason] = createSignal('')
  const step = (): AdoptedStep | undefined => steps().find(({ id }) => id === stepId())
  const joint = () => step()?.joints.find(({ id }) => id === jointId())
  const later = () => {
    const all = scope.planned().plan.steps
    const after = all.findIndex(({ id }) => id === stepId())
    return all.slice(after + 1).filter((one) => !isSigned(scope.planned(), one))
  }
  const leave = (): JobCommand | string => {
    const one = joint()
    if (one && positions().length === 0) return 'Tick the positions that are left out.'
    if (!dueStepId()) return 'Choose the step where it is due.'
    if (!reason().trim()) return 'Say why it is left out.'
    const what: Deferred = one
      ? { kind: 'fasteners', joint: one.id, positions: positions() }
      : { kind: 'step', stepId: stepId() }
    return { type: 'Defer', what, dueStepId: dueStepId(), reason: reason().trim() }
  }
  return (
    <CommandDialog
      title="Leave out, due later"
      submitLabel="Leave it out"
      command={leave}
      onClose={props.onClose}
    >
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
    </CommandDialog>
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
