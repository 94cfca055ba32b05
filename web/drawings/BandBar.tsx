/**
 * The band bar: a short scale from under to over with the band shaded and each reading a tick. The same in the
 * bench, the audit and print; a tick out of band is broken as well as rust, so nothing depends on colour.
 */
import { createMemo, For, Show } from 'solid-js'
import { bandScale, gather } from './band-scale'
import './drawings.css'

interface BandTick {
  value: number
  out?: boolean
  /** Struck, or made void by a later one. */
  void?: boolean
}

interface BandBarProps {
  min?: number
  max?: number
  /** What the sheet asks. */
  target?: number
  ticks: readonly BandTick[]
  /** Limits as the reader wants them: in the wrench's unit, with it or without. */
  show: (value: number) => string
  /** The whole bar in words. */
  label: string
}

export function BandBar(props: BandBarProps) {
  const scale = createMemo(() =>
    bandScale(
      props.min,
      props.max,
      props.ticks.map(({ value }) => value),
    ),
  )
  const x = (value: number) => `${scale().at(value).toFixed(2)}%`
  const groups = createMemo(() => gather(props.ticks))
  return (
    <svg class="band-bar" width="100%" height="54" role="img" aria-label={props.label}>
      <line class="band-line" x1="0%" x2="100%" y1="26" y2="26" />
      <rect
        class="band-band"
        x={`${scale().min}%`}
        width={`${scale().max - scale().min}%`}
        y="16"
        height="20"
      />
      <Show when={props.target !== undefined}>
        <line class="band-target" x1={x(props.target ?? 0)} x2={x(props.target ?? 0)} y1="10" y2="42" />
      </Show>
      <For each={groups()}>
        {(group) => (
          <>
            <line
              class="band-tick"
              classList={{
                'band-tick-out': group.ticks.some((tick) => tick.out && !tick.void),
                'band-tick-void': group.ticks.every((tick) => tick.void),
              }}
              x1={x(group.value)}
              x2={x(group.value)}
              y1="8"
              y2="44"
            />
            <Show when={group.ticks.length > 1}>
              <text class="band-count" x={x(group.value)} y="8" dx="5">
                ×{group.ticks.length}
              </text>
            </Show>
          </>
        )}
      </For>
      <Show when={props.min !== undefined}>
        <text class="band-limit" x={`${scale().min}%`} y="51">
          {props.show(props.min ?? 0)}
        </text>
      </Show>
      <Show when={props.max !== undefined}>
        <text class="band-limit" x={`${scale().max}%`} y="51">
          {props.show(props.max ?? 0)}
        </text>
      </Show>
    </svg>
  )
}
