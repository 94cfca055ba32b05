/** `/jobs/:id/bench` and `/jobs/:id/bench/:stepId`: choose a step, or work at it. */
// First: the panels' own sheets come after what they share.
import './bench.css'
import { A, useParams } from '@solidjs/router'
import { createEffect, createMemo, Match, Show, Switch } from 'solid-js'
import type { PlannedJob } from '../../../shared/job/context'
import { indexPlan } from '../../../shared/plan/read'
import { usePageTitle } from '../../frame/title'
import { useJob } from '../../live/job'
import { EmptyState } from '../../ui/EmptyState'
import { BenchPage } from './BenchPage'
import { StepChooser } from './StepChooser'

export default function Bench() {
  const params = useParams<{ id: string; stepId?: string }>()
  return (
    <Show when={params.id} keyed>
      {(id) => <OneJob id={id} stepId={params.stepId} />}
    </Show>
  )
}

function OneJob(props: { id: string; stepId: string | undefined }) {
  const view = useJob(props.id)
  createEffect(() => view.at('bench'))
  const job = createMemo(() => (view.job().plan ? (view.job() as PlannedJob) : undefined))
  const step = createMemo(() => {
    const { plan } = view.job()
    return plan && props.stepId ? indexPlan(plan).stepById.get(props.stepId) : undefined
  })
  usePageTitle(() => `${view.job().number || 'Bench'}${step() ? ` ${step()?.title}` : ' bench'}`)
  return (
    <Switch fallback={<p class="page pencil">{view.problem() ?? 'Opening the bench…'}</p>}>
      <Match when={view.known() && !job()}>
        <div class="page">
          <EmptyState title="No build plan yet.">
            <p>The steps stand here once a supervisor has chosen a plan for {view.job().number}.</p>
            <A class="button" href={`/jobs/${props.id}`}>
              To the engine
            </A>
          </EmptyState>
        </div>
      </Match>
      <Match when={job() && props.stepId && !step()}>
        <div class="page">
          <EmptyState title={`The plan has no step ${props.stepId}.`}>
            <A class="button" href={`/jobs/${props.id}/bench`}>
              All steps of {view.job().number}
            </A>
          </EmptyState>
        </div>
      </Match>
      <Match when={job() && step()}>
        <Show when={step()?.id} keyed>
          <BenchPage
            view={view}
            job={job() as PlannedJob}
            step={step() as NonNullable<ReturnType<typeof step>>}
          />
        </Show>
      </Match>
      {/* Not the Match's own accessor: it may not be read any more while the way to a step is being taken. */}
      <Match when={job()}>
        <StepChooser view={view} job={job() as PlannedJob} />
      </Match>
    </Switch>
  )
}
