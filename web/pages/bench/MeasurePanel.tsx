/** What is measured in this step: each place with its limits, the number on a pad, the verdict at once. */
import { createMemo, createSignal, For, Show } from 'solid-js'
import type { MeasurementEntry } from '../../../shared/job/types'
import { leadsNow, standingMeasurement, stepState } from '../../../shared/job/verdicts'
import { isAgainst, ledWords } from '../../../shared/measure'
import type { Measurement } from '../../../shared/plan/types'
import { limitsWords } from '../../../shared/plan/words'
import { unitAfter } from '../../../shared/units'
import { BandBar } from '../../drawings/BandBar'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Field } from '../../ui/Field'
import { type Spot, useBench } from './bench'
import { createNumber, NumberEntry } from './NumberEntry'
import { StrikeEntry } from './Strike'
import './measure.css'
import { FIELD_WORDS } from '../../../shared/format/field-words'

/** The list: every place a row to press, its reading and whether it is inside. */
export function MeasurePanel() {
  const bench = useBench()
  const scope = useJob()
  const state = () => stepState(scope.planned(), bench.step().id)
  const isHere = (spot: Spot) =>
    bench.mine() && bench.spot()?.measurement === spot.measurement && bench.spot()?.place === spot.place
  const choose = (spot: Spot) => {
    bench.chooseSpot(spot)
    if (bench.mine() && bench.narrow()) bench.open({ dialog: 'measure' })
  }
  return (
    <div class="measures stack apart">
      <For each={bench.step().measurements}>
        {(measurement) => {
          const ticks = createMemo(() =>
            measurement.places.flatMap((place) => {
              const entry = standingMeasurement(state(), measurement.id, place)
              return entry ? [{ value: entry.value, out: !entry.inBand }] : []
            }),
          )
          return (
            <section class="measure stack">
              <h2>{measurement.title}</h2>
              <p class="pencil">
                {limitsWords(measurement, format)}
                {measurement.instrument ? ` · ${measurement.instrument}` : ''}
              </p>
              <For each={measurement.notes}>{(note) => <p class="small">{note}</p>}</For>
              <Show when={measurement.min !== undefined || measurement.max !== undefined}>
                <BandBar
                  min={measurement.min}
                  max={measurement.max}
                  ticks={ticks()}
                  show={(value) => format.number(value)}
                  label={`${measurement.title}: ${limitsWords(measurement, format)}, ${ticks().length} of ${measurement.places.length} measured`}
                />
              </Show>
              <For each={ledWords(leadsNow(state(), measurement, format))}>
                {({ words, against }) => (
                  <p class="mark" classList={{ 'against-words': against }}>
                    {words}
                  </p>
                )}
              </For>
              <ul class="spots stack">
                <For each={measurement.places}>
                  {(place) => {
                    const entry = () => standingMeasurement(state(), measurement.id, place)
                    const spot = { measurement: measurement.id, place }
                    return (
                      <li>
                        <button
                          type="button"
                          class="spot"
                          classList={{
                            shown: isHere(spot),
                            done: entry()?.inBand === true,
                            odd: entry()?.inBand === false,
                          }}
                          aria-current={isHere(spot) ? 'true' : undefined}
                          onClick={() => choose(spot)}
                        >
                          <span class="spot-place">{place}</span>
                          <span class="large">{entry() ? format.number(entry()?.value ?? 0) : '–'}</span>
                          <span class="spot-word">
                            {entry() ? (entry()?.inBand ? 'within limits' : 'out of limits') : 'open'}
                          </span>
                        </button>
                      </li>
                    )
                  }}
                </For>
              </ul>
            </section>
          )
        }}
      </For>
    </div>
  )
}

/** On a phone. */
export function MeasureDialog(props: { onClose(): void }) {
  const bench = useBench()
  return (
    <Dialog open title="Measure" onClose={props.onClose}>
      <Show when={bench.spot()}>{(spot) => <MeasureEntry spot={spot()} />}</Show>
    </Dialog>
  )
}

