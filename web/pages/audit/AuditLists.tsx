/** What wants the supervisor, most important first. Every entry says what is so and leads to where it is settled. */
import { For, Show } from 'solid-js'
import { flaggedReadings, signBeforeHidden, unitSlips } from '../../../shared/audit/awaiting'
import { flagWords } from '../../../shared/job/kinds'
import { isWaived } from '../../../shared/job/verdicts'
import { listed, positionsInWords } from '../../../shared/words'
import { reachedWords } from '../../job/record/rows'
import { positionName as namedPosition } from '../../job/record/verdict'
import { useJob } from '../../job/scope'
import { isSealedHere, lookedWords } from '../../job/step/second-words'
import { Stripe } from '../../people/Stripe'
import { createSame } from '../../ui/same'
import { Entry, List } from './AuditList'
import { awaitsWords, coversWords, coverWords, foldSlips, groupFlagged, slipWords } from './awaiting-words'
import { DeviationEntry } from './DeviationEntry'
import { numbersOff } from './deviations'
import { AcceptButton, LookButton, ToBench } from './EntryWays'

export function SignBeforeHidden() {
  const scope = useJob()
  // A missing second signature that was waived is owed by nobody any more.
  const list = createSame(() =>
    signBeforeHidden(scope.job()).filter(
      ({ awaits, step, set }) =>
        awaits !== 'second' || !isWaived(scope.job(), { kind: 'second', stepId: step.id, setId: set }),
    ),
  )
  return (
    <List
      title="Sign before it is covered"
      count={list().length}
      empty="Nothing needs a second signature now. A step that takes two is listed here once its doer has signed."
      first
    >
      <For each={list()}>
        {(set) => (
          <Entry
            id={set.step.id}
            late={set.hiddenBy.length > 0}
            ways={
              <Show when={set.awaits === 'second'} fallback={<ToBench stepId={set.step.id} />}>
                <LookButton stepId={set.step.id} setId={set.set} />
              </Show>
            }
          >
            <p>
              <Show when={set.hiddenBy.length > 0}>
                <strong class="late">late</strong>{' '}
              </Show>
              <b>{set.covers.length > 0 ? coversWords(set) : set.setTitle}</b>
              <Show when={set.setTitle !== set.step.title && set.covers.length > 0}>, {set.setTitle}</Show>
            </p>
            <p class="pencil">
              {awaitsWords(set, scope.words)} <span class="entry-cover">{coverWords(set)}</span>
            </p>
            <Show when={scope.job().steps[set.step.id]?.sets[set.set]?.look}>
              {(look) => (
                <p>
                  Look noted without signal: {scope.words.person(look().personId)},{' '}
                  {scope.words.moment(look().doneAt)};{' '}
                  {lookedWords(look(), isSealedHere(scope.pending(), set.step.id, set.set))}.
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
  const list = createSame(() => groupFlagged(flaggedReadings(scope.job())))
  const off = createSame(() => numbersOff(scope.planned()))
  return (
    <List
      title="Flagged readings"
      count={list().length + off().length}
      empty="No reading is flagged. A reading out of band or out of order, a measurement out of limits or a wrong count would be listed here."
    >
      <For each={off()}>
        {(deviation) => (
          <DeviationEntry
            deviation={deviation}
            says={deviation.what[0]?.kind === 'gate' ? 'a wrong count' : 'out of limits'}
          />
        )}
      </For>
      <For each={list()}>
        {(group) => (
          <Entry
            id={group.step.id}
            late={group.hidden}
            ways={
              <>
                <ToBench stepId={group.step.id} />
                <AcceptButton what={group.readings.map(waivedReading)} of={group.jointTitle} />
              </>
            }
          >
            <p>
              <Show when={group.hidden}>
                <strong class="late">covered</strong>{' '}
              </Show>
              <b>
                {group.jointTitle} {positionNames(group.joint, group.readings)}
              </b>
              , pass {group.pass}: {listed(group.flags.map(flagWords))}
            </p>
            <For each={group.readings.slice(0, 1)}>
              {(first) => (
                <p class="pencil by-line cluster">
                  <span>
                    {[...new Set(group.readings.map(reachedWords))].join(', ')}
                    {first.wrenchId ? `, ${first.wrenchId}` : ''}
                  </span>
                  <Stripe person={first.by} />
                  <span>{firstToLast(group.readings.map(({ doneAt }) => scope.words.moment(doneAt)))}</span>
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
  const list = createSame(() => foldSlips(unitSlips(scope.job())))
  return (
    <List
      title="Numbers perhaps in the wrong unit"
      count={list().length}
      empty="No number looks like the wrong unit. One that is out of band, and in band in another unit used in this shop, would be listed here with both readings."
    >
      <For each={list()}>
        {(line) => {
          const both = slipWords(line)
          return (
            <Entry
              id={line.step.id}
              settled={!line.stands}
              ways={line.stands ? <ToBench stepId={line.step.id} /> : undefined}
            >
              <p>
                <b>{line.jointTitle}</b>
                {line.kind === 'reading'
                  ? ` ${positionName(line.joint, line.entry.position)}`
                  : ', on the scale'}
                , pass {line.entry.pass}
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
                {line.entry.wrenchId} <Stripe person={line.entry.by} />{' '}
                {scope.words.moment(line.entry.doneAt)}
                {line.stands ? '' : ', no longer counts'}
              </p>
            </Entry>
          )
        }}
      </For>
    </List>
  )
}

/** `08:48 to 08:50`, or the one moment where both read the same. */
function firstToLast(moments: readonly string[]): string {
  const [first = '', last = first] = [moments[0], moments.at(-1)]
  return last === first ? first : `${first} to ${last}`
}

/** One position as the trade names it, or several by number. */
function positionNames(jointId: string, readings: readonly { position: number }[]): string {
  const numbers = [...new Set(readings.map(({ position }) => position))]
  const [only] = numbers
  return numbers.length === 1 && only !== undefined ? positionName(jointId, only) : positionsInWords(numbers)
}

const positionName = (jointId: string, n: number): string => namedPosition(useJob().planned(), jointId, n)
