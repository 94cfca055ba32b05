/** What a build strip is drawn from, and what the drawing is made of. */

import type { HoldKind } from '../../shared/job/kinds'
import type { Cell } from '../../shared/job/summary'

export interface StripInput {
  cells: readonly Cell[]
  stages: readonly { id: string; title: string }[]
  /** What steps wait for: written below their gap where it fits. */
  holds?: readonly StripHold[]
  width: number
  initialsOf(person: string): string
  paintOf(person: string): string
}

export interface StripHold {
  kind: HoldKind
  what: string
  stepIds: readonly string[]
}

export interface Shape {
  look:
    | 'not-ready'
    | 'ready'
    | 'frame'
    | 'awaiting'
    | 'done'
    | 'slot'
    | 'flag'
    | 'flag-mark'
    | 'notch'
    | 'bar'
    | 'hatch'
    | 'left-out'
    | 'left'
    | 'tie'
    | 'tab'
  d: string
  paint?: string
}

export interface Label {
  x: number
  text: string
  full: string
}

export interface Initials {
  x: number
  text: string
  paint: string
}

export interface Strip {
  shapes: Shape[]
  labels: Label[]
  initials: Initials[]
  /** Reasons of holds, in a row of their own. */
  reasons: Label[]
  /** Foot of the reasons, foot of the stage names, and of all. */
  reasonY: number
  labelY: number
  height: number
}

/** Where a cell lies. */
export interface Place {
  x: number
  w: number
}
