/** The one thing to do now, large; it never moves on by itself. */
import { Match, Show, Switch } from 'solid-js'
import { bandFor } from '../../../shared/job/verdicts'
import { passWords } from '../../../shared/plan/words'
import { format } from '../../format'
import { useJob } from '../../job/scope'
import { Button } from '../../ui/Button'
import { useBench } from './bench'
import { Answer } from './HeadPrompt'
import { CuringWords } from './HoleCures'
import { HoleStop } from './HoleNotes'
import { holeView } from './holes'
import { NextStation } from './NextStation'
import type { Phase } from './phase'
import { RestartPanel } from './RestartPanel'
import { RoundDone } from './RoundDone'
import { HeldUpPanel, ScaleEntry, WrenchLine } from './ScaleEntry'
import { StopHere } from './StepWords'
import { WrenchOffer } from './WrenchOffer'
import { type BenchTarget, roundsIn, sheetFor } from './work'
import { proposedWrench, shownOn, wrenchChoices, wrenchInHand, wrenchOffer } from './wrench'
import './stop.css'

export function ActionPanel() {
  const bench = useBench()
  const scope = useJob()
  const as = <K extends Phase['kind']>(kind: K) => {
    const phase = bench.phase()
    return phase.kind === kind ? (phase as Extract<Phase, { kind: K }>) : undefined
  }
  /** Another wrench is offered first: the press that goes on with this one steps back. */
  const unfit = () => wrenchOffer(bench.wrenchChoices(), bench.wrench()?.id)?.fit !== undefined
  /** Nor is the press for a head the first thing where its bolt must not go in as it is. */
  const stopped = (head: number) => {
    const joint = bench.joint()
    return joint !== undefined && holeView(scope.planned(), joint, head).against
  }
  const phaseNeedsHands = () => as('record') ?? as('enter_scale') ?? as('held_up')
  return (
    <>
      <Show when={phaseNeedsHands()}>
        <HoleStop />
        <WrenchOffer />
      </Show>
      <Switch>
        <Match when={as('restart')}>{(phase) => <RestartPanel broken={phase().broken} />}</Match>
        <Match when={as('enter_scale')}>
          {(phase) => (
            <Show when={bench.narrow()} fallback={<ScaleEntry />}>
              <Button variant={unfit() ? undefined : 'main'} wide class="tall" onClick={bench.askNumber}>
                What is {phase().wrench.id} set to?
              </Button>
            </Show>
          )}
        </Match>
        <Match when={as('held_up')}>
          {(phase) => <HeldUpPanel why={phase().why} scaleId={phase().entry.id} />}
        </Match>
        <Match when={as('record')}>
          {(phase) => (
            <>
              <Show when={phase().early}>
                {(until) => (
                  <p class="sentence against">
                    Wait until {scope.words.moment(until())}. What you record before is flagged as too early.
                  </p>
                )}
              </Show>
              <CuringWords head={phase().head} />
              <Show
                when={!(bench.narrow() && phase().how === 'indicated')}
                fallback={
                  <Button variant="main" wide class="tall" onClick={bench.askNumber}>
                    Enter what {phase().wrench?.id} shows
                  </Button>
                }
              >
                <Answer head={phase().head} brief={bench.narrow()} plain={unfit() || stopped(phase().head)} />
              </Show>
              <RoundDone />
              <Show when={phase().wrench && !bench.narrow()}>
                <WrenchLine />
              </Show>
              <Show when={phase().how === 'clicked' && !bench.narrow()}>
                <Button wide onClick={bench.reenterScale}>
                  Scale again
                </Button>
              </Show>
            </>
          )}
        </Match>
        <Match when={as('no_wrench')}>
          <p class="sentence against">
            There is no torque wrench in the crib. The supervisor enters wrenches with their range and check
            date.
          </p>
        </Match>
        <Match when={as('wait')}>
          {(phase) => (
            <>
              <p class="sentence">
                {phase().until === undefined
                  ? `Wait ${format.duration(phase().minutes)} after the pass before this one.`
                  : `Wait until ${scope.words.moment(phase().until ?? 0)}.`}
              </p>
              <Onward next={phase().next} />
            </>
          )}
        </Match>
        <Match when={as('through')}>
          {(phase) => (
            <>
              <p class="sentence">
                Pass {bench.pass()} is through: {bench.round()?.positions.length} of{' '}
                {bench.round()?.positions.length}.
              </p>
              <Onward next={phase().next} />
            </>
          )}
        </Match>
      </Switch>
    </>
  )
}

/** Where a wrench is in the hand, or about to be. */
const NEEDS_WRENCH: ReadonlySet<Phase['kind']> = new Set(['enter_scale', 'held_up', 'record'])

/** A phone's second row: the scale again or another angle, the wrench in hand, and the stop. */
export function BarRow() {
  const bench = useBench()
  return (
    <div class="bar-row">
      <Show when={bench.recording()?.how === 'clicked'}>
        <Button
          onClick={() => {
            bench.reenterScale()
            bench.open({ dialog: 'scale' })
          }}
        >
          Scale again
        </Button>
      </Show>
      <Show when={bench.recording()?.how === 'turned'}>
        <Button onClick={bench.askNumber}>Another angle</Button>
      </Show>
      <Show when={NEEDS_WRENCH.has(bench.phase().kind) && bench.wrench()}>
        {(wrench) => (
          <Button
            class="wrench-in-hand"
            aria-label={`${wrench().id} in hand: other wrench`}
            onClick={() => bench.open({ dialog: 'wrenches' })}
          >
            {wrench().id}…
          </Button>
        )}
      </Show>
      <StopHere />
    </div>
  )
}

/** Where to go from here, with what to set there; pressed, never jumped to. */
function Onward(props: { next: BenchTarget | undefined }) {
  const bench = useBench()
  const scope = useJob()
  const words = () => {
    const place = props.next
    const round = place && roundsIn(scope.planned(), bench.step()).find(({ key }) => key === place.round)
    const sheet = round && place && sheetFor(scope.planned(), round.joint, place.pass)
    if (!place || !round || !sheet) return undefined
    const band = bandFor(scope.planned(), round.joint, place.pass)
    const choices = wrenchChoices(scope.shop(), sheet, bench.now(), { band })
    // The one that is in the hand for it already is the one that will be asked about.
    const inHand = wrenchInHand(scope.planned(), round.joint.id, place.pass, scope.me() ?? '')
    const wrench = choices.find((choice) => choice.wrench.id === inHand)?.wrench ?? proposedWrench(choices)
    const fitted = wrench && bench.adapterOn(wrench, round.joint.id)
    const ranked = fitted
      ? wrenchChoices(scope.shop(), sheet, bench.now(), { band, adapter: fitted })
      : choices
    const setting = ranked.find((choice) => choice.wrench.id === wrench?.id)?.setting
    const what =
      wrench && setting
        ? `set ${shownOn(setting, wrench)} ${setting.unit} on ${wrench.id}${fitted ? ' with its adapter' : ''}`
        : passWords(sheet, format)
    return round.key === bench.round()?.key
      ? `Pass ${place.pass} next: ${what}`
      : `${round.title} next: ${what}`
  }
  const after = () => bench.stations().find(({ kind, done }) => kind !== 'round' && !done)
  return (
    <Show
      when={words()}
      fallback={
        <Show when={after()} fallback={<p>All of this step is done and signed.</p>}>
          {(station) => <NextStation station={station()} main />}
        </Show>
      }
    >
      <Button variant="main" wide class="tall" onClick={() => props.next && bench.openPass(props.next)}>
        {words()}
      </Button>
    </Show>
  )
}
