/** The bench at one step: the map and the number on one side, the next thing to press on the other. */

import { A } from '@solidjs/router'
import { createSignal, Match, onCleanup, onMount, Show, Switch } from 'solid-js'
import { isDone, isSigned, setViews, stepState } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import { benchHref } from '../../hrefs'
import { StepDeferrals } from '../../job/deferrals/Deferrals'
import { StepHolds } from '../../job/holds/Holds'
import { RefusedStops } from '../../job/RefusedEntries'
import { useJob } from '../../job/scope'
import { GIVE_SECOND, isSealedHere } from '../../job/step/second-words'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { useNow } from '../../ui/clock'
import { createDialogs } from '../../ui/dialogs'
import { ActionPanel, BarRow } from './ActionPanel'
import { AdapterPanel } from './AdapterPanel'
import { BenchContext, type BenchDialog, createBench } from './bench'
import { ClaimPanel } from './ClaimPanel'
import { OddFasteners } from './FastenerPanel'
import { GatePanel } from './GatePanel'
import { LeftWords } from './HandoverWords'
import { HeadPanel } from './HeadPanel'
import { HeadPrompt } from './HeadPrompt'
import { HoleCures } from './HoleCures'
import { HoleNotes } from './HoleNotes'
import { HoleSheet } from './HoleSheet'
import { JointPanel } from './JointPanel'
import { LeavePanel } from './LeavePanel'
import { LookWaiting } from './LookWaiting'
import { MeasureDialog, MeasureEntry, MeasurePanel } from './MeasurePanel'
import { NextStation } from './NextStation'
import { NotesPanel } from './NotesPanel'
import { OddReadings, Waiting } from './Notices'
import { StationRow } from './PassRow'
import { ScaleDialog } from './ScaleEntry'
import { SealantClock } from './SealantClock'
import { SecondSignature } from './SecondSignature'
import { SignPanel } from './SignPanel'
import { Cautions, NotYetWords, OnTheBench, StopHere, StopWords } from './StepWords'
import { WrenchPicker } from './WrenchPicker'

const NARROW = '(max-width: 44rem)'
/** Waits end and wrenches run out of date while a page stands open. */
const TICK_MS = 20_000

