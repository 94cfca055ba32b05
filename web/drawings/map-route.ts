/** The way round a joint as short arrows from head to head, clear of both. */
import type { MapLayout } from './map-layout'

interface Leg {
  x1: number
  y1: number
  x2: number
  y2: number
  /** The arrow's tip, as a path. */
  tip: string
}

/** Between a head's corner and the line, CSS px: what its ring takes. */
const CLEAR = 9
const TIP = 9

/** One leg for every step from a position to the next; positions that are not on the map are passed over. */
export function routeLegs({ heads, headR }: MapLayout, positions: readonly number[]): Leg[] {
  const placed = new Map(heads.map((head) => [head.n, head]))
  const along = positions.flatMap((n) => placed.get(n) ?? [])
  return along.slice(1).flatMap((to, index): Leg[] => {
    const from = along[index] as (typeof along)[number]
    const [dx, dy] = [to.x - from.x, to.y - from.y]
    const length = Math.hypot(dx, dy)
    const clear = headR + CLEAR
    // Two heads that nearly touch leave no room for an arrow between them.
    if (length <= 2 * clear) return []
    const [ux, uy] = [dx / length, dy / length]
    const [x, y] = [to.x - ux * clear, to.y - uy * clear]
    const back = { x: x - ux * TIP, y: y - uy * TIP }
    const side = { x: -uy * TIP * 0.5, y: ux * TIP * 0.5 }
    return [
      {
        x1: from.x + ux * clear,
        y1: from.y + uy * clear,
        x2: back.x,
        y2: back.y,
        tip: `M${px(x)} ${px(y)}L${px(back.x + side.x)} ${px(back.y + side.y)}L${px(back.x - side.x)} ${px(back.y - side.y)}Z`,
      },
    ]
  })
}

const px = (value: number): number => Math.round(value * 10) / 10
