/**
 * “What can I do here?” Mine first, then a second look that is asked, then what is ready, then the rest and why.
 * What is ready is claimed from here in one press, or looked at first: the row opens it without claiming.
 */
import { A, useNavigate } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import type { PlannedJob } from '../../../shared/job/context'
import { sentenceFor } from '../../../shared/job/refusals'
import { useMoment } from '../../live/clock-moment'
import type { JobView } from '../../live/job'
import { useLive } from '../../live/live'
import { Button } from '../../ui/Button'
import { EmptyState } from '../../ui/EmptyState'
import { Stripe } from '../../ui/Stripe'
import { choiceFor, type StepRow } from './choose'
import './choose.css'

export function StepChooser(props: { view: JobView; job: PlannedJob }) {
  const { session, clock } = useLive()
  const moment = useMoment(() => props.job, clock.now)
  const choice = createMemo(() =>
    choiceFor(
      props.job,
      session.person()?.id ?? '',
      (command) => {
        const refusal = props.view.may(command)
        return refusal && sentenceFor(refusal, session.words)
      },
      moment(),
    ),
  )
  const navigate = useNavigate()
  const hrefOf = (stepId: string) => `/jobs/${props.job.id}/bench/${stepId}`
  const claim = (stepId: string) => {
    void props.view.send({ type: 'ClaimStep', stepId })
    navigate(hrefOf(stepId))
  }
  const nothing = () => choice().mine.length + choice().second.length + choice().ready.length === 0
  return (
    <div class="bench-page">
      <div class="page bench-choose">
        <header class="bench-head">
          <span class="stencil bench-number">{props.job.number}</span>
          <div>
            <h1>What can I do here?</h1>
            <p class="pencil">
              {props.job.engine.model}, {props.job.engine.serial} · plan edition {props.job.plan.edition}
              {props.job.plan.invented ? ' · values are invented' : ''}
            </p>
          </div>
        </header>
        <Show when={nothing()}>
          <EmptyState title="Nothing here is ready for you.">
            <p>
              Steps stand here when what they need is signed and you may do them. Below is what each one waits
              for.
            </p>
          </EmptyState>
        </Show>
        <Rows title="Yours" rows={choice().mine} job={props.job} main />
        <Rows title="Waits for your second look" rows={choice().second} job={props.job} main />
        <Rows title="Ready for you" rows={choice().ready} job={props.job} main claim={claim} />
        <Rows title="With others, or signed once" rows={choice().others} job={props.job} />
        <Rows title="Not ready, or not yours" rows={choice().notReady} job={props.job} />
        <Show when={choice().done.length > 0}>
          <details>
            <summary>Done: {choice().done.length} steps</summary>
            <Rows title="" rows={choice().done} job={props.job} />
          </details>
        </Show>
      </div>
    </div>
  )
}

interface RowsProps {
  title: string
  rows: readonly StepRow[]
  job: PlannedJob
  main?: boolean
  claim?(stepId: string): void
}

function Rows(props: RowsProps) {
  return (
    <Show when={props.rows.length > 0}>
      <section>
        <Show when={props.title}>
          <h2>{props.title}</h2>
        </Show>
        <ul class="bench-steps">
          <For each={props.rows}>
            {(row) => (
              <li class="bench-row">
                <A
                  class="bench-step"
                  classList={{ main: props.main }}
                  href={`/jobs/${props.job.id}/bench/${row.step.id}`}
                >
                  <span class="bench-step-id">{row.step.id}</span>
                  <span class="bench-step-words">
                    <strong>{row.step.title}</strong>
                    <Show when={row.why}>
                      <span class="small">{row.why}</span>
                    </Show>
                  </span>
                  <span class="bench-step-side">
                    <Show when={row.by}>{(by) => <Stripe person={by()} />}</Show>
                    <Show when={row.of > 0}>
                      <span class="small pencil">
                        {row.final} of {row.of} final
                      </span>
                    </Show>
                    <Show when={row.step.signatures === 2}>
                      <span class="small pencil">two signatures</span>
                    </Show>
                  </span>
                </A>
                <Show when={props.claim}>
                  {(claim) => (
                    <Button class="bench-claim" onClick={() => claim()(row.step.id)}>
                      {row.stopped ? 'Go on' : 'Claim'}
                      <span class="unseen"> {row.step.id}</span>
                    </Button>
                  )}
                </Show>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  )
}