/** The pad for one place, with what was read there before. */
export function MeasureEntry(props: { spot: Spot }) {
  const bench = useBench()
  const scope = useJob()
  const number = createNumber()
  const measurement = () => bench.step().measurements.find(({ id }) => id === props.spot.measurement)
  const [instrument, setInstrument] = createSignal<string>()
  const [changing, setChanging] = createSignal(false)
  const entries = createMemo(() =>
    stepState(scope.planned(), bench.step().id).measurements.filter(
      (entry) => entry.measurementId === props.spot.measurement && entry.place === props.spot.place,
    ),
  )
  /** What was entered last on this pad: its verdict stays in front of the person at the next place. */
  const [last, setLast] = createSignal<{ measurement: Measurement; place: string; value: number }>()
  const tool = () => instrument() ?? measurement()?.instrument ?? ''
  const enter = (measurement: Measurement) => {
    if (number.isEmpty()) return
    const value = number.value()
    const { place } = props.spot
    void scope.send({
      type: 'TakeMeasurement',
      stepId: bench.step().id,
      measurementId: measurement.id,
      place,
      value,
      instrument: tool() || 'not named',
    })
    number.clear()
    setLast({ measurement, place, value })
    // A number outside its limits stays in front of the person until they have seen it.
    if (value >= (measurement.min ?? value) && value <= (measurement.max ?? value)) bench.nextSpot()
  }
  return (
    <Show when={measurement()}>
      {(measurement) => (
        <section class="entry">
          <h2>
            {measurement().title}, {props.spot.place}
          </h2>
          <p class="pencil">{limitsWords(measurement(), format)}</p>
          <Show when={last()}>
            {(before) => (
              <JustEntered
                {...before()}
                here={before().measurement.id === measurement().id && before().place === props.spot.place}
              />
            )}
          </Show>
          <For each={entries()}>{(entry) => <EntryLine entry={entry} measurement={measurement()} />}</For>
          <NumberEntry
            number={number}
            unit={measurement().unit}
            onEnter={() => enter(measurement())}
            decimal
            maxLength={7}
            label={measurement().title}
          />
          <Button variant="main" wide disabled={number.isEmpty()} onClick={() => enter(measurement())}>
            {number.isEmpty()
              ? 'Enter what you measured'
              : `It measures ${format.number(number.value(), 4)}${unitAfter(measurement().unit)}`}
          </Button>
          <div class="wrench-line">
            <p>
              with <strong>{tool() || 'an instrument not named'}</strong>
            </p>
            <Button onClick={() => setChanging(!changing())}>Other instrument</Button>
          </div>
          <Show when={changing()}>
            <Field label={FIELD_WORDS.instrument} value={tool()} maxLength={80} onValue={setInstrument} />
          </Show>
        </section>
      )}
    </Show>
  )
}

/** The number before this one: inside or not, and what it leads to. */
function JustEntered(props: { measurement: Measurement; place: string; value: number; here: boolean }) {
  const bench = useBench()
  const scope = useJob()
  const state = () => stepState(scope.planned(), bench.step().id)
  const entry = () => standingMeasurement(state(), props.measurement.id, props.place)
  const leads = () =>
    leadsNow(state(), props.measurement, format).filter(
      ({ place }) => place === undefined || place === props.place,
    )
  return (
    <div class="just-entered mark stack close" role="status">
      <Show when={!props.here}>
        <p>
          <strong>
            {props.measurement.title}, {props.place}: {format.number(props.value, 4)}
            {unitAfter(props.measurement.unit)}
          </strong>
          {entry() ? (entry()?.inBand ? ', within limits' : ', out of limits') : ''}
        </p>
      </Show>
      <For each={leads()}>
        {(lead) => <p classList={{ 'against-words': isAgainst(lead) }}>{lead.sentence}</p>}
      </For>
    </div>
  )
}

function EntryLine(props: { entry: MeasurementEntry; measurement: Measurement }) {
  const scope = useJob()
  const isVoid = () => props.entry.struck !== undefined || props.entry.superseded !== undefined
  const mayStrike = () =>
    !isVoid() && !scope.may({ type: 'StrikeMeasurement', entryId: props.entry.id, reason: '-' })
  return (
    <div class="reading" classList={{ void: isVoid() }}>
      <p class="reading-head cluster level">
        <span class="reading-value">
          {format.number(props.entry.value, 4)}
          {unitAfter(props.measurement.unit)}
        </span>
        <Stripe person={props.entry.by} />
        <span class="pencil">
          {props.entry.instrument}, {scope.words.moment(props.entry.doneAt)}
        </span>
      </p>
      <Show when={!props.entry.inBand && !isVoid()}>
        <p class="against-words" role="alert">
          Out of limits: the plan says {limitsWords(props.measurement, format)}. Put it right and measure
          again, or ask the supervisor.
        </p>
      </Show>
      <Show when={props.entry.struck}>
        {(struck) => <p class="pencil">Crossed out: {struck().reason}</p>}
      </Show>
      <Show when={props.entry.superseded}>
        <p class="pencil">Measured again since.</p>
      </Show>
      <Show when={mayStrike()}>
        <StrikeEntry
          onStrike={(reason) =>
            void scope.send({ type: 'StrikeMeasurement', entryId: props.entry.id, reason })
          }
        />
      </Show>
    </div>
  )
}
