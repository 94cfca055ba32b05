/**
 * What each column of a torque sheet is: by its heading first, else by what stands in it.
 *
 * A guess says why, and gives way to what the author chooses.
 */
import { isRefusal } from '../log'
import { readSpec } from '../spec'
import { type TorqueUnit, unitAt, unitNamed } from '../units'
import { readingsOf } from './line'
import { NOT_CLEAR } from './sheet-wide'
import type { SheetRecord } from './split'
import type { Role, SheetChoices, SheetColumn } from './types'
import { PIECES, roleNamed } from './vocabulary'

export const THREAD =
  /(?:\bM\d{1,2}(?:[.,]\d)?(?:\s?[x×*]\s?\d+(?:[.,]\d+)?)?(?![\d\p{L}])|(?<![\d/])\d+\/\d+(?:\s?[-–]\s?\d+)?\s?(?:UN[CFEJ]*|NPTF?|BSPT?|BSW|BSF)?(?=\s|$)|#\d{1,2}\s?-\s?\d+|\b[GR]c?\s?\d\/\d(?!\d))/u

const BARE = /^[\d.,'\s]*\d[\d.,'\s]*$/
const RANGE = /^[\d.,']+\s*(?:[-–—…]|to)\s*[\d.,']+$/

/** Is this line a heading of columns: no number in it, and words or units that name columns in two cells or more? */
export function isHeader({ cells }: SheetRecord): boolean {
  const filled = cells.filter((cell) => cell !== '')
  if (filled.length < 2 || filled.some((cell) => /\d/.test(cell))) return false
  return filled.filter((cell) => headingRole(cell) !== undefined).length * 2 >= filled.length
}

/** A second line of the header: nothing but units. */
export function isUnitRow({ cells }: SheetRecord): boolean {
  const filled = cells.filter((cell) => cell !== '')
  return (
    filled.length > 0 &&
    filled.every((cell) => unitNamed(cell) !== undefined || /^\(?(?:mm|°|deg\.?)\)?$/.test(cell))
  )
}

/** A heading that carries its unit is one of torque, whatever its language, or of a limit of it. */
function headingRole(title: string): Role | undefined {
  if (unitNamed(title)) return 'torque'
  const role = roleNamed(title)
  return headingUnit(title) && role !== 'min' && role !== 'max' ? 'torque' : role
}

/** The two halves of a heading that names two units: `Nm (lb ft)`, `Torque, N·m / ft-lb`. */
const TWO_UNITS = /^(.*?)\s*[([{/]\s*([^()[\]{}/]+?)\s*[)\]}]*$/

/** The unit that a heading names after another one: what stands in brackets, or behind a slash, in its cells. */
export function secondUnit(title: string): TorqueUnit | undefined {
  const halves = unitNamed(title) ? null : TWO_UNITS.exec(title)
  const second = unitNamed(halves?.[2] ?? '')
  const first = second && headingUnit(halves?.[1] ?? '')
  return first && first !== second ? second : undefined
}

/** The unit a heading names: `Torque (N·m)`, `Nm`, `Torque, ft. lbs.`. */
export function headingUnit(title: string): TorqueUnit | undefined {
  const whole = unitNamed(title)
  if (whole) return whole
  // Of two the first: `Torque Nm (lb ft)` is a column of N·m.
  if (secondUnit(title)) return headingUnit(TWO_UNITS.exec(title)?.[1] ?? '')
  const inner = /[([{]([^)\]}]*)[)\]}]/.exec(title)?.[1]
  const found = inner === undefined ? undefined : unitNamed(inner)
  if (found) return found
  for (const start of title.matchAll(/(?<=[\s,/:([{])\S/g)) {
    const unit = unitAt(title, start.index)
    if (unit && title.slice(unit.end).trim() === '') return unit.unit
  }
  return undefined
}

export function columnsOf(
  records: SheetRecord[],
  titles: string[] | undefined,
  choices: SheetChoices,
): SheetColumn[] {
  const width = Math.max(0, titles?.length ?? 0, ...records.map(({ cells }) => cells.length))
  const columns = Array.from({ length: width }, (_, index) => {
    const title = titles?.[index]
    const unit = title ? headingUnit(title) : undefined
    const role = title ? headingRole(title) : undefined
    const second = title ? secondUnit(title) : undefined
    const base = {
      index,
      ...(title ? { title } : {}),
      ...(unit ? { unit } : {}),
      ...(second ? { second } : {}),
    }
    return role ? { ...base, ...headed(role, title, records, index) } : { ...base, ...NOTHING }
  })
  const chosen = (index: number) => choices.roles?.[index]
  // Cells beyond the last heading belong to no column: they are doubted line by line.
  const beyond = titles?.length ?? Number.POSITIVE_INFINITY
  byContent(columns, records, (index) => chosen(index) !== undefined || index >= beyond)
  onlyOnce(columns, chosen)
  for (const column of columns) {
    const role = chosen(column.index)
    if (role) Object.assign(column, { role, why: CHOSEN })
  }
  return columns
}

/** What stands under a heading decides where its words may mean two things. */
function headed(role: Role, title = '', records: SheetRecord[], index: number): { role: Role; why: string } {
  const cells = records.map((record) => record.cells[index] ?? '').filter(Boolean)
  const says = { role, why: `The heading says “${title}”.` }
  if (role === 'count' && /^\P{L}*(?:nr|nos?|n|num)?\P{L}*$/iu.test(title) && countsUp(cells))
    return { role: 'position', why: `The heading says “${title}”, and its numbers count the lines.` }
  if (role === 'item' && share(cells, (cell) => THREAD.test(cell) && cell.length < 24) > 0.6)
    return { role: 'thread', why: `The heading says “${title}”, and it has thread sizes.` }
  if (role === 'item' && share(cells, (cell) => /^\d{1,4}[a-z]?$/i.test(cell)) > 0.6)
    return { role: 'position', why: `The heading says “${title}”, and it has numbers.` }
  if (role === 'position' && share(cells, (cell) => /\p{L}{3}/u.test(cell)) > 0.6)
    return { role: 'item', why: `The heading says “${title}”, and it has words.` }
  if (role === 'grade' && share(cells, (cell) => /^[ABC]$/i.test(cell)) > 0.6)
    return { role: 'note', why: `The heading says “${title}”, but “${cells[0]}” is not a grade of a bolt.` }
  return says
}

const share = (cells: readonly string[], fits: (cell: string) => boolean): number =>
  cells.length === 0 ? 0 : cells.filter(fits).length / cells.length

/** From 1, never falling, by one or two: numbers of lines, though one is left out or stands twice. */
const countsUp = (cells: readonly string[]): boolean =>
  cells.length > 2 &&
  Number(cells[0]) === 1 &&
  Number(cells.at(-1)) > cells.length / 2 &&
  cells.slice(1).every((cell, i) => [0, 1, 2].includes(Number(cell) - Number(cells[i])))

/** Why a column is what its author said. */
export const CHOSEN = 'Chosen.'
const NOTHING = { role: 'none' as Role, why: NOT_CLEAR }

interface Content {
  filled: number
  torques: number
  bare: number
  threads: number
  units: number
  counts: number
  words: number
}

/** Columns whose heading says nothing, by what stands in them. */
function byContent(columns: SheetColumn[], records: SheetRecord[], taken: (index: number) => boolean): void {
  const has = (role: Role) => columns.some((column) => column.role === role)
  const open = columns.filter((column) => column.role === 'none' && !taken(column.index))
  const contents = new Map(open.map((column) => [column, contentOf(records, column.index)]))
  const take = (role: Role, why: string, fits: (of: Content) => boolean, several = false) => {
    for (const column of open) {
      const of = contents.get(column)
      if (column.role !== 'none' || !of || of.filled === 0 || !fits(of)) continue
      if (has(role) && !several) continue
      Object.assign(column, { role, why })
    }
  }
  take('torque', 'It has torques with their units.', (of) => of.torques >= of.filled * 0.4)
  take(
    'also',
    'It has torques with their units, beside those of another column.',
    (of) => of.torques >= of.filled * 0.6,
    true,
  )
  take('unit', 'It has torque units.', (of) => of.units >= of.filled * 0.6)
  take('thread', 'It has thread sizes.', (of) => of.threads >= of.filled * 0.6)
  take('item', 'It has words.', (of) => of.words >= of.filled * 0.6)
  if (!has('torque') && !has('min')) {
    const numbers = open.filter((column) => column.role === 'none' && mostlyBare(contents.get(column)))
    const torques = numbers.filter((column) => !onlyCounts(contents.get(column)) || numbers.length === 1)
    const [first, second] = torques
    if (first && second && torques.length === 2 && rises(records, first.index, second.index)) {
      Object.assign(first, {
        role: 'min',
        why: 'Of two columns of numbers it is the lower one in every line.',
      })
      Object.assign(second, {
        role: 'max',
        why: 'Of two columns of numbers it is the higher one in every line.',
      })
    } else if (first) Object.assign(first, { role: 'torque', why: 'It is the first column of numbers.' })
  }
  take('count', 'It has whole numbers up to 60.', (of) => of.counts >= of.filled * 0.8)
  take('note', 'It has words, after those of the item.', (of) => of.words >= of.filled * 0.6)
}

const mostlyBare = (of: Content | undefined) =>
  of !== undefined && of.filled > 0 && of.bare >= of.filled * 0.6
const onlyCounts = (of: Content | undefined) => of !== undefined && of.counts >= of.filled * 0.8

const SAMPLE = 200

function contentOf(records: SheetRecord[], index: number): Content {
  const of: Content = { filled: 0, torques: 0, bare: 0, threads: 0, units: 0, counts: 0, words: 0 }
  for (const { cells } of records.slice(0, SAMPLE)) {
    const cell = cells[index] ?? ''
    if (cell === '' || cells.filter(Boolean).length < 2) continue
    of.filled += 1
    const bare = BARE.test(cell) || RANGE.test(cell)
    if (bare) of.bare += 1
    else if (unitNamed(cell)) of.units += 1
    else if (holdsTorque(cell)) of.torques += 1
    else if (isThread(cell)) of.threads += 1
    else if (/\p{L}{2}/u.test(cell)) of.words += 1
    if (countIn(cell) !== undefined && Number.parseInt(cell.replace(/\D/g, ''), 10) <= 60) of.counts += 1
  }
  return of
}

/** A thread and what belongs to it; `Rocker cover M6` is what it is for. */
const isThread = (cell: string): boolean =>
  THREAD.test(cell) &&
  cell.length < 24 &&
  !/\p{L}{3}/u.test(cell.replace(THREAD, '').replace(PITCH_WORDS, ''))
const PITCH_WORDS = /\b(?:fine|coarse|fein|left|links|UN[CFEJ]*|long|lg)\b/giu

/** Is it read as a torque, or is exactly one reading of it offered? */
export function holdsTorque(cell: string): boolean {
  const read = readSpec(cell)
  return !isRefusal(read) || readingsOf(read).length === 1
}

function rises(records: SheetRecord[], low: number, high: number): boolean {
  const number = (cell = '') => Number(cell.replace(',', '.'))
  return records.every(({ cells }) => {
    const [a, b] = [number(cells[low]), number(cells[high])]
    return Number.isNaN(a) || Number.isNaN(b) || !cells[low] || !cells[high] || a <= b
  })
}

const COUNT = new RegExp(`^(?:[x×]\\s*)?(\\d{1,3})(?:\\s*(?:[x×]|${PIECES}))?$`, 'i')

/** How many fasteners a cell says: `10`, `x 10`, `10 off`. */
export function countIn(cell: string): number | undefined {
  const [, digits] = COUNT.exec(cell.trim()) ?? []
  const count = Number(digits)
  return digits !== undefined && count >= 1 ? count : undefined
}

const WITHIN = new RegExp(`(?:^|[\\s,(])(\\d{1,3})\\s*(?:${PIECES})(?=$|[\\s,;)])`, 'gi')

/** How many fasteners a line says among its words: `Rod nuts, 8 off`. `M8 x 25` says a length; two such numbers say nothing. */
export function countWithin(words: string): number | undefined {
  const counts = [...words.matchAll(WITHIN)].map(([, digits]) => Number(digits))
  const [count = 0] = counts
  return counts.length === 1 && count >= 1 ? count : undefined
}

/** A role has one column; a second torque column with another unit is the same torque again. */
function onlyOnce(columns: SheetColumn[], chosen: (index: number) => Role | undefined): void {
  const first = new Map<Role, SheetColumn>()
  for (const column of columns) {
    if (column.role === 'none' || column.role === 'also' || column.role === 'note' || chosen(column.index))
      continue
    const earlier = first.get(column.role)
    if (!earlier) {
      first.set(column.role, column)
      continue
    }
    if (column.role === 'torque' && column.unit && earlier.unit && column.unit !== earlier.unit)
      Object.assign(column, {
        role: 'also',
        why: `The heading says “${column.title}”: the torque in a second unit.`,
      })
    else
      Object.assign(column, {
        role: 'note',
        why: `Column ${earlier.index + 1} is taken for that already; it is kept as a note.`,
      })
  }
}
