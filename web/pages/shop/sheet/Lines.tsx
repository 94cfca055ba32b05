/**
 * The lines of a sheet in two lists: to look at, and read without doubt. Thousands of them stay quick: they stand in
 * blocks, and a block is drawn when it comes near the window or somebody is led to a line of it.
 */
import { createEffect, createMemo, createSignal, For, on, onCleanup, onMount, Show } from 'solid-js'
import { SheetRow } from './SheetRow'
import { type CorrectLine, isToLookAt, type WorkLine } from './sheet-work'

const BLOCK = 40
const NEAR_PX = 1200

interface LinesProps {
  sorted: { look: readonly number[]; rest: readonly number[] }
  byLine(n: number): WorkLine | undefined
  here: number | undefined
  onHere(n: number): void
  toNext(): void
  onCorrect: CorrectLine
}

export function Lines(props: LinesProps) {
  // Lines put right stay where they are, and count no more.
  const left = createMemo(() => props.sorted.look.filter((n) => isToLookAt(props.byLine(n))).length)
  return (
    <>
      <Show when={props.sorted.look.length > 0}>
        <section aria-labelledby="look-title">
          <h3 id="look-title">
            To look at <span class="pencil">{left()}</span>
          </h3>
          <Blocks {...props} numbers={props.sorted.look} withSection />
        </section>
      </Show>
      <Show when={props.sorted.rest.length > 0}>
        <section aria-labelledby="rest-title">
          <h3 id="rest-title">
            Read without doubt, in the order of the sheet{' '}
            <span class="pencil">{props.sorted.rest.length}</span>
          </h3>
          <Blocks {...props} numbers={props.sorted.rest} />
        </section>
      </Show>
    </>
  )
}

interface BlocksProps extends LinesProps {
  numbers: readonly number[]
  /** Torn out of their order, lines say under which heading they stand. */
  withSection?: boolean
}

function Blocks(props: BlocksProps) {
  const blocks = createMemo(() =>
    Array.from({ length: Math.ceil(props.numbers.length / BLOCK) }, (_, i) =>
      props.numbers.slice(i * BLOCK, (i + 1) * BLOCK),
    ),
  )
  return <For each={blocks()}>{(numbers, i) => <Block {...props} numbers={numbers} first={i() === 0} />}</For>
}

function Block(props: BlocksProps & { first: boolean }) {
  const [drawn, setDrawn] = createSignal(props.first)
  let frame!: HTMLUListElement
  onMount(() => {
    if (drawn()) return
    const watcher = new IntersectionObserver(
      (seen) => {
        if (!seen.some(({ isIntersecting }) => isIntersecting)) return
        setDrawn(true)
        watcher.disconnect()
      },
      { rootMargin: `${NEAR_PX}px` },
    )
    watcher.observe(frame)
    onCleanup(() => watcher.disconnect())
  })
  createEffect(
    on(
      () => props.here,
      (n) => {
        if (n === undefined || !props.numbers.includes(n)) return
        setDrawn(true)
        // After the rows are in the page.
        queueMicrotask(() => {
          const row = frame.querySelector<HTMLElement>(`[data-line="${n}"]`)
          row?.scrollIntoView({ block: 'center' })
          row?.focus({ preventScroll: true })
        })
      },
    ),
  )
  return (
    <ul
      class="sheet-lines"
      ref={frame}
      style={drawn() ? undefined : { 'min-height': `${props.numbers.length * 7}rem` }}
    >
      <Show when={drawn()}>
        <For each={props.numbers}>
          {(n) => (
            <Show when={props.byLine(n)}>
              {(work) => (
                <SheetRow
                  work={work()}
                  withSection={props.withSection ?? false}
                  onHere={() => props.onHere(n)}
                  toNext={props.toNext}
                  onCorrect={props.onCorrect}
                />
              )}
            </Show>
          )}
        </For>
      </Show>
    </ul>
  )
}
