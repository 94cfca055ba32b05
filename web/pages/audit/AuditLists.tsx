/** What wants the supervisor, most important first. Every entry says what is so and leads to where it is settled. */
import { createMemo, For, Show } from 'solid-js'
import { flaggedReadings, signBeforeHidden, unitSlips } from '../../../shared/audit/awaiting'
import { flagWords } from '../../../shared/job/kinds'
import { isWaived } from '../../../shared/job/verdicts'
import { listed, positionsInWords } from '../../../shared/words'
import { reachedWords } from '../../job/record/rows'
import { positionName as namedPosition } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Entry, List } from './AuditList'
import { awaitsWords, coversWords, coverWords, foldSlips, groupFlagged, slipWords } from './awaiting-words'
import { DeviationEntry } from './DeviationEntry'
import { numbersOff } from './deviations'
import { useAuditDialogs } from './dialogs'
import { ToBench } from './ReleaseLists'

export function SignBeforeHidden() {
  const scope = useJob()
  const open = useAuditDialogs()
  // A missing second signature that was waived is owed by nobody any more.
  const list = createMemo(() =>
    signBeforeHidden(scope.job()).filter(
      ({ awaits, step, set }) =>
        awaits !== 'second' || !isWaived(scope.job(), { kind: 'second', stepId: step.id, setId: set }),
    ),
  )
  const mayLook = (stepId: string, setId: string) =>
    scope.may({ type: 'SecondSignStep', stepId, setId }) === undefined
  return (
    <List
      title="Sign before it is covered"
      count={list().length}
      empty="Nothing needs a second signature now. A step that takes two is listed here once its doer has signed."
      first
    >
      <For each={list()}>
        {(one) => (
          <Entry
            id={one.step.id}
            late={one.hiddenBy.length > 0}
            ways={
              <Show when={one.awaits === 'second'} fallback={<ToBench stepId={one.step.id} />}>
                <Button
                  variant={mayLook(one.step.id, one.set) ? 'main' : undefined}
                  onClick={() => open({ dialog: 'look', stepId: one.step.id, setId: one.set })}
                >
                  {mayLook(one.step.id, one.set) ? 'Look and sign' : 'Look'}
                  <span class="unseen">, {one.step.id}</span>
                </Button>
              </Show>
            }
          >
            <p>
              <Show when={one.hiddenBy.length > 0}>
                <strong class="late">late</strong>{' '}
              </Show>
              <b>{one.covers.length > 0 ? coversWords(one) : one.setTitle}</b>
              <Show when={one.setTitle !== one.step.title && one.covers.length > 0}>, {one.setTitle}</Show>
            </p>
            <p class="pencil">
              {awaitsWords(one, scope.words)} <span class="entry-cover">{coverWords(one)}</span>
            </p>
            <Show when={scope.job().steps[one.step.id]?.sets[one.set]?.look}>
              {(look) => (
                <p>
                  Look noted without signal: {scope.words.person(look().personId)},{' '}
                  {scope.words.moment(look().doneAt)}. No signature until their PIN reaches the server.
                </p>
              )}
            </Show>
          </Entry>
        )}
      </For>
    </List>
  )
}

const waivedReading = ({ id }: { id: string }) => ({ kind: 'reading' as const, readingId: id })

export function FlaggedReadings() {
  const scope = useJob()
  const open = useAuditDialogs()
  const list = createMemo(() => groupFlagged(flaggedReadings(scope.job())))
  const off = createMemo(() => numbersOff(scope.planned()))
  return (
    <List
      title="Flagged readings"
      count={list().length + off().length}
      empty="No reading is flagged. A reading out of band or out of order, a measurement out of limits or a wrong count would be listed here."
    >
      <For each={off()}>
        {(one) => (
          <DeviationEntry one={one} says={one.what[0]?.kind === 'gate' ? 'a wrong count' : 'out of limits'} />
        )}
      </For>
      <For each={list()}>
        {(one) => (
          <Entry
            id={one.step.id}
            late={one.hidden}
            ways={
              <>
                <ToBench stepId={one.step.id} words="Cross out or redo" />
                <Show when={scope.leads()}>
                  <Button
                    variant="quiet"
                    onClick={() =>
                      open({
                        dialog: 'waive',
                        title: 'Accept with a reason',
                        what: one.readings.map(waivedReading),
                      })
                    }
                  >
                    Accept with a reason<span class="unseen"> {one.jointTitle}</span>
                  </Button>
                </Show>
              </>
            }
          >
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
                <p class="pencil by-line cluster">
                  <span>
                    {[...new Set(one.readings.map(reachedWords))].join(', ')}
                    {first.wrenchId ? `, ${first.wrenchId}` : ''}
                  </span>
                  <Stripe person={first.by} />
                  <span>
                    {scope.words.moment(first.doneAt)}
                    {one.readings.length > 1
                      ? ` to ${scope.words.moment(one.readings.at(-1)?.doneAt ?? first.doneAt)}`
                      : ''}
                  </span>
                </p>
              )}
            </For>
          </Entry>
        )}
      </For>
    </List>
  )
}

export function UnitSlips() {
  const scope = useJob()
  const list = createMemo(() => foldSlips(unitSlips(scope.job())))
  return (
    <List
      title="Numbers perhaps in the wrong unit"
      count={list().length}
      empty="No number looks like the wrong unit. One that is out of band, and in band in another unit of the crib, would be listed here with both readings."
    >
      <For each={list()}>
        {(one) => {
          const both = slipWords(one)
          return (
            <Entry
              id={one.step.id}
              settled={!one.stands}
              ways={one.stands ? <ToBench stepId={one.step.id} words="Settle" /> : undefined}
            >
              <p>
                <b>{one.jointTitle}</b>
                {one.kind === 'reading'
                  ? ` ${positionName(one.joint, one.entry.position)}`
                  : ', on the scale'}
                , pass {one.entry.pass}
              </p>
              <p class="both cluster">
                <span>
                  as read <b>{both.asRead}</b>
                </span>
                <span>
                  fits as <b>{both.asMeant}</b>
                </span>
              </p>
              <p class="pencil by-line cluster">
                {one.entry.wrenchId} <Stripe person={one.entry.by} /> {scope.words.moment(one.entry.doneAt)}
                {one.stands ? '' : ', no longer counts'}
              </p>
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

const positionName = (jointId: string, n: number): string => namedPosition(useJob().planned(), jointId, n)
