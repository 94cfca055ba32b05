/** `/jobs/:id/bench` and `/jobs/:id/bench/:stepId`: choose a step, or work at it. */
// First: the panels' own sheets come after what they share.
import { benchHref, engineHref } from '../../hrefs'
import './bench.css'
import { A, useParams } from '@solidjs/router'
import { createMemo, Match, Show, Switch } from 'solid-js'
import { indexPlan } from '../../../shared/plan/read'
import { usePageTitle } from '../../frame/title'
import { JobProvider } from '../../job/JobProvider'
import { useJob } from '../../job/scope'
import { EmptyState } from '../../ui/EmptyState'
import { BenchPage } from './BenchPage'
import { StepChooser } from './StepChooser'

export default function Bench() {
  const params = useParams<{ stepId?: string }>()
  return (
    <JobProvider place="bench">
      <BenchOrChooser stepId={params.stepId} />
    </JobProvider>
  )
}

function BenchOrChooser(props: { stepId: string | undefined }) {
  const scope = useJob()
  const step = createMemo(() => {
    const { plan } = scope.job()
    return plan && props.stepId ? indexPlan(plan).stepById.get(props.stepId) : undefined
  })
  usePageTitle(() => `${scope.job().number} ${step()?.title ?? 'bench'}`)
  return (
    <Switch fallback={<StepChooser />}>
      <Match when={!scope.job().plan}>
        <div class="page">
          <EmptyState title="No build plan yet.">
            <p>The steps stand here once a supervisor has adopted a plan for {scope.job().number}.</p>
            <A class="button" href={engineHref(scope.job().id)}>
              To the engine
            </A>
          </EmptyState>
        </div>
      </Match>
      <Match when={props.stepId && !step()}>
        <div class="page">
          <EmptyState title={`The plan has no step ${props.stepId}.`}>
            <A class="button" href={benchHref(scope.job().id)}>
              What can I work on?
            </A>
          </EmptyState>
        </div>
      </Match>
      <Match when={step()}>
        <Show when={step()?.id} keyed>
          <BenchPage step={step() as NonNullable<ReturnType<typeof step>>} />
        </Show>
      </Match>
    </Switch>
  )
}
