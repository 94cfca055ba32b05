/**
 * The bolt map: a joint's positions where they really are, heads as hexagons, the order as numbers, the next one
 * ringed, finished ones striped in their people's paint, odd ones broken-edged. With `press` it is also the
 * input: every head a button, by finger or by arrow keys along the order. Without, a drawing for record and print.
 */
import { createEffect, createMemo, createSignal, For, Index, onCleanup, onMount, Show } from 'solid-js'
import type { OutlineShape, Position } from '../../shared/plan/types'
import type { Head } from './heads'
import { layoutMap, type PlacedHead, placeLabels } from './map-layout'
import { routeLegs } from './map-route'
import { hexagon, Stripe } from './paint'
import './drawings.css'

interface BoltMapProps {
  positions: readonly Position[]
  outline?: readonly OutlineShape[] | undefined
  heads: readonly Head[]
  /** The whole map in words. */
  label: string
  /** The way round, drawn from head to head: a proposal dashed. */
  route?: { positions: readonly number[]; proposed: boolean } | undefined
  /** Positions in the order arrow keys walk; without it by number. */
  order?: readonly number[]
  name?: (head: Head) => string
  press?: ((n: number) => void) | undefined
  /** The tallest it may be, CSS px; its width is what it is given. */
  height?: number
  /** A drawing only: a map larger than its room is scaled into its width instead of scrolled. */
  fit?: boolean
}

/** Initials stand out at the sides of a drawing that does not scroll. */
const FIT_MARGIN = 16

export function BoltMap(props: BoltMapProps) {
  let frame!: HTMLDivElement
  const [width, setWidth] = createSignal(640)
  const [tall, setTall] = createSignal<number>()
  const buttons = new Map<number, HTMLButtonElement>()
  onMount(() => {
    const measure = () => {
      if (frame.clientWidth > 0) setWidth(frame.clientWidth)
      if (props.height === undefined && frame.clientHeight > 0) setTall(frame.clientHeight)
    }
    const watcher = new ResizeObserver(measure)
    watcher.observe(frame)
    measure()
    onCleanup(() => watcher.disconnect())
  })
  const layout = createMemo(() =>
    layoutMap(props.positions, props.outline ?? [], {
      width: Math.max(160, width()),
      height: Math.max(160, props.height ?? tall() ?? 360),
    }),
  )
  const placed = createMemo(() => new Map(layout().heads.map((head) => [head.n, head])))
  const labels = createMemo(() =>
    placeLabels(
      layout(),
      new Map(props.heads.flatMap(({ n, label }) => (label ? [[n, label] as const] : []))),
    ),
  )
  const viewBox = () => {
    const margin = props.fit ? FIT_MARGIN : 0
    return `${-margin} 0 ${layout().width + 2 * margin} ${layout().height}`
  }
  const headAt = createMemo(() => new Map(props.heads.map((head) => [head.n, head])))
  const order = () => props.order ?? props.positions.map(({ n }) => n)
  const nextOf = () => props.heads.find(({ next }) => next)?.n

  // A dense map is larger than a phone: bring the next head into view, and no farther than needed.
  let was: number | undefined
  createEffect(() => {
    const next = nextOf()
    const at = placed().get(next ?? -1)
    if (!at) return
    frame.scrollLeft = reaching(at.x, frame.scrollLeft, frame.clientWidth, layout().width)
    frame.scrollTop = reaching(at.y, frame.scrollTop, frame.clientHeight, layout().height)
    // Not when the page opens, nor when it is only measured anew: the work may begin above the map.
    if (props.press && was !== undefined && was !== next) uncover(at)
    was = next
  })

  /** What stands fixed at the foot of a page may cover the head that is next: move the page, not the hand. */
  function uncover({ x, y }: PlacedHead): void {
    const box = frame.getBoundingClientRect()
    const middle = { x: box.left + x - frame.scrollLeft, y: box.top + y - frame.scrollTop }
    const seen = document.elementFromPoint(middle.x, middle.y)
    if (!seen || !frame.contains(seen)) scrollBy({ top: middle.y - innerHeight * 0.4 })
  }

  const walk = (event: KeyboardEvent, n: number) => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key]
    const along = order()
    const to =
      event.key === 'Home'
        ? along[0]
        : event.key === 'End'
          ? along.at(-1)
          : step && along[(along.indexOf(n) + step + along.length) % along.length]
    if (to === undefined) return
    event.preventDefault()
    buttons.get(to)?.focus()
  }

  return (
    <div class="bolt-map" ref={frame}>
      <div
        class="bolt-map-canvas"
        classList={{ 'bolt-map-fit': props.fit === true }}
        style={
          props.fit
            ? { 'max-width': `${layout().width + 2 * FIT_MARGIN}px` }
            : { width: `${Math.floor(layout().width)}px`, height: `${Math.floor(layout().height)}px` }
        }
      >
        <svg
          width={props.fit ? '100%' : layout().width}
          height={props.fit ? undefined : layout().height}
          viewBox={viewBox()}
          role="img"
          aria-label={props.label}
        >
          <g transform={`translate(${layout().dx} ${layout().dy}) scale(${layout().scale})`}>
            <For each={props.outline}>{(shape) => <Shape shape={shape} />}</For>
          </g>
          <Show when={props.route}>
            {(route) => (
              <g classList={{ 'map-route': true, 'map-route-proposed': route().proposed }}>
                <Index each={routeLegs(layout(), route().positions)}>
                  {(leg) => (
                    <>
                      <line x1={leg().x1} y1={leg().y1} x2={leg().x2} y2={leg().y2} />
                      <path class="map-route-tip" d={leg().tip} />
                    </>
                  )}
                </Index>
              </g>
            )}
          </Show>
          {/* By position, not by head: a reading changes what one head wears and redraws no other. */}
          <For each={props.positions}>
            {({ n }) => (
              <Show when={placed().get(n)}>
                {(at) => (
                  <Show when={headAt().get(n)}>
                    {(head) => <DrawnHead head={head()} at={at()} r={layout().headR} />}
                  </Show>
                )}
              </Show>
            )}
          </For>
          <Index each={labels()}>
            {(place) => (
              <text class="map-label" x={place().x} y={place().y} text-anchor={place().anchor}>
                {headAt().get(place().n)?.label}
              </text>
            )}
          </Index>
        </svg>
        <Show when={props.press}>
          {(press) => (
            <For each={props.positions}>
              {({ n }) => {
                const head = () => headAt().get(n)
                const at = () => placed().get(n)
                return (
                  <Show when={at()}>
                    {(spot) => (
                      <button
                        ref={(element) => buttons.set(n, element)}
                        type="button"
                        class="map-hit"
                        style={{
                          left: `${spot().x - spot().hit}px`,
                          top: `${spot().y - spot().hit}px`,
                          width: `${2 * spot().hit}px`,
                          height: `${2 * spot().hit}px`,
                        }}
                        tabindex={n === (nextOf() ?? order()[0]) ? 0 : -1}
                        aria-label={head() ? (props.name?.(head() as Head) ?? `${n}`) : `${n}`}
                        onClick={() => press()(n)}
                        onKeyDown={(event) => walk(event, n)}
                      />
                    )}
                  </Show>
                )
              }}
            </For>
          )}
        </Show>
      </div>
    </div>
  )
}

