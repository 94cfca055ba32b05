/**
 * In what order a joint is tightened and loosened: position numbers, from 1, as on the bolt map.
 *
 * Circles: the legacy cross pattern, opposite first and then a quarter turn on. Rows: from the centre outward in a spiral.
 * Loosening goes the same way back. An order of one's own wins and must name every position once.
 */

import { isRefusal } from '../log'
import { hasText, partsOf, shown } from './numbers'
import { type FastenerRefusal, no } from './refusals'

/** A place on the map; `x` to the right, `y` down, in any one unit. Without `n` they are numbered as listed. */
export interface Place {
  n?: number
  x?: number
  y?: number
}
/** The map's positions; bare numbers, or only how many, where a circle or one row needs no map. */
export type PositionsGiven = readonly (Place | number)[] | number

export const ORDER_PATTERNS = ['auto', 'circle', 'rows'] as const
export type OrderPattern = (typeof ORDER_PATTERNS)[number]
/** A pattern's name, the order itself, or both with the direction. */
export type PatternGiven =
  | OrderPattern
  | readonly number[]
  | { pattern?: OrderPattern; order?: readonly number[]; loosening?: boolean }

export interface ProposedOrder {
  order: number[]
  /** The same back: for loosening. */
  loosening: number[]
  pattern: 'circle' | 'rows' | 'custom'
}

interface Spot {
  n: number
  x: number
  y: number
}

/** Position numbers in the order to tighten them. Refused: no positions, one named twice, an unknown pattern. */
export function tighteningOrder(
  positions: PositionsGiven,
  pattern: PatternGiven = 'auto',
): number[] | FastenerRefusal {
  const { loosening } = partsOf<{ loosening?: unknown }>(pattern as object)
  const proposed = proposeOrder(positions, pattern)
  if (isRefusal(proposed)) return proposed
  return loosening === true ? proposed.loosening : proposed.order
}

/** Position numbers in the order to loosen them: tightening backwards. */
export function looseningOrder(
  positions: PositionsGiven,
  pattern: PatternGiven = 'auto',
): number[] | FastenerRefusal {
  const proposed = proposeOrder(positions, pattern)
  return isRefusal(proposed) ? proposed : proposed.loosening
}

/** The order, its reverse, and which pattern it came from. `auto` sees circle or rows in the places on the map. */
export function proposeOrder(
  positions: PositionsGiven,
  pattern: PatternGiven = 'auto',
): ProposedOrder | FastenerRefusal {
  const read = readPositions(positions)
  if (isRefusal(read)) return read
  const { spots, placed } = read
  const patternOrOrder = asPattern(pattern)
  if (Array.isArray(patternOrOrder)) return custom(spots, patternOrOrder)
  const patternName = hasText(patternOrOrder)
    ? PATTERN_WORDS.get(patternOrOrder.trim().toLowerCase())
    : undefined
  if (!patternName) return no('pattern_unknown', { text: shown(patternOrOrder), known: [...ORDER_PATTERNS] })
  if (patternName === 'auto' && !placed) return no('positions_without_places', { pattern: 'auto' })
  const chosen = patternName === 'auto' ? (isCircle(spots) ? 'circle' : 'rows') : patternName
  const order = chosen === 'circle' ? circle(placed ? roundFrom(spots) : spots) : rows(spots)
  return { order, loosening: [...order].reverse(), pattern: chosen }
}

/** The order wins over a pattern's name; an object that names neither leaves it to the map. */
function asPattern(pattern: unknown): unknown {
  if (typeof pattern !== 'object' || pattern === null || Array.isArray(pattern)) return pattern
  const { order, pattern: name = 'auto' }: { order?: unknown; pattern?: unknown } = pattern
  return order ?? name
}

const PATTERN_WORDS: ReadonlyMap<string, OrderPattern> = new Map([
  ['auto', 'auto'],
  ...['circle', 'circular', 'cross', 'cross pattern', 'star', 'flange'].map(
    (word) => [word, 'circle'] as const,
  ),
  ...['rows', 'row', 'line', 'spiral', 'centre outward', 'center outward'].map(
    (word) => [word, 'rows'] as const,
  ),
])

