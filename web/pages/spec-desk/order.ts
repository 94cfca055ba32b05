/** The bolts of a joint as they might stand, and the order to tighten them: a circle, or rows. */
import { type ProposedOrder, proposeOrder } from '../../../shared/fastener'
import { isRefusal } from '../../../shared/log'
import type { OutlineShape, Position } from '../../../shared/plan/types'
import { exact } from '../../../shared/words'
import { format } from '../../format'
import { numberIn } from './entries'
import type { Inputs } from './inputs'
import { open, type Part, refusedPart, there, unreadable } from './part'

export interface Ordered {
  positions: Position[]
  outline: OutlineShape[]
  proposed: ProposedOrder
}

/** More do not fit on a sheet of paper. */
const MOST = 80

export function orderOf(inputs: Inputs): Part<Ordered> {
  const count = numberIn(inputs.count)
  const rows = numberIn(inputs.rows)
  const unread = unreadable({ count, ...(inputs.pattern === 'rows' ? { rows } : {}) })
  if (unread) return unread
  if (count.value === undefined) return open('Enter how many bolts there are to see their order.')
  const whole = Number.isInteger(count.value) && count.value >= 2 && count.value <= MOST
  if (!whole)
    return {
      state: 'refused',
      why: `${exact(count.value, format)} bolts cannot be drawn here. Enter a whole number from 2 to ${MOST}.`,
      field: 'count',
    }
  const inRows = inputs.pattern === 'rows'
  const rowCount = rows.value ?? (count.value > 3 && count.value % 2 === 0 ? 2 : 1)
  if (inRows && (!Number.isInteger(rowCount) || rowCount < 1 || count.value % rowCount !== 0))
    return {
      state: 'refused',
      why: `${exact(count.value, format)} bolts do not stand in ${exact(rowCount, format)} equal rows. Enter another number of rows.`,
      field: 'rows',
    }
  const positions = inRows ? grid(count.value, rowCount) : ring(count.value)
  const proposed = proposeOrder(positions, inRows ? 'rows' : 'circle')
  if (isRefusal(proposed)) return refusedPart(proposed)
  return there({
    positions,
    outline: inRows ? frame(count.value / rowCount, rowCount) : rims(),
    proposed,
  })
}

/** Clockwise from the top, as a flange is numbered. */
function ring(count: number): Position[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count - Math.PI / 2
    return { n: i + 1, x: round(100 * Math.cos(angle)), y: round(100 * Math.sin(angle)) }
  })
}

/** Numbered row by row from the upper left, as one reads. */
function grid(count: number, rows: number): Position[] {
  const columns = count / rows
  return Array.from({ length: count }, (_, i) => ({
    n: i + 1,
    x: 60 * (i % columns),
    y: 60 * Math.floor(i / columns),
  }))
}

const round = (value: number) => Math.round(value * 1000) / 1000

const rims = (): OutlineShape[] => [
  { shape: 'circle', x: 0, y: 0, r: 138 },
  { shape: 'circle', x: 0, y: 0, r: 44 },
]

const frame = (columns: number, rows: number): OutlineShape[] => [
  { shape: 'rect', x: -34, y: -34, w: 60 * (columns - 1) + 68, h: 60 * (rows - 1) + 68, r: 14 },
]
