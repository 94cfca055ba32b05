/** One engine on the board. Touching it anywhere opens the engine. */

import { createEffect, createMemo, createSignal, For, on, onCleanup, Show } from 'solid-js'
import { reasonSentence, standsAgainst } from '../../../shared/job/reason'
import type { JobSummary } from '../../../shared/job/summary'
import { BuildStrip } from '../../drawings/BuildStrip'
import { engineHref } from '../../hrefs'
import { Promised } from '../../job/Promised'
import { useSession } from '../../live/live'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import type { Near } from '../../ui/near'
import { visit } from './use-since'

interface RowProps {
  summary(): JobSummary | undefined
  width: number
  near: Near
  onChoosePlan(summary: JobSummary): void
}

/** Reasons that say already that nobody works on it. */
const SAYS_NOBODY = new Set(['nobody_on_it', 'no_plan', 'all_signed', 'released'])
const MARK_MS = 2400

export function Row(props: RowProps) {
  return (
    <Show when={props.summary()}>
      {(summary) => (
        <Engine summary={summary()} width={props.width} near={props.near} onChoosePlan={props.onChoosePlan} />
      )}
    </Show>
  )
}

type EngineProps = Omit<RowProps, 'summary'> & { summary: JobSummary }

function Engine(props: EngineProps) {
  const session = useSession()
  const [changed, setChanged] = createSignal(false)
  // Before its strip is drawn a row stands with all its words, so that search, reading aloud and print miss nothing.
  const strip = props.near.line(1)
  let timer: ReturnType<typeof setTimeout> | undefined
  createEffect(
    on(
      createMemo(() => props.summary.version),
      () => {
        setChanged(true)
        clearTimeout(timer)
        timer = setTimeout(() => setChanged(false), MARK_MS)
      },
      { defer: true },
    ),
  )
  onCleanup(() => clearTimeout(timer))

  const reason = () => reasonSentence(props.summary.reason, session.words)
  const stuckOnHold = () => props.summary.reason.code === 'on_hold' && props.summary.reason.ready === 0
  const choosing = () => props.summary.reason.code === 'no_plan' && session.leads()

  return (
    <li
      class="row"
      ref={strip.place}
      classList={{
        changed: changed(),
        against: props.summary.reason.code !== 'stuck' && standsAgainst(props.summary.reason.code),
        standing: stuckOnHold(),
        gone: props.summary.reason.code === 'released',
      }}
    >
      <div class="row-engine">
        <h2 class="stencil row-number">
          {/* Plain: the router takes it over all the same, and two hundred of its own links take their time. */}
          <a href={engineHref(props.summary.id)} onClick={() => visit(props.summary.id)}>
            {props.summary.number}
          </a>
        </h2>
        <p class="row-name">
          {props.summary.engine}
          <Show when={props.summary.drives}>{(drives) => <>, {drives()}</>}</Show>
        </p>
        <p class="pencil">{props.summary.owner}</p>
      </div>
      <p class="row-reason">{reason()}</p>
      <div class="row-strip">
        <Show
          when={props.summary.cells.length > 0}
          fallback={<NoPlan choosing={choosing()} choose={() => props.onChoosePlan(props.summary)} />}
        >
          <Show when={props.width > 0}>
            <BuildStrip
              people={session}
              cells={props.summary.cells}
              stages={props.summary.stages}
              holds={props.summary.holds}
              width={props.width}
              later={!strip.drawn()}
            />
          </Show>
        </Show>
      </div>
      <div class="row-who stack">
        <Promised date={props.summary.promised} released={props.summary.reason.code === 'released'} />
        <ul>
          <For
            each={props.summary.on}
            fallback={
              <Show when={!SAYS_NOBODY.has(props.summary.reason.code)}>
                <li class="pencil">nobody working on it</li>
              </Show>
            }
          >
            {(claim) => (
              <li>
                <Stripe person={claim.by} name="instead" /> <span class="pencil">{claim.stepId}</span>
              </li>
            )}
          </For>
        </ul>
        <Show when={props.summary.cells.length > 0}>
          <p class="pencil">
            {props.summary.signed} of {props.summary.cells.length} steps
            <span class="unseen"> signed</span>
          </p>
        </Show>
      </div>
    </li>
  )
}

function NoPlan(props: { choosing: boolean; choose(): void }) {
  return (
    <div class="row-choose">
      <Show when={props.choosing}>
        <Button onClick={props.choose}>Adopt plan…</Button>
      </Show>
    </div>
  )
}
