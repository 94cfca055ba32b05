/** The wrench in hand with its adapter, small and to scale, each length beside its part. */
import { createMemo } from 'solid-js'
import type { Adapter } from '../../shared/job/types'
import { format } from '../format'
import { layoutLever } from './lever'
import { hexagon } from './paint'
import './lever.css'

interface LeverProps {
  adapter: Adapter
  /** The whole drawing in words. */
  label: string
  /** CSS px. */
  width?: number
  /** The tallest it may be, CSS px. */
  height?: number
}

export function Lever(props: LeverProps) {
  const at = createMemo(() => layoutLever(props.adapter, props.width ?? 300, props.height))
  return (
    <svg
      class="lever"
      viewBox={`0 0 ${at().width} ${at().height}`}
      width={at().width}
      height={at().height}
      role="img"
      aria-label={props.label}
    >
      <line class="lever-wrench" x1={at().hand.x} y1={at().hand.y} x2={at().drive.x} y2={at().drive.y} />
      <line
        class="lever-grip"
        x1={at().hand.x - 16}
        y1={at().hand.y}
        x2={at().hand.x + 16}
        y2={at().hand.y}
      />
      <line class="lever-adapter" x1={at().drive.x} y1={at().drive.y} x2={at().nut.x} y2={at().nut.y} />
      <rect class="lever-drive" x={at().drive.x - 5} y={at().drive.y - 5} width="10" height="10" />
      <path class="lever-nut" d={hexagon(at().nut.x, at().nut.y, 9)} />
      <text class="lever-words" x={at().wrenchAt.x} y={at().wrenchAt.y}>
        {format.number(props.adapter.wrenchMm)} mm
      </text>
      <text class="lever-words" x={at().adapterAt.x} y={at().adapterAt.y}>
        {format.number(props.adapter.adapterMm)} mm
      </text>
    </svg>
  )
}
