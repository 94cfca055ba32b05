/** What this step waits for: an open hold on top with its clear, and the press that raises one. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import { HOLD_WORDS } from '../../../shared/job/hold-words'
import { HOLD_KINDS, type HoldKind } from '../../../shared/job/types'
import { openHolds } from '../../../shared/job/verdicts'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { useBench } from './bench'
import { HOLD_PRESETS, noonOf } from './hold-presets'
import './entry.css'
import './plates.css'

export function Holds() {
  const bench = useBench()
  const scope = useJob()
  const holds = createMemo(() => openHolds(scope.planned(), bench.step().id))
  return (
    <For each={holds()}>
      {(hold) => (
        <section class="stop" aria-label="On hold">
          <h2>On hold: {HOLD_WORDS[hold.kind]}</h2>
          <p>
            {hold.what}
            {hold.expectedAt === undefined ? '' : `, expected ${scope.words.moment(hold.expectedAt)}`}.{' '}
            <Stripe person={hold.raised.by} /> {scope.words.moment(hold.raised.doneAt)}
          </p>
          <p class="small">The step is neither claimed nor signed before this is settled.</p>
          <Show
            when={hold.kind !== 'approval'}
            fallback={
              <p>The office clears it on the engine page, with who agreed, when and to what amount.</p>
            }
          >
            <div class="panel-buttons">
              <Button
                onClick={() =>
                  void scope.send({ type: 'ClearHold', holdId: hold.id, how: CLEARED[hold.kind] })
                }
              >
                {CLEARED[hold.kind]}: clear it
              </Button>
            </div>
          </Show>
        </section>
      )}
    </For>
  )
}

const CLEARED: Record<HoldKind, string> = {
  part: 'The part is here',
  damage: 'Put right',
  tool: 'The tool is here',
  outside_work: 'Back from outside',
  approval: 'Approved',
  room: 'There is room',
  question: 'Answered',
}

export function RaiseHold(props: { open: boolean; onClose: () => void }) {
  const bench = useBench()
  const scope = useJob()
  const [kind, setKind] = createSignal<HoldKind>()
  const [what, setWhat] = createSignal('')
  const [day, setDay] = createSignal('')
  const close = () => {
    setKind(undefined)
    setWhat('')
    setDay('')
    props.onClose()
  }
  const raise = () => {
    const one = kind()
    if (!one || what().trim() === '') return
    const expectedAt = noonOf(day())
    void scope.send({
      type: 'RaiseHold',
      kind: one,
      stepIds: [bench.step().id],
      what: what().trim(),
      ...(expectedAt === undefined ? {} : { expectedAt }),
    })
    close()
    // The hold stands on top of the page; that is where one looks next.
    window.scrollTo({ top: 0 })
  }
  return (
    <Dialog open={props.open} title={`What does ${bench.step().id} wait for?`} onClose={close}>
      <div class="panel-buttons">
        <For each={HOLD_KINDS}>
          {(one) => (
            <button
              type="button"
              class="plate"
              classList={{ shown: kind() === one }}
              aria-pressed={kind() === one}
              onClick={() => setKind(one)}
            >
              {capital(HOLD_WORDS[one])}
            </button>
          )}
        </For>
      </div>
      <Show when={kind()} fallback={<p class="pencil">Choose what it is first.</p>}>
        {(one) => (
          <div class="entry">
            <div class="panel-buttons">
              <For each={HOLD_PRESETS[one()]}>
                {(text) => <Button onClick={() => setWhat(text)}>{text}</Button>}
              </For>
            </div>
            <Field label="What exactly" value={what()} maxLength={200} onValue={setWhat} />
            <Field label="Expected, if known" type="date" value={day()} onValue={setDay} />
            <Button variant="main" wide disabled={what().trim() === ''} onClick={raise}>
              {what().trim() === '' ? 'Say what it waits for' : 'Put this step on hold'}
            </Button>
          </div>
        )}
      </Show>
    </Dialog>
  )
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
