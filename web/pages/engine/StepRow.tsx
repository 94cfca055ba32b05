/**
 * One step of the plan: its cell, where it stands in words, who signed, what it is made of, and what I may do with
 * it. A done step is one quiet line; everything it asked for stays one press away. Drawn when it is near.
 */
import { A } from '@solidjs/router'
import { createMemo, For, Show } from 'solid-js'
import { standingOf } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import { limitsWords } from '../../../shared/plan/words'
import { unitAfter } from '../../../shared/units'
import { counted } from '../../../shared/words'
import { markOf } from '../../drawings/heads'
import { format } from '../../format'
import { benchHref } from '../../hrefs'
import { useJobDialogs } from '../../job/dialogs'
import { useJob } from '../../job/scope'
import { GIVE_SECOND, isSealedHere, lookedWords } from '../../job/step/second-words'
import { type JointView, type MeasurementView, type StepView, stepView } from '../../job/step/step-view'
import { hiddenByWords, hidesWords, standingWords, stepText } from '../../job/step/step-words'
import { useNear } from '../../ui/near'
import { createSame } from '../../ui/same'
import { Findable } from '../../ui/Turn'
import { fastenersSaid } from './office-view'
import { Signers } from './Signers'
import { StepCell } from './StepCell'
import { StepDetails } from './StepDetails'
import { StepStatus, WhyNot } from './StepStatus'

interface StepRowProps {
  step: AdoptedStep
  moment: number
}

/** A step draws about as much as two rows of the record. */
const ROWS = 2

/** Until it is near: its cell's room, its number and title, and the words by which the browser's search finds it. */
export function StepRow(props: StepRowProps) {
  const scope = useJob()
  const { drawn, place } = useNear().line(ROWS)
  const standing = createMemo(() => standingOf(scope.planned(), props.step, props.moment))
  return (
    <li
      class={`step step-is-${standing()}`}
      classList={{ 'step-waits': !drawn() }}
      id={`step-${props.step.id}`}
      ref={place}
      tabindex={drawn() ? -1 : 0}
    >
      <Show
        when={drawn()}
        fallback={
          <>
            <h4>{`${props.step.id} ${props.step.title}`}</h4>
            <Findable words={stepText(props.step)} />
          </>
        }
      >
        <Drawn {...props} />
      </Show>
    </li>
  )
}

function Drawn(props: StepRowProps) {
  const scope = useJob()
  const view = createSame(() => stepView(scope.planned(), props.step, props.moment))
  const joints = createSame(() => view().joints)
  const measurements = createSame(() => view().measurements)
  const signers = createSame(() => view().signers)
  const looks = createSame(() =>
    view().sets.flatMap(({ set, state: { look, second } }) => (look && !second ? [{ set, look }] : [])),
  )
  const hiders = createSame(() => hiddenByWords(view().hiddenBy))
  const mark = (by: string | undefined) => (by === undefined ? undefined : markOf(scope.shop(), by))
  const done = () => view().standing === 'done'
  const lastPair = () => signers().at(-1)
  const hides = () => hidesWords(view().hides)
  return (
    <>
      <StepCell
        id={props.step.id}
        standing={view().standing}
        critical={view().critical}
        first={mark(lastPair()?.first.by)}
        second={mark(lastPair()?.second?.by)}
      />
      <div class="step-say stack close">
        <h4>
          <span class="unseen">{props.step.id} </span>
          {props.step.title}
          <Show when={view().critical}>
            <span class="unseen">, critical</span>
          </Show>
        </h4>
        <p class="step-standing" classList={{ unseen: done() && view().flagged === 0 && view().off === 0 }}>
          <span class={`standing standing-${view().standing}`}>{standingWords(view(), scope.words)}</span>
          <Show when={!done()}>
            <span class="pencil">, likely {format.duration(props.step.minutes.likely)}</span>
          </Show>
          <Show when={view().flagged > 0}>
            <strong class="against">{counted(view().flagged, 'fastener')} flagged</strong>
          </Show>
          <Show when={view().off > 0}>
            <strong class="against">{counted(view().off, 'number')} out of limits</strong>
          </Show>
        </p>
        <Show when={!done()}>
          <StepStatus view={view()} />
          <For each={looks()}>
            {({ set, look }) => (
              <p class="small">
                Look noted: {scope.words.person(look.personId)}, {scope.words.moment(look.doneAt)}
                {set.remainder ? '' : `, ${set.title}`};{' '}
                {lookedWords(look, isSealedHere(scope.pending(), props.step.id, set.id))}.
              </p>
            )}
          </For>
          <Show when={joints().length > 0}>
            <ul class="chips cluster">
              <For each={joints()}>{(joint) => <JointChip view={joint} />}</For>
            </ul>
          </Show>
          <For each={measurements()}>{(measurement) => <Measured view={measurement} />}</For>
          <Show when={hides()}>{(words) => <p class="small hides pencil">Covers {words()}</p>}</Show>
          <For each={hiders()}>
            {(hider) => (
              <p class="small hides pencil" classList={{ against: hider.covered }}>
                {hider.text}
              </p>
            )}
          </For>
        </Show>
        <StepDetails view={view()} />
      </div>
      <div class="step-who">
        <Signers pairs={signers()} secondAsked={props.step.signatures === 2} />
        <StepActions view={view()} />
      </div>
    </>
  )
}

