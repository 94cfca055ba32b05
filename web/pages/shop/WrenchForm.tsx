/** A wrench's card. What a change means for the work stands under it before it is written. */
import { createMemo, For, Show } from 'solid-js'
import { FIELD_WORDS } from '../../../shared/format/field-words'
import { WRENCH_KINDS, WRENCH_STATES } from '../../../shared/shop/kinds'
import type { Wrench } from '../../../shared/shop/types'
import { TORQUE_UNITS } from '../../../shared/units'
import { type ShopScope, useShopSend } from '../../shop/scope'
import { Choices } from '../../ui/Choices'
import { DateField } from '../../ui/DateField'
import { createDraft } from '../../ui/draft'
import { FormDialog } from '../../ui/Form'
import { Select } from '../../ui/Select'
import { changeMeans, draftOf, type WrenchDraft, wrenchFrom } from './wrenches'

const KINDS = ['click', 'indicating', 'angle_gauge'] as const
const STATES = ['in_service', 'out_for_check', 'failed', 'dropped'] as const

export function WrenchForm(props: { scope: ShopScope; before?: Wrench; onClose(): void }) {
  const { scope, before } = props
  const send = useShopSend()
  const { draft, change, Entry } = createDraft<WrenchDraft>(draftOf(before))
  const card = createMemo(() => wrenchFrom(draft(), before))
  const command = (wrench: Wrench) => ({ type: before ? 'ChangeWrench' : 'AddWrench', wrench }) as const
  const means = () => {
    const wrench = card()
    return typeof wrench === 'string' ? [] : changeMeans(before, wrench, scope.now())
  }
  const taken = () => {
    const id = draft().id.trim()
    return !before && Object.hasOwn(scope.shop().wrenches, id) ? `${id} is in the crib already.` : undefined
  }

  function write() {
    const wrench = card()
    if (typeof wrench === 'string') return wrench
    return scope.may(command(wrench))?.sentence ?? send(command(wrench))
  }

  return (
    <FormDialog
      broad
      title={before ? `Change ${before.id}` : 'Add wrench'}
      submitLabel={before ? 'Save' : 'Add wrench'}
      busyLabel="Writing…"
      onSubmit={write}
      onClose={props.onClose}
    >
      <Show when={before}>
        <Choices
          label="State"
          options={STATES.map((id) => ({ id, title: WRENCH_STATES[id] }))}
          value={draft().state}
          onValue={(state) => change({ state })}
        />
      </Show>
      <Show
        when={!before}
        fallback={
          <p class="whole">
            <b>{draft().id}</b>, {WRENCH_KINDS[draft().kind].word}. Its name stays: the record speaks of it.
          </p>
        }
      >
        <Entry
          of="id"
          label="Its name in the crib"
          hint="As painted or engraved on it; it cannot be changed later."
          error={taken()}
          required
          maxLength={40}
          autocomplete="off"
        />
      </Show>
      <Entry
        of="title"
        label={FIELD_WORDS.what}
        hint="As one would ask for it: click wrench 10–60."
        required
        maxLength={120}
        autocomplete="off"
      />
      <Show when={!before}>
        <Choices
          label="Kind"
          options={KINDS.map((id) => ({ id, title: WRENCH_KINDS[id].word, hint: WRENCH_KINDS[id].means }))}
          value={draft().kind}
          onValue={(kind) => change({ kind })}
        />
      </Show>
      <Show when={draft().kind !== 'angle_gauge'}>
        <Select
          label="Unit on its scale"
          value={draft().unit}
          options={TORQUE_UNITS.map((unit) => ({ value: unit, title: unit }))}
          onValue={(unit) => change({ unit: unit as Wrench['unit'] })}
        />
      </Show>
      <Entry of="min" label={FIELD_WORDS.min} inputmode="decimal" />
      <Entry of="max" label={FIELD_WORDS.max} inputmode="decimal" />
      <Entry of="increment" label="Step of the scale, if known" inputmode="decimal" />
      <Show when={draft().kind !== 'angle_gauge'}>
        <Entry
          of="lengthMm"
          label="Drive to grip in mm, if measured"
          hint="From the middle of the drive to the middle of the grip: the bench needs it to compute crowfoots."
          inputmode="decimal"
        />
      </Show>
      <Entry
        of="away"
        label="Where it is, when not in the crib"
        hint="As one would say it: often at the slip. The bench ranks it behind those within reach."
        maxLength={80}
        autocomplete="off"
      />
      <DateField
        label={FIELD_WORDS.lastCheckedAt}
        value={draft().lastChecked}
        onValue={(lastChecked) => change({ lastChecked })}
      />
      <DateField
        label={FIELD_WORDS.dueAt}
        hint="Good through that day. Empty: never past its check."
        value={draft().due}
        onValue={(due) => change({ due })}
      />
      <Show when={means().length > 0}>
        <div class="whole means caution stack" role="status">
          <h3>What this means</h3>
          <For each={means()}>{(sentence) => <p>{sentence}</p>}</For>
        </div>
      </Show>
    </FormDialog>
  )
}
