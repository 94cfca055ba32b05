/** What wants the supervisor, most important first. Every entry says what is so and leads to where it is settled. */
import { A } from '@solidjs/router'
import { createMemo, For, type JSX, type ParentProps, Show } from 'solid-js'
import { flaggedReadings, signBeforeHidden, unitSlips, unpublished } from '../../../shared/audit/awaiting'
import { flagWords } from '../../../shared/job/flags'
import { indexPlan } from '../../../shared/plan/read'
import { listed, positionsInWords } from '../../../shared/words'
import { Button } from '../../ui/Button'
import { Stripe } from '../../ui/Stripe'
import { planned, useDesk } from '../engine/desk'
import { awaitsWords, coversWords, coverWords, foldSlips, groupFlagged, slipWords } from './awaiting-words'
import { reachedWords } from './rows'

export function SignBeforeHidden(props: { look(stepId: string, setId: string): void }) {
  const desk = useDesk()
  const list = createMemo(() => signBeforeHidden(desk.job()))
  const mayLook = (stepId: string, setId: string) =>
    desk.may({ type: 'SecondSignStep', stepId, setId }) === undefined
  return (
    <List
      title="Sign before it gets hidden"
      count={list().length}
      empty="Nothing waits for a look. A step that asks for two signatures stands here once its doer has signed."
      first
    >
      <For each={list()}>
        {(one) => (
          <Entry id={one.step.id} late={one.hiddenBy.length > 0}>
            <div class="entry-say">
              <p>
                <Show when={one.hiddenBy.length > 0}>
                  <strong class="late">late</strong>{' '}
                </Show>
                <b>{one.covers.length > 0 ? coversWords(one) : one.setTitle}</b>
                <Show when={one.setTitle !== one.step.title && one.covers.length > 0}>, {one.setTitle}</Show>
              </p>
              <p class="pencil">
                {awaitsWords(one, desk.words)} <span class="entry-cover">{coverWords(one)}</span>
              </p>
            </div>
            <Show
              when={one.awaits === 'second'}
              fallback={
                <A class="button" href={`/jobs/${desk.job().id}/bench/${one.step.id}`}>
                  To the bench<span class="unseen">, {one.step.id}</span>
                </A>
              }
            >
              <Button
                look={mayLook(one.step.id, one.set) ? 'main' : undefined}
                onClick={() => props.look(one.step.id, one.set)}
              >
                {mayLook(one.step.id, one.set) ? 'Look and sign' : 'Look'}
                <span class="unseen">, {one.step.id}</span>
              </Button>
            </Show>
          </Entry>
        )}
      </For>
    </List>
  )
}

export function FlaggedReadings() {
  const desk = useDesk()
  const list = createMemo(() => groupFlagged(flaggedReadings(desk.job())))
  return (
    <List
      title="Readings that carry a flag"
      count={list().length}
      empty="No reading carries a flag. One out of band, out of order or with a doubtful wrench would stand here."
    >
      <For each={list()}>
        {(one) => (
          <Entry id={one.step.id} late={one.hidden}>
            <div class="entry-say">
              <p>
                <Show when={one.hidden}>
                  <strong class="late">covered</strong>{' '}
                </Show>
                <b>
                  {one.jointTitle} {positionNames(one.joint, one.readings)}
                </b>
                , pass {one.pass}: {listed(one.flags.map(flagWords))}
              </p>
              <For each={one.readings.slice(0, 1)}>
                {(first) => (
                  <p class="pencil by-line">
                    <span>
                      {[...new Set(one.readings.map(reachedWords))].join(', ')}
                      {first.wrenchId ? `, ${first.wrenchId}` : ''}
                    </span>
                    <Stripe person={first.by} />
                    <span>
                      {desk.words.moment(first.doneAt)}
                      {one.readings.length > 1
                        ? ` to ${desk.words.moment(one.readings.at(-1)?.doneAt ?? first.doneAt)}`
                        : ''}
                    </span>
                  </p>
                )}
              </For>
            </div>
            <A class="button" href={`/jobs/${desk.job().id}/bench/${one.step.id}`}>
              Strike or redo<span class="unseen">, {one.step.id}</span>
            </A>
          </Entry>
        )}
      </For>
    </List>
  )
}