/** What I may do here now; what I may not is no button, its reason stands in the words beside. */
function StepActions(props: { view: StepView }) {
  const scope = useJob()
  const open = useJobDialogs()
  const stepId = () => props.view.step.id
  const mine = () => props.view.claim?.by === scope.me()
  const takeable = () => props.view.standing === 'ready' || props.view.standing === 'stopped'
  const mayClaim = createMemo(
    () => takeable() && scope.may({ type: 'ClaimStep', stepId: stepId() }) === undefined,
  )
  const toLook = createSame(() =>
    props.view.sets.filter(
      ({ set, state }) =>
        state.first &&
        !state.second &&
        scope.may({ type: 'SecondSignStep', stepId: stepId(), setId: set.id }) === undefined,
    ),
  )
  return (
    <div class="step-do stack">
      <Show when={mayClaim()}>
        <button
          type="button"
          class="button"
          onClick={() => scope.send({ type: 'ClaimStep', stepId: stepId() })}
        >
          {props.view.standing === 'stopped' ? 'Claim and continue' : 'Claim step'}
          <span class="unseen"> {stepId()}</span>
        </button>
      </Show>
      <Show when={takeable() && !mayClaim()}>
        <WhyNot stepId={stepId()} />
      </Show>
      <Show when={props.view.claim && mine()}>
        <A class="button main" href={benchHref(scope.job().id, stepId())}>
          To the bench<span class="unseen">, {stepId()}</span>
        </A>
      </Show>
      <For each={toLook()}>
        {({ set }) => (
          <button
            type="button"
            class="button"
            onClick={() => open({ dialog: 'look', stepId: stepId(), setId: set.id })}
          >
            {GIVE_SECOND}
            <span classList={{ unseen: set.remainder }}>{set.remainder ? ` ${stepId()}` : set.title}</span>
          </button>
        )}
      </For>
    </div>
  )
}

/** A joint in a line: how many of what, its class, and how far it is. */
function JointChip(props: { view: JointView }) {
  const { joint } = props.view
  const scope = useJob()
  const conditions = createSame(() => fastenersSaid(scope.planned(), joint))
  const count = () => props.view.count
  const share = () => `${(100 * props.view.final) / count()}%`
  return (
    <li class="chip" classList={{ 'chip-flagged': props.view.flagged > 0 }} style={{ '--share': share() }}>
      <span class="class-mark" title={`class ${joint.class}`}>
        <span class="unseen">class </span>
        {joint.class}
      </span>
      <span>
        <b>{joint.title}</b> {count()} × {joint.thread}
      </span>
      <span class="pencil">
        {props.view.proven === count() ? 'signed off' : `${props.view.final} of ${count()} final`}
        <Show when={props.view.flagged > 0}>, {props.view.flagged} flagged</Show>
      </span>
      <For each={conditions()}>{(words) => <b class="chip-said">{words}</b>}</For>
    </li>
  )
}

/** A measurement's values in a line; many places are counted here and listed among the details. */
function Measured(props: { view: MeasurementView }) {
  const { measurement } = props.view
  const taken = () => props.view.places.filter(({ entry }) => entry)
  const out = () => taken().filter(({ entry }) => entry && !entry.inBand).length
  return (
    <p class="small measured">
      <b>{measurement.title}</b>{' '}
      <Show
        when={taken().length > 0}
        fallback={<span class="pencil">{limitsWords(measurement, format)}, not measured yet</span>}
      >
        <Show
          when={props.view.places.length <= 6}
          fallback={`${taken().length} of ${props.view.places.length} places measured, in ${measurement.unit}`}
        >
          <For each={taken()}>
            {({ entry }, index) => (
              <span class="value" classList={{ against: entry?.inBand === false }}>
                {format.number(entry?.value ?? 0)}
                {index() + 1 === taken().length ? unitAfter(measurement.unit) : ' '}
              </span>
            )}
          </For>
        </Show>
        <span class="pencil">, asked {limitsWords(measurement, format)}</span>
        <Show when={out() > 0}>
          <strong class="against">
            {' '}
            {out()} outside {out() === 1 ? 'its' : 'their'} limits
          </strong>
        </Show>
      </Show>
    </p>
  )
}
