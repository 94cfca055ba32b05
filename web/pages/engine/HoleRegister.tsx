/** The thread and hole register: by joint and position, what was found and done, and the section with what goes in. */
import { A } from '@solidjs/router'
import { createSignal, For, Show } from 'solid-js'
import { rightLengths } from '../../../shared/job/hole-words'
import { upperFirst } from '../../../shared/words'
import { BoltInHole } from '../../drawings/BoltInHole'
import { sectionFor, sectionLabel } from '../../drawings/hole-section'
import { format } from '../../format'
import { benchHref } from '../../hrefs'
import { entryWords, type HoleRow, holeRows } from '../../job/record/hole-rows'
import { useJob } from '../../job/scope'
import { Stripe } from '../../people/Stripe'
import { Button } from '../../ui/Button'
import { createSame } from '../../ui/same'
import './hole-register.css'

/** More places than these are drawn one by one, when somebody asks. */
const DRAWN = 4

export function HoleRegister() {
  const scope = useJob()
  const rows = createSame(() => holeRows(scope.planned()))
  const joints = createSame(() => [...new Set(rows().map(({ joint }) => joint.id))])
  return (
    <section class="hole-register stack roomy" aria-labelledby="holes-head">
      <h2 class="ruled" id="holes-head">
        Threads and holes
      </h2>
      <Show
        when={rows().length > 0}
        fallback={
          <p class="pencil">
            No hole is recorded: every thread is taken to be as the maker left it. A worn, stripped or renewed
            one is recorded at the bench: open its head, then Thread and hole.
          </p>
        }
      >
        <For each={joints()}>
          {(id) => {
            const here = () => rows().filter(({ joint }) => joint.id === id)
            return (
              <section class="hole-joint" aria-label={here()[0]?.title ?? id}>
                <h3>
                  {here()[0]?.title}{' '}
                  <span class="pencil">
                    {here()[0]?.stepId} · {here()[0]?.joint.thread}
                  </span>
                </h3>
                <ol>
                  <For each={here()}>{(row) => <Place row={row} drawn={rows().length <= DRAWN} />}</For>
                </ol>
              </section>
            )
          }}
        </For>
      </Show>
    </section>
  )
}

function Place(props: { row: HoleRow; drawn: boolean }) {
  const scope = useJob()
  const [opened, setOpened] = createSignal<boolean>()
  const section = () => (props.row.entry?.condition === 'stripped' ? undefined : props.row.fit)
  const shown = () => opened() ?? props.drawn
  return (
    <li class="hole-place" classList={{ stops: props.row.against }}>
      <p class="hole-number">
        <span class="unseen">Hole </span>
        {props.row.position}
      </p>
      <div class="hole-told stack">
        <ol>
          <For each={props.row.entries.toReversed()} fallback={<li>Thread as the maker left it.</li>}>
            {(entry, index) => (
              <li classList={{ past: index() > 0 }}>
                <p>
                  <strong>{upperFirst(entryWords(entry, scope.words))}</strong>
                </p>
                <Show when={entry.note}>{(note) => <p>“{note()}”</p>}</Show>
                <p class="pencil by-line cluster">
                  <Stripe person={entry.by} name="after" /> {scope.words.moment(entry.doneAt)}
                </p>
              </li>
            )}
          </For>
        </ol>
        <Show when={props.row.goesIn}>
          <p classList={{ 'against-words': props.row.against }}>{props.row.goesIn}</p>
        </Show>
        <Show when={props.row.against && section()}>{(fit) => <p>{rightLengths(fit().fit, format)}</p>}</Show>
        <p class="hole-ways cluster">
          <A class="button quiet" href={benchHref(scope.job().id, props.row.stepId)}>
            To the bench<span class="unseen"> of {props.row.stepId}</span>
          </A>
          <Show when={!props.drawn && section()}>
            <Button variant="quiet" aria-expanded={shown()} onClick={() => setOpened(!shown())}>
              {shown() ? 'Hide section' : 'Show section'}
            </Button>
          </Show>
        </p>
      </div>
      <Show when={shown() && section()}>
        {(fit) => (
          <BoltInHole
            section={sectionFor(fit())}
            label={sectionLabel(props.row.joint, fit(), props.row.entry)}
            against={props.row.against}
            height={240}
          />
        )}
      </Show>
    </li>
  )
}
