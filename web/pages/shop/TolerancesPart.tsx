/** What the shop allows where neither the maker nor the plan gives limits, and whether a doer may look again. */
import { createSignal, For, Show } from 'solid-js'
import { JOINT_CLASSES } from '../../../shared/plan/types'
import type { ShopDesk } from '../../shop/scope'
import { Button } from '../../ui/Button'
import { Choices } from '../../ui/Choices'
import { Field } from '../../ui/Field'
import { Sentence } from '../../ui/Sentence'
import { CLASS_WORDS } from './people'
import { exampleWords, recheckFrom, recheckWords, toleranceDraft, tolerancesFrom } from './tolerances'

const FIRST_MINUTES = '240'

export function TolerancesPart(props: { desk: ShopDesk }) {
  return (
    <div class="two-parts">
      <Bands desk={props.desk} />
      <SelfRecheckPart desk={props.desk} />
    </div>
  )
}

function Bands(props: { desk: ShopDesk }) {
  const { desk } = props
  const [typed, setTyped] = createSignal<ReturnType<typeof toleranceDraft>>()
  const [why, setWhy] = createSignal<string>()
  const [said, setSaid] = createSignal<string>()
  const draft = () => typed() ?? toleranceDraft(desk.shop().tolerances)
  const read = () => tolerancesFrom(draft())
  const shown = () => {
    const tolerances = read()
    return typeof tolerances === 'string' ? undefined : tolerances
  }

  async function set(event: SubmitEvent): Promise<void> {
    event.preventDefault()
    const tolerances = read()
    setSaid()
    if (typeof tolerances === 'string') return void setWhy(tolerances)
    const command = { type: 'SetTolerances', tolerances } as const
    const sentence = desk.may(command)?.sentence ?? (await desk.send(command))
    setWhy(sentence)
    if (sentence) return
    setTyped()
    setSaid('Set. Plans adopted from now on are judged by these.')
  }

  return (
    <section aria-labelledby="bands-title">
      <h2 id="bands-title">Tolerances</h2>
      <p>
        They hold only where neither the maker nor the plan gives limits. A job keeps the bands of the day it
        adopted its plan: a change here moves none of its readings.
      </p>
      <Show
        when={desk.mayEdit()}
        fallback={
          <dl class="pairs">
            <For each={JOINT_CLASSES}>
              {(cls) => (
                <>
                  <dt>Class {cls}</dt>
                  <dd>
                    ± {desk.shop().tolerances.percent[cls]} %: {exampleWords(desk.shop().tolerances, cls)}
                  </dd>
                </>
              )}
            </For>
            <dt>Angle</dt>
            <dd>± {desk.shop().tolerances.angleDeg}°</dd>
          </dl>
        }
      >
        <form class="sheet-form" onSubmit={set} novalidate>
          <For each={JOINT_CLASSES}>
            {(cls) => (
              <Field
                label={`Class ${cls}, ± per cent`}
                inputmode="decimal"
                value={draft()[cls]}
                hint={`${CLASS_WORDS[cls]}${shown() ? `; ${exampleWords(shown() as never, cls)}` : ''}`}
                onValue={(value) => {
                  setWhy()
                  setTyped({ ...draft(), [cls]: value })
                }}
              />
            )}
          </For>
          <Field
            label="Angle, ± degrees"
            inputmode="decimal"
            value={draft().angle}
            hint="Either side of the angle asked."
            onValue={(angle) => {
              setWhy()
              setTyped({ ...draft(), angle })
            }}
          />
          <p class="small pencil">
            5, 10 and 15 per cent and 5 degrees, which a new shop begins with, are common practice, no source.
            The maker’s information governs.
          </p>
          <Show when={why() ?? said()}>
            <div class="whole">
              <Sentence against={why() !== undefined}>{why() ?? said()}</Sentence>
            </div>
          </Show>
          <Button type="submit" variant="main">
            Set the tolerances
          </Button>
        </form>
      </Show>
    </section>
  )
}

function SelfRecheckPart(props: { desk: ShopDesk }) {
  const { desk } = props
  const stands = () => desk.shop().selfRecheck
  const [choice, setChoice] = createSignal<'off' | 'on'>()
  const [minutes, setMinutes] = createSignal<string>()
  const [why, setWhy] = createSignal<string>()
  const [said, setSaid] = createSignal<string>()
  const on = () => (choice() ?? (stands().allowed ? 'on' : 'off')) === 'on'
  const shownMinutes = () => {
    const now = stands()
    return minutes() ?? (now.allowed ? `${now.afterMinutes}` : FIRST_MINUTES)
  }
  const read = () => recheckFrom(on(), shownMinutes())

  async function set(event: SubmitEvent): Promise<void> {
    event.preventDefault()
    const selfRecheck = read()
    setSaid()
    if (typeof selfRecheck === 'string') return void setWhy(selfRecheck)
    const command = { type: 'SetSelfRecheck', selfRecheck } as const
    const sentence = desk.may(command)?.sentence ?? (await desk.send(command))
    setWhy(sentence)
    if (sentence) return
    setChoice()
    setMinutes()
    setSaid('Set. It holds from now on, also for what is signed already.')
  }

  return (
    <section aria-labelledby="recheck-title">
      <h2 id="recheck-title">Looking again at one’s own work</h2>
      <p>
        For a shop where often only one person is in: the same hand, later, with fresh eyes. It is off unless
        set here, and never for class A.
      </p>
      <Show when={desk.mayEdit()} fallback={<p>{recheckWords(stands())}</p>}>
        <form class="sheet-form" onSubmit={set} novalidate>
          <div class="whole">
            <Choices
              label="Declared self-recheck"
              options={[
                { id: 'off', title: 'off' },
                { id: 'on', title: 'class B and C, after an interval' },
              ]}
              value={on() ? 'on' : 'off'}
              onValue={(id) => {
                setWhy()
                setChoice(id)
              }}
            />
          </div>
          <Show when={on()}>
            <Field
              label="After how many minutes"
              inputmode="numeric"
              value={shownMinutes()}
              onValue={(value) => {
                setWhy()
                setMinutes(value)
              }}
            />
          </Show>
          <Show when={typeof read() !== 'string'}>
            <p>{recheckWords(read() as never)}</p>
          </Show>
          <Show when={why() ?? said()}>
            <div class="whole">
              <Sentence against={why() !== undefined}>{why() ?? said()}</Sentence>
            </div>
          </Show>
          <Button type="submit" variant="main">
            Set it
          </Button>
        </form>
      </Show>
    </section>
  )
}
