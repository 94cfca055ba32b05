/**
 * “What can I work on?” Mine first, then a second signature that is asked, then what is ready, then the rest and why.
 * What is ready is claimed from here in one press, or looked at first: the row opens it without claiming.
 */

import { A, useNavigate } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { counted } from '../../../shared/words'
import { benchHref } from '../../hrefs'
import { EngineLine } from '../../job/JobHead'
import { useJob } from '../../job/scope'
import { useMoment } from '../../live/clock-moment'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { EmptyState } from '../../ui/EmptyState'
import { choiceFor, type StepRow, whyNot } from './choose'
import './choose.css'

export function StepChooser() {
  const scope = useJob()
  const moment = useMoment(scope.job)
  const choice = createMemo(() =>
    choiceFor(scope.planned(), scope.me() ?? '', (command) => whyNot(scope.may(command)), moment()),
  )
  const navigate = useNavigate()
  const hrefOf = (stepId: string) => benchHref(scope.planned().id, stepId)
  const claim = (stepId: string) => {
    void scope.send({ type: 'ClaimStep', stepId })
    navigate(hrefOf(stepId))
  }
  const nothing = () => choice().mine.length + choice().second.length + choice().ready.length === 0
  return (
    <div class="bench-page">
      <div class="page bench-choose stack apart">
        <header class="bench-head cluster">
          <span class="stencil bench-number">{scope.planned().number}</span>
          <div>
            <h1>What can I work on?</h1>
            <p class="pencil">
              <EngineLine />
            </p>
          </div>
        </header>
        <Show when={nothing()}>
          <EmptyState title="Nothing here is ready for you.">
            <p>
              A step is listed here when everything before it is signed and you may do it. Below is what each
              one waits for.
            </p>
          </EmptyState>
        </Show>
        <Rows title="Yours" rows={choice().mine} main />
        <Rows title="Needs your second signature" rows={choice().second} main />
        <Rows title="Ready for you" rows={choice().ready} main claim={claim} />
        <Rows title="Others are working on it, or signed once" rows={choice().others} />
        <Rows title="Not ready, or not for you" rows={choice().notReady} />
        <Show when={choice().done.length > 0}>
          <details>
            <summary>Done: {counted(choice().done.length, 'step')}</summary>
            <Rows title="" rows={choice().done} />
          </details>
        </Show>
      </div>
    </div>
  )
}

interface RowsProps {
  title: string
  rows: readonly StepRow[]
  main?: boolean
  claim?(stepId: string): void
}

function Rows(props: RowsProps) {
  const scope = useJob()
  return (
    <Show when={props.rows.length > 0}>
      <section>
        <Show when={props.title}>
          <h2>{props.title}</h2>
        </Show>
        <ul class="bench-steps stack">
          <For each={props.rows}>
            {(row) => (
              <li class="bench-row">
                <A
                  class="bench-step"
                  classList={{ main: props.main }}
                  href={benchHref(scope.job().id, row.step.id)}
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
                      {row.stopped ? 'Claim and continue' : 'Claim step'}
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
