/**
 * Reads a torque sheet: a pasted or dropped table of fasteners with what the manual prints for each.
 *
 * Every line that is not blank comes back, with its number and its text, whatever can be made of it. Columns
 * are guessed and may be chosen; a torque is read by `readSpec` and by nothing else.
 */
import { isRefusal } from '../log'
import { readSpec, type SpecContext, type SpecRefusal } from '../spec'
import { unitNamed } from '../units'
import type { Figures } from '../words'
import { CHOSEN, columnsOf, countIn, countWithin, holdsTorque, isHeader, isUnitRow, THREAD } from './columns'
import { lengthsIn } from './lengths'
import { judgedLine, readingsOf } from './line'
import { printedOf } from './printed'
import { groupsDown, remarksOf, tellRepeats } from './sheet-wide'
import { type SheetRecord, splitSheet } from './split'
import { styleOf } from './style'
import type { Role, Sheet, SheetChoices, SheetColumn, SheetContext, SheetLine } from './types'
import { useIn, useNamed } from './vocabulary'

/** A header stands among the first lines that are filled. */
const HEADER_WITHIN = 12

export function readSheet(text: string, figures: Figures, choices: SheetChoices = {}): Sheet {
  const { delimiter, records } = splitSheet(text, choices.delimiter)
  const header =
    choices.headerLine === null
      ? undefined
      : records
          .slice(0, choices.headerLine === undefined ? HEADER_WITHIN : records.length)
          .find((record) =>
            choices.headerLine === undefined ? isHeader(record) : record.line === choices.headerLine,
          )
  const after = header && records[records.indexOf(header) + 1]
  const units = after && isUnitRow(after) ? after : undefined
  const titles = header?.cells.map((cell, i) =>
    [cell, units?.cells[i] ? `(${unbracketed(units.cells[i] ?? '')})` : ''].filter(Boolean).join(' '),
  )
  const headers = new Set(header ? [plainOf(header), ...(units ? [plainOf(units)] : [])] : [])
  const isHeaderLine = (record: SheetRecord) => headers.has(plainOf(record))
  const body = records.filter((record) => !isHeaderLine(record))
  const columns = columnsOf(body, titles, choices)
  const { style, unsure } = styleOf(body, columns, delimiter === 'lines')
  const graded = columns.filter(({ role }) => role === 'grade')
  const gradesGiven = graded.some(({ index }) => body.some(({ cells }) => cells[index]))
  const context: SheetContext = {
    gradesGiven,
    ...(style ? { style } : {}),
    ...(unsure ? { sign: 'unsure' as const } : style ? { sign: style.sign } : {}),
  }
  const reading = { columns, context, choices, figures }
  const lines = records.map((record): SheetLine => {
    if (isHeaderLine(record)) return { kind: 'header', line: record.line, text: record.text }
    return delimiter === 'lines' ? plainLine(record, reading) : tableLine(record, reading)
  })
  const { lines: told, remark } = tellRepeats(groupsDown(doubtEmptySections(lines)))
  const remarks = [
    ...remarksOf(delimiter === 'lines' ? [] : columns, told, style, gradesGiven),
    ...(remark ? [remark] : []),
  ]
  return { delimiter, columns, lines: told, remarks, context }
}

/** The same lines, those to look at first: impossible, unread, doubtful, then the rest; each in the order of the sheet. */
export function doubtfulFirst(lines: readonly SheetLine[]): SheetLine[] {
  const rank = (line: SheetLine) =>
    line.kind === 'item' && line.stop ? 0 : line.kind === 'item' && line.refusal ? 1 : line.doubt ? 2 : 3
  return [...lines].sort((a, b) => rank(a) - rank(b) || a.line - b.line)
}

const unbracketed = (cell: string) => cell.replace(/^[([{]|[)\]}]$/g, '')
const plainOf = ({ cells }: SheetRecord) => cells.join('\t').toLowerCase()

interface Reading {
  columns: SheetColumn[]
  context: SheetContext
  choices: SheetChoices
  figures: Figures
}

function tableLine(record: SheetRecord, { columns, context: sheet, choices, figures }: Reading): SheetLine {
  const { line, text, cells } = record
  const of = (role: Role) =>
    columns
      .filter((column) => column.role === role)
      .map(({ index }) => cells[index] ?? '')
      .filter(Boolean)
  const item = of('item').join(' ')
  const only = cells.filter(Boolean)
  const alone = only.length === 1 ? (only[0] ?? '') : undefined
  if (alone !== undefined && isHeading(alone)) return { kind: 'section', line, text, title: alone }

  const { lengths, odd: unreadLengths } = lengthsIn(columns, cells)
  const unitCell = of('unit')[0]
  const unit = (unitCell === undefined ? undefined : unitNamed(unitCell)) ?? undefined
  const strangeUnit = unitCell !== undefined && !unit
  const { printed, context } = printedOf(record, columns, unit, sheet.sign, choices, strangeUnit)
  const counted = of('count')[0]
  const count = counted === undefined ? undefined : countIn(counted)
  const thread = of('thread')[0] ?? THREAD.exec(item)?.[0]?.trim()
  const notes = of('note')
  const useColumn = columns.find((column) => column.role === 'use' && cells[column.index])
  const useCell = useColumn ? (cells[useColumn.index] ?? '') : undefined
  const use =
    (useCell === undefined ? undefined : useIn(useCell, useColumn?.title ?? '')) ??
    notes.map(useNamed).find((one) => one !== undefined)
  const odd: string[] = [...unreadLengths]
  // Where no column does, it is said once for the sheet.
  if (item === '' && columns.some(({ role }) => role === 'item')) odd.push('The line names no item.')
  if (unitCell !== undefined && !unit) odd.push(`“${unitCell}” is not a torque unit known here.`)
  if (counted !== undefined && count === undefined) odd.push(`“${counted}” is not a number of fasteners.`)
  if (useCell !== undefined && !use)
    odd.push(`“${useCell}” does not say for certain whether they may be used again.`)
  if (record.shifted)
    odd.push('It has fewer cells than the others; they were put under the columns they stand below.')
  if (strayCells(record, columns)) odd.push('One of its cells is under no known column.')
  return judgedLine(
    {
      kind: 'item',
      line,
      text,
      item,
      printed,
      context,
      ...withText({
        thread,
        note: [...notes, ...(useCell !== undefined && !use ? [useCell] : [])].join('; '),
        position: of('position')[0],
        grade: of('grade')[0],
        lubrication: of('lubrication')[0],
        hole: of('hole')[0],
        group: groupOf(columns, cells),
      }),
      ...(count === undefined ? {} : { count }),
      ...(Object.keys(lengths).length > 0 ? { lengths } : {}),
      ...(use ? { use } : {}),
      ...(odd.length > 0 ? { odd } : {}),
    },
    sheet,
    figures,
  )
}

