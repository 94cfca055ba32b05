/**
 * Where everything of a bolt map goes, in CSS pixels: heads where they are on the engine, and round each a
 * place to put a gloved finger.
 *
 * Promises: no two hit areas overlap, and none is smaller across than `TARGET`. A joint too dense for its room makes
 * the map larger than the room (its frame scrolls); an outline far wider than its bolts is cropped first.
 */
import type { OutlineShape, Position } from '../../shared/plan/types'

/** Knuckle-sized: the least width of anything to press at the bench. */
export const TARGET = 56
const COMFORTABLE = 84
/** Below it a drawing is on a phone, and everything on it smaller. */
const SMALL_ROOM = 520
const LEAST_HEAD = 17
const mostHead = (room: Room): number => (room.width < SMALL_ROOM ? 24 : 42)
/** Room round the outermost heads for the ring and the label, and at the sides for the initials. */
const rims = (room: Room) => (room.width < SMALL_ROOM ? { x: TIGHT_RIM, y: 44 } : { x: 72, y: 56 })
/** Enough for a hit area; a label then stands above or below its head. */
const TIGHT_RIM = 50

interface Room {
  width: number
  height: number
}

export interface Box {
  left: number
  top: number
  right: number
  bottom: number
}

export interface PlacedHead {
  n: number
  x: number
  y: number
  /** Half the width of its hit area. */
  hit: number
}

export interface MapLayout {
  width: number
  height: number
  /** Pixels per unit of the plan's map, and where the map's origin comes to lie. */
  scale: number
  dx: number
  dy: number
  /** Centre to corner of a hexagon. */
  headR: number
  heads: PlacedHead[]
}

export function layoutMap(
  positions: readonly Position[],
  outline: readonly OutlineShape[],
  room: Room,
): MapLayout {
  const bolts = union(positions.map(({ x, y }) => ({ left: x, top: y, right: x, bottom: y })))
  const drawn = union([bolts, ...outline.map(outlineBox)])
  const rim = rims(room)
  const nearest = positions.map((one) => nearestOf(one, positions))
  const gap = Math.min(...nearest)

  const whole = fitScale(drawn, bolts, room, rim)
  const closeUp = Math.min(
    (room.width - 2 * rim.x) / Math.max(bolts.right - bolts.left, 1e-6),
    (room.height - 2 * rim.y) / Math.max(bolts.bottom - bolts.top, 1e-6),
  )
  const wanted = Number.isFinite(gap) ? Math.max(whole, Math.min(COMFORTABLE / gap, closeUp)) : whole
  const scale = Number.isFinite(gap) ? Math.max(wanted, (TARGET + 1) / gap) : wanted

  // Rather a tighter rim than a map to be pushed about.
  const wide = (bolts.right - bolts.left) * scale + 2 * rim.x > room.width
  const rimX = wide ? TIGHT_RIM : rim.x
  const across = axis(drawn.left, drawn.right, bolts.left, bolts.right, scale, room.width, rimX)
  const down = axis(drawn.top, drawn.bottom, bolts.top, bolts.bottom, scale, room.height, rim.y)
  const spacing = Number.isFinite(gap) ? gap * scale : Number.POSITIVE_INFINITY
  return {
    width: across.size,
    height: down.size,
    scale,
    dx: across.shift,
    dy: down.shift,
    headR: Math.max(LEAST_HEAD, Math.min(mostHead(room), spacing * 0.34)),
    heads: positions.map(({ n, x, y }, index) => ({
      n,
      x: x * scale + across.shift,
      y: y * scale + down.shift,
      hit: Math.min(Math.min(rimX, rim.y) - 2, 48, ((nearest[index] ?? gap) * scale) / 2),
    })),
  }
}

/** The largest scale at which the drawing, and a rim round every bolt, is inside the room. */
function fitScale(drawn: Box, bolts: Box, room: Room, rim: { x: number; y: number }): number {
  const along = (
    from: number,
    to: number,
    first: number,
    last: number,
    size: number,
    rimPx: number,
  ): number => {
    const span = Math.max(to - from, 1e-6)
    let scale = (size - 8) / span
    // The rim is in pixels and the margin of the outline in units, so the scale is found by closing in on it.
    for (let turn = 0; turn < 8; turn++) {
      const short = Math.max(0, rimPx - (first - from) * scale) + Math.max(0, rimPx - (to - last) * scale)
      scale = Math.max((size - 8 - short) / span, 0.01)
    }
    return scale
  }
  return Math.min(
    along(drawn.left, drawn.right, bolts.left, bolts.right, room.width, rim.x),
    along(drawn.top, drawn.bottom, bolts.top, bolts.bottom, room.height, rim.y),
  )
}

