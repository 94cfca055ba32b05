/** What steps wait for, the late ones on top; raising, changing and clearing a hold. Cleared ones are in the trail. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { JobCommand } from '../../../shared/job/commands'
import { HOLD_WORDS } from '../../../shared/job/hold-words'
import { HOLD_KINDS, type Hold, type HoldKind } from '../../../shared/job/types'
import { CommandDialog } from '../../job/CommandDialog'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { Field } from '../../ui/Field'
import { localOf, momentOf, useForms } from './office'
import { clearedLabel, openHoldViews } from './office-view'
import { StepTicks } from './StepTicks'

export function Holds() {
  const scope = useJob()
  const open = useForms()
  const now = useNow(60_000)
  const views = createMemo(() => openHoldViews(scope.job(), now(), scope.words))
  const cleared = () => scope.job().holds.length - views().length
  return (
    <section aria-labelledby="holds-head">
      <header>
        <h2 id="holds-head">On hold</h2>
        <Button onClick={() => open({ form: 'raise', stepIds: [] })}>Raise a hold</Button>
      </header>
      <ul class="office-list">
        <For
          each={views()}
          fallback={
            <li class="pencil">
              Nothing waits. When a part, a tool, an approval or an answer is missing, raise a hold on the
              steps that wait for it: they cannot be claimed, and the board says why.
            </li>
          }
        >
          {(view) => (
            <li class="hold" classList={{ late: view.late }}>
              <p class="office-what">
                <span class="hold-kind">{HOLD_WORDS[view.hold.kind]}</span> {view.hold.what}
              </p>
              <p>
                <span classList={{ against: view.late }}>{view.when}</span>
                <span class="pencil">, holds {view.hold.stepIds.join(', ')}</span>
              </p>
              <p class="pencil small">
                raised by <Stripe person={view.hold.raised.by} />{' '}
                {scope.words.moment(view.hold.raised.doneAt)}
              </p>
              <div class="office-do">
                <Button variant="quiet" onClick={() => open({ form: 'change', holdId: view.hold.id })}>
                  Change<span class="unseen"> {view.hold.what}</span>
                </Button>
                <Button onClick={() => open({ form: 'clear', holdId: view.hold.id })}>
                  Clear<span class="unseen"> {view.hold.what}</span>
                </Button>
              </div>
            </li>
          )}
        </For>
      </ul>
      <Show when={cleared() > 0}>
        <p class="pencil small">{cleared()} cleared; how is told under “What happened”.</p>
      </Show>
    </section>
  )
}

const ASKS: Record<HoldKind, string> = {
  part: 'Which part, from where',
  damage: 'What is damaged, and how',
  tool: 'Which tool',
  outside_work: 'What is done, and by whom',
  approval: 'What the owner must agree to',
  room: 'What room it needs',
  question: 'The question, and to whom',
}

export function RaiseHold(props: { stepIds: string[]; onClose(): void }) {
  const [kind, setKind] = createSignal<HoldKind>('part')
  const [what, setWhat] = createSignal('')
  const [stepIds, setStepIds] = createSignal(props.stepIds)
  const [expected, setExpected] = createSignal('')
  const raise = (): JobCommand | string => {
    if (!what().trim()) return 'Say what it waits for, in words fit to read aloud.'
    if (stepIds().length === 0) return 'Tick at least one step that waits for it.'
    const expectedAt = momentOf(expected())
    return {
      type: 'RaiseHold',
      kind: kind(),
      what: what().trim(),
      stepIds: stepIds(),
      ...(expectedAt === undefined ? {} : { expectedAt }),
    }
  }
  return (
    <CommandDialog title="Raise a hold" submitLabel="Raise the hold" command={raise} onClose={props.onClose}>
      <fieldset class="kinds whole">
        <legend>It waits for</legend>
        <For each={HOLD_KINDS}>
          {(one) => (
            <label class="kind">
              <input type="radio" name="hold-kind" checked={kind() === one} onChange={() => setKind(one)} />
              {HOLD_WORDS[one]}
            </label>
          )}
        </For>
      </fieldset>
      <div class="whole">
        <Field label={ASKS[kind()]} value={what()} onValue={setWhat} required maxLength={300} />
      </div>
      <div class="whole">
        <Field
          label="Expected, if anybody knows"
          type="datetime-local"
          value={expected()}
          onValue={setExpected}
        />
      </div>
      <StepTicks chosen={stepIds()} onChosen={setStepIds} />
    </CommandDialog>
  )
}

const holdOf = (holds: readonly Hold[], id: string) => holds.find((hold) => hold.id === id)

export function ChangeHold(props: { holdId: string; onClose(): void }) {
  const scope = useJob()
  const hold = holdOf(scope.job().holds, props.holdId)
  const [what, setWhat] = createSignal(hold?.what ?? '')
  const [expected, setExpected] = createSignal(localOf(hold?.expectedAt))
  const change = (): JobCommand | string => {
    if (!what().trim()) return 'Say what it waits for.'
    const expectedAt = momentOf(expected()) ?? null
    return { type: 'ChangeHold', holdId: props.holdId, what: what().trim(), expectedAt }
  }
  return (
    <CommandDialog title="Change the hold" submitLabel="Change it" command={change} onClose={props.onClose}>
      <div class="whole">
        <Field label="What it waits for" value={what()} onValue={setWhat} required maxLength={300} />
      </div>
      <div class="whole">
        <Field
          label="Expected; empty when nobody knows any more"
          type="datetime-local"
          value={expected()}
          onValue={setExpected}
        />
      </div>
    </CommandDialog>
  )
}

export function ClearHold(props: { holdId: string; onClose(): void }) {
  const scope = useJob()
  const hold = holdOf(scope.job().holds, props.holdId)
  const [how, setHow] = createSignal('')
  const clear = (): JobCommand | string =>
    how().trim()
      ? { type: 'ClearHold', holdId: props.holdId, how: how().trim() }
      : 'Say how it was settled: what came, who answered, what was done.'
  return (
    <CommandDialog title="Clear the hold" submitLabel="Clear it" command={clear} onClose={props.onClose}>
      <p>
        {hold?.what}. It holds {hold?.stepIds.join(', ')}.
      </p>
      <div class="whole">
        <Field
          label={clearedLabel(scope.job(), props.holdId)}
          value={how()}
          onValue={setHow}
          required
          maxLength={300}
        />
      </div>
    </CommandDialog>
  )
}