function DrawnHead(props: { head: Head; at: PlacedHead; r: number }) {
  const shown = () => props.head
  return (
    <g
      class="map-one"
      classList={{
        'map-aside': shown().aside === true,
        'map-waiting': shown().waiting !== undefined,
        'map-pending': shown().waiting === 'pending',
      }}
    >
      <Show when={shown().next}>
        <circle class="map-next" cx={props.at.x} cy={props.at.y} r={props.r + 7} />
      </Show>
      <path
        class="map-head"
        classList={{
          'map-head-reached': shown().state === 'reached',
          'map-head-final': shown().state === 'final',
          'map-head-flagged': shown().flagged === true,
          'map-head-loose': shown().fitted === 'hand_tight',
          'map-head-left-out': shown().leftOut !== undefined,
        }}
        d={shown().fitted === 'removed' ? '' : hexagon(props.at.x, props.at.y, props.r)}
      />
      <Show when={shown().fitted === 'removed'}>
        <circle class="map-hole" cx={props.at.x} cy={props.at.y} r={props.r * 0.8} />
      </Show>
      <Show when={shown().fitted === 'temporary'}>
        <path class="map-temporary" d={cross(props.at.x, props.at.y, props.r * 0.85)} />
      </Show>
      <Show when={shown().first}>
        {(mark) => <Stripe mark={mark()} x={props.at.x} y={props.at.y} r={props.r} />}
      </Show>
      <Show when={shown().second}>
        {(mark) => <Stripe mark={mark()} x={props.at.x} y={props.at.y} r={props.r} second />}
      </Show>
      <circle class="map-disc" cx={props.at.x} cy={props.at.y} r={Math.max(11, props.r * 0.48)} />
      <text
        class="map-figure"
        x={props.at.x}
        y={props.at.y}
        style={{ 'font-size': `${Math.max(14, props.r * 0.6)}px` }}
      >
        {shown().figure}
      </text>
    </g>
  )
}

const RIM_PX = 60

/** Where a frame must be scrolled to so that a place in it is in view: as it is, where it is already. */
function reaching(place: number, scrolled: number, room: number, whole: number): number {
  if (whole <= room + 1) return 0
  const inView = place >= scrolled + RIM_PX && place <= scrolled + room - RIM_PX
  return inView ? scrolled : place - room / 2
}

/** A slave bolt is crossed out: it comes out again. */
const cross = (x: number, y: number, r: number): string =>
  `M${x - r} ${y - r}L${x + r} ${y + r}M${x + r} ${y - r}L${x - r} ${y + r}`

function Shape(props: { shape: OutlineShape }) {
  const { shape } = props
  if (shape.shape === 'rect')
    return (
      <rect class="map-outline" x={shape.x} y={shape.y} width={shape.w} height={shape.h} rx={shape.r ?? 0} />
    )
  if (shape.shape === 'circle') return <circle class="map-outline" cx={shape.x} cy={shape.y} r={shape.r} />
  return <path class="map-outline" d={shape.d} />
}
