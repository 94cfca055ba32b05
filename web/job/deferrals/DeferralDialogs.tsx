/** Leaving out a step, or some fasteners of a joint, due at a later step; and taking that back. */
import { createMemo, createSignal, Show } from 'solid-js'
import { FIELD_WORDS } from '../../../shared/format/field-words'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import type { Deferred } from '../../../shared/job/types'
import { isSigned } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedStep } from '../../../shared/plan/types'
import { Choices } from '../../ui/Choices'
import { Field } from '../../ui/Field'
import { Presets } from '../../ui/Presets'
import { Select } from '../../ui/Select'
import { CommandDialog } from '../CommandDialog'
import { ReasonDialog } from '../ReasonDialog'
import { useJob } from '../scope'
import {
  DEFERRAL_PRESETS,
  deferralViews,
  dueTitle,
  laterSteps,
  leaveOut,
  leftOutIn,
  takeBackLabel,
} from './deferrals'

const optionOf = ({ id, title }: AdoptedStep) => ({ value: id, title: `${id} ${title}` })

interface LeaveOutProps {
  /** Asked where it is not said. */
  stepId?: string
  /** Compact: this fastener of it, and nothing else is asked but until when and why. */
  fastener?: { joint: string; position: number }
  onClose(): void
}

export function LeaveOut(props: LeaveOutProps) {
  const { planned, may } = useJob()
  const steps = () => planned().plan.steps.filter((step) => !isSigned(planned(), step))
  const [stepId, setStepId] = createSignal(
    props.fastener
      ? (indexPlan(planned().plan).stepOfJoint.get(props.fastener.joint)?.id ?? '')
      : (props.stepId ?? steps()[0]?.id ?? ''),
  )
  /** Empty: the whole step. */
  const [jointId, setJointId] = createSignal(props.fastener?.joint ?? '')
  const [positions, setPositions] = createSignal<number[]>(props.fastener ? [props.fastener.position] : [])
  const later = createMemo(() => laterSteps(planned(), stepId()))
  const [dueStepId, setDueStepId] = createSignal(props.fastener ? (later()[0]?.id ?? '') : '')
  const [reason, setReason] = createSignal('')
  const joint = () =>
    steps()
      .find(({ id }) => id === stepId())
      ?.joints.find(({ id }) => id === jointId())
  const what = (): Deferred =>
    jointId()
      ? { kind: 'fasteners', joint: jointId(), positions: positions().toSorted((a, b) => a - b) }
      : { kind: 'step', stepId: stepId() }
  /** Known before anything is entered. */
  const refused = () => {
    if (!props.fastener) return undefined
    if (later().length === 0) return 'No later step is open.'
    return may({ type: 'Defer', what: what(), dueStepId: dueStepId(), reason: '–' })?.sentence
  }
  return (
    <CommandDialog
      title="Leave out"
      submitLabel={props.fastener ? `Leave out until ${dueStepId()}` : 'Leave out'}
      command={() => leaveOut({ what: what(), dueStepId: dueStepId(), reason: reason() })}
      refused={refused()}
      onClose={props.onClose}
    >
      <Show when={!props.fastener}>
        <Select
          label="Step"
          options={steps().map(optionOf)}
          value={stepId()}
          onValue={(id) => {
            setStepId(id)
            setJointId('')
            setPositions([])
            setDueStepId('')
          }}
        />
        <Select
          label="What of it"
          empty="the whole step"
          options={(steps().find(({ id }) => id === stepId())?.joints ?? []).map(({ id, title }) => ({
            value: id,
            title: `some of ${title}`,
          }))}
          value={jointId()}
          onValue={(id) => {
            setJointId(id)
            setPositions([])
          }}
        />
        <Show when={joint()}>
          {(joint) => (
            <Choices
              multiple
              compact
              label={`Positions of ${joint().title}`}
              options={joint().positions.map(({ n, label }) => ({
                id: n,
                title: `${n} ${label ?? ''}`.trim(),
              }))}
              value={positions()}
              onValue={setPositions}
            />
          )}
        </Show>
      </Show>
      <div class="whole">
        <Select
          label="Due at"
          {...(props.fastener ? {} : { empty: 'choose a later step' })}
          options={later().map(optionOf)}
          value={dueStepId()}
          onValue={setDueStepId}
        />
      </div>
      <Presets options={DEFERRAL_PRESETS} onValue={setReason} />
      <div class="whole">
        <Field
          label={FIELD_WORDS.reason}
          value={reason()}
          onValue={setReason}
          required
          maxLength={TEXT_LENGTHS.reason}
        />
      </div>
      <p class="small pencil whole">That step cannot be signed before this is done.</p>
    </CommandDialog>
  )
}

export function TakeBack(props: { deferralId: string; onClose(): void }) {
  const { planned } = useJob()
  const view = () => deferralViews(planned()).find(({ deferral }) => deferral.id === props.deferralId)
  return (
    <Show when={view()}>
      {(view) => (
        <ReasonDialog
          title={takeBackLabel(view().deferral)}
          about={[
            `${view().what}: due at ${leftOutIn(planned(), view().deferral)} again, not at ${dueTitle(view())}.`,
          ]}
          label="Why is it not left out any more?"
          submitLabel={takeBackLabel(view().deferral)}
          commands={(reason) => [{ type: 'WithdrawDeferral', deferralId: props.deferralId, reason }]}
          onClose={props.onClose}
        />
      )}
    </Show>
  )
}
