/** What the shop allows where neither the maker nor the plan gives limits, and whether a doer may look again. */
import { createSignal, For, Show } from 'solid-js'
import { FIELD_WORDS } from '../../../shared/format/field-words'
import { CLASSES, JOINT_CLASSES } from '../../../shared/plan/kinds'
import { format } from '../../format'
import { type ShopScope, useShopSend } from '../../shop/scope'
import { Choices } from '../../ui/Choices'
import { Field } from '../../ui/Field'
import { Form } from '../../ui/Form'
import { exampleWords, recheckFrom, recheckWords, toleranceDraft, tolerancesFrom } from './tolerances'

const FIRST_MINUTES = '240'

export function TolerancesPart(props: { scope: ShopScope }) {
  return (
    <div class="two-parts">
      <Bands scope={props.scope} />
      <SelfRecheckPart scope={props.scope} />
    </div>
  )
}

function Bands(props: { scope: ShopScope }) {
  const { scope } = props
  const send = useShopSend()
  const [typed, setTyped] = createSignal<ReturnType<typeof toleranceDraft>>()
  const draft = () => typed() ?? toleranceDraft(scope.shop().tolerances)
  const read = () => tolerancesFrom(draft())
  const shown = () => {
    const tolerances = read()
    return typeof tolerances === 'string' ? undefined : tolerances
  }

  function set() {
    const tolerances = read()
    if (typeof tolerances === 'string') return tolerances
    const command = { type: 'SetTolerances', tolerances } as const
    return scope.may(command)?.sentence ?? send(command)
  }

  return (
    <section class="stack roomy" aria-labelledby="bands-title">
      <h2 id="bands-title">Tolerances</h2>
      <p>
        They hold only where neither the maker nor the plan gives limits. A job keeps the bands of the day it
        adopted its plan: a change here does not touch its readings.
      </p>
      <Show
        when={scope.mayEdit()}
        fallback={
          <dl class="pairs">
            <For each={JOINT_CLASSES}>
              {(cls) => (
                <>
                  <dt>Class {cls}</dt>
                  <dd>
                    ± {format.number(scope.shop().tolerances.percent[cls])} %:{' '}
                    {exampleWords(scope.shop().tolerances, cls)}
                  </dd>
                </>
              )}
            </For>
            <dt>Angle</dt>
            <dd>± {format.number(scope.shop().tolerances.angleDeg)}°</dd>
          </dl>
        }
      >
        <Form
          submitLabel="Save tolerances"
          doneMessage="Set. Plans adopted from now on are judged by these."
          onSubmit={set}
          onDone={() => setTyped()}
        >
          <For each={JOINT_CLASSES}>
            {(cls) => (
              <Field
                label={`Class ${cls}, ± per cent`}
                inputmode="decimal"
                value={draft()[cls]}
                hint={`${CLASSES[cls]}${shown() ? `; ${exampleWords(shown() as never, cls)}` : ''}`}
                onValue={(value) => setTyped({ ...draft(), [cls]: value })}
              />
            )}
          </For>
          <Field
            label="Angle, ± degrees"
            inputmode="decimal"
            value={draft().angle}
            hint="Either side of the angle asked."
            onValue={(angle) => setTyped({ ...draft(), angle })}
          />
          <p class="small pencil">
            A new shop begins with 5, 10 and 15 per cent and 5 degrees: common practice, without a source. The
            maker’s information governs.
          </p>
        </Form>
      </Show>
    </section>
  )
}

function SelfRecheckPart(props: { scope: ShopScope }) {
  const { scope } = props
  const send = useShopSend()
  const stands = () => scope.shop().selfRecheck
  const [choice, setChoice] = createSignal<'off' | 'on'>()
  const [minutes, setMinutes] = createSignal<string>()
  const on = () => (choice() ?? (stands().allowed ? 'on' : 'off')) === 'on'
  const shownMinutes = () => {
    const now = stands()
    return minutes() ?? (now.allowed ? `${now.afterMinutes}` : FIRST_MINUTES)
  }
  const read = () => recheckFrom(on(), shownMinutes())

  function set() {
    const selfRecheck = read()
    if (typeof selfRecheck === 'string') return selfRecheck
    const command = { type: 'SetSelfRecheck', selfRecheck } as const
    return scope.may(command)?.sentence ?? send(command)
  }

  return (
    <section class="stack roomy" aria-labelledby="recheck-title">
      <h2 id="recheck-title">Looking again at one’s own work</h2>
      <p>
        For a shop where often only one person is in: the same person, later, with fresh eyes. It is off
        unless set here, and never for class A.
      </p>
      <Show when={scope.mayEdit()} fallback={<p>{recheckWords(stands())}</p>}>
        <Form
          submitLabel="Save"
          doneMessage="Set. It holds from now on, also for what is signed already."
          onSubmit={set}
          onDone={() => {
            setChoice()
            setMinutes()
          }}
        >
          <Choices
            label="Own work, looked at again"
            options={[
              { id: 'off', title: 'off' },
              { id: 'on', title: 'class B and C, after an interval' },
            ]}
            value={on() ? 'on' : 'off'}
            onValue={(id) => setChoice(id)}
          />
          <Show when={on()}>
            <Field
              label={FIELD_WORDS.afterMinutes}
              inputmode="numeric"
              value={shownMinutes()}
              onValue={(value) => setMinutes(value)}
            />
          </Show>
          <Show when={typeof read() !== 'string'}>
            <p>{recheckWords(read() as never)}</p>
          </Show>
        </Form>
      </Show>
    </section>
  )
}
