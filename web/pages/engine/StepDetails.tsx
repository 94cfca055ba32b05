/** Everything a step asks for, behind one press: cautions first, then joints pass by pass, measurements, gates, parts. */
import { createSignal, For, Show } from 'solid-js'
import type { AdoptedJoint, Gate, Sealant } from '../../../shared/plan/types'
import { bandWords, limitsWords, passesWords, sealantWords, useWords } from '../../../shared/plan/words'
import { counted } from '../../../shared/words'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { SettledBriefly } from '../../job/settled/Settled'
import type { GateView, MeasurementView, StepView } from '../../job/step/step-view'
import { fastenerWords, hiddenByWords, hidesWords, stepText } from '../../job/step/step-words'
import { createSame } from '../../ui/same'
import { StepOffice } from './StepStatus'

/** What is folded is drawn once somebody opens it; paper shows it as the screen does, and the browser's search finds its words. */
export function StepDetails(props: { view: StepView }) {
  const [opened, setOpened] = createSignal(false)
  const cautions = () => props.view.step.cautions ?? []
  return (
    <details class="step-more" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        Details
        <Show when={cautions().length > 0}>
          <span class="caution-mark"> {counted(cautions().length, 'caution')}</span>
        </Show>
      </summary>
      <Show when={opened()} fallback={<p>{stepText(props.view.step)}</p>}>
        <All view={props.view} />
      </Show>
    </details>
  )
}

function All(props: { view: StepView }) {
  const step = () => props.view.step
  const cautions = () => step().cautions ?? []
  const hides = () => hidesWords(props.view.hides)
  const hiders = createSame(() => hiddenByWords(props.view.hiddenBy))
  const measurements = createSame(() => props.view.measurements)
  const gates = createSame(() => props.view.gates)
  return (
    <div class="step-all stack">
      <For each={cautions()}>{(text) => <p class="caution">{text}</p>}</For>
      <For each={step().notes ?? []}>{(text) => <p>{text}</p>}</For>
      <For each={step().joints}>{(joint) => <JointAsks joint={joint} />}</For>
      <For each={measurements()}>{(measurement) => <MeasurementAsks view={measurement} />}</For>
      <Show when={step().sealant}>{(sealant) => <SealantAsks sealant={sealant()} />}</Show>
      <Show when={gates().length > 0}>
        <h5>Before it is signed</h5>
        <ul class="plain">
          <For each={gates()}>{(gate) => <GateAsks view={gate} />}</For>
        </ul>
      </Show>
      <Show when={step().parts.length > 0}>
        <h5>Parts</h5>
        <p>
          {step()
            .parts.map((part) => `${part.quantity} × ${part.name}${part.oneUse ? ' (one-use)' : ''}`)
            .join(', ')}
        </p>
      </Show>
      <Show when={step().needs.length > 0 || hides() || hiders().length > 0}>
        <h5>Order</h5>
        <Show when={step().needs.length > 0}>
          <p>Comes after {step().needs.join(', ')}.</p>
        </Show>
        <Show when={hides()}>{(words) => <p>Covers {words()}.</p>}</Show>
        <For each={hiders()}>{(hider) => <p>{hider.text}.</p>}</For>
      </Show>
      <p class="pencil small">
        {format.duration(step().minutes.low)} to {format.duration(step().minutes.high)}, likely{' '}
        {format.duration(step().minutes.likely)}.{' '}
        {step().signatures === 2 ? 'Two signatures: the doer and another who has looked.' : 'One signature.'}
      </p>
      <StepOffice view={props.view} />
    </div>
  )
}

function JointAsks(props: { joint: AdoptedJoint }) {
  const { joint } = props
  const scope = useJob()
  const bands = () =>
    joint.bands.flatMap((band, index) => (band ? [`pass ${index + 1}: ${bandWords(band, format)}`] : []))
  return (
    <section class="asks">
      <h5>{joint.title}</h5>
      <p>
        {fastenerWords(joint)}, {joint.lubrication}, class {joint.class}, {useWords(joint)}.
      </p>
      <p>
        <b>{passesWords(joint.passes, format)}</b>
        <Show when={bands().length > 0}>
          <span class="pencil"> in band {bands().join('; ')}</span>
        </Show>
      </p>
      <For each={Object.entries(scope.job().settled[joint.id] ?? {})}>
        {([pass, value]) => <SettledBriefly value={value} of={`Pass ${pass}`} />}
      </For>
      <For each={joint.notes ?? []}>{(note) => <p>{note}</p>}</For>
    </section>
  )
}

function MeasurementAsks(props: { view: MeasurementView }) {
  const { measurement } = props.view
  return (
    <section class="asks">
      <h5>{measurement.title}</h5>
      <p>
        {limitsWords(measurement, format)}
        <Show when={measurement.instrument}>
          {(instrument) => <span class="pencil">, {instrument()}</span>}
        </Show>
      </p>
      <ul class="places cluster">
        <For each={props.view.places}>
          {({ place, entry }) => (
            <li classList={{ against: entry?.inBand === false }}>
              <span class="pencil">{place}</span> {entry ? format.number(entry.value) : '–'}
              <Show when={entry?.inBand === false}> outside</Show>
            </li>
          )}
        </For>
      </ul>
      <For each={props.view.leads}>
        {({ words, against }) => <p class={against ? 'leads against' : 'leads'}>{words}</p>}
      </For>
      <For each={measurement.notes ?? []}>{(note) => <p>{note}</p>}</For>
    </section>
  )
}

function SealantAsks(props: { sealant: Sealant }) {
  return (
    <section class="asks">
      <h5>Sealant</h5>
      <p>{sealantWords(props.sealant, format)}</p>
    </section>
  )
}

const RECKONED: Partial<Record<Gate['kind'], string>> = {
  proven: 'answered by the record',
  cured: 'answered by the sealant clocks',
  no_open_class_a: 'answered by the record',
  photo: 'asks for photos',
}

function GateAsks(props: { view: GateView }) {
  const scope = useJob()
  const { gate } = props.view
  return (
    <li>
      {gate.text}
      <Show
        when={props.view.answer}
        fallback={<span class="pencil"> {RECKONED[gate.kind] ?? 'not answered yet'}</span>}
      >
        {(answer) => (
          <span class="pencil">
            {' '}
            {answer().count === undefined ? 'looked at' : `${answer().count} counted`} by{' '}
            {scope.words.person(answer().by)}, {scope.words.moment(answer().doneAt)}
          </span>
        )}
      </Show>
    </li>
  )
}
