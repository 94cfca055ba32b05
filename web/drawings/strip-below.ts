/**
 * What hangs below the cells of a build strip: tabs of what was left out, tied to the step where it is due, and
 * the reasons of holds where there is room to write them.
 */

import type { HoldKind } from '../../shared/job/kinds'
import type { Cell } from '../../shared/job/summary'
import type { Label, Place, Shape, StripHold } from './strip-types'

const TAB_W = 9
const TAB_H = 8
const TIE_Y = 6
/** Of the reason's type, a pixel wider than most letters so that words never touch. */
const CHAR = 6.6
const APART = 12

const r = (n: number) => Math.round(n * 10) / 10

/** Draws every tab and its tie; says whether there was any. */
export function tabs(
  cells: readonly Cell[],
  places: readonly Place[],
  foot: number,
  add: (look: Shape['look'], d: string) => void,
): boolean {
  const placeOf = new Map(cells.map(({ stepId }, index) => [stepId, places[index]]))
  let any = false
  cells.forEach(({ dueAt }, index) => {
    const from = places[index]
    if (!dueAt || !from) return
    any = true
    const middle = from.x + from.w / 2
    const left = middle - TAB_W / 2
    add('tab', `M${r(left)} ${foot + 2}h${TAB_W}v${TAB_H - 3}l${-TAB_W / 2} 3l${-TAB_W / 2} -3z`)
    for (const stepId of dueAt) {
      const to = placeOf.get(stepId)
      if (!to) continue
      const end = to.x + to.w / 2
      const side = end > middle ? TAB_W / 2 : -TAB_W / 2
      add('tie', `M${r(middle + side)} ${foot + TIE_Y}H${r(end)}V${foot + 1}`)
    }
  })
  return any
}

/**
 * What each hold waits for, below the first cell of it: in full where that fits before the next one, else its
 * kind, else nothing; the strip's own name says it all in any case.
 */
export function holdMarks(
  cells: readonly Cell[],
  places: readonly Place[],
  holds: readonly StripHold[],
  width: number,
  kindWords: (kind: HoldKind) => string,
): Label[] {
  const marks = holds
    .flatMap((hold) => {
      const index = cells.findIndex(
        ({ stepId, standing }) => standing === 'on_hold' && hold.stepIds.includes(stepId),
      )
      const place = places[index]
      return place ? [{ hold, x: place.x }] : []
    })
    .sort((a, b) => a.x - b.x)
  let free = 0
  return marks.flatMap(({ hold, x }, index) => {
    const kind = kindWords(hold.kind)
    const full = `${kind}: ${hold.what}`
    const next = marks[index + 1]?.x ?? width + APART
    for (const text of [full, kind]) {
      const room = text.length * CHAR
      // Near the right edge it moves back over the finished work, as far as nothing else is written there.
      const start = Math.max(Math.min(x, width - room), 0)
      if (start < free || start + room > Math.max(next - APART, 0)) continue
      free = start + room + APART
      return [{ x: r(start), text, full }]
    }
    return []
  })
}