/** Only those that hold something. */
const withText = (texts: Record<string, string | undefined>): Record<string, string> =>
  Object.fromEntries(Object.entries(texts).flatMap(([key, text]) => (text ? [[key, text]] : [])))

/** `2` under `Step` is step 2. */
function groupOf(columns: SheetColumn[], cells: string[]): string | undefined {
  const column = columns.find(({ role }) => role === 'group')
  const cell = column && cells[column.index]
  return cell && column.title && !/\p{L}{2}/u.test(cell) ? `${column.title} ${cell}` : cell
}

/** Cells beyond the headings, and torques or angles in a column that nothing is made of. */
function strayCells({ cells }: SheetRecord, columns: SheetColumn[]): boolean {
  const headed = columns.some(({ title }) => title)
  return columns.some(({ role, index, title, why }) => {
    const cell = cells[index] ?? ''
    if (role !== 'none' || why === CHOSEN || cell === '') return false
    return (headed && !title) || (/\d/.test(cell) && holdsTorque(cell))
  })
}

/** What stands where a torque would: the line is an item, though it has none. */
const INSTEAD = /\b(?:tight|snug|see|refer|note|stretch)\b/i

/** Words without a torque or a number of fasteners: what stands over the lines that follow. */
function isHeading(cell: string): boolean {
  if (!/\p{L}{2}/u.test(cell) || INSTEAD.test(cell)) return false
  const read = readSpec(cell)
  return isRefusal(read) && read.refused === 'not_a_torque' && !/\d[\d.,]*\s*$/.test(cell)
}

const MOST_SPLITS = 12

/** A line without columns: the longest end of it that is a torque, and the item before. */
function plainLine(
  { line, text, cells }: SheetRecord,
  { context: sheet, choices, figures }: Reading,
): SheetLine {
  const whole = cells[0] ?? ''
  if (isHeading(whole)) return { kind: 'section', line, text, title: whole }
  const { sign } = sheet
  const context = { ...(choices.unit ? { unit: choices.unit } : {}), ...(sign ? { sign } : {}) }
  const starts = [
    ...whole.matchAll(/(?<=^|[\s:(])(?=\d|[±≤≥]|(?:min|max|step|stage|slacken|loosen|back off)\b)/gi),
  ]
  const parted = starts
    .slice(0, MOST_SPLITS)
    .map(({ index }) => ({
      item: whole.slice(0, index).replace(/[\s:=(–—-]+$/, ''),
      printed: whole.slice(index),
    }))
    .find(({ printed }) => !isRefusal(readSpec(printed, context)))
  const { item, printed } = parted ?? { item: whole, printed: whole }
  const thread = THREAD.exec(item)?.[0]?.trim()
  const count = countWithin(item)
  const odd = [
    ...(item === '' ? ['The line names no item.'] : []),
    ...(parted && item !== '' ? outspoken(whole, printed, context) : []),
  ]
  return judgedLine(
    {
      kind: 'item',
      line,
      text,
      item,
      printed,
      context,
      ...(thread ? { thread } : {}),
      ...(count === undefined ? {} : { count }),
      ...(odd.length > 0 ? { odd } : {}),
    },
    sheet,
    figures,
  )
}

/** A part of a line is read only as far as the whole of it agrees: `not 25 Nm`, `hand tight plus 1/4 turn` say something else. */
function outspoken(whole: string, printed: string, context: SpecContext): string[] {
  const all = readSpec(whole, context)
  const part = JSON.stringify(readSpec(printed, context))
  const readings = isRefusal(all) ? readingsOf(all as SpecRefusal).map(({ spec }) => spec) : [all]
  return readings.length === 1 && JSON.stringify(readings[0]) === part
    ? []
    : [`Read from “${printed}” alone; the words before it may change it. Look at the page.`]
}

/** A heading with nothing under it may be an item whose torque is missing. */
function doubtEmptySections(lines: SheetLine[]): SheetLine[] {
  return lines.map((line, i) => {
    if (line.kind !== 'section') return line
    const next = lines.slice(i + 1).find((one) => one.kind !== 'header')
    return next?.kind === 'item'
      ? line
      : { ...line, doubt: ['There is nothing under it: a heading, or an item whose torque is missing.'] }
  })
}
