/**
 * What happened to this engine, newest first, one sentence each.
 *
 * The server tells it once; when the job moves on only the events since are taken, a moment later, so that a quick round of
 * clicks draws once: those the link brought, or else asked for. They are said here in the same sentences.
 */
import { createEffect, createMemo, createSignal, For, on, onCleanup, Show } from 'solid-js'
import type { JobEvent } from '../../../shared/job/events'
import { type TrailLine, trailLine } from '../../../shared/job/trail'
import type { StreamEvent } from '../../../shared/log'
import { useJob } from '../../job/scope'
import { ask, isFailure } from '../../live/http'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { Select } from '../../ui/Select'
import { createSame } from '../../ui/same'
import { narrowTrail, occurringInTrail, withNewer } from './trail-view'

const FIRST = 20
const MORE = 60
const QUIET_MS = 400

export function Trail() {
  const scope = useJob()
  const [lines, setLines] = createSignal<readonly TrailLine[]>()
  const [problem, setProblem] = createSignal<string>()
  const [person, setPerson] = createSignal('')
  const [step, setStep] = createSignal('')
  const [shown, setShown] = createSignal(FIRST)

  const address = `/api/jobs/${encodeURIComponent(scope.job().id)}`
  const fetchInto = async <T extends object>(path: string, take: (reply: T) => void) => {
    const reply = await ask<T>(path)
    if (isFailure(reply)) return setProblem(reply.sentence)
    setProblem(undefined)
    take(reply)
  }
  const read = () => {
    const have = lines()
    const last = have?.at(-1)?.version
    if (!have || last === undefined)
      return fetchInto<{ lines: TrailLine[] }>(`${address}/trail`, (reply) => setLines(reply.lines))
    const take = (events: readonly StreamEvent<JobEvent>[]) =>
      setLines(
        withNewer(
          have,
          events.map((event) => trailLine(scope.job(), event, scope.words)),
        ),
      )
    const told = scope.since(last)
    if (told) return take(told)
    return fetchInto<{ events: StreamEvent<JobEvent>[] }>(`${address}/events?after=${last}`, ({ events }) =>
      take(events),
    )
  }
  const version = createMemo(() => scope.job().version)
  let waiting: ReturnType<typeof setTimeout> | undefined
  createEffect(
    on(version, (_, before) => {
      clearTimeout(waiting)
      waiting = setTimeout(() => void read(), before === undefined ? 0 : QUIET_MS)
    }),
  )
  onCleanup(() => clearTimeout(waiting))

  const occurring = createMemo(() => occurringInTrail(lines() ?? []))
  const people = createSame(() =>
    occurring().people.map((id) => ({ value: id, title: scope.words.person(id) })),
  )
  const steps = createSame(() => occurring().steps.map((id) => ({ value: id, title: id })))
  const narrowed = createMemo(() => narrowTrail(lines() ?? [], { person: person(), step: step() }))
  const narrow = (set: (value: string) => void) => (value: string) => {
    set(value)
    setShown(FIRST)
  }
  return (
    <section class="trail" aria-labelledby="trail-head" tabindex="0">
      <h2 class="ruled" id="trail-head" tabindex="-1">
        What happened
      </h2>
      <Show when={(lines()?.length ?? 0) > 1}>
        <div class="trail-filter">
          <Select
            label="Person"
            empty="everybody"
            value={person()}
            options={people()}
            onValue={narrow(setPerson)}
          />
          <Select
            label="Step"
            empty="every step"
            value={step()}
            options={steps()}
            onValue={narrow(setStep)}
          />
        </div>
      </Show>
      <Show when={problem()}>{(sentence) => <p class="against">{sentence()}</p>}</Show>
      <ol class="trail-lines lines">
        <For
          each={narrowed().slice(0, shown())}
          fallback={
            <Show when={lines()}>
              <li class="pencil">
                {person() || step()
                  ? 'Nothing like that happened yet. Choose everybody and every step to see all.'
                  : 'Nothing happened yet. The first claim at the bench will stand here.'}
              </li>
            </Show>
          }
        >
          {(line) => (
            <li>
              <p class="trail-when">
                <time dateTime={new Date(line.doneAt).toISOString()}>{scope.words.moment(line.doneAt)}</time>
                <Stripe person={line.by} />
              </p>
              <p>{line.sentence}</p>
            </li>
          )}
        </For>
      </ol>
      <Show when={narrowed().length > shown()}>
        <Button onClick={() => setShown(shown() + MORE)}>
          Show more <span class="pencil">({narrowed().length - shown()} older)</span>
        </Button>
      </Show>
    </section>
  )
}
