/**
 * The build strip as shapes: where each cell lies and which path it belongs to. Pure numbers, no framework.
 *
 * All cells that look alike share one path, so that two hundred strips stay a few thousand elements. Widths follow
 * minutes, but no cell gets thinner than can be seen.
 */

import { HOLD_KINDS } from '../../shared/job/kinds'
import type { Cell } from '../../shared/job/summary'
import { holdMarks, tabs } from './strip-below'
import { stageLabels } from './strip-labels'
import type { Initials, Place, Shape, Strip, StripInput } from './strip-types'

/** Rows of the drawing, from the top: initials, notches, cells; then tabs and reasons, if any; stage names. */
export const TOP = 21
export const TALL = 36
const LABELS = 20
/** Of a strip that nothing hangs below. */
export const LEAST_HEIGHT = TOP + TALL + LABELS
const TABS = 13
const REASONS = 18
const NOTCH = 6
const BAR = 5
/** Between two cells; less between thin ones. */
const APART = 1.5
/** Thinner, and outlines side by side would fill up: a row of them is drawn as one. */
const OUTLINED = 2
const LEAST = 3.5
const INITIAL_CHAR = 9

export function drawStrip(input: StripInput): Strip {
  const { cells, width } = input
  const stageGap = width > 700 ? 9 : 5
  const stages = [...new Set(cells.map(({ stage }) => stage))]
  const widths = shares(cells, width - stageGap * Math.max(0, stages.length - 1))
  const paths = new Map<string, Shape>()
  const add = (look: Shape['look'], d: string, paint?: string) => {
    const key = `${look} ${paint ?? ''}`
    const shape = paths.get(key)
    if (shape) shape.d += d
    else paths.set(key, paint ? { look, d, paint } : { look, d })
  }
  const spans = new Map<number, { from: number; to: number }>()
  const initials: Initials[] = []
  const places: Place[] = []

  let x = 0
  cells.forEach((cell, index) => {
    const previous = cells[index - 1]
    if (previous && previous.stage !== cell.stage) x += stageGap
    const w = widths[index] ?? 0
    const inner = w - Math.min(APART, w * 0.3)
    drawCell(cell, x, inner, input, add, initials)
    places.push({ x, w: inner })
    const span = spans.get(cell.stage)
    spans.set(cell.stage, { from: span?.from ?? x, to: x + w })
    x += w
  })
  for (const { from, to } of thinRuns(cells, places))
    add('not-ready', box(from + 0.5, TOP + 0.5, Math.max(to - from - 1, 0.5), TALL - 1))
  const tied = tabs(cells, places, TOP + TALL, add)
  const reasons = holdMarks(cells, places, input.holds ?? [], width, (kind) => HOLD_KINDS[kind].word)
  const tabRow = tied ? TABS : 0
  const reasonRow = reasons.length > 0 ? REASONS : 0
  const foot = TOP + TALL + tabRow
  const order: Shape['look'][] = [
    'not-ready',
    'left-out',
    'hatch',
    'awaiting',
    'done',
    'ready',
    'left',
    'slot',
    'bar',
    'frame',
    'notch',
    'flag',
    'flag-mark',
    'tie',
    'tab',
  ]
  const shapes = [...paths.values()].sort((a, b) => order.indexOf(a.look) - order.indexOf(b.look))
  return {
    shapes,
    labels: stageLabels(input.stages, spans, width),
    initials: apart(initials, width),
    reasons,
    reasonY: foot + REASONS - 3,
    labelY: foot + reasonRow + LABELS - 5,
    height: foot + reasonRow + LABELS,
  }
}

const r = (n: number) => Math.round(n * 10) / 10
const box = (x: number, y: number, w: number, h: number) => `M${r(x)} ${r(y)}h${r(w)}v${r(h)}h${r(-w)}z`

