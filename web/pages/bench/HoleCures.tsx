/** Bonded inserts that still cure: their clocks beside the sealant's, and the word against tightening there before. */
import { createMemo, For, Show } from 'solid-js'
import { curingInserts } from '../../job/record/hole-rows'
import { useJob } from '../../job/scope'
import { countdown } from '../../job/step/sealant-words'
import { useNow } from '../../ui/clock'
import { useBench } from './bench'
import './sealant.css'

export function HoleCures() {
  const bench = useBench()
  const scope = useJob()
  const now = useNow(1000)
  const curing = createMemo(() =>
    curingInserts(scope.planned(), [bench.step()], now()).sort((a, b) => a.until - b.until),
  )
  return (
    <Show when={curing().length > 0}>
      <section class="sealant-clock hole-cures cluster" aria-label="Curing inserts">
        <For each={curing().slice(0, 3)}>
          {({ n, joint, until }) => (
            <p class="hole-cure">
              <span class="sealant-figure" role="timer">
                {countdown(until - now())}
              </span>
              <span>
                Insert in hole {n}, {joint.title}: cures until {scope.words.moment(until)}.
              </span>
            </p>
          )}
        </For>
        <Show when={curing().length > 3}>
          <p>
            and {curing().length - 3} more, until {scope.words.moment(curing().at(-1)?.until ?? 0)}.
          </p>
        </Show>
      </section>
    </Show>
  )
}

/** Before a head is recorded whose thread is not there yet. */
export function CuringWords(props: { head: number | undefined }) {
  const bench = useBench()
  const scope = useJob()
  return (
    <Show when={props.head !== undefined && bench.curing(props.head)}>
      {(until) => (
        <p class="sentence against">
          The insert in hole {props.head} cures until {scope.words.moment(until())} and holds nothing before.
          What you record until then is flagged as too early.
        </p>
      )}
    </Show>
  )
}
