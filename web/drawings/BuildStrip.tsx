/**
 * One engine as one long bar, left to right through its stages: a cell a step, wide as its share of the work.
 *
 * Thin outline: not ready. Heavy outline: ready. Half filled, initials above: in work. Pale with an empty slot:
 * waits for a second signature. Steel with bars of paint along the foot: signed, and second-signed. A notch on the
 * upper edge: critical. A rust diamond: a flag stands. Its accessible name says the same in words.
 */
import { createMemo, For } from 'solid-js'
import type { Cell } from '../../shared/job/summary'
import { listed } from '../../shared/words'
import { useSession } from '../live/live'
import { paintOf } from '../ui/Stripe'
import { drawStrip, HEIGHT, TALL, TOP } from './strip-shapes'
import './strip.css'

interface BuildStripProps {
  cells: readonly Cell[]
  stages: readonly { id: string; title: string }[]
  /** In CSS pixels: drawn to measure, never scaled, so that lines and letters stay as they are. */
  width: number
}

export function BuildStrip(props: BuildStripProps) {
  const session = useSession()
  const strip = createMemo(() =>
    drawStrip({
      cells: props.cells,
      stages: props.stages,
      width: props.width,
      initialsOf: (id) => session.cardOf(id)?.initials ?? '?',
      paintOf: (id) => paintOf(session.cardOf(id)?.paint),
    }),
  )
  const words = createMemo(() => stripWords(props.cells, session.nameOf))
  return (
    <svg
      class="strip"
      width={props.width}
      height={HEIGHT}
      viewBox={`0 0 ${props.width} ${HEIGHT}`}
      role="img"
      aria-label={words()}
    >
      <For each={strip().shapes}>{(shape) => <path class={shape.look} d={shape.d} fill={shape.paint} />}</For>
      <For each={strip().initials}>
        {(one) => (
          <text class="strip-initials" x={one.x} y={TOP - NOTCH_ROW} fill={one.paint}>
            {one.text}
          </text>
        )}
      </For>
      <For each={strip().labels}>
        {(label) => (
          <text class="strip-label" x={label.x} y={TOP + TALL + 15}>
            <title>{label.full}</title>
            {label.text}
          </text>
        )}
      </For>
    </svg>
  )
}

const NOTCH_ROW = 8

/** The strip for those who hear it. */
export function stripWords(cells: readonly Cell[], nameOf: (id: string) => string): string {
  const signed = cells.filter(({ standing }) => standing === 'done' || standing === 'awaiting_second').length
  const ids = (standing: Cell['standing']) =>
    cells.filter((cell) => cell.standing === standing).map(({ stepId }) => stepId)
  const inWork = cells.flatMap((cell) =>
    cell.standing === 'in_work' ? [`${cell.stepId}${cell.by ? ` by ${nameOf(cell.by)}` : ''}`] : [],
  )
  const flagged = cells.flatMap(({ flagged: odd, stepId }) => (odd ? [stepId] : []))
  const say = (what: string, which: readonly string[]) =>
    which.length > 0 ? [`${what}: ${listed(which)}.`] : []
  return [
    `${signed} of ${cells.length} steps signed.`,
    ...say('In work', inWork),
    ...say('A flag stands on', flagged),
    ...say('Waiting for a second signature', ids('awaiting_second')),
    ...say('Ready', ids('ready')),
  ].join(' ')
}
