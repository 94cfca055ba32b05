/**
 * What the head bears on and what hole it stands over, where nobody measured: plain hexagon heads and medium holes.
 *
 * Sources, from memory: ISO 4014 (bearing diameter), ISO 273 (holes), ASME B18.2.1 and B18.2.8 for inch sizes. They
 * reproduce the published VDI 2230 torques of 12 sizes. Sizes between two rows are estimated in proportion.
 */
import type { Thread } from './thread-types'

export type HoleSeries = 'fine' | 'medium' | 'coarse'
type Row = readonly [dMm: number, bearing: number, fine: number, medium: number, coarse: number]

const ISO: readonly Row[] = [
  [1.6, 2.27, 1.7, 1.8, 2],
  [2, 3.07, 2.2, 2.4, 2.6],
  [2.5, 4.07, 2.7, 2.9, 3.1],
  [3, 4.57, 3.2, 3.4, 3.6],
  [3.5, 5.07, 3.7, 3.9, 4.2],
  [4, 5.9, 4.3, 4.5, 4.8],
  [5, 6.9, 5.3, 5.5, 5.8],
  [6, 8.9, 6.4, 6.6, 7],
  [7, 9.6, 7.4, 7.6, 8],
  [8, 11.6, 8.4, 9, 10],
  [10, 14.6, 10.5, 11, 12],
  [12, 16.6, 13, 13.5, 14.5],
  [14, 19.6, 15, 15.5, 16.5],
  [16, 22.5, 17, 17.5, 18.5],
  [18, 25.3, 19, 20, 21],
  [20, 28.2, 21, 22, 24],
  [22, 31.7, 23, 24, 26],
  [24, 33.6, 25, 26, 28],
  [27, 38, 28, 30, 32],
  [30, 42.7, 31, 33, 35],
  [33, 46.6, 34, 36, 38],
  [36, 51.1, 37, 39, 42],
  [39, 55.9, 40, 42, 45],
  [42, 60, 43, 45, 48],
  [45, 64.7, 46, 48, 52],
  [48, 69.5, 50, 52, 56],
  [52, 74.2, 54, 56, 62],
  [56, 78.7, 58, 62, 66],
  [60, 83.4, 62, 66, 70],
  [64, 88.2, 66, 70, 74],
]

/** Inches: diameter, width across flats, normal hole. */
const INCH: readonly (readonly [dIn: number, acrossIn: number, holeIn: number])[] = [
  [1 / 4, 7 / 16, 9 / 32],
  [5 / 16, 1 / 2, 11 / 32],
  [3 / 8, 9 / 16, 13 / 32],
  [7 / 16, 5 / 8, 15 / 32],
  [1 / 2, 3 / 4, 9 / 16],
  [9 / 16, 13 / 16, 5 / 8],
  [5 / 8, 15 / 16, 11 / 16],
  [3 / 4, 9 / 8, 13 / 16],
  [7 / 8, 21 / 16, 15 / 16],
  [1, 3 / 2, 35 / 32],
  [9 / 8, 27 / 16, 39 / 32],
  [5 / 4, 15 / 8, 43 / 32],
  [11 / 8, 33 / 16, 3 / 2],
  [3 / 2, 9 / 4, 13 / 8],
]
const UNIFIED: readonly Row[] = INCH.map(([d, across, hole]) => [
  d * 25.4,
  across * 0.95 * 25.4,
  hole * 25.4,
  hole * 25.4,
  hole * 25.4,
])

/** Head bearing diameter and clearance hole of a size, mm; `exact` where the size stands in the table. */
export function usualHead(
  thread: Pick<Thread, 'dMm' | 'system'>,
  series: HoleSeries = 'medium',
): { headBearingMm: number; holeMm: number; exact: boolean } {
  const rows = thread.system === 'metric' ? ISO : UNIFIED
  const column = series === 'fine' ? 2 : series === 'coarse' ? 4 : 3
  const d = thread.dMm
  const above = rows.find((row) => row[0] >= d - 1e-9)
  const below = rows.findLast((row) => row[0] <= d + 1e-9)
  if (above && below && above !== below) {
    const share = (d - below[0]) / (above[0] - below[0])
    const between = (i: 1 | 2 | 3 | 4) => below[i] + share * (above[i] - below[i])
    return { headBearingMm: between(1), holeMm: between(column), exact: false }
  }
  const row = above ?? below
  if (!row) return { headBearingMm: 1.5 * d, holeMm: 1.1 * d, exact: false }
  const scale = Math.abs(row[0] - d) < 1e-6 ? 1 : d / row[0]
  return { headBearingMm: row[1] * scale, holeMm: row[column] * scale, exact: scale === 1 }
}