/** One axis: the canvas as large as it must be, the drawing whole where it fits, else the bolts in the middle. */
function axis(
  from: number,
  to: number,
  first: number,
  last: number,
  scale: number,
  room: number,
  rim: number,
) {
  const before = Math.max(rim, (first - from) * scale + 4)
  const after = Math.max(rim, (to - last) * scale + 4)
  const needed = (last - first) * scale + 2 * rim
  const whole = before + (last - first) * scale + after
  if (whole <= room + 0.5) return { size: whole, shift: before - first * scale }
  const size = Math.max(needed, Math.min(whole, room))
  // Cropped: as much of the outline on either side as is left over.
  const spare = size - needed
  const wantBefore = before - rim
  const wantAfter = after - rim
  const share = wantBefore + wantAfter > 0 ? (spare * wantBefore) / (wantBefore + wantAfter) : spare / 2
  return { size, shift: rim + share - first * scale }
}

function nearestOf(one: Position, all: readonly Position[]): number {
  return Math.min(
    ...all.filter((other) => other !== one).map((other) => Math.hypot(one.x - other.x, one.y - other.y)),
  )
}

function union(boxes: readonly Box[]): Box {
  return {
    left: Math.min(...boxes.map((box) => box.left)),
    top: Math.min(...boxes.map((box) => box.top)),
    right: Math.max(...boxes.map((box) => box.right)),
    bottom: Math.max(...boxes.map((box) => box.bottom)),
  }
}

export function outlineBox(shape: OutlineShape): Box {
  if (shape.shape === 'rect')
    return { left: shape.x, top: shape.y, right: shape.x + shape.w, bottom: shape.y + shape.h }
  if (shape.shape === 'circle') {
    const { x, y, r } = shape
    return { left: x - r, top: y - r, right: x + r, bottom: y + r }
  }
  return pathBox(shape.d)
}

/** The box round a path of absolute commands, control points included: never too small. */
function pathBox(d: string): Box {
  const points: Box[] = []
  let x = 0
  let y = 0
  const to = (nextX: number, nextY: number) => {
    x = nextX
    y = nextY
    points.push({ left: x, top: y, right: x, bottom: y })
  }
  for (const [, letter = '', rest = ''] of d.matchAll(/([A-Z])([^A-Z]*)/g)) {
    const numbers = (rest.match(/-?\d*\.?\d+/g) ?? []).map(Number)
    if (letter === 'H') for (const value of numbers) to(value, y)
    else if (letter === 'V') for (const value of numbers) to(x, value)
    else for (let i = 0; i + 1 < numbers.length; i += 2) to(numbers[i] ?? 0, numbers[i + 1] ?? 0)
  }
  return points.length > 0 ? union(points) : { left: 0, top: 0, right: 0, bottom: 0 }
}

interface PlacedText {
  n: number
  x: number
  y: number
  anchor: 'start' | 'middle' | 'end'
}

/**
 * A place for each head's label: below it, else above, right or left, where it covers no head and no other label.
 * The corners where initials go are kept free whether or not there are any yet, so that nothing jumps.
 */
export function placeLabels(
  layout: MapLayout,
  texts: ReadonlyMap<number, string>,
  letter = 7.2,
): PlacedText[] {
  const { heads, headR } = layout
  const taken: { n: number; box: Box }[] = heads.flatMap(({ n, x, y }) => [
    { n, box: { left: x - headR, top: y - headR, right: x + headR, bottom: y + headR } },
    {
      n,
      box: {
        left: x + headR * 0.6,
        top: y - headR - 10,
        right: x + headR * 0.6 + 22,
        bottom: y - headR * 0.5,
      },
    },
  ])
  return heads.flatMap(({ n, x, y }) => {
    const text = texts.get(n)
    if (!text) return []
    const wide = text.length * letter
    const candidates: PlacedText[] = [
      { n, x, y: y + headR + 17, anchor: 'middle' },
      { n, x: x - 6, y: y - headR - 9, anchor: 'middle' },
      { n, x: x + headR + 7, y: y + 5, anchor: 'start' },
      { n, x: x - headR - 7, y: y + 5, anchor: 'end' },
      { n, x: x + headR, y: y + headR + 17, anchor: 'end' },
      { n, x: x - headR, y: y + headR + 17, anchor: 'start' },
      { n, x, y: y + headR + 33, anchor: 'middle' },
      { n, x: x - 6, y: y - headR - 25, anchor: 'middle' },
    ]
    const free = candidates.find((place) => {
      const box = textBox(place, wide)
      if (box.left < 0 || box.right > layout.width || box.top < 0 || box.bottom > layout.height) return false
      return taken.every((other) => !overlap(box, other.box))
    })
    const place = free ?? (candidates[0] as PlacedText)
    taken.push({ n, box: textBox(place, wide) })
    return [place]
  })
}

function textBox({ x, y, anchor }: PlacedText, wide: number): Box {
  const left = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2
  return { left, top: y - 12, right: left + wide, bottom: y + 3 }
}

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