export function BenchPage(props: { step: AdoptedStep }) {
  const scope = useJob()
  const now = useNow(TICK_MS)
  const media = matchMedia(NARROW)
  const [narrow, setNarrow] = createSignal(media.matches)
  const turned = () => setNarrow(media.matches)
  media.addEventListener('change', turned)
  // The map takes what the window leaves under everything above it, banners included.
  let work: HTMLDivElement | undefined
  let action: HTMLDivElement | undefined
  let page: HTMLDivElement | undefined
  const measure = () => {
    // The side shares the row and does not stick: its top is where the map's room begins, however far one scrolled.
    const top = action?.parentElement?.getBoundingClientRect().top
    if (top !== undefined) work?.style.setProperty('--bench-top', `${top + window.scrollY}px`)
    action?.parentElement?.style.setProperty('--bench-bar', `${action.offsetHeight}px`)
  }
  onMount(() => {
    const watcher = new ResizeObserver(measure)
    watcher.observe(document.body)
    if (action) watcher.observe(action)
    measure()
    // A phone has no room for the bar on top while the work goes on; it is one pull away.
    if (narrow() && bench.mine() && bench.round()) page?.scrollIntoView({ block: 'start' })
    onCleanup(() => watcher.disconnect())
  })
  onCleanup(() => {
    media.removeEventListener('change', turned)
  })

  const { Outlet, ...dialogs } = createDialogs<BenchDialog>({
    head: HeadPanel,
    hole: HoleSheet,
    answer: HeadPrompt,
    scale: ScaleDialog,
    wrenches: WrenchPicker,
    measure: MeasureDialog,
    second: SecondSignature,
    leave: LeavePanel,
  })
  const bench = createBench({ scope, step: () => props.step, now, narrow, dialogs })
  const signed = () => isSigned(scope.planned(), props.step)
  /** Nothing more can be done about them here before the shop has checked the PINs. */
  const secondsWaitHere = () =>
    setViews(scope.planned(), props.step).every(
      ({ set, asks, state }) =>
        asks === 1 || state.second || isSealedHere(scope.pending(), props.step.id, set.id),
    )

  return (
    <BenchContext.Provider value={bench}>
      <div class="bench-page">
        <div class="bench" ref={page} data-station={bench.station().kind}>
          <div class="bench-top cluster ends">
            <header class="bench-head cluster">
              <A class="stencil bench-number" href={benchHref(scope.job().id)}>
                {scope.job().number}
              </A>
              <div>
                <h1>{props.step.title}</h1>
                <p class="pencil">
                  {scope.job().engine.model} · step {props.step.id} ·{' '}
                  <Show
                    when={stepState(scope.planned(), props.step.id).claim}
                    fallback={signed() ? 'signed; nobody is working on it' : 'nobody has claimed it'}
                  >
                    {(claim) => (
                      <>
                        claimed by <Stripe person={claim().by} name="after" /> since{' '}
                        {scope.words.moment(claim().doneAt)}
                      </>
                    )}
                  </Show>
                </p>
              </div>
            </header>

            <StationRow />
          </div>

          <Show when={!narrow()}>
            <SealantClock />
            <HoleCures />
          </Show>
          <div class="bench-work" ref={work}>
            <Switch>
              <Match when={bench.round()}>{(round) => <JointPanel round={round()} />}</Match>
              <Match when={bench.station().kind === 'measure'}>
                <MeasurePanel />
              </Match>
              <Match when={bench.station().kind === 'check'}>
                <GatePanel />
              </Match>
              <Match when={bench.station().kind === 'sign'}>
                <SignPanel />
              </Match>
            </Switch>
          </div>

          <aside class="bench-side stack apart" aria-label="What to do">
            <div class="bench-action stack roomy" ref={action}>
              <Waiting />
              <StepHolds stepId={props.step.id} />
              <Show when={narrow()}>
                <SealantClock />
                <HoleCures />
              </Show>
              <LookWaiting />
              <RefusedStops />
              <OddReadings />
              <Switch>
                <Match when={isDone(scope.planned(), props.step)}>
                  <p class="sentence">This step is done and signed.</p>
                  <A class="button main wide tall" href={benchHref(scope.job().id)}>
                    What can I work on?
                  </A>
                </Match>
                <Match when={signed() && secondsWaitHere()}>
                  <A class="button main wide tall" href={benchHref(scope.job().id)}>
                    What can I work on?
                  </A>
                </Match>
                <Match when={signed()}>
                  <p class="sentence">
                    Signed once. A second person looks and signs now, before anything covers it.
                  </p>
                  <Show when={bench.station().kind !== 'sign'}>
                    <Button variant="main" wide class="tall" onClick={() => bench.openStation('sign')}>
                      {GIVE_SECOND}
                    </Button>
                  </Show>
                </Match>
                <Match when={!bench.mine()}>
                  <ClaimPanel />
                </Match>
                <Match when={bench.round()}>
                  <ActionPanel />
                </Match>
                <Match when={bench.station().kind === 'measure' && bench.spot()}>
                  {(spot) => (
                    <Show when={narrow()} fallback={<MeasureEntry spot={spot()} />}>
                      <Button
                        variant="main"
                        wide
                        class="tall"
                        onClick={() => bench.open({ dialog: 'measure' })}
                      >
                        Measure {spot().place}
                      </Button>
                    </Show>
                  )}
                </Match>
                <Match when={bench.station().kind === 'check'}>
                  <Onward />
                </Match>
              </Switch>
              <Show when={bench.mine() && narrow()}>
                <BarRow />
              </Show>
            </div>
            <div class="bench-about stack roomy">
              <LeftWords />
              <NotYetWords />
              <OddFasteners />
              <HoleNotes />
              <StepDeferrals stepId={props.step.id} />
              <Cautions />
              <NotesPanel />
              <Show when={bench.mine()}>
                <StopWords />
              </Show>
              <OnTheBench />
            </div>
            <Show when={bench.mine() && !narrow()}>
              <StopHere />
            </Show>
          </aside>
        </div>

        {/* Before the others: it may open on top of the pad's, and the keys then are its own. */}
        <AdapterPanel />
        <Outlet />
      </div>
    </BenchContext.Provider>
  )

  /** From the checks to whatever is open next. */
  function Onward() {
    const next = () =>
      bench.stations().find((station) => !station.done && station.key !== bench.station().key)
    return (
      <Show when={next()}>
        {(station) => <NextStation station={station()} main={bench.station().done} />}
      </Show>
    )
  }
}