function readPositions(positions: PositionsGiven): { spots: Spot[]; placed: boolean } | FastenerRefusal {
  const unclear = (
    why: 'none' | 'not_finite' | 'number_twice' | 'same_place' | 'not_a_number' | 'too_many',
  ) => no('positions_unclear', { why })
  if (typeof positions === 'number') {
    if (!Number.isInteger(positions) || positions < 1) return unclear('none')
    if (positions > 1000) return unclear('too_many')
    return { spots: Array.from({ length: positions }, (_, i) => ({ n: i + 1, x: i, y: 0 })), placed: false }
  }
  if (!Array.isArray(positions) || positions.length === 0) return unclear('none')
  if (positions.length > 1000) return unclear('too_many')
  const places: Place[] = positions.map((entry: Place | number) =>
    typeof entry === 'number' ? { n: entry } : (entry ?? {}),
  )
  const bare = places.every(({ x, y }) => x === undefined && y === undefined)
  const spots = places.map(({ n, x, y }, i) => ({
    n: n ?? i + 1,
    x: bare ? i : (x ?? Number.NaN),
    y: bare ? 0 : (y ?? Number.NaN),
  }))
  if (spots.some(({ n }) => !Number.isInteger(n) || n < 1)) return unclear('not_a_number')
  if (spots.some(({ x, y }) => !(Math.abs(x) <= 1e9 && Math.abs(y) <= 1e9))) return unclear('not_finite')
  if (new Set(spots.map(({ n }) => n)).size < spots.length) return unclear('number_twice')
  if (new Set(spots.map(({ x, y }) => `${x} ${y}`)).size < spots.length) return unclear('same_place')
  return { spots, placed: !bare }
}

function custom(spots: readonly Spot[], order: readonly unknown[]): ProposedOrder | FastenerRefusal {
  const there = new Set(spots.map(({ n }) => n))
  // What is no number is no position either: 0 never is one.
  const numbers = order.map((n) => (typeof n === 'number' && Number.isFinite(n) ? n : 0))
  const missing = [...there].filter((n) => !numbers.includes(n))
  const unknown = [...new Set(numbers.filter((n) => !there.has(n)))]
  const twice = [...new Set(numbers.filter((n, i) => numbers.indexOf(n) < i))]
  if (missing.length + unknown.length + twice.length > 0)
    return no('order_not_a_permutation', { missing, unknown, twice })
  return { order: numbers, loosening: [...numbers].reverse(), pattern: 'custom' }
}

/** The middle of the places' extent: a missing bolt does not pull it aside as a mean would. */
function middle(spots: readonly Spot[]): { x: number; y: number } {
  const half = (values: number[]) => (Math.min(...values) + Math.max(...values)) / 2
  return { x: half(spots.map(({ x }) => x)), y: half(spots.map(({ y }) => y)) }
}

/** The mean is the centre of a full circle also when no bolt stands at its extremes. */
function centroid(spots: readonly Spot[]): { x: number; y: number } {
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value / values.length, 0)
  return { x: mean(spots.map(({ x }) => x)), y: mean(spots.map(({ y }) => y)) }
}

/** Four or more places, as far from their centre within a twentieth, with no gap over twice the even one. */
function isCircle(spots: readonly Spot[]): boolean {
  if (spots.length < 3) return false
  const centre = centroid(spots)
  const radii = spots.map(({ x, y }) => Math.hypot(x - centre.x, y - centre.y))
  const mean = radii.reduce((sum, r) => sum + r / radii.length, 0)
  if (mean === 0 || radii.some((r) => Math.abs(r - mean) > 0.05 * mean)) return false
  const angles = spots.map(({ x, y }) => Math.atan2(y - centre.y, x - centre.x)).sort((a, b) => a - b)
  const turn = 2 * Math.PI
  const gaps = angles.map((angle, i) => ((angles[i + 1] ?? (angles[0] ?? 0) + turn) - angle) % (turn + 1e-12))
  return Math.max(...gaps) <= (2 * turn) / spots.length + 1e-9
}

