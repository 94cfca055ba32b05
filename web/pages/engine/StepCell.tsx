/**
 * A step's number in the cell it has on the build strip: thin outline not ready, heavy ready, half filled in work,
 * filled with the signers' paint along its foot once signed; hatched while on hold, half filled with a slanted
 * end where it was stopped. A notch in the upper edge marks a critical one.
 */
import { Show } from 'solid-js'
import type { StepStanding } from '../../../shared/job/verdicts'
import type { Mark } from '../../drawings/heads'
import { paintColour } from '../../ui/paint'

interface StepCellProps {
  id: string
  standing: StepStanding
  critical?: boolean
  first?: Mark | undefined
  second?: Mark | undefined
}

const PLAIN = 'M2 2H62V46H2Z'
/** Strokes that rise to the right, as on the strip. */
const HATCH = 'M2 14L14 2M2 26L26 2M2 38L38 2M6 46L50 2M18 46L62 2M30 46L62 14M42 46L62 26M54 46L62 38'
const NOTCHED = 'M2 2H42L48 11L54 2H62V46H2Z'

export function StepCell(props: StepCellProps) {
  const signed = () => props.standing === 'done' || props.standing === 'awaiting_second'
  return (
    <svg
      class={`step-cell step-cell-${props.standing}`}
      viewBox="0 0 64 48"
      width="64"
      height="48"
      aria-hidden="true"
    >
      <Show when={props.standing === 'on_hold'}>
        <path class="step-cell-hatch" d={HATCH} />
      </Show>
      <path class="step-cell-box" d={props.critical ? NOTCHED : PLAIN} />
      <Show when={props.standing === 'in_work'}>
        <rect class="step-cell-half" x="3.5" y="25" width="57" height="19.5" />
      </Show>
      <Show when={props.standing === 'stopped'}>
        <path class="step-cell-half" d="M3.5 44.5V25H44L24 44.5Z" />
      </Show>
      <Show when={props.standing === 'on_hold'}>
        <rect class="step-cell-plate" x="10" y="13" width="44" height="22" />
      </Show>
      <text class="step-cell-id" x={props.critical ? 25 : 32} y={signed() ? 19 : 24}>
        {props.id}
      </text>
      <Show when={signed() && props.second}>
        {(mark) => (
          <rect class="step-cell-paint" x="4" y="33" width="56" height="4" fill={paintColour(mark().paint)} />
        )}
      </Show>
      <Show when={signed() && props.first}>
        {(mark) => (
          <rect class="step-cell-paint" x="4" y="39" width="56" height="4" fill={paintColour(mark().paint)} />
        )}
      </Show>
    </svg>
  )
}
