/**
 * The paint pen: a person's stripe across a hexagon head. The doer's runs up to the right; a second signer
 * crosses it with theirs. Initials stand at the stripe's end, so that nothing depends on colour.
 */
import { paintColour } from '../ui/paint'
import type { Mark } from './heads'

interface StripeProps {
  mark: Mark
  x: number
  y: number
  /** Centre to corner of the head it crosses. */
  r: number
  /** The second signer's, crossing the first. */
  second?: boolean
}

export function Stripe(props: StripeProps) {
  const lean = () => (props.second ? 34 : -28)
  const long = () => props.r * 1.22
  const end = () => {
    const angle = (lean() * Math.PI) / 180
    return { x: props.x + (long() + 4) * Math.cos(angle), y: props.y + (long() + 4) * Math.sin(angle) }
  }
  return (
    <g class="paint-stripe">
      <g transform={`translate(${props.x} ${props.y}) rotate(${lean()})`}>
        {/* The edge keeps a dark paint apart from dark steel. */}
        <rect
          class="paint-edge"
          x={-long() - 1.5}
          y={-props.r * 0.16 - 1.5}
          width={2 * long() + 3}
          height={props.r * 0.32 + 3}
        />
        <rect
          x={-long()}
          y={-props.r * 0.16}
          width={2 * long()}
          height={props.r * 0.32}
          fill={paintColour(props.mark.paint)}
        />
      </g>
      <text
        class="paint-initials"
        x={end().x}
        y={end().y + (props.second ? 10 : 0)}
        fill={paintColour(props.mark.paint)}
      >
        {props.mark.initials}
      </text>
    </g>
  )
}

/** A hexagon flat on top, as a path round its centre. */
export function hexagon(x: number, y: number, r: number): string {
  const corners = [0, 60, 120, 180, 240, 300].map((degrees) => {
    const angle = (degrees * Math.PI) / 180
    return `${(x + r * Math.cos(angle)).toFixed(2)} ${(y + r * Math.sin(angle)).toFixed(2)}`
  })
  return `M${corners.join('L')}Z`
}