export function UnitSlips() {
  const desk = useDesk()
  const list = createMemo(() => foldSlips(unitSlips(desk.job())))
  return (
    <List
      title="Numbers perhaps in the wrong unit"
      count={list().length}
      empty="No number is held up. One that misses its band, and would meet it in another unit of the crib, stands here with both readings."
    >
      <For each={list()}>
        {(one) => {
          const both = slipWords(one)
          return (
            <Entry id={one.step.id} settled={!one.stands}>
              <div class="entry-say">
                <p>
                  <b>{one.jointTitle}</b>
                  {one.kind === 'reading'
                    ? ` ${positionName(one.joint, one.entry.position)}`
                    : ', on the scale'}
                  , pass {one.entry.pass}
                </p>
                <p class="both">
                  <span>
                    as read <b>{both.asRead}</b>
                  </span>
                  <span>
                    fits as <b>{both.asMeant}</b>
                  </span>
                </p>
                <p class="pencil by-line">
                  {one.entry.wrenchId} <Stripe person={one.entry.by} /> {desk.words.moment(one.entry.doneAt)}
                  {one.stands ? '' : ', no longer in force'}
                </p>
              </div>
              <Show when={one.stands}>
                <A class="button" href={`/jobs/${desk.job().id}/bench/${one.step.id}`}>
                  Settle<span class="unseen">, {one.step.id}</span>
                </A>
              </Show>
            </Entry>
          )
        }}
      </For>
    </List>
  )
}

export function Unpublished() {
  const desk = useDesk()
  const list = createMemo(() => unpublished(desk.job()))
  return (
    <List
      title="Values without a published source"
      count={list().length}
      empty="Every torque the plan asks for has a published value."
    >
      <For each={list()}>
        {(one) => {
          const joint = indexPlan(planned(desk).plan).jointById.get(one.joint)
          return (
            <Entry id={one.step.id}>
              <div class="entry-say">
                <p>
                  <b>{one.jointTitle}</b> {positionsInWords(one.positions)}, {joint?.thread}, {joint?.grade}
                </p>
                <p class="pencil">
                  The maker gives no torque; nothing here can be proven until a competent person settles one
                  in writing.
                  {one.recorded > 0 ? ` ${one.recorded} of ${one.positions.length} recorded already.` : ''}
                </p>
              </div>
              <a class="button" href={`#joint-${one.joint}`}>
                See<span class="unseen"> {one.jointTitle}</span>
              </a>
            </Entry>
          )
        }}
      </For>
    </List>
  )
}

/** One position as the trade names it, or several by number. */
function positionNames(jointId: string, readings: readonly { position: number }[]): string {
  const numbers = [...new Set(readings.map(({ position }) => position))]
  const [only] = numbers
  return numbers.length === 1 && only !== undefined ? positionName(jointId, only) : positionsInWords(numbers)
}

/** A position as the trade names it. */
function positionName(jointId: string, n: number): string {
  const desk = useDesk()
  const label = indexPlan(planned(desk).plan)
    .jointById.get(jointId)
    ?.positions.find((position) => position.n === n)?.label
  return label ? `${n} (${label})` : `${n}`
}

function List(props: ParentProps<{ title: string; count: number; empty: string; first?: boolean }>) {
  return (
    <section
      class="audit-list"
      classList={{ 'audit-first': props.first === true, 'audit-none': props.count === 0 }}
    >
      <h2>
        {props.title}{' '}
        <Show when={props.count > 0}>
          <span class="list-count">{props.count}</span>
        </Show>
      </h2>
      <Show when={props.count > 0} fallback={<p class="pencil">{props.empty}</p>}>
        <ol>{props.children}</ol>
      </Show>
    </section>
  )
}

function Entry(props: { id: string; late?: boolean; settled?: boolean; children: JSX.Element }) {
  return (
    <li
      class="entry"
      classList={{ 'entry-late': props.late === true, 'entry-settled': props.settled === true }}
      data-open={props.settled ? undefined : ''}
      tabindex="-1"
    >
      <span class="entry-id">{props.id}</span>
      {props.children}
    </li>
  )
}
