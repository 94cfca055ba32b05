/**
 * A published torque by size, for comparison: FAA AC 43.13-1B, table 7-1 (9/8/98), oil-free cadmium-plated threads.
 *
 * A look-up, not a formula: the jump from 3/8-24 to 7/16-20 stands in the source. Friction drag is added to it.
 */
import { isRefusal } from '../log'
import { toNm } from '../units'
import type { BasisId } from './basis'
import { type FastenerRefusal, no } from './refusals'
import { threadOf } from './thread'
import type { ThreadGiven } from './thread-types'

type Row = readonly [
  tensionLow: number,
  tensionHigh: number,
  shearLow: number,
  shearHigh: number,
  maxTension: number,
  maxShear: number,
  estimated?: 'estimated',
]

/** lbf·in, by thread; keys as `thread` writes them, without the series. */
const ROWS: Readonly<Record<string, Row>> = {
  '#8-36': [12, 15, 7, 9, 20, 12],
  '#10-32': [20, 25, 12, 15, 40, 25],
  '1/4-28': [50, 70, 30, 40, 100, 60],
  '5/16-24': [100, 140, 60, 85, 225, 140],
  '3/8-24': [160, 190, 95, 110, 390, 240],
  '7/16-20': [450, 500, 270, 300, 840, 500],
  '1/2-20': [480, 690, 290, 410, 1100, 660],
  '9/16-18': [800, 1000, 480, 600, 1600, 960],
  '5/8-18': [1100, 1300, 600, 780, 2400, 1400],
  '3/4-16': [2300, 2500, 1300, 1500, 5000, 3000],
  '7/8-14': [2500, 3000, 1500, 1800, 7000, 4200],
  '1-14': [3700, 5500, 2200, 3300, 10000, 6000, 'estimated'],
  '1-1/8-12': [5000, 7000, 3000, 4200, 15000, 9000, 'estimated'],
  '1-1/4-12': [9000, 11000, 5400, 6600, 25000, 15000, 'estimated'],
  '#8-32': [12, 15, 7, 9, 20, 12],
  '#10-24': [20, 25, 12, 15, 35, 21],
  '1/4-20': [40, 50, 25, 30, 75, 45],
  '5/16-18': [80, 90, 48, 55, 160, 100],
  '3/8-16': [160, 185, 95, 100, 275, 170],
  '7/16-14': [235, 255, 140, 155, 475, 280],
  '1/2-13': [400, 480, 240, 290, 880, 520],
  '9/16-12': [500, 700, 300, 420, 1100, 650],
  '5/8-11': [700, 900, 420, 540, 1500, 900],
  '3/4-10': [1150, 1600, 700, 950, 2500, 1500],
  '7/8-9': [2200, 3000, 1300, 1800, 4600, 2700],
}

const SOURCE = 'FAA AC 43.13-1B, table 7-1'

export interface AirframeTorque {
  thread: string
  /** Nuts in tension, and in shear (thin), N·m; the printed figures are lbf·in. */
  tension: { minNm: number; maxNm: number; limitNm: number }
  shear: { minNm: number; maxNm: number; limitNm: number }
  printedLbfIn: readonly number[]
  /** The source marks the line as estimated. */
  estimated: boolean
  basis: BasisId[]
}

/** What the table prints for a thread, N·m; a size it does not list is refused. */
export function airframeTorque(threadGiven: ThreadGiven): AirframeTorque | FastenerRefusal {
  const thread = threadOf(threadGiven)
  if (isRefusal(thread)) return thread
  const key = thread.designation.replace(/ .*$/, '')
  const row = ROWS[key]
  if (!row) return no('no_published_torque', { thread: thread.designation, source: SOURCE })
  const [tensionLow, tensionHigh, shearLow, shearHigh, maxTension, maxShear, estimated] = row
  const nm = (lbfIn: number) => toNm(lbfIn, 'lbf·in')
  return {
    thread: thread.designation,
    tension: { minNm: nm(tensionLow), maxNm: nm(tensionHigh), limitNm: nm(maxTension) },
    shear: { minNm: nm(shearLow), maxNm: nm(shearHigh), limitNm: nm(maxShear) },
    printedLbfIn: [tensionLow, tensionHigh, shearLow, shearHigh, maxTension, maxShear],
    estimated: estimated !== undefined,
    basis: ['airframe_table'],
  }
}
