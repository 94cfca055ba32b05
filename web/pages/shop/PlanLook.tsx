/** A plan to be looked at before it is added or adopted: its size, its cautions, every step with its bolt maps. */
import { createSignal, For, Show } from 'solid-js'
import { RELEASES } from '../../../shared/plan/kinds'
import type { Fasteners, Joint, Plan, PlanStep } from '../../../shared/plan/types'
import { limitsWords, passesWords, sealantWords, useWords } from '../../../shared/plan/words'
import { counted, listed, positionsInWords } from '../../../shared/words'
import { BoltMap } from '../../drawings/BoltMap'
import { format } from '../../format'
import { fastenerWords } from '../../job/step/step-words'
import { PlanCautions } from '../../shop/PlanCautions'
import { figuresOf, interruptionWords, mapLabel, plannedHeads, stepsOf } from './plan-look'

const MAP_HEIGHT = 260

export function PlanLook(props: { plan: Plan }) {
  return (
    <div class="stack airy">
      <p>
        For {props.plan.family} engines. <span class="pencil">{props.plan.source}</span>
      </p>
      <For each={props.plan.notices ?? []}>{(notice) => <p class="pencil plan-notice">{notice}</p>}</For>
      <dl class="figures">
        <For each={figuresOf(props.plan)}>
          {({ figure, of }) => (
            <div>
              <dt>{of}</dt>
              <dd>{figure}</dd>
            </div>
          )}
        </For>
      </dl>
      <PlanCautions plan={props.plan} always />
      <For each={props.plan.stages}>
        {(stage) => (
          <section class="plan-stage" aria-labelledby={`stage-${stage.id}`}>
            <h3 id={`stage-${stage.id}`}>
              <span class="stencil">{stage.id}</span> {stage.title}{' '}
              <Show when={stage.releases}>
                {(release) => <span class="pencil">ends in the {RELEASES[release()].word}</span>}
              </Show>
            </h3>
            <For each={stepsOf(props.plan, stage.id)} fallback={<p class="pencil">No step stands in it.</p>}>
              {(step) => <StepLook plan={props.plan} step={step} />}
            </For>
          </section>
        )}
      </For>
    </div>
  )
}

const fastenersWords = (plan: Plan, some: readonly Fasteners[]): string =>
  listed(
    some.map(({ joint, positions }) => {
      const title = plan.steps.flatMap((step) => step.joints).find(({ id }) => id === joint)?.title ?? joint
      return `${title}${positions ? ` ${positionsInWords(positions)}` : ''}`
    }),
  )

/** Drawn when opened: a plan may have sixty maps. */
function StepLook(props: { plan: Plan; step: PlanStep }) {
  const { plan, step } = props
  const [open, setOpen] = createSignal(false)
  const fasteners = step.joints.reduce((sum, joint) => sum + joint.positions.length, 0)
  const brief = [
    fasteners > 0 ? counted(fasteners, 'fastener') : '',
    step.measurements.length > 0 ? `${step.measurements.length} measured` : '',
    step.signatures === 2 ? 'two signatures' : '',
    step.needs.length > 0 ? `comes after ${step.needs.join(', ')}` : '',
  ].filter(Boolean)
  return (
    <details class="plan-step" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span class="step-id">{step.id}</span>
        <span>
          {step.title}
          <span class="small pencil step-brief">{brief.join(' · ')}</span>
        </span>
      </summary>
      <Show when={open()}>
        <div class="plan-step-body stack roomy">
          <For each={step.cautions ?? []}>{(text) => <p class="caution">{text}</p>}</For>
          <For each={step.notes ?? []}>{(text) => <p>{text}</p>}</For>
          <For each={step.joints}>{(joint) => <JointLook joint={joint} />}</For>
          <For each={step.measurements}>
            {(measurement) => (
              <p>
                <b>{measurement.title}</b>: {limitsWords(measurement, format)}, at{' '}
                {listed(measurement.places)}
                {measurement.instrument ? `, with ${measurement.instrument}` : ''}.
              </p>
            )}
          </For>
          <Show when={step.sealant}>
            {(sealant) => (
              <p>
                <b>Sealant</b>: {sealantWords(sealant(), format)}
              </p>
            )}
          </Show>
          <Show when={step.gates.length > 0}>
            <div>
              <b>Before it is signed</b>
              <ul class="dashed">
                <For each={step.gates}>
                  {(gate) => <li>{gate.kind === 'count' ? `${gate.text}: ${gate.expect}` : gate.text}</li>}
                </For>
              </ul>
            </div>
          </Show>
          <Show when={step.parts.length > 0}>
            <p>
              <b>Parts</b>: {listed(step.parts.map((part) => `${part.quantity} × ${part.name}`))}.
            </p>
          </Show>
          <Show when={step.hides.length > 0}>
            <p>
              <b>Covers</b>: {fastenersWords(plan, step.hides)}.
            </p>
          </Show>
          <p class="pencil">
            {format.duration(step.minutes.low)} to {format.duration(step.minutes.high)}, likely{' '}
            {format.duration(step.minutes.likely)}.
          </p>
        </div>
      </Show>
    </details>
  )
}

function JointLook(props: { joint: Joint }) {
  const { joint } = props
  return (
    <section class="plan-joint" aria-label={joint.title}>
      <div>
        <h4>
          {joint.title} <span class="pencil">{joint.id}</span>
        </h4>
        <p>
          {fastenerWords(joint)}, {joint.lubrication}, class {joint.class}, {useWords(joint)}.
        </p>
        <p class="strong large">{passesWords(joint.passes, format)}</p>
        <p>{interruptionWords(joint.interruption)}</p>
        <Show when={joint.recheckOf}>
          <p>Looks again at {joint.recheckOf}.</p>
        </Show>
        <For each={joint.notes ?? []}>{(note) => <p>{note}</p>}</For>
      </div>
      <BoltMap
        positions={joint.positions}
        outline={joint.outline}
        heads={plannedHeads(joint)}
        label={mapLabel(joint)}
        height={MAP_HEIGHT}
        fit
      />
    </section>
  )
}
