/**
 * The two files marks lie in, outside the database, each only ever added to at its end: `kept.jsonl` with the keys and every
 * mark that stays, and `recent.jsonl` with those of the seconds since the last of them, which is begun anew then.
 *
 * A mark is written only after its entries are on the disk, so a mark beyond the log's end always means that entries are
 * gone. Kept ones are flushed to the disk before the call returns. Those of the seconds are given to the system at once and not
 * flushed: a killed server loses none, a power cut perhaps the last ones, and then the log reaches further than its marks.
 * A line that was cut short by either has no end of line, is told as such, and takes nothing from those before it.
 */
import {
  appendFileSync,
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { join } from 'node:path'
import { flush } from '../files'
import { makeFolder } from '../folder'
import { type KeyLine, type Mark, nameOfKey, readLine } from './lines'

export const marksFolderIn = (dataFolder: string): string => join(dataFolder, 'marks')

export const FILES = { kept: 'kept.jsonl', recent: 'recent.jsonl' } as const
export type File = keyof typeof FILES

/** Lines of seconds beyond which the older half goes: each newer one stands for all before it. */
const RECENT_MOST = 240

export interface BookFault {
  file: string
  /** From 1. */
  line: number
  problem: string
}

export interface Read {
  keys: KeyLine[]
  /** As they stand, kept ones first. */
  marks: Mark[]
  faults: BookFault[]
  /** Files whose last line was cut short. */
  torn: string[]
}

export const hasMarks = (dataFolder: string): boolean =>
  Object.values(FILES).some((name) => existsSync(join(marksFolderIn(dataFolder), name)))

/** Everything that can be read of the marks in a folder of them. */
export function readBook(folder: string): Read {
  const read: Read = { keys: [], marks: [], faults: [], torn: [] }
  const known = new Map<string, string>()
  for (const file of ['kept', 'recent'] as const) {
    const { lines, torn } = linesOf(join(folder, FILES[file]))
    for (const [index, text] of lines.entries()) {
      const line = readLine(text, known)
      if ('problem' in line) read.faults.push({ file: FILES[file], line: index + 1, problem: line.problem })
      else if ('key' in line) {
        known.set(nameOfKey(line.key.key), line.key.key)
        read.keys.push(line.key)
      } else read.marks.push(line.mark)
    }
    if (torn) read.torn.push(FILES[file])
  }
  return read
}

function linesOf(path: string): { lines: string[]; torn: boolean } {
  if (!existsSync(path)) return { lines: [], torn: false }
  const lines = readFileSync(path, 'utf8').split('\n')
  const rest = lines.pop() ?? ''
  return { lines, torn: rest !== '' }
}

export interface Book {
  /** Flushed when it returns; what was of seconds goes, but for `recent`. */
  keep(line: string, recent?: string): void
  second(line: string): void
}

/** Opened to be added to. Takes off what was cut short. */
export function openBook(folder: string): Book {
  makeFolder(folder)
  const path = (file: File) => join(folder, FILES[file])
  for (const file of ['kept', 'recent'] as const) {
    const { lines, torn } = linesOf(path(file))
    if (torn) truncateSync(path(file), Buffer.byteLength(lines.map((line) => `${line}\n`).join('')))
  }
  let recent = linesOf(path('recent')).lines

  /** Under another name first, so that at no moment there is half a file. */
  function beginAnew(lines: string[]) {
    const unfinished = `${path('recent')}.new`
    writeFileSync(unfinished, lines.map((line) => `${line}\n`).join(''), { mode: 0o600 })
    renameSync(unfinished, path('recent'))
    recent = lines
  }

  return {
    keep(line, last) {
      const isNew = !existsSync(path('kept'))
      const handle = openSync(path('kept'), 'a', 0o600)
      try {
        writeSync(handle, `${line}\n`)
        fsyncSync(handle)
      } finally {
        closeSync(handle)
      }
      if (isNew) flush(folder)
      if (last !== undefined) beginAnew([last])
    },
    second(line) {
      if (recent.length >= RECENT_MOST) beginAnew(recent.slice(-RECENT_MOST / 2))
      appendFileSync(path('recent'), `${line}\n`, { mode: 0o600 })
      recent.push(line)
    },
  }
}

/** Of the marks in one folder those that a copy of the log can bear, into another: a copy of an earlier moment has none of later ones. */
export function copyMarks(from: string, to: string, upTo: { entries: number; answers: number }): void {
  makeFolder(to)
  const known = new Map<string, string>()
  for (const file of ['kept', 'recent'] as const) {
    const borne = linesOf(join(from, FILES[file])).lines.filter((text) => {
      const line = readLine(text, known)
      if ('key' in line) known.set(nameOfKey(line.key.key), line.key.key)
      // One that does not hold is copied too: it is a finding.
      return (
        !('mark' in line) ||
        (line.mark.entries.count <= upTo.entries && line.mark.answers.count <= upTo.answers)
      )
    })
    writeFileSync(join(to, FILES[file]), borne.map((line) => `${line}\n`).join(''), { mode: 0o600 })
  }
}
