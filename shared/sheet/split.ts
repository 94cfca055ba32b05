/**
 * A pasted text into records of cells: CSV in its kinds, columns of a scanned page, or plain lines.
 *
 * Nothing is lost: each record keeps its line number and its text as pasted, quoted line breaks and all.
 */
import Papa from 'papaparse'
import type { Delimiter } from './types'

export interface SheetRecord {
  line: number
  text: string
  cells: string[]
  /** Cells were put under columns by where they stand on the line. */
  shifted?: boolean
}

const SAMPLE = 60
const SIGNS = ['\t', ';', '|', ','] as const
/** Between columns of a page: two spaces or more, a tab, dots that lead the eye. */
const GAP = / *(?:\.(?: ?\.){2,}|…{2,}|_{3,}) *|[ \u00A0]{2,}|\t+/g

export function splitSheet(
  text: string,
  chosen?: Delimiter,
): { delimiter: Delimiter; records: SheetRecord[] } {
  const body = text.replace(/^\uFEFF/, '')
  const delimiter = chosen ?? guessDelimiter(body)
  const records =
    delimiter === 'spaces' ? spaced(body) : delimiter === 'lines' ? whole(body) : parted(body, delimiter)
  return { delimiter, records: records.filter(({ cells }) => cells.some((cell) => cell !== '')) }
}

/**
 * The sign that parts most lines into the same number of cells. A comma between digits may be decimal and
 * does not count; commas and semicolons also part passes within a cell, so a tab comes first, spaces last.
 */
export function guessDelimiter(text: string): Delimiter {
  const lines = text
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== '')
    .slice(0, SAMPLE)
  let best: { sign: Delimiter; share: number } = { sign: 'lines', share: 0.3 }
  for (const sign of SIGNS) {
    const counts = lines.map((line) => countOutside(line, sign)).filter((count) => count > 0)
    const most = Math.max(0, ...[...new Set(counts)].map((n) => counts.filter((count) => count === n).length))
    const share = most / Math.max(1, lines.length)
    if (share > best.share + 0.15 || (share > best.share && best.sign === 'lines')) best = { sign, share }
  }
  const gaps =
    lines.filter((line) => new RegExp(GAP.source).test(line.trim())).length / Math.max(1, lines.length)
  return gaps > best.share || (gaps > 0.3 && best.sign === 'lines') ? 'spaces' : best.sign
}

function countOutside(line: string, sign: string): number {
  const bare = line.replace(/"(?:[^"]|"")*"/g, '')
  return (sign === ',' ? bare.replace(/\d,(?=\d)/g, '') : bare).split(sign).length - 1
}

function parted(text: string, delimiter: string): SheetRecord[] {
  const records: SheetRecord[] = []
  let from = 0
  let line = 1
  const read = (quoteChar: string) =>
    Papa.parse<string[]>(text, {
      delimiter,
      quoteChar,
      step: ({ data, meta }) => {
        const raw = text.slice(from, meta.cursor)
        records.push({ line, text: raw.replace(/[\r\n]+$/, ''), cells: data.map((cell) => cell.trim()) })
        line += raw.split(/\r\n|\r|\n/).length - 1
        from = meta.cursor
      },
    })
  // A lone quotation mark (3/8") would swallow the lines after it: then it is no quoting, but inches.
  read(unpaired(text, delimiter) ? '\u0000' : '"')
  return records
}

/** Is there a quotation mark that neither opens nor closes a cell, or one that is never closed? */
function unpaired(text: string, delimiter: string): boolean {
  const edge = delimiter === '|' ? '\\|' : delimiter
  const quoted = new RegExp(`(^|${edge}|\\n)[ ]*"(?:[^"]|"")*"[ ]*(?=${edge}|\\r?\\n|\\r|$)`, 'g')
  return text.replace(quoted, '$1').includes('"')
}

function rawLines(text: string): { line: number; text: string }[] {
  return text.split(/\r\n|\r|\n/).map((one, i) => ({ line: i + 1, text: one }))
}

function whole(text: string): SheetRecord[] {
  return rawLines(text).map((one) => ({ ...one, cells: [one.text.trim()] }))
}

interface Placed {
  cell: string
  start: number
  end: number
}

/** Cells by the gaps between them; where a line has fewer than most, by where they stand. */
function spaced(text: string): SheetRecord[] {
  const rows = rawLines(text).map((one) => ({ ...one, placed: cellsOf(one.text) }))
  const counts = rows.map(({ placed }) => placed.length).filter((n) => n > 1)
  const width = mostCommon(counts)
  const full = rows.filter(({ placed }) => placed.length === width).map(({ placed }) => placed)
  const columns = Array.from({ length: width }, (_, i) => ({
    start: median(full.map((placed) => placed[i]?.start ?? 0)),
    end: median(full.map((placed) => placed[i]?.end ?? 0)),
  }))
  return rows.map(({ line, text: raw, placed }) => {
    const cells = placed.map(({ cell }) => cell)
    if (placed.length < 2 || placed.length >= width) return { line, text: raw, cells }
    const under = placeUnder(placed, columns)
    const shifted = under.some((column, i) => column !== i)
    const row = Array.from({ length: width }, () => '')
    placed.forEach(({ cell }, i) => {
      row[under[i] ?? i] = cell
    })
    return { line, text: raw, cells: row, ...(shifted ? { shifted } : {}) }
  })
}

function cellsOf(text: string): Placed[] {
  const placed: Placed[] = []
  let from = 0
  const put = (to: number) => {
    const cell = text.slice(from, to).trim()
    if (cell !== '') placed.push({ cell, start: from + text.slice(from, to).search(/\S/), end: to })
  }
  for (const gap of text.matchAll(GAP)) {
    put(gap.index)
    from = gap.index + gap[0].length
  }
  put(text.length)
  return placed
}

/** Each cell under the column whose edge is nearest, from left to right, none twice. */
function placeUnder(placed: Placed[], columns: { start: number; end: number }[]): number[] {
  const under: number[] = []
  placed.forEach((cell, i) => {
    const first = (under.at(-1) ?? -1) + 1
    const last = columns.length - (placed.length - i)
    let best = first
    const off = (at: number) => {
      const column = columns[at]
      return column
        ? Math.min(Math.abs(column.start - cell.start), Math.abs(column.end - cell.end))
        : Number.POSITIVE_INFINITY
    }
    for (let at = first; at <= last; at += 1) if (off(at) < off(best)) best = at
    under.push(i === 0 ? 0 : best)
  })
  return under
}

function mostCommon(numbers: number[]): number {
  const counted = new Map<number, number>()
  for (const n of numbers) counted.set(n, (counted.get(n) ?? 0) + 1)
  return [...counted].sort(([a, x], [b, y]) => y - x || b - a)[0]?.[0] ?? 1
}

function median(numbers: number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? 0
}
