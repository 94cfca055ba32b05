/** Beside the rows: what I must do today, and what changed since I looked. */

import { createSignal, For, type JSX, Show } from 'solid-js'
import type { Instant } from '../../../shared/log'
import { engineHref } from '../../hrefs'
import { useSession } from '../../live/live'
import { Button } from '../../ui/Button'
import { createPrinting } from '../../ui/printing'
import type { Change } from './since'
import type { ToDo } from './today'
import { visit } from './use-since'

interface BesideProps {
  today: readonly ToDo[]
  changes: readonly Change[]
  since: Instant | undefined
  seeAll(): void
}

export function Beside(props: BesideProps) {
  const session = useSession()
  return (
    <aside class="beside stack apart" aria-label="For you">
      <section aria-labelledby="today-title">
        <h2 class="ruled" id="today-title">
          What you must do today
        </h2>
        <Shortened
          items={props.today}
          empty={`Nothing for you now, ${session.person()?.name ?? ''}. Holds that are due, promises that are near and missing signatures are listed here.`}
        >
          {(todo) => (
            <a
              class="todo"
              classList={{ pressing: todo.pressing }}
              href={todo.href}
              onClick={() => visit(todo.jobId)}
            >
              <b class="stencil">{todo.number}</b>
              <span>{todo.text}</span>
            </a>
          )}
        </Shortened>
      </section>
      <section aria-labelledby="since-title" classList={{ nothing: props.changes.length === 0 }}>
        <h2 class="ruled" id="since-title">
          Since you looked
          <Show when={props.since}>
            {(at) => <span class="pencil small">, {session.words.moment(at())}</span>}
          </Show>
        </h2>
        <Shortened items={props.changes} empty="Nothing has changed.">
          {(change) => (
            // Plain, as in the rows: an entry comes anew with most events.
            <a class="change" href={engineHref(change.jobId)} onClick={() => visit(change.jobId)}>
              <b class="stencil">{change.number}</b>
              <span>
                <Show when={change.also}>
                  {(also) => (
                    <span class="pencil small change-also">
                      {also()}
                      <span class="unseen">. </span>
                    </span>
                  )}
                </Show>
                {change.now}
                <Show when={change.before}>
                  {(before) => <span class="pencil small change-before">Before: {before()}</span>}
                </Show>
              </span>
            </a>
          )}
        </Shortened>
        <Show when={props.changes.length > 0}>
          <Button variant="quiet" onClick={() => props.seeAll()}>
            I have seen these
          </Button>
        </Show>
      </section>
    </aside>
  )
}

const FIRST = 7

/** The first few; the rest behind one press, all on paper. On a narrow screen still fewer, by the style sheet. */
function Shortened<T>(props: { items: readonly T[]; empty: string; children: (item: T) => JSX.Element }) {
  const [all, setAll] = createSignal(false)
  const printing = createPrinting()
  const shown = () => (all() || printing() ? props.items : props.items.slice(0, FIRST))
  return (
    <>
      <ul class="beside-list" classList={{ all: all() }}>
        <For each={shown()} fallback={<li class="pencil small beside-empty">{props.empty}</li>}>
          {(item) => <li>{props.children(item)}</li>}
        </For>
      </ul>
      <Show when={!all() && props.items.length > 3}>
        <Button
          variant="quiet"
          class={props.items.length > FIRST ? '' : 'only-narrow'}
          onClick={() => setAll(true)}
        >
          Show all {props.items.length}
        </Button>
      </Show>
    </>
  )
}
