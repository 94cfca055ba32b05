/** Putting steps on hold, changing a hold, and clearing it. Compact: the step is known, and a day is enough. */
import { createSignal, Show } from 'solid-js'
import { HOLD_KINDS, type HoldKind } from '../../../shared/job/kinds'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import { kindsOf } from '../../../shared/kinds'
import { Choices } from '../../ui/Choices'
import { DateTimeField } from '../../ui/DateField'
import { Field } from '../../ui/Field'
import { Presets } from '../../ui/Presets'
import { CommandDialog } from '../CommandDialog'
import { ReasonDialog } from '../ReasonDialog'
import { useJob } from '../scope'
import { changeHold, clearedLabel, HOLD_FORMS, holdOf, raiseHold } from './holds'
import { StepTicks } from './StepTicks'

export function RaiseHold(props: { stepIds: readonly string[]; compact?: boolean; onClose(): void }) {
  const [kind, setKind] = createSignal<HoldKind>()
  const [what, setWhat] = createSignal('')
  const [stepIds, setStepIds] = createSignal(props.stepIds)
  const [expectedAt, setExpectedAt] = createSignal<number>()
  return (
    <CommandDialog
      title={props.compact ? `Put ${props.stepIds.join()} on hold` : 'Put on hold'}
      submitLabel="Put on hold"
      command={() => raiseHold({ kind: kind(), what: what(), stepIds: stepIds(), expectedAt: expectedAt() })}
      // On a bench it then stands on top of the page; that is where one looks next.
      onSent={() => props.compact && window.scrollTo({ top: 0 })}
      onClose={props.onClose}
    >
      <Choices
        label="It waits for"
        compact
        options={kindsOf(HOLD_KINDS).map((id) => ({ id, title: HOLD_KINDS[id].word }))}
        value={kind()}
        onValue={setKind}
      />
      <Show when={kind()}>
        {(kind) => (
          <>
            <Presets options={HOLD_FORMS[kind()].presets} onValue={setWhat} />
            <div class="whole">
              <Field
                label={HOLD_FORMS[kind()].label}
                value={what()}
                onValue={setWhat}
                required
                maxLength={TEXT_LENGTHS.reason}
              />
            </div>
            <DateTimeField
              label="Expected on, if known"
              dayOnly={props.compact}
              value={expectedAt()}
              onValue={setExpectedAt}
            />
          </>
        )}
      </Show>
      <Show when={!props.compact}>
        <StepTicks chosen={stepIds()} onChosen={setStepIds} />
      </Show>
    </CommandDialog>
  )
}

export function ChangeHold(props: { holdId: string; onClose(): void }) {
  const hold = holdOf(useJob().job(), props.holdId)
  const [what, setWhat] = createSignal(hold?.what ?? '')
  const [expectedAt, setExpectedAt] = createSignal(hold?.expectedAt)
  return (
    <CommandDialog
      title="Change hold"
      submitLabel="Save"
      command={() => changeHold(props.holdId, { what: what(), expectedAt: expectedAt() })}
      onClose={props.onClose}
    >
      <div class="whole">
        <Field
          label="What it waits for"
          value={what()}
          onValue={setWhat}
          required
          maxLength={TEXT_LENGTHS.reason}
        />
      </div>
      <DateTimeField label="Expected on, if known" value={expectedAt()} onValue={setExpectedAt} />
    </CommandDialog>
  )
}

export function ClearHold(props: { holdId: string; onClose(): void }) {
  const { job } = useJob()
  const hold = () => holdOf(job(), props.holdId)
  return (
    <ReasonDialog
      title="Clear hold"
      about={[`${hold()?.what}. It holds ${hold()?.stepIds.join(', ')}.`]}
      label={clearedLabel(hold())}
      submitLabel="Clear hold"
      commands={(how) => [{ type: 'ClearHold', holdId: props.holdId, how }]}
      onClose={props.onClose}
    />
  )
}
