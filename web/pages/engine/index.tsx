/** The engine page: who this engine is, why it waits, what can be done next, its whole plan, and what happened. */
import { useParams } from '@solidjs/router'
import { createMemo, createSignal, For, lazy, onCleanup, Show } from 'solid-js'
import { reasonFor, reasonSentence } from '../../../shared/job/reason'
import { summarise } from '../../../shared/job/summary'
import { BuildStrip } from '../../drawings/BuildStrip'
import { usePageTitle } from '../../frame/title'
import type { JobView } from '../../live/job'
import { useDesk } from './desk'
import { EngineHead } from './EngineHead'
import { JobDesk } from './JobDesk'
import { NoPlan } from './NoPlan'
import { StageList } from './StageList'
import { Trail } from './Trail'
import { WhereToGo } from './WhereToGo'
import './engine.css'

const LookAndSign = lazy(() => import('../audit/LookAndSign'))

export default function EnginePage() {
  const params = useParams<{ id: string }>()
  return (
    <Show keyed when={params.id}>
      {(id) => (
        <JobDesk jobId={id} place="engine">
          {(view) => <Engine view={view} />}
        </JobDesk>
      )}
    </Show>
  )
}

function Engine(props: { view: JobView }) {
  const desk = useDesk()
  usePageTitle(() => desk.job().number)
  const [looking, setLooking] = createSignal<{ stepId: string; setId: string }>()
  const summary = createMemo(() => summarise(desk.job()))
  const reason = createMemo(() => reasonFor(desk.job()))
  const against = () => ['second_late', 'flagged', 'stuck'].includes(reason().code)
  return (
    <div class="page engine">
      <EngineHead here={props.view.here()} />
      <Show when={desk.job().plan} fallback={<NoPlan />}>
        <section class="engine-state" aria-label="Where it stands">
          <LargeStrip />
          <p class="engine-reason" classList={{ against: against() }}>
            {reasonSentence(reason(), desk.words)}
          </p>
          <p class="pencil">
            {summary().signed} of {summary().cells.length} steps signed.
          </p>
          <WhereToGo />
        </section>
      </Show>
      <div class="engine-columns">
        <Show when={desk.job().plan}>
          <section class="engine-plan" aria-labelledby="plan-head">
            <h2 id="plan-head">The plan</h2>
            <Notices />
            <StageList look={(stepId, setId) => setLooking({ stepId, setId })} />
          </section>
        </Show>
        <Trail />
      </div>
      <Show when={looking()}>
        {(at) => (
          <LookAndSign stepId={at().stepId} setId={at().setId} onClose={() => setLooking(undefined)} />
        )}
      </Show>
    </div>
  )
}

/** As wide as the page; drawn to measure once the page knows its width. */
function LargeStrip() {
  const desk = useDesk()
  const [width, setWidth] = createSignal(0)
  const summary = createMemo(() => summarise(desk.job()))
  const watcher = new ResizeObserver(([entry]) => entry && setWidth(Math.floor(entry.contentRect.width)))
  onCleanup(() => watcher.disconnect())
  return (
    <div class="engine-strip" ref={(element) => watcher.observe(element)}>
      <Show when={width() > 0}>
        <BuildStrip cells={summary().cells} stages={summary().stages} width={width()} />
      </Show>
    </div>
  )
}

function Notices() {
  const desk = useDesk()
  return <For each={desk.job().plan?.notices ?? []}>{(notice) => <p class="notice small">{notice}</p>}</For>
}
