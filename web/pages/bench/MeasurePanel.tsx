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
        {(asked) => {
          const ticks = createMemo(() =>
            asked.places.flatMap((place) => {
              const entry = standingMeasurement(state(), asked.id, place)
              return entry ? [{ value: entry.value, out: !entry.inBand }] : []
            }),
          )
          return (
            <section class="measure stack">
              <h2>{asked.title}</h2>
              <p class="pencil">
                {limitsWords(asked, format)}
                {asked.instrument ? ` · ${asked.instrument}` : ''}
              </p>
              <For each={asked.notes}>{(note) => <p class="small">{note}</p>}</For>
              <Show when={asked.min !== undefined || asked.max !== undefined}>
                <BandBar
                  min={asked.min}
                  max={asked.max}
                  ticks={ticks()}
                  show={(value) => format.number(value)}
                  label={`${asked.title}: ${limitsWords(asked, format)}, ${ticks().length} of ${asked.places.length} measured`}
                />
              </Show>
              <For each={ledWords(leadsNow(state(), asked))}>
                {({ words, against }) => (
                  <p class="mark" classList={{ 'against-words': against }}>
                    {words}
                  </p>
                )}
              </For>
              <ul class="spots stack">
                <For each={asked.places}>
                  {(place) => {
                    const entry = () => standingMeasurement(state(), asked.id, place)
                    const spot = { measurement: asked.id, place }
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
                            {entry() ? (entry()?.inBand ? 'inside' : 'outside') : 'open'}
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
  const [last, setLast] = createSignal<{ asked: Measurement; place: string; value: number }>()
  const tool = () => instrument() ?? measurement()?.instrument ?? ''
  const enter = (asked: Measurement) => {
    if (number.isEmpty()) return
    const value = number.value()
    const { place } = props.spot
    void scope.send({
      type: 'TakeMeasurement',
      stepId: bench.step().id,
      measurementId: asked.id,
      place,
      value,
      instrument: tool() || 'not named',
    })
    number.clear()
    setLast({ asked, place, value })
    // A number outside its limits stays in front of the person until they have seen it.
    if (value >= (asked.min ?? value) && value <= (asked.max ?? value)) bench.nextSpot()
  }
  return (
    <Show when={measurement()}>
      {(asked) => (
        <section class="entry">
          <h2>
            {asked().title}, {props.spot.place}
          </h2>
          <p class="pencil">{limitsWords(asked(), format)}</p>
          <Show when={last()}>
            {(before) => (
              <JustEntered
                {...before()}
                here={before().asked.id === asked().id && before().place === props.spot.place}
              />
            )}
          </Show>
          <For each={entries()}>{(entry) => <EntryLine entry={entry} asked={asked()} />}</For>
          <NumberEntry
            number={number}
            unit={asked().unit}
            onEnter={() => enter(asked())}
            decimal
            maxLength={7}
            label={asked().title}
          />
          <Button variant="main" wide disabled={number.isEmpty()} onClick={() => enter(asked())}>
            {number.isEmpty()
              ? 'Enter what you measured'
              : `It measures ${format.number(number.value(), 4)}${unitAfter(asked().unit)}`}
          </Button>
          <div class="wrench-line">
            <p>
              with <strong>{tool() || 'an instrument not named'}</strong>
            </p>
            <Button onClick={() => setChanging(!changing())}>Other instrument</Button>
          </div>
          <Show when={changing()}>
            <Field label="Instrument" value={tool()} maxLength={80} onValue={setInstrument} />
          </Show>
        </section>
      )}
    </Show>
  )
}

/** The number before this one: inside or not, and what it leads to. */
function JustEntered(props: { asked: Measurement; place: string; value: number; here: boolean }) {
  const bench = useBench()
  const scope = useJob()
  const state = () => stepState(scope.planned(), bench.step().id)
  const entry = () => standingMeasurement(state(), props.asked.id, props.place)
  const led = () =>
    leadsNow(state(), props.asked).filter(({ place }) => place === undefined || place === props.place)
  return (
    <div class="just-entered mark stack close" role="status">
      <Show when={!props.here}>
        <p>
          <strong>
            {props.asked.title}, {props.place}: {format.number(props.value, 4)}
            {unitAfter(props.asked.unit)}
          </strong>
          {entry() ? (entry()?.inBand ? ', inside' : ', outside') : ''}
        </p>
      </Show>
      <For each={led()}>{(one) => <p classList={{ 'against-words': isAgainst(one) }}>{one.sentence}</p>}</For>
    </div>
  )
}

function EntryLine(props: { entry: MeasurementEntry; asked: Measurement }) {
  const scope = useJob()
  const isVoid = () => props.entry.struck !== undefined || props.entry.superseded !== undefined
  const mayStrike = () =>
    !isVoid() && !scope.may({ type: 'StrikeMeasurement', entryId: props.entry.id, reason: '-' })
  return (
    <div class="reading" classList={{ void: isVoid() }}>
      <p class="reading-head cluster level">
        <span class="reading-value">
          {format.number(props.entry.value, 4)}
          {unitAfter(props.asked.unit)}
        </span>
        <Stripe person={props.entry.by} />
        <span class="pencil">
          {props.entry.instrument}, {scope.words.moment(props.entry.doneAt)}
        </span>
      </p>
      <Show when={!props.entry.inBand && !isVoid()}>
        <p class="against-words" role="alert">
          Out of limits: the plan says {limitsWords(props.asked, format)}. Put it right and measure again, or
          ask the supervisor.
        </p>
      </Show>
      <Show when={props.entry.struck}>{(struck) => <p class="pencil">Struck: {struck().reason}</p>}</Show>
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
