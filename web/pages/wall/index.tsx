/**
 * The board for a screen across the room: no scrolling, few engines at a time, legible from 5 m.
 *
 * It turns its pages by itself every 15 s; the space bar, or the one button, holds it and lets it go on; the arrow keys
 * turn it by hand. Nothing on it moves besides, and for those who asked for less motion not even the line that
 * shows the time left.
 */
import { A } from '@solidjs/router'
import { createEffect, createMemo, createSignal, For, onCleanup, onMount, Show } from 'solid-js'
import { reasonSentence, standsAgainst } from '../../../shared/job/reason'
import type { JobSummary } from '../../../shared/job/summary'
import { BuildStrip } from '../../drawings/BuildStrip'
import { format } from '../../format'
import { usePageTitle } from '../../frame/title'
import { Promised } from '../../job/Promised'
import { useBoard, useLive, useSession } from '../../live/live'
import { Stripe } from '../../people/Stripe'
import { useNow } from '../../ui/clock'
import { pagesOf, rowsFor, shownOf, turned } from './pages'
import './wall.css'

export const PAGE_MS = 15_000
/** Letters of a job number that stand in a row at its full size. */
const SHORT_NUMBER = 8

export default function Wall() {
  const board = useBoard()
  const { session, link } = useLive()
  usePageTitle(() => 'Wall')
  const [size, setSize] = createSignal({ height: innerHeight, width: innerWidth })
  const [page, setPage] = createSignal(0)
  const [held, setHeld] = createSignal(false)
  const time = useNow(10_000)

  const ids = createMemo(() => board.ids().filter((id) => board.summary(id)?.reason.code !== 'released'))
  const rows = () => rowsFor(size().height, size().width)
  const shown = createMemo(() => shownOf(ids(), rows()))
  const more = () => ids().length - shown().length
  const pages = createMemo(() => pagesOf(shown(), rows()))
  const at = () => Math.min(page(), Math.max(pages().length - 1, 0))
  const turn = (by: number) => setPage(turned(at(), by, pages().length))

  createEffect(() => {
    if (held() || pages().length < 2) return
    // Begins anew with each page, so that one turned to by hand has its whole time.
    page()
    const timer = setTimeout(() => turn(1), PAGE_MS)
    onCleanup(() => clearTimeout(timer))
  })
  const press = (event: KeyboardEvent) => {
    if (event.key === 'ArrowRight') turn(1)
    else if (event.key === 'ArrowLeft') turn(-1)
    else if (event.key === ' ' && (event.target as HTMLElement).tagName !== 'BUTTON') setHeld(!held())
    else return
    event.preventDefault()
  }
  onMount(() => {
    const resize = () => setSize({ height: innerHeight, width: innerWidth })
    addEventListener('resize', resize)
    document.addEventListener('keydown', press)
    onCleanup(() => {
      removeEventListener('resize', resize)
      document.removeEventListener('keydown', press)
    })
  })

  return (
    <div
      class="wall"
      classList={{ 'wall-airy': (pages()[at()]?.length ?? 0) < rows() }}
      style={{ '--rows': Math.max(pages()[at()]?.length ?? 1, 1) }}
    >
      <header class="wall-head">
        <h1 class="stencil">
          <A href="/" title="Back to the board">
            {session.me()?.shop.name}
          </A>
        </h1>
        <Show when={link.state() !== 'live'}>
          <p class="wall-lost" role="status">
            no signal: this is how it stood
          </p>
        </Show>
        <Show when={more() > 0}>
          <p class="pencil">{more()} less pressing, on the board</p>
        </Show>
        <Show when={pages().length > 1}>
          <button type="button" class="wall-page" aria-pressed={held()} onClick={() => setHeld(!held())}>
            page {at() + 1} of {pages().length}
            <span class="wall-held">{held() ? 'held' : 'hold'}</span>
          </button>
        </Show>
        <time class="wall-time">{format.time(time())}</time>
      </header>
      <Show when={board.known()} fallback={<p class="wall-empty pencil">Reading the board…</p>}>
        <ol class="wall-rows">
          <For
            each={pages()[at()] ?? []}
            fallback={
              <li class="wall-empty">
                No engine is in work in this shop. One stands here as soon as its job is opened on the board.
              </li>
            }
          >
            {(id) => (
              <Show when={board.summary(id)}>
                {(summary) => <WallRow summary={summary()} width={size().width} height={size().height} />}
              </Show>
            )}
          </For>
        </ol>
      </Show>
      <Show when={pages().length > 1 && !held()}>
        <Show when={at() + 1} keyed>
          <div class="wall-left" aria-hidden="true" />
        </Show>
      </Show>
    </div>
  )
}

function WallRow(props: { summary: JobSummary; width: number; height: number }) {
  const session = useSession()
  const [room, setRoom] = createSignal(0)
  const watcher = new ResizeObserver(([entry]) => entry && setRoom(Math.floor(entry.contentRect.width)))
  onCleanup(() => watcher.disconnect())
  const reason = () => reasonSentence(props.summary.reason, session.words)
  /** Its letters nearly as high as the small type beside it. What a hold is for stands in the reason. */
  const scale = () => Math.max(1, Math.min(props.height, props.width * 0.62) / 600)
  return (
    <li class="wall-row">
      <div class="wall-engine">
        <h2 class="stencil" classList={{ long: props.summary.number.length > SHORT_NUMBER }}>
          {props.summary.number}
        </h2>
        <p class="wall-name">{props.summary.drives ?? props.summary.engine}</p>
      </div>
      <div class="wall-middle" ref={(element) => watcher.observe(element)}>
        {/* What does not fit across the room is read on the board. */}
        <p
          class="wall-reason"
          classList={{ against: standsAgainst(props.summary.reason.code) }}
          title={reason()}
        >
          {reason()}
        </p>
        <Show when={room() > 0 && props.summary.cells.length > 0}>
          <BuildStrip
            people={session}
            cells={props.summary.cells}
            stages={props.summary.stages}
            width={room()}
            scale={scale()}
          />
        </Show>
      </div>
      <div class="wall-who">
        <Promised date={props.summary.promised} />
        <ul>
          <For each={props.summary.on.slice(0, 2)} fallback={<li class="pencil">nobody working on it</li>}>
            {(claim) => (
              <li>
                <Stripe person={claim.by} /> {claim.stepId}
              </li>
            )}
          </For>
          <Show when={props.summary.on.length > 2}>
            <li class="pencil">and {props.summary.on.length - 2} more</li>
          </Show>
        </ul>
      </div>
    </li>
  )
}
