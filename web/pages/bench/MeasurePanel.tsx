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
import { Field } from '../../ui/Field'
import { NumberPad } from '../../ui/NumberPad'
import { useBench } from './bench'
import { StrikeEntry } from './Strike'
import './entry.css'
import './measure.css'

export interface Spot {
  measurement: string
  place: string
}

/** The list: every place a row to press, its reading and whether it is inside. */
export function MeasurePanel(props: { spot: Spot | undefined; onSpot: (spot: Spot) => void }) {
  const bench = useBench()
  const scope = useJob()
  const state = () => stepState(scope.planned(), bench.step().id)
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
                    const here = () => props.spot?.measurement === asked.id && props.spot.place === place
                    return (
                      <li>
                        <button
                          type="button"
                          class="spot"
                          classList={{
                            shown: here(),
                            done: entry()?.inBand === true,
                            odd: entry()?.inBand === false,
                          }}
                          aria-current={here() ? 'true' : undefined}
                          onClick={() => props.onSpot({ measurement: asked.id, place })}
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

/** The pad for one place, with what was read there before. */
export function MeasureEntry(props: { spot: Spot; onNext: () => void }) {
  const bench = useBench()
  const scope = useJob()
  const [text, setText] = createSignal('')
  const asked = () => bench.step().measurements.find(({ id }) => id === props.spot.measurement)
  const [instrument, setInstrument] = createSignal<string>()
  const [changing, setChanging] = createSignal(false)
  const entries = createMemo(() =>
    stepState(scope.planned(), bench.step().id).measurements.filter(
      (entry) => entry.measurementId === props.spot.measurement && entry.place === props.spot.place,
    ),
  )
  /** What was entered last on this pad: its verdict stays in front of the person at the next place. */
  const [last, setLast] = createSignal<{ asked: Measurement; place: string; value: number }>()
  const value = () => (text() === '' || text() === '.' ? Number.NaN : Number(text()))
  const tool = () => instrument() ?? asked()?.instrument ?? ''
  const enter = () => {
    const one = asked()
    const taken = value()
    if (!one || !Number.isFinite(taken)) return
    void scope.send({
      type: 'TakeMeasurement',
      stepId: bench.step().id,
      measurementId: one.id,
      place: props.spot.place,
      value: taken,
      instrument: tool() || 'not named',
    })
    const outside = (one.min !== undefined && taken < one.min) || (one.max !== undefined && taken > one.max)
    setText('')
    setLast({ asked: one, place: props.spot.place, value: taken })
    // A number outside its limits stays in front of the person until they have seen it.
    if (!outside) props.onNext()
  }
  return (
    <Show when={asked()}>
      {(one) => (
        <section class="entry">
          <h2>
            {one().title}, {props.spot.place}
          </h2>
          <p class="pencil">{limitsWords(one(), format)}</p>
          <Show when={last()}>
            {(before) => (
              <JustEntered
                {...before()}
                here={before().asked.id === one().id && before().place === props.spot.place}
              />
            )}
          </Show>
          <For each={entries()}>{(entry) => <EntryLine entry={entry} asked={one()} />}</For>
          <p class="entry-display" aria-live="polite">
            <span>{text() || '–'}</span> <span class="entry-unit">{one().unit}</span>
          </p>
          <NumberPad
            value={text()}
            onChange={setText}
            onEnter={enter}
            decimal
            maxLength={7}
            label={one().title}
          />
          <Button variant="main" wide disabled={!Number.isFinite(value())} onClick={enter}>
            {Number.isFinite(value())
              ? `It measures ${format.number(value(), 4)}${unitAfter(one().unit)}`
              : 'Enter what you measured'}
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
