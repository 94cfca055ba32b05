/** The engine page: who this engine is, why it waits, what can be done next, its whole plan, and what happened. */
import { createMemo, createSignal, For, onCleanup, Show } from 'solid-js'
import { reasonSentence, standsAgainst } from '../../../shared/job/reason'
import { type JobSummary, summarise } from '../../../shared/job/summary'
import { BuildStrip } from '../../drawings/BuildStrip'
import { usePageTitle } from '../../frame/title'
import { JobProvider } from '../../job/JobProvider'
import { RefusedEntries } from '../../job/RefusedEntries'
import { holeCures } from '../../job/record/hole-rows'
import { useJob } from '../../job/scope'
import { useMoment } from '../../live/clock-moment'
import { useSession } from '../../live/live'
import { useNow } from '../../ui/clock'
import { createNear, NearContext } from '../../ui/near'
import { createSame } from '../../ui/same'
import { Turn } from '../../ui/Turn'
import { EngineHead } from './EngineHead'
import { HoleRegister } from './HoleRegister'
import { NoPlan } from './NoPlan'
import { Office } from './Office'
import { clocksOf } from './office-view'
import { StageList } from './StageList'
import { Trail } from './Trail'
import { WhereToGo } from './WhereToGo'
import './engine.css'
import './head.css'
import './stages.css'
import './step.css'
import './step-cell.css'
import './step-details.css'
import './trail.css'

export default function EnginePage() {
  return (
    <JobProvider place="engine">
      <RefusedEntries />
      <Engine />
    </JobProvider>
  )
}

function Engine() {
  const scope = useJob()
  usePageTitle(() => scope.job().number)
  const moment = useMoment(scope.job)
  const summary = createMemo(() => summarise(scope.job(), moment()))
  const reason = () => summary().reason
  const against = () => standsAgainst(reason().code)
  return (
    <NearContext.Provider value={createNear()}>
      <div class="page engine stack apart">
        <EngineHead here={scope.here()} released={reason().code === 'released'} />
        <Show when={scope.job().plan} fallback={<NoPlan />}>
          <section class="engine-state stack" aria-label="Where it stands">
            <LargeStrip summary={summary()} />
            <p class="engine-reason" classList={{ against: against() }}>
              {reasonSentence(reason(), scope.words)}
            </p>
            <p class="pencil">
              {summary().signed} of {summary().cells.length} steps signed.
            </p>
            <Clocks />
            <WhereToGo moment={moment()} />
          </section>
          <Turn room="16rem">
            <Office />
          </Turn>
          <Turn room="8rem">
            <HoleRegister />
          </Turn>
        </Show>
        <div class="engine-columns">
          <Show when={scope.job().plan}>
            <section class="engine-plan" aria-labelledby="plan-head">
              <h2 class="ruled" id="plan-head">
                The plan
              </h2>
              <For each={scope.job().plan?.notices ?? []}>
                {(notice) => <p class="notice small">{notice}</p>}
              </For>
              <Turn room="100rem">
                <StageList moment={moment()} />
              </Turn>
            </section>
          </Show>
          <Turn>
            <Trail />
          </Turn>
        </div>
      </div>
    </NearContext.Provider>
  )
}

/** Sealant does not wait for anybody to look: what runs or ran over stands near the top. */
function Clocks() {
  const scope = useJob()
  const now = useNow(10_000)
  const clocks = createSame(() => [
    ...clocksOf(scope.planned(), now(), scope.words),
    ...holeCures(scope.planned(), now(), scope.words),
  ])
  return (
    <Show when={clocks().length > 0}>
      <ul class="clocks-running cluster" aria-label="Running clocks">
        <For each={clocks()}>
          {(clock) => (
            <li classList={{ against: clock.late }}>
              {clock.step.id}: {clock.words}
            </li>
          )}
        </For>
      </ul>
    </Show>
  )
}

/** As wide as the page; drawn to measure once the page knows its width. */
function LargeStrip(props: { summary: JobSummary }) {
  const session = useSession()
  const [width, setWidth] = createSignal(0)
  const watcher = new ResizeObserver(([entry]) => entry && setWidth(Math.floor(entry.contentRect.width)))
  onCleanup(() => watcher.disconnect())
  const cells = createSame(() => props.summary.cells)
  const stages = createSame(() => props.summary.stages)
  const holds = createSame(() => props.summary.holds)
  return (
    <div class="engine-strip" ref={(element) => watcher.observe(element)}>
      <Show when={width() > 0}>
        <BuildStrip people={session} cells={cells()} stages={stages()} holds={holds()} width={width()} />
      </Show>
    </div>
  )
}
