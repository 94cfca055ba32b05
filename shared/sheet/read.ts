/**
 * Reads a torque sheet: a pasted or dropped table of fasteners with what the manual prints for each.
 *
 * Every line that is not blank comes back, with its number and its text, whatever can be made of it. Columns
 * are guessed and may be chosen; a torque is read by `readSpec` and by nothing else.
 */
import { isRefusal } from '../log'
import { readSpec, type SpecContext, specSentenceFor } from '../spec'
import { type DecimalSign, numberAt, provenSign, type TorqueUnit, unitNamed } from '../units'
import { CHOSEN, columnsOf, countIn, isHeader, isUnitRow, THREAD } from './columns'
import { type SheetRecord, splitSheet } from './split'
import type { ItemLine, Role, Sheet, SheetChoices, SheetColumn, SheetLine } from './types'

/** A header stands among the first lines that are filled. */
const HEADER_WITHIN = 12

export function readSheet(text: string, choices: SheetChoices = {}): Sheet {
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
  const sign = signOf(body, columns)
  const lines = records.map((record): SheetLine => {
    if (isHeaderLine(record)) return { kind: 'header', line: record.line, text: record.text }
    return delimiter === 'lines'
      ? plainLine(record, sign, choices)
      : tableLine(record, columns, sign, choices)
  })
  return { delimiter, columns, lines: doubtEmptySections(lines) }
}

/** The same lines, those to look at first: unread, then doubtful, then the rest; each in the order of the sheet. */
export function doubtfulFirst(lines: readonly SheetLine[]): SheetLine[] {
  const rank = (line: SheetLine) => (line.kind === 'item' && line.refusal ? 0 : line.doubt ? 1 : 2)
  return [...lines].sort((a, b) => rank(a) - rank(b) || a.line - b.line)
}

const unbracketed = (cell: string) => cell.replace(/^[([{]|[)\]}]$/g, '')
const plainOf = ({ cells }: SheetRecord) => cells.join('\t').toLowerCase()

/** The decimal sign the sheet's own torque numbers prove, if they prove one and not the other. */
function signOf(records: SheetRecord[], columns: SheetColumn[]): DecimalSign | undefined {
  const read: Role[] = ['torque', 'also', 'min', 'max']
  const at = columns.filter(({ role }) => read.includes(role)).map(({ index }) => index)
  const proven = new Set<DecimalSign | undefined>()
  for (const { cells } of records)
    for (const index of at)
      for (const start of (cells[index] ?? '').matchAll(/(?<![\d.,])\d/g)) {
        const number = numberAt(cells[index] ?? '', start.index)
        if (number) proven.add(provenSign(number))
      }
  proven.delete(undefined)
  return proven.size === 1 ? [...proven][0] : undefined
}

function tableLine(
  record: SheetRecord,
  columns: SheetColumn[],
  sign: DecimalSign | undefined,
  choices: SheetChoices,
): SheetLine {
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

  const unitCell = of('unit')[0]
  const unit = (unitCell === undefined ? undefined : unitNamed(unitCell)) ?? undefined
  const { printed, context } = printedOf(
    record,
    columns,
    unit,
    sign,
    choices,
    unitCell !== undefined && !unit,
  )
  const counted = of('count')[0]
  const count = counted === undefined ? undefined : countIn(counted)
  const thread = of('thread')[0] ?? THREAD.exec(item)?.[0]?.trim()
  const note = of('note').join('; ')
  const doubt: string[] = []
  if (item === '') doubt.push('The line names no item.')
  if (unitCell !== undefined && !unit) doubt.push(`“${unitCell}” is not a torque unit known here.`)
  if (counted !== undefined && count === undefined) doubt.push(`“${counted}” is not a number of fasteners.`)
  if (record.shifted)
    doubt.push('It has fewer cells than the others; they were put under the columns they stand below.')
  if (strayCells(record, columns)) doubt.push('One of its cells is under no known column.')
  return finish({ kind: 'item', line, text, item, printed }, context, doubt, { thread, count, note })
}

/** Does a column that is not used hold a number here, or one without a heading anything? It may be part of the torque. */
function strayCells({ cells }: SheetRecord, columns: SheetColumn[]): boolean {
  const headed = columns.some(({ title }) => title)
  return columns.some(({ role, index, title, why }) => {
    const cell = cells[index] ?? ''
    return role === 'none' && why !== CHOSEN && (/\d/.test(cell) || (headed && !title && cell !== ''))
  })
}

type Extras = { thread: string | undefined; count: number | undefined; note: string | undefined }

function finish(line: ItemLine, context: SpecContext, doubt: string[], extras: Extras): ItemLine {
  const { thread, count, note } = extras
  const read = readSpec(line.printed, context)
  if (isRefusal(read)) doubt.unshift(specSentenceFor(read) ?? read.refused)
  else if (read.contradiction)
    doubt.unshift(
      `${read.contradiction.first.text} and ${read.contradiction.second.text} are not the same torque. Look at the page.`,
    )
  return {
    ...line,
    ...(isRefusal(read) ? { refusal: read } : { spec: read }),
    ...(thread ? { thread } : {}),
    ...(count !== undefined ? { count } : {}),
    ...(note ? { note } : {}),
    ...(doubt.length > 0 ? { doubt } : {}),
  }
}

/** The cells that make up the torque, as one text for `readSpec`, and what it must know beside it. */
function printedOf(
  { cells }: SheetRecord,
  columns: SheetColumn[],
  unit: TorqueUnit | undefined,
  sign: DecimalSign | undefined,
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
  const [, first, other] =
    /^([\d.,\s±–—-]+?)\s*(?:[([{]\s*|\/\s*)([\d.,\s±–—-]+?)\s*[)\]}]?$/.exec(cell) ?? []
  return second && unit === taken && first && other ? `${first} ${unit} (${other} ${second})` : cell
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
  sign: DecimalSign | undefined,
  choices: SheetChoices,
): SheetLine {
  const whole = cells[0] ?? ''
  if (isHeading(whole)) return { kind: 'section', line, text, title: whole }
  const context = { ...(choices.unit ? { unit: choices.unit } : {}), ...(sign ? { sign } : {}) }
  const starts = [
    ...whole.matchAll(/(?<=^|[\s:(])(?=\d|[±≤≥]|(?:min|max|step|stage|slacken|loosen|back off)\b)/gi),
  ]
  for (const { index } of starts.slice(0, MOST_SPLITS)) {
    const end = whole.slice(index)
    if (isRefusal(readSpec(end, context))) continue
    const item = whole.slice(0, index).replace(/[\s:=(–—-]+$/, '')
    const doubt = item === '' ? ['The line names no item.'] : []
    const thread = THREAD.exec(item)?.[0]?.trim()
    return finish({ kind: 'item', line, text, item, printed: end }, context, doubt, {
      thread,
      count: undefined,
      note: undefined,
    })
  }
  return finish({ kind: 'item', line, text, item: whole, printed: whole }, context, [], {
    thread: THREAD.exec(whole)?.[0]?.trim(),
    count: undefined,
    note: undefined,
  })
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
