/**
 * The second person's look: every reading of one set on its map and against its band, then their word.
 *
 * The button stands below what is to be looked at, on purpose. Who may not sign is told why, and who may.
 */
import { createMemo, For, Show } from 'solid-js'
import { flagWords } from '../../../shared/job/kinds'
import { hiddenBy, setViews, standingReading } from '../../../shared/job/verdicts'
import { indexPlan } from '../../../shared/plan/read'
import type { AdoptedJoint, AdoptedStep } from '../../../shared/plan/types'
import { bandWords, limitsWords, passWords } from '../../../shared/plan/words'
import { unitAfter } from '../../../shared/units'
import { listed } from '../../../shared/words'
import { BoltMap } from '../../drawings/BoltMap'
import { headsOf } from '../../drawings/heads'
import { format } from '../../format'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Dialog } from '../../ui/Dialog'
import { Sentence } from '../../ui/Sentence'
import { useJobDialogs } from '../dialogs'
import { PassBar } from '../record/PassBar'
import { checkWords, reachedWords } from '../record/rows'
import { useJob, whoMaySecond } from '../scope'
import { GIVE_SECOND_NOW, SECOND_STATES } from './second-words'
import { stepView } from './step-view'
import { fastenerWords } from './step-words'
import './look.css'

interface LookProps {
  stepId: string
  setId: string
  onClose(): void
}

export default function LookAndSign(props: LookProps) {
  const scope = useJob()
  const open = useJobDialogs()
  const job = () => scope.planned()
  const step = createMemo(() => indexPlan(job().plan).stepById.get(props.stepId))
  const view = createMemo(() => {
    const at = step()
    return at && setViews(job(), at).find(({ set }) => set.id === props.setId)
  })
  const command = () => ({ type: 'SecondSignStep' as const, stepId: props.stepId, setId: props.setId })
  const refusal = createMemo(() => scope.may(command()))
  const others = createMemo(() =>
    whoMaySecond(scope, props.stepId, props.setId).filter((id) => id !== scope.me()),
  )
  const covers = createMemo(() => {
    const hiders =
      view()?.set.covers.flatMap(({ joint, positions }) => hiddenBy(job(), joint, positions)) ?? []
    return [...new Set(hiders.map(({ id, title }) => `${id} ${title}`))]
  })
  const waive = () =>
    open({ dialog: 'waive', what: [{ kind: 'second', stepId: props.stepId, setId: props.setId }] })
  const sign = () => {
    void scope.send(command())
    props.onClose()
  }
  return (
    <Dialog open broad title={`${props.stepId} ${view()?.set.title ?? ''}`} onClose={props.onClose}>
      <Show when={step()}>
        {(at) => (
          <Show when={view()}>
            {(set) => (
              <div class="look">
                <For each={set().set.covers}>
                  {({ joint: id, positions }) => (
                    <Show when={at().joints.find((joint) => joint.id === id)}>
                      {(joint) => <JointLook step={at()} joint={joint()} positions={positions} />}
                    </Show>
                  )}
                </For>
                <Show when={set().set.remainder}>
                  <MeasuredLook step={at()} />
                </Show>
                <footer class="look-sign stack roomy">
                  <Show when={set().state.first}>
                    {(first) => (
                      <p>
                        Done and signed by <Stripe person={first().by} name="after" />,{' '}
                        {scope.words.moment(first().doneAt)}.
                      </p>
                    )}
                  </Show>
                  <Show when={!set().state.second && covers().length > 0}>
                    <p class="against">
                      {listed(covers())} {covers().length === 1 ? 'covers' : 'cover'} it already: a second
                      signature now is recorded as late.
                    </p>
                  </Show>
                  <Show
                    when={set().state.second}
                    fallback={
                      <Show
                        when={refusal()}
                        fallback={
                          <>
                            <p>{SECOND_STATES}</p>
                            <Button variant="main" wide onClick={sign}>
                              {GIVE_SECOND_NOW}
                            </Button>
                          </>
                        }
                      >
                        {(no) => (
                          <>
                            <Sentence against>{no().sentence}</Sentence>
                            <p>
                              {others().length > 0
                                ? `May second-sign this: ${listed(others().map(scope.words.person))}. They can do it here after changing person, or at the bench with their PIN.`
                                : 'Nobody in the shop may second-sign this now. The supervisor enters who may.'}
                            </p>
                          </>
                        )}
                      </Show>
                    }
                  >
                    {(second) => (
                      <p>
                        Looked at and signed by <Stripe person={second().by} name="after" />,{' '}
                        {scope.words.moment(second().doneAt)}.
                      </p>
                    )}
                  </Show>
                  <Show when={set().state.look}>
                    {(look) => (
                      <p>
                        Look noted without signal: {scope.words.person(look().personId)},{' '}
                        {scope.words.moment(look().doneAt)}; not a signature.
                      </p>
                    )}
                  </Show>
                  <Show when={scope.leads() && set().state.first && !set().state.second && !set().accepted}>
                    <Button variant="quiet" onClick={waive}>
                      Accept with a reason
                    </Button>
                  </Show>
                </footer>
              </div>
            )}
          </Show>
        )}
      </Show>
    </Dialog>
  )
}

