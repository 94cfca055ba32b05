/** A wrench's card. What a change means for the work stands under it before it is written. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Wrench } from '../../../shared/shop/types'
import { TORQUE_UNITS } from '../../../shared/units'
import type { ShopDesk } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { Choices } from '../../ui/Choices'
import { Dialog } from '../../ui/Dialog'
import { createDraft } from '../../ui/draft'
import { Sentence } from '../../ui/Sentence'
import {
  changeMeans,
  draftOf,
  KIND_MEANS,
  KIND_WORDS,
  STATE_WORDS,
  type WrenchDraft,
  wrenchFrom,
} from './wrenches'

const KINDS = ['click', 'indicating', 'angle_gauge'] as const
const STATES = ['in_service', 'out_for_check', 'failed', 'dropped'] as const

export function WrenchForm(props: { desk: ShopDesk; before?: Wrench; onClose(): void }) {
  const { desk, before } = props
  const [why, setWhy] = createSignal<string>()
  const [busy, setBusy] = createSignal(false)
  const { draft, change, Entry } = createDraft<WrenchDraft>(draftOf(before), () => setWhy())
  const card = createMemo(() => wrenchFrom(draft(), before))
  const command = (wrench: Wrench) => ({ type: before ? 'ChangeWrench' : 'AddWrench', wrench }) as const
  const means = () => {
    const wrench = card()
    return typeof wrench === 'string' ? [] : changeMeans(before, wrench, desk.now())
  }
  const taken = () => {
    const id = draft().id.trim()
    return !before && Object.hasOwn(desk.shop().wrenches, id) ? `${id} hangs in the crib already.` : undefined
  }

  async function write(event: SubmitEvent): Promise<void> {
    event.preventDefault()
    const wrench = card()
    const fault = typeof wrench === 'string' ? wrench : desk.may(command(wrench))?.sentence
    setWhy(fault)
    if (fault || typeof wrench === 'string') return
    setBusy(true)
    const sentence = await desk.send(command(wrench))
    setBusy(false)
    setWhy(sentence)
    if (!sentence) props.onClose()
  }

  return (
    <Dialog
      open
      broad
      title={before ? `The card of ${before.id}` : 'Hang a wrench in the crib'}
      onClose={props.onClose}
    >
      <form class="sheet-form" onSubmit={write} novalidate>
        <Show when={before}>
          <div class="whole">
            <Choices
              label="State"
              options={STATES.map((id) => ({ id, title: STATE_WORDS[id] }))}
              value={draft().state}
              onValue={(state) => change({ state })}
            />
          </div>
        </Show>
        <Show
          when={!before}
          fallback={
            <p class="whole">
              <b>{draft().id}</b>, {KIND_WORDS[draft().kind]}. Its name stays: the record speaks of it.
            </p>
          }
        >
          <Entry
            of="id"
            label="Its name in the crib"
            hint="As painted or engraved on it; it cannot be changed later."
            {...(taken() ? { error: taken() as string } : {})}
            required
            maxLength={40}
            autocomplete="off"
          />
        </Show>
        <Entry
          of="title"
          label="What it is"
          hint="As one would ask for it: click wrench 10–60."
          required
          maxLength={120}
          autocomplete="off"
        />
        <Show when={!before}>
          <div class="whole">
            <Choices
              label="Kind"
              options={KINDS.map((id) => ({ id, title: KIND_WORDS[id], hint: KIND_MEANS[id] }))}
              value={draft().kind}
              onValue={(kind) => change({ kind })}
            />
          </div>
        </Show>
        <Show when={draft().kind !== 'angle_gauge'}>
          <div class="field">
            <label for="wrench-unit">Unit on its scale</label>
            <select
              id="wrench-unit"
              value={draft().unit}
              onChange={(event) => change({ unit: event.currentTarget.value as Wrench['unit'] })}
            >
              <For each={TORQUE_UNITS}>
                {(unit) => (
                  <option value={unit} selected={unit === draft().unit}>
                    {unit}
                  </option>
                )}
              </For>
            </select>
          </div>
        </Show>
        <Entry of="min" label="Lowest on its scale" inputmode="decimal" />
        <Entry of="max" label="Highest on its scale" inputmode="decimal" />
        <Entry of="increment" label="Step of the scale, if known" inputmode="decimal" />
        <Show when={draft().kind !== 'angle_gauge'}>
          <Entry
            of="lengthMm"
            label="Length in mm, if measured"
            hint="From the middle of the drive to the middle of the grip; the bench reckons crowfoots with it."
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
        <Entry of="lastChecked" label="Last checked" type="date" />
        <Entry
          of="due"
          label="Next check due"
          hint="Good through that day. Empty: never past its check."
          type="date"
        />
        <Show when={means().length > 0}>
          <div class="whole means" role="status">
            <h3>What this means</h3>
            <For each={means()}>{(sentence) => <p>{sentence}</p>}</For>
          </div>
        </Show>
        <Show when={why()}>
          <div class="whole">
            <Sentence against>{why()}</Sentence>
          </div>
        </Show>
        <Button type="submit" variant="main" disabled={busy()}>
          {busy() ? 'Writing…' : before ? 'Write the card' : 'Hang it in the crib'}
        </Button>
      </form>
    </Dialog>
  )
}