/** Round the circle from the lowest number, the way the numbers run: that is how a flange is counted. */
function roundFrom(spots: readonly Spot[]): Spot[] {
  const centre = centroid(spots)
  const angle = ({ x, y }: Spot) => Math.atan2(y - centre.y, x - centre.x)
  const byAngle = [...spots].sort((a, b) => angle(a) - angle(b) || a.n - b.n)
  const byNumber = [...spots].sort((a, b) => a.n - b.n)
  const [first, second] = byNumber
  if (!first || !second) return byNumber
  const from = byAngle.indexOf(first)
  const clockwise = [...byAngle.slice(from), ...byAngle.slice(0, from)]
  const step = clockwise.indexOf(second)
  return step <= spots.length - step ? clockwise : [first, ...clockwise.slice(1).reverse()]
}

/**
 * The cross pattern round a circle of any count.
 *
 * Four or a multiple: groups of four a quarter turn apart, each as opposite pairs. Else even: opposite pairs. Odd: a star,
 * every next one as nearly opposite as can be. Groups follow each other in spread order. Source: ASME PCC-1 legacy
 * pattern; its printed counts from 4 to 32 come out the same.
 */
function circle(round: readonly Spot[]): number[] {
  const count = round.length
  const at = (i: number) => round[i % count]?.n ?? 0
  if (count < 4) return round.map(({ n }) => n)
  if (count % 2 === 1) {
    const step = (count - 1) / 2
    return round.map((_, i) => at(i * step))
  }
  if (count % 4 === 0) {
    const quarter = count / 4
    return spread(quarter).flatMap((i) => [at(i), at(i + 2 * quarter), at(i + quarter), at(i + 3 * quarter)])
  }
  const half = count / 2
  return spread(half).flatMap((i) => [at(i), at(i + half)])
}

/** 0 to k−1 on a ring, each next farthest from those taken, then from the last one, then the lowest. */
export function spread(k: number): number[] {
  const apart = (a: number, b: number) => Math.min((a - b + k) % k, (b - a + k) % k)
  const taken: number[] = []
  const left = Array.from({ length: k }, (_, i) => i)
  while (left.length > 0) {
    const last = taken.at(-1)
    const worth = (i: number) =>
      taken.reduce((least, j) => Math.min(least, apart(i, j)), k) * 2 * k +
      (last === undefined ? 0 : apart(i, last))
    const next = left.reduce((best, i) => (worth(i) > worth(best) ? i : best))
    taken.push(next)
    left.splice(left.indexOf(next), 1)
  }
  return taken
}

/**
 * From the centre outward in a spiral: rings of equal distance from the middle, each taken round clockwise on the map
 * from where the last one ended.
 */
function rows(spots: readonly Spot[]): number[] {
  const centre = middle(spots)
  const polar = spots
    .map(({ n, x, y }) => ({
      n,
      away: Math.hypot(x - centre.x, y - centre.y),
      angle: Math.atan2(y - centre.y, x - centre.x),
    }))
    .sort((a, b) => a.away - b.away || a.n - b.n)
  // Places drawn by hand are not equally far to the last digit; a hundredth of the extent still counts as one ring.
  const same = 0.01 * (polar.at(-1)?.away ?? 0)
  const rings: (typeof polar)[] = []
  for (const spot of polar) {
    const ring = rings.at(-1)
    if (ring?.[0] && spot.away - ring[0].away <= same) ring.push(spot)
    else rings.push([spot])
  }
  const order: number[] = []
  const [inner = []] = rings
  // The innermost ring begins with its lowest number, as people count.
  let heading = inner.reduce(
    (low, spot) => (spot.n < low.n ? spot : low),
    inner[0] ?? { n: 0, angle: 0 },
  ).angle
  for (const ring of rings) {
    const turned = (angle: number) => {
      const on = (angle - heading) % (2 * Math.PI)
      return on < -1e-9 ? on + 2 * Math.PI : Math.max(0, on)
    }
    // After the first ring the spiral goes on past where it stands, not back onto the same ray.
    const start = order.length === 0 ? 0 : 1e-6
    const key = (angle: number) => (turned(angle) < start ? turned(angle) + 2 * Math.PI : turned(angle))
    const sorted = [...ring].sort((a, b) => key(a.angle) - key(b.angle) || a.n - b.n)
    order.push(...sorted.map(({ n }) => n))
    heading = sorted.at(-1)?.angle ?? heading
  }
  return order
}
