/**
 * The torque of a table line out of its cells: value, limits, angle and second unit as one text for `readSpec`.
 *
 * A cell with no unit of its own gets that of the unit column, its heading or the author, in that order.
 */
import type { SpecContext } from '../spec'
import type { TorqueUnit } from '../units'
import type { SheetRecord } from './split'
import type { Role, SheetChoices, SheetColumn } from './types'

/** The cells that make up the torque, as one text for `readSpec`, and what it must know beside it. */
export function printedOf(
  { cells }: SheetRecord,
  columns: SheetColumn[],
  unit: TorqueUnit | undefined,
  sign: SpecContext['sign'],
  choices: SheetChoices,
  strangeUnit: boolean,
): { printed: string; context: SpecContext } {
  const cellsOf = (role: Role) =>
    columns
      .filter((column) => column.role === role && cells[column.index])
      .map((column) => ({ cell: cells[column.index] ?? '', column }))
  const unitOf = (column: SheetColumn | undefined) =>
    strangeUnit ? undefined : (unit ?? column?.unit ?? choices.unit)
  const [torque, min, max, angle] = (['torque', 'min', 'max', 'angle'] as const).map(
    (role) => cellsOf(role)[0],
  )
  const also = cellsOf('also')
  const context = (of: TorqueUnit | undefined) => ({ ...(of ? { unit: of } : {}), ...(sign ? { sign } : {}) })
  if (!min && !max && !angle && also.length === 0)
    return {
      printed: torque ? inBoth(torque.cell, torque.column, unitOf(torque.column)) : '',
      context: context(unitOf(torque?.column)),
    }

  const limits = [
    min && `min ${withUnit(inBoth(min.cell, min.column, unitOf(min.column)), unitOf(min.column))}`,
    max && `max ${withUnit(inBoth(max.cell, max.column, unitOf(max.column)), unitOf(max.column))}`,
  ].filter(Boolean)
  const main =
    torque && withUnit(inBoth(torque.cell, torque.column, unitOf(torque.column)), unitOf(torque.column))
  const first = main ?? limits.join(', ')
  const brackets = [
    main && limits.length > 0 ? ` (${limits.join(', ')})` : '',
    // A column of its own unit: a unit column speaks of the first torque.
    also.length > 0 ? ` (${also.map(({ cell, column }) => withUnit(cell, column.unit)).join('; ')})` : '',
  ].join('')
  const turned = angle ? `${first ? ' + ' : ''}${inDegrees(angle.cell)}` : ''
  return { printed: `${first}${brackets}${turned}`, context: sign ? { sign } : {} }
}

/** `47 (35)` under `Nm (lb ft)`: each number in its own unit. A line with a unit of its own is left as it stands. */
function inBoth(cell: string, { unit, second }: SheetColumn, taken: TorqueUnit | undefined): string {
  const [, first, other, rest = ''] =
    /^([\d.,\s±–—-]+?)\s*(?:[([{]\s*|\/\s*)([\d.,\s±–—-]+?)\s*[)\]}]?(\s*\+.*)?$/.exec(cell) ?? []
  return second && unit === taken && first && other ? `${first} ${unit} (${other} ${second})${rest}` : cell
}

/** `60 + 60` in a column of angles is two of them. */
function inDegrees(cell: string): string {
  const angles = cell.replace(/^\+\s*/, '')
  return /^[\d.,]+(?:\s*\+\s*[\d.,]+)+$/.test(angles)
    ? angles.replace(/[\d.,]+/g, '$&°')
    : withUnit(angles, '°')
}

/** A cell with no unit of its own gets its column's. */
function withUnit(cell: string, unit: string | undefined): string {
  return unit === undefined || /\p{L}|[°º˚]/u.test(cell.replace(/\bto\b/i, '')) ? cell : `${cell} ${unit}`
}