function drawCell(
  cell: Cell,
  x: number,
  w: number,
  { initialsOf, paintOf }: StripInput,
  add: (look: Shape['look'], d: string, paint?: string) => void,
  initials: Initials[],
): void {
  const foot = TOP + TALL
  const paint = cell.by ? paintOf(cell.by) : undefined
  /** An outline as a filled ring, so that its weight can follow the width: a thin cell must not clog. */
  const ring = (look: Shape['look'], line: number) =>
    add(look, box(x, TOP, w, TALL) + box(x + line, TOP + line, Math.max(w - 2 * line, 0), TALL - 2 * line))
  const heavy = Math.min(2.5, Math.max(1.2, w * 0.22))
  switch (cell.standing) {
    case 'not_ready':
      if (w >= OUTLINED) add('not-ready', box(x + 0.5, TOP + 0.5, w - 1, TALL - 1))
      break
    case 'on_hold':
      add('hatch', hatch(x, w))
      if (cell.by && paint) initials.push({ x: x + w / 2, text: initialsOf(cell.by), paint })
      break
    case 'deferred':
      add('left-out', box(x + 0.5, TOP + 0.5, Math.max(w - 1, 0.5), TALL - 1))
      break
    case 'ready':
      add('ready', box(x, TOP, w, TALL))
      ring('frame', heavy)
      break
    case 'stopped':
      add('ready', box(x, TOP, w, TALL))
      ring('frame', heavy)
      add('left', `M${r(x)} ${foot}v${-TALL / 2}h${r(w * 0.7)}L${r(x + w * 0.35)} ${foot}z`)
      break
    case 'in_work':
      add('ready', box(x, TOP, w, TALL))
      ring('frame', heavy)
      add('bar', box(x, TOP + TALL / 2, w, TALL / 2), paint)
      if (cell.by && paint) initials.push({ x: x + w / 2, text: initialsOf(cell.by), paint })
      break
    case 'awaiting_second':
      add('awaiting', box(x, TOP, w, TALL - 2 * BAR - 3))
      add('slot', box(x + 0.75, foot - 2 * BAR - 1.5 + 0.75, Math.max(w - 1.5, 0.5), BAR - 1.5))
      add('bar', box(x, foot - BAR, w, BAR), paint)
      break
    case 'done':
      add('done', box(x, TOP, w, TALL - (cell.second ? 2 * BAR + 3 : BAR + 1.5)))
      if (cell.second) add('bar', box(x, foot - 2 * BAR - 1.5, w, BAR), paintOf(cell.second))
      add('bar', box(x, foot - BAR, w, BAR), paint)
  }
  const middle = x + w / 2
  if (cell.critical) {
    const half = Math.min(NOTCH * 0.62, w / 2)
    add('notch', `M${r(middle - half)} ${TOP - NOTCH}h${r(half * 2)}L${r(middle)} ${TOP - 0.5}z`)
  }
  if (cell.flagged || cell.offLimits) {
    ring('flag', Math.max(heavy, 1.6))
    add('flag-mark', `M${r(middle)} ${TOP + 7}l5 6l-5 6l-5 -6z`)
  }
}

/** Steps that are not ready and too thin to be outlined one by one, as far as they lie side by side. */
function thinRuns(cells: readonly Cell[], places: readonly Place[]): { from: number; to: number }[] {
  const runs: { from: number; to: number }[] = []
  let stage: number | undefined
  cells.forEach((cell, index) => {
    const { x, w } = places[index] as Place
    if (cell.standing !== 'not_ready' || w >= OUTLINED) stage = undefined
    else if (cell.stage === stage) (runs.at(-1) as { to: number }).to = x + w
    else {
      runs.push({ from: x, to: x + w })
      stage = cell.stage
    }
  })
  return runs
}

/** A gap with a hatch: strokes that rise to the right, cut at its edges. */
function hatch(x: number, w: number): string {
  const step = 6
  let d = ''
  for (let from = -TALL; from < w; from += step) {
    const start = Math.max(from, 0)
    const end = Math.min(from + TALL, w)
    if (end - start > 0.5)
      d += `M${r(x + start)} ${r(TOP + TALL - (start - from))}L${r(x + end)} ${r(TOP + TALL - (end - from))}`
  }
  return d
}

/** Widths by minutes; what would be too thin is widened at the cost of the others. */
function shares(cells: readonly Cell[], room: number): number[] {
  const least = Math.min(LEAST, room / Math.max(cells.length, 1))
  const minutes = cells.map((cell) => Math.max(cell.minutes, 1))
  const thin = new Set<number>()
  for (;;) {
    const left = room - thin.size * least
    const sum = minutes.reduce((all, one, index) => (thin.has(index) ? all : all + one), 0)
    const found = minutes.findIndex((one, index) => !thin.has(index) && (left * one) / sum < least)
    if (found < 0) return minutes.map((one, index) => (thin.has(index) ? least : (left * one) / sum))
    thin.add(found)
  }
}

/** Initials stand over their cells; where two would touch, the later one moves aside, and none leaves the strip. */
function apart(initials: readonly Initials[], width: number): Initials[] {
  const half = (text: string) => (text.length * INITIAL_CHAR) / 2
  let free = 0
  const placed = initials.map((one) => {
    const x = Math.max(one.x, free + half(one.text))
    free = x + half(one.text) + 3
    return { ...one, x }
  })
  let end = width
  for (const one of placed.toReversed()) {
    one.x = r(Math.min(one.x, end - half(one.text)))
    end = one.x - half(one.text) - 3
  }
  return placed
}
