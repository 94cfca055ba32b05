/**
 * Where a fastener stands, as a head: filled once proven, ringed with a dot where a waiver accepted it, half filled
 * when final and not signed by all, broken where a flag stands, an empty outline while open. Words stand beside it.
 */
import { Show } from 'solid-js'
import { hexagon } from '../../drawings/paint'
import type { Verdict } from './verdict'

export function VerdictMark(props: { verdict: Verdict }) {
  return (
    <svg
      class={`verdict-mark mark-${props.verdict}`}
      viewBox="0 0 20 20"
      width="18"
      height="18"
      aria-hidden="true"
    >
      <path class="mark-head" d={hexagon(10, 10, 8)} />
      <Show when={props.verdict === 'final'}>
        <path class="mark-fill" d="M2 10H18L14 16.93H6Z" />
      </Show>
      <Show when={props.verdict === 'accepted'}>
        <circle class="mark-fill" cx="10" cy="10" r="2.6" />
      </Show>
    </svg>
  )
}
