/** What no line knows by itself: groups carried down, lines that repeat each other, and what is said once for the sheet. */
import { styleWords } from './style'
import type { ItemLine, NumberStyle, SheetColumn, SheetLine } from './types'
import { plainHeading } from './vocabulary'

/** Spreadsheets print a merged cell once: an empty group is that of the line above, up to the next heading. */
export function groupsDown(lines: readonly SheetLine[]): SheetLine[] {
  let group: string | undefined
  return lines.map((line) => {
    if (line.kind === 'section') group = undefined
    if (line.kind !== 'item') return line
    group = line.group ?? group
    return group === line.group || group === undefined ? line : { ...line, group }
  })
}

/** Of more than this share of a sheet that repeat each other, it is said once, not at every line. */
const COMMON_NAMES = 0.34
const FEW = 6

/**
 * Lines that name the same item and thread, or the same position, within one heading and group. Positions that never fall
 * are numbered through the sheet, and stand once in it.
 */
export function tellRepeats(lines: readonly SheetLine[]): { lines: SheetLine[]; remark?: string } {
  const first = new Map<string, number>()
  const repeats = new Map<number, string>()
  const items = lines.filter((line) => line.kind === 'item')
  const through = neverFalls(items.flatMap(({ position }) => (position ? [Number(position)] : [])))
  let heading = ''
  for (const line of lines) {
    if (line.kind === 'section') heading = line.title
    if (line.kind !== 'item') continue
    // Numbered steps of one item may be its passes: those are told as well.
    const group = /^\S+ \P{L}*$/u.test(line.group ?? '') ? '' : (line.group ?? '')
    for (const { key, what, position } of keysOf(line)) {
      const place = position && through ? key : `${heading}\n${group}\n${key}`
      const earlier = first.get(place)
      if (earlier === undefined) first.set(place, line.line)
      else if (!repeats.has(line.line))
        repeats.set(line.line, `Line ${line.line} repeats line ${earlier}: the same ${what}.`)
    }
  }
  if (repeats.size > FEW && repeats.size > items.length * COMMON_NAMES)
    return {
      lines: [...lines],
      remark: `${repeats.size} lines repeat the item of another. ${[...repeats.values()][0]}`,
    }
  return {
    lines: lines.map((line) => {
      const said = line.kind === 'item' ? repeats.get(line.line) : undefined
      if (said === undefined || line.kind !== 'item') return line
      return { ...line, odd: [...(line.odd ?? []), said], doubt: [...(line.doubt ?? []), said] }
    }),
  }
}

const neverFalls = (numbers: readonly number[]): boolean =>
  numbers.every((n, i) => i === 0 || n >= (numbers[i - 1] ?? n))

interface Key {
  key: string
  what: string
  position?: true
}

function keysOf({ item, thread, position }: ItemLine): Key[] {
  const named = plainHeading(item)
  const size = thread?.replace(/\s/g, '').toLowerCase() ?? ''
  return [
    ...(position
      ? [{ key: `#${position.trim().toLowerCase()}`, what: `position ${position}`, position: true as const }]
      : []),
    ...(named ? [{ key: `${named}|${size}`, what: thread ? 'item and thread' : 'item' }] : []),
  ]
}

/** Said once for the sheet: its decimal style, what had to be assumed for all lines, columns that nothing is made of. */
export function remarksOf(
  columns: readonly SheetColumn[],
  lines: readonly SheetLine[],
  style: NumberStyle | undefined,
  gradesGiven: boolean,
): string[] {
  const read = lines.filter((line) => line.kind === 'item').filter(({ spec }) => spec)
  const judged = read.filter(({ thread }) => thread)
  const inch = judged.filter(({ thread }) => /["#/]/.test(thread ?? ''))
  const assumed =
    inch.length === 0 ? '8.8' : inch.length === judged.length ? 'SAE 5' : '8.8, inch threads as SAE 5'
  const threadless = read.length - judged.length
  const unused = columns.filter(({ role, why }) => role === 'none' && why === NOT_CLEAR)
  return [
    ...(style && (style.sign === 'comma' || style.mixed) ? [styleWords(style)] : []),
    ...(!gradesGiven && judged.length > 0 ? [`No grade is given: lines were judged as ${assumed}.`] : []),
    ...(judged.length > 0 && judged.every(({ lubrication }) => !lubrication)
      ? ['No column is read as lubrication: lines were judged from oiled to dry.']
      : []),
    ...(threadless > 0
      ? [
          `${threadless === read.length ? 'No line has a thread' : threadless === 1 ? 'One line has no thread' : `${threadless} lines have no thread`}: without one a torque is not judged.`,
        ]
      : []),
    ...(columns.length > 0 && read.length > 0 && read.every(({ item }) => item === '')
      ? ['No column says what each line is for. Choose the one that does.']
      : []),
    ...unused.map(
      ({ index, title }) =>
        `Column ${index + 1}${title ? `, “${title}”,` : ''} is used for nothing. Choose what it is, or “not used”.`,
    ),
  ]
}

/** Why a column has no role of its own. */
export const NOT_CLEAR = 'It is not clear what this is; it stays in the text of the line.'