function JointLook(props: { step: AdoptedStep; joint: AdoptedJoint; positions: readonly number[] }) {
  const scope = useJob()
  const heads = createMemo(() =>
    headsOf(scope.planned(), scope.shop(), props.step, props.joint, { round: props.positions }),
  )
  const readings = (pass: number) =>
    props.positions.flatMap((n) => standingReading(scope.planned(), props.joint, n, pass) ?? [])
  const label = (n: number) => props.joint.positions.find((position) => position.n === n)?.label
  return (
    <section class="stack airy">
      <header>
        <h3>{props.joint.title}</h3>
        <p>
          {fastenerWords(props.joint)}, {props.joint.lubrication}, class {props.joint.class}
        </p>
      </header>
      <div class="look-map">
        <BoltMap
          positions={props.joint.positions}
          outline={props.joint.outline}
          heads={heads()}
          height={220}
          fit
          label={`Bolt map of ${props.joint.title}`}
        />
      </div>
      <For each={props.joint.passes}>
        {(pass, index) => (
          <Show when={pass.kind !== 'wait'}>
            <div class="look-pass stack">
              <h4>
                Pass {index() + 1} of {props.joint.passes.length}: {passWords(pass, format)}
                <Show when={props.joint.bands[index()]}>
                  {(band) => <span class="pencil">, band {bandWords(band(), format)}</span>}
                </Show>
              </h4>
              <PassBar
                asked={pass}
                band={props.joint.bands[index()] ?? null}
                readings={readings(index() + 1)}
              />
              <ul class="look-readings">
                <For each={readings(index() + 1)}>
                  {(reading) => (
                    <li classList={{ against: reading.flags.length > 0 }}>
                      <b>
                        {reading.position}
                        {label(reading.position) ? ` (${label(reading.position)})` : ''}
                      </b>{' '}
                      {reachedWords(reading)}
                      <span class="pencil">
                        , {reading.wrenchId ?? 'no wrench named'}
                        {reading.wrench ? `, ${checkWords(reading.wrench, format.date)}` : ''},{' '}
                        {scope.words.person(reading.by)} {scope.words.moment(reading.doneAt)}
                      </span>
                      <Show when={reading.flags.length > 0}>: {listed(reading.flags.map(flagWords))}</Show>
                    </li>
                  )}
                </For>
              </ul>
            </div>
          </Show>
        )}
      </For>
    </section>
  )
}

function MeasuredLook(props: { step: AdoptedStep }) {
  const scope = useJob()
  const view = createMemo(() => stepView(scope.planned(), props.step))
  return (
    <Show when={view().measurements.length > 0}>
      <section class="stack airy">
        <h3>Measured</h3>
        <ul class="look-readings">
          <For each={view().measurements}>
            {({ measurement, places, leads }) => (
              <li classList={{ against: places.some(({ entry }) => entry?.inBand === false) }}>
                <b>{measurement.title}</b>{' '}
                {places
                  .map(({ place, entry }) => `${place} ${entry ? format.number(entry.value) : '–'}`)
                  .join(', ')}
                {unitAfter(measurement.unit)}
                <span class="pencil">, asked {limitsWords(measurement, format)}</span>
                <For each={leads}>{({ words }) => <p class="small">{words}</p>}</For>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  )
}
